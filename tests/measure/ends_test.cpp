#include "measure/code.h"

#include <gtest/gtest.h>

using namespace treadfold;

namespace {

Flight three_open_steps() {
  Flight flight;
  for (int number = 1; number <= 3; ++number) {
    Step step;
    step.number = number;
    step.width = inches(36);
    step.right = {SideKind::open, inches(1), inches(1)};
    flight.steps.push_back(step);
  }
  flight.steps.back().landing_edge = true;
  return flight;
}

} // namespace

TEST(Ends, InLineAreNoProblem) { EXPECT_TRUE(check_ends(three_open_steps()).empty()); }

TEST(Ends, AWiderRiserBehindAnOpenEndIsSaid) {
  auto flight = three_open_steps();
  flight.steps[1].width = inches(35);
  const auto problems = check_ends(flight);
  ASSERT_EQ(problems.size(), 1u); // narrower behind step 1, which is covered; wider behind step 2
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_NE(problems[0].found.find("step 2 open on the right, 35\" wide, with a riser of 36\""),
            std::string::npos);
}

TEST(Ends, AWallBehindAnOpenEndIsSaidButNotALandingsEdge) {
  auto flight = three_open_steps();
  flight.steps[2].right = {};
  EXPECT_TRUE(check_ends(flight).empty());
  flight.steps[1].right = {};
  EXPECT_EQ(check_ends(flight).size(), 1u);
}
