#include "measure/uprights.h"

#include <cmath>

#include <gtest/gtest.h>

using namespace treadfold;

namespace {

Step open_step(int number) {
  Step step;
  step.number = number;
  step.rise = inches(7, 1, 2);
  step.going = inches(10);
  step.width = inches(36);
  step.nosing = {inches(1, 1, 4), inches(1), inches(0, 1, 2)};
  step.right = {SideKind::open, inches(1, 1, 4), inches(1)};
  return step;
}

/// Three steps, the middle one with an upright of `width` by `depth` whose centre stands there.
Problems problems_of(PlanPoint centre_in, Length width, Length depth, int step = 2) {
  Flight flight;
  for (int number = 1; number <= 3; ++number)
    flight.steps.push_back(open_step(number));
  flight.steps.back().landing_edge = true;
  flight.steps.back().going = inches(4);
  flight.steps[static_cast<std::size_t>(step - 1)].uprights = {
      {"newel", false, {centre_in.x * 25.4, centre_in.y * 25.4}, width, depth, "/there"}};
  return check_uprights(flight, LengthUnit::inch);
}

const UprightRow kTwo{"baluster",      Hand::right, true,      inches(1), inches(1),
                      inches(1, 1, 2), inches(2),   inches(4), 2,         "/row"};

} // namespace

TEST(Uprights, StandAsFarFromEndAndNosingAsMeasured) {
  auto uprights = stand(open_step(1), kTwo);
  ASSERT_EQ(uprights.size(), 2u);
  EXPECT_NEAR(uprights[0].centre.x / 25.4, 36 + 1.25 - 1.5, 1e-9);
  EXPECT_NEAR(uprights[0].centre.y / 25.4, 2 - 1.25, 1e-9);
  EXPECT_NEAR(uprights[1].centre.y / 25.4, 6 - 1.25, 1e-9);
  auto from_wall = kTwo;
  from_wall.side = Hand::left;
  uprights = stand(open_step(1), from_wall);
  EXPECT_NEAR(uprights[1].centre.x / 25.4, 1.5, 1e-9);
  EXPECT_NEAR(uprights[1].centre.y / 25.4, 6 - 1.25, 1e-9);
}

// At a side that runs at an angle the distance is square to it, and the spacing along it.
TEST(Uprights, KeepTheirDistanceFromAnObliqueEnd) {
  auto step = open_step(1);
  set_plan(step, {{0, 0}, {0, 250}}, {{900, 0}, {1000, 300}});
  const auto uprights = stand(step, kTwo);
  const double length = std::hypot(100, 300), overhang = 1.25 * 25.4;
  for (const auto& u : uprights) {
    const double past = ((u.centre.x - 900) * 300 - u.centre.y * 100) / length; // of the stringer's face
    EXPECT_NEAR(past, overhang - 1.5 * 25.4, 1e-9);
  }
  const double dx = uprights[1].centre.x - uprights[0].centre.x,
               dy = uprights[1].centre.y - uprights[0].centre.y;
  EXPECT_NEAR(std::hypot(dx, dy), 4 * 25.4, 1e-9);
  EXPECT_GT(dy, 0);
}

TEST(Uprights, AFootprintIsItsSection) {
  const Upright square{"newel", false, {100, 50}, millimetres(80), millimetres(60), ""};
  const auto corners = footprint(square);
  ASSERT_EQ(corners.size(), 4u);
  EXPECT_EQ(corners[2].x, 140);
  EXPECT_EQ(corners[2].y, 80);
  const Upright round{"baluster", true, {100, 50}, millimetres(80), millimetres(80), ""};
  double twice_area = 0;
  const auto points = footprint(round);
  for (std::size_t i = 0; i < points.size(); ++i) {
    const auto &p = points[i], &q = points[(i + 1) % points.size()];
    EXPECT_NEAR(std::hypot(p.x - 100, p.y - 50), 40, 1e-9);
    twice_area += p.x * q.y - q.x * p.y;
  }
  EXPECT_NEAR(twice_area / 2, 3.14159265 * 1600, 5); // counter-clockwise
}

TEST(Uprights, StandOnTheTreadOrAreRefused) {
  const auto size = inches(3);
  struct Case {
    PlanPoint centre_in;
    int step;
    const char* found; // "" fits
  };
  const Case cases[] = {
      {{18, 5}, 2, ""},
      {{1.5, 5}, 2, ""}, // against the wall
      {{1.4, 5}, 2, "newel 1 of step 2 outside the tread, on the left"},
      {{18, 0.75}, 2, ""}, // the nosing's bend begins at y = -3/4 in
      {{18, 0.7}, 2, "newel 1 of step 2 in front of the tread's level"},
      {{18, 7.25}, 2, ""}, // the next nosing stands 1 1/4 in over the tread
      {{18, 7.3}, 2, "newel 1 of step 2 in the nosing of the next step"},
      {{18, 9}, 2, "newel 1 of step 2 in the next riser"},
      {{18, 2.5}, 3, ""},
      {{18, 2.6}, 3, "newel 1 of step 3 behind the landing's seam"},
      {{35.75, 5}, 2, ""},
      {{37, 5}, 2, ""}, // let into the end
      {{37, 1.4}, 2, "newel 1 of step 2 let into the right end at a corner of the tread"},
      {{38.75, 5}, 2, "newel 1 of step 2 outside the tread, on the right"},
      {{37, 2.5}, 3, "newel 1 of step 3 let into the right end at a corner of the tread"},
      {{37, 2}, 3, ""},
  };
  for (const auto& c : cases) {
    const auto problems = problems_of(c.centre_in, size, size, c.step);
    if (std::string(c.found).empty()) {
      EXPECT_TRUE(problems.empty()) << c.centre_in.x << ' ' << c.centre_in.y << ' ' << problems[0].found;
      continue;
    }
    ASSERT_EQ(problems.size(), 1u) << c.found;
    EXPECT_EQ(problems[0].found, c.found);
    EXPECT_EQ(problems[0].where, "/there");
    EXPECT_EQ(problems[0].severity, Severity::error);
    EXPECT_FALSE(problems[0].expected.empty());
  }
}

TEST(Uprights, LeaveAQuarterInchOfTreadBetweenThem) {
  Flight flight;
  flight.steps = {open_step(1), open_step(2)};
  auto row = kTwo;
  row.spacing = inches(1, 1, 4);
  for (auto& step : flight.steps)
    step.uprights = stand(step, row);
  EXPECT_TRUE(check_uprights(flight, LengthUnit::inch).empty());
  row.spacing = inches(1, 3, 16);
  for (auto& step : flight.steps)
    step.uprights = stand(step, row);
  const auto problems = check_uprights(flight, LengthUnit::inch);
  ASSERT_EQ(problems.size(), 1u); // said once, though both steps have it
  EXPECT_EQ(problems[0].found, "baluster 2 of step 1 too near to another upright");
}
