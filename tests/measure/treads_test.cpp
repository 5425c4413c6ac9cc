// Treads out of square, out of level, or not as wide as the riser behind them.
#include "measure/code.h"
#include "measure/tread_plan.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

constexpr Length kTick{1};

Flight closed_steps() {
  Flight flight;
  for (int number = 1; number <= 4; ++number) {
    Step step;
    step.number = number;
    step.rise = inches(7);
    step.width = inches(36);
    step.going = inches(10);
    step.where = "/steps/" + std::to_string(number);
    flight.steps.push_back(step);
  }
  flight.steps.back().landing_edge = true;
  return flight;
}

/// Step 2 with its back corners moved.
Flight skewed(Length left_x, Length left_y, Length right_x, Length right_y) {
  auto flight = closed_steps();
  const Length w = inches(36), g = inches(10);
  set_plan(flight.steps[1], {{0, 0}, {left_x.mm(), (g + left_y).mm()}},
           {{w.mm(), 0}, {(w + right_x).mm(), (g + right_y).mm()}});
  return flight;
}

const Length kEighth = inches(0, 1, 8);

TEST(Treads, RectanglesAreInOrder) { EXPECT_TRUE(check_treads(closed_steps()).empty()); }

TEST(Treads, OutOfSquareBeginsBeyondAnEighth) {
  EXPECT_TRUE(check_treads(skewed({}, {}, {}, kEighth)).empty());
  auto problems = check_treads(skewed({}, {}, {}, kEighth + kTick));
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_EQ(problems[0].where, "/steps/2");
  EXPECT_EQ(problems[0].found, "step 2 out of square: 1/8\" deeper at its right end");
  EXPECT_EQ(check_treads(skewed({}, inches(1), {}, {}))[0].found,
            "step 2 out of square: 1\" deeper at its left end");

  EXPECT_TRUE(check_treads(skewed(kEighth, {}, kEighth, {})).empty());
  problems = check_treads(skewed(-inches(0, 1, 2), {}, -inches(0, 1, 4), {}));
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].found, "step 2 out of square: its back lies 1/4\" further left than its front");
}

TEST(Treads, MetricLimitsAreWholeMillimetres) {
  const auto at = [](Length deeper) {
    return check_treads(skewed({}, {}, {}, deeper), LengthUnit::millimetre).size();
  };
  EXPECT_EQ(at(millimetres(3)), 0u);
  EXPECT_EQ(at(millimetres(3) + kTick), 1u);
}

TEST(Treads, FlaredTreadsAndWindersAreMeantToBeSo) {
  EXPECT_TRUE(check_treads(skewed(-inches(0, 1, 8), {}, inches(0, 1, 8), {})).empty());
  EXPECT_TRUE(check_treads(skewed(inches(0, 1, 8), {}, {}, {})).empty());
  for (const auto& p : check_treads(skewed({}, {}, {}, inches(12))))
    EXPECT_EQ(p.found.find("out of square"), std::string::npos) << p.found;
}

TEST(Treads, ABackAndItsRiserAgreeToAQuarterInch) {
  const Length quarter = inches(0, 1, 4);
  EXPECT_TRUE(check_treads(skewed({}, {}, quarter, {})).empty());
  EXPECT_TRUE(check_treads(skewed({}, {}, -quarter, {})).empty());
  for (const Length off : {inches(2), -inches(2)}) {
    const auto problems = check_treads(skewed({}, {}, off, {}));
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_EQ(problems[0].found, off > Length{}
                                     ? "step 2's tread 38\" wide at its back, and step 3's riser 36\" wide"
                                     : "step 2's tread 34\" wide at its back, and step 3's riser 36\" wide");
  }
  EXPECT_EQ(check_treads(skewed({}, {}, quarter + kTick, {})).size(), 1u);
  EXPECT_EQ(check_treads(skewed({}, {}, -quarter - kTick, {})).size(), 1u);

  auto free = skewed({}, {}, inches(2), {});
  free.steps[1].right = {SideKind::open, inches(1), inches(1)};
  EXPECT_TRUE(check_treads(free).empty());
  auto below = closed_steps(); // the riser of a winder against the rectangle under it
  set_plan(below.steps[1], {{0, 0}, {0, 100}}, {{inches(37).mm(), 0}, {inches(36).mm(), 110}});
  const auto problems = check_treads(below);
  ASSERT_FALSE(problems.empty());
  EXPECT_EQ(problems[0].found, "step 1's tread 36\" wide at its back, and step 2's riser 37\" wide");
}

TEST(Treads, CommonPractice_OutOfLevelBeginsBeyondThreeSixteenths) {
  for (const std::size_t i : {0u, 3u}) {
    auto flight = closed_steps();
    flight.steps[i].fall_right = inches(0, 3, 16);
    EXPECT_TRUE(check_treads(flight).empty());
    flight.steps[i].fall_right = -inches(0, 1, 4);
    const auto problems = check_treads(flight);
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_EQ(problems[0].found,
              "step " + std::to_string(i + 1) + " out of level: its riser is 1/4\" higher at the left end");
  }
}

TEST(Treads, ThoseOutOfLevelAlikeAreToldTogether) {
  auto flight = closed_steps();
  flight.where = "/flight";
  for (auto& step : flight.steps)
    step.fall_right = inches(0, 1, 4);
  flight.steps[2].fall_right = -inches(0, 1, 4);
  const auto problems = check_treads(flight);
  ASSERT_EQ(problems.size(), 2u);
  EXPECT_EQ(problems[0].where, "/flight");
  EXPECT_EQ(problems[0].found,
            "steps 1, 2 and 4 out of level: their risers are 1/4\" higher at the right end");
  EXPECT_EQ(problems[1].where, "/steps/3");
}

} // namespace
} // namespace treadfold
