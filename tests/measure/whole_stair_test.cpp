// Where steps meet: what two of them would both cover, or neither.
#include "measure/step_frames.h"
#include "measure/step_front.h"
#include "measure/tread_plan.h"
#include "measure/whole_stair.h"

#include <cmath>
#include <gtest/gtest.h>

using namespace treadfold;

namespace {

constexpr double in = 25.4;
constexpr double kDegree = 3.14159265358979323846 / 180;

Step straight(int number, Length width = inches(36)) {
  Step step;
  step.number = number;
  step.rise = inches(7, 1, 2);
  step.going = inches(10);
  step.width = width;
  step.nosing = {inches(1), inches(1), inches(0, 1, 2)};
  return step;
}

/// Three winders about a square newel's corner 4 in off, on the left: each turns 30° unless told otherwise.
Step winder(int number, double degrees) {
  auto step = straight(number);
  const double narrow = 4 * in, wide = 40 * in, turn = degrees * kDegree;
  // Polar about the point `narrow` to the left of the riser's left end.
  const auto at = [&](double radius) {
    return PlanPoint{radius * std::cos(turn) - narrow, radius * std::sin(turn)};
  };
  set_plan(step, {{0, 0}, at(narrow)}, {{wide - narrow, 0}, at(wide)});
  return step;
}

Stair stair_of(std::vector<Step> steps) {
  steps.back().landing_edge = true;
  Flight flight;
  flight.name = "main";
  flight.steps = std::move(steps);
  Stair stair;
  stair.flights = {flight};
  return stair;
}

} // namespace

TEST(WholeStair, FramesClimbAndTurn) {
  const auto stair = stair_of({straight(1), winder(2, 30), winder(3, 30), winder(4, 30), straight(5)});
  const auto frames = step_frames(stair.flights[0]);
  EXPECT_NEAR(frames[4].turn_rad, 90 * kDegree, 1e-12);
  EXPECT_NEAR(frames[4].z, 4 * 7.5 * in, 1e-9);
  // A quarter turn about the newel's point, which lies 4 in left of the first winder's riser.
  EXPECT_NEAR(frames[4].x, -4 * in, 1e-9);
  EXPECT_NEAR(frames[4].y, 10 * in + 4 * in, 1e-9);
}

TEST(WholeStair, AlikeStepsAndWindersOfAQuarterAreInOrder) {
  auto open = straight(2);
  open.right = {SideKind::open, inches(1), inches(1)};
  auto open_behind = straight(3);
  open_behind.right = open.right;
  EXPECT_TRUE(check_whole_stair(stair_of({straight(1), open, open_behind}), LengthUnit::inch).empty());
  EXPECT_TRUE(
      check_whole_stair(stair_of({straight(1), winder(2, 30), winder(3, 30), winder(4, 30), straight(5)}),
                        LengthUnit::inch)
          .empty());
}

TEST(WholeStair, WindersThatDoNotMakeAQuarterAreSaid) {
  const auto problems = check_whole_stair(
      stair_of({straight(1), winder(2, 30), winder(3, 27), winder(4, 30), straight(5)}), LengthUnit::inch);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_NE(problems[0].found.find("87.0°"), std::string::npos) << problems[0].found;
  EXPECT_EQ(problems[0].steps, (std::vector<int>{2, 3, 4}));
}

TEST(WholeStair, ABackBesideANarrowerRiserStandsFreeAtOpenEnds) {
  auto stair =
      stair_of({straight(1, inches(40)), straight(2, inches(36)), straight(3, inches(36)), straight(4)});
  auto& steps = stair.flights[0].steps;
  for (auto& step : steps)
    step.left = step.right = {SideKind::open, inches(1), inches(1)};
  auto one_wall = stair.flights[0];
  set_free_backs(stair.flights[0]);
  EXPECT_EQ(steps[0].free_back_left, inches(2));
  EXPECT_EQ(steps[0].free_back_right, inches(2));
  EXPECT_EQ(steps[1].free_back_left, Length{});
  for (auto& step : one_wall.steps)
    step.left = {};
  set_free_backs(one_wall);
  EXPECT_EQ(one_wall.steps[0].free_back_left, Length{});
  EXPECT_EQ(one_wall.steps[0].free_back_right, inches(4));
}

TEST(WholeStair, AReturnBehindAWiderRiserIsCoveredByBoth) {
  auto narrow = straight(1, inches(36)), wide = straight(2, inches(37));
  narrow.right = wide.right = {SideKind::open, inches(2), inches(1)};
  const auto problems = check_whole_stair(stair_of({narrow, wide}), LengthUnit::inch);
  ASSERT_EQ(problems.size(), 1U); // left sides are walls, so the riser stands an inch into the return of two
  EXPECT_NE(problems[0].found.find("both would be on 50 %"), std::string::npos) << problems[0].found;
  EXPECT_EQ(problems[0].steps, (std::vector<int>{1, 2}));
}

TEST(WholeStair, AStartersRoundBehindAWiderRiserIsCoveredByBoth) {
  for (const bool left : {false, true})
    for (const bool wider : {false, true}) {
      auto first = straight(1), second = straight(2, wider ? inches(40) : inches(36));
      (left ? first.right : first.left) = (left ? second.right : second.left) = {};
      (left ? second.left : second.right) = {SideKind::open, inches(1), inches(1)};
      Starter starter;
      (left ? starter.readings.left : starter.readings.right) = {FrontEndShape::half, inches(8), inches(7),
                                                                 inches(7)};
      ASSERT_FALSE(has_errors(set_front(first, starter)));
      const auto problems = check_whole_stair(stair_of({first, second, straight(3)}), LengthUnit::inch);
      EXPECT_EQ(problems.size(), wider ? 1u : 0u);
      for (const auto& problem : problems)
        EXPECT_NE(problem.found.find(left ? "left return of step 1" : "right return of step 1"),
                  std::string::npos);
    }
}

TEST(WholeStair, FlightsThatArriveAtOnePlaceOfALandingAreSaid) {
  auto stair = stair_of({straight(1), straight(2)});
  stair.flights.push_back(stair.flights[0]);
  stair.flights[1].name = "upper";
  stair.flights[0].arrival = Arrival{"half", inches(0), false, {}};
  stair.flights[1].arrival = Arrival{"half", inches(30), false, {}};
  const auto problems = check_whole_stair(stair, LengthUnit::inch);
  ASSERT_EQ(problems.size(), 1U);
  EXPECT_NE(problems[0].found.find("same 6\" of 'half'"), std::string::npos) << problems[0].found;
  stair.flights[1].arrival->from_left = inches(36);
  EXPECT_TRUE(check_whole_stair(stair, LengthUnit::inch).empty());
  stair.flights[0].arrival->joined = true;
  EXPECT_EQ(check_whole_stair(stair, LengthUnit::inch).size(), 1U);
}
