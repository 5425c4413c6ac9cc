#include "measure/reading.h"
#include "measure/tread_plan.h"

#include <gtest/gtest.h>

using namespace treadfold;

namespace {

using Of = Reading::Of;

Step box_step() {
  Step step;
  step.rise = inches(7, 1, 2);
  step.going = inches(10);
  step.width = inches(36);
  step.nosing = {inches(1, 1, 4), inches(1), inches(0, 1, 8)};
  return step;
}

std::vector<Of> kinds(const Step& step) {
  std::vector<Of> all;
  for (const auto& reading : readings(step))
    all.push_back(reading.of);
  return all;
}

} // namespace

TEST(Readings, OfABoxStepAreItsSizes) {
  EXPECT_EQ(kinds(box_step()),
            (std::vector{Of::rise, Of::projection, Of::thickness, Of::radius, Of::going, Of::width}));
}

TEST(Readings, OfAnOpenEndAreItsOverhangAndReturn) {
  auto step = box_step();
  step.right = {SideKind::open, inches(1), inches(1)};
  const auto all = kinds(step);
  EXPECT_EQ(std::count(all.begin(), all.end(), Of::right_overhang), 1);
  EXPECT_EQ(std::count(all.begin(), all.end(), Of::right_return), 1);
  EXPECT_EQ(std::count(all.begin(), all.end(), Of::left_overhang), 0);
}

TEST(Readings, OfAPlanAreItsCornersButTheDatum) {
  auto step = box_step();
  set_plan(step, {{0, 0}, {50, 120}}, {{900, 0}, {1200, 0.1}, {1200, 550}});
  const auto all = readings(step);
  EXPECT_EQ(std::count(all.begin(), all.end(), Reading{Of::right_x, 0}), 1); // the riser's width
  EXPECT_EQ(std::count(all.begin(), all.end(), Reading{Of::right_y, 0}), 0);
  EXPECT_EQ(std::count(all.begin(), all.end(), Reading{Of::left_x, 0}), 0);
  EXPECT_EQ(std::count(all.begin(), all.end(), Reading{Of::left_y, 1}), 1);
  EXPECT_EQ(std::count(all.begin(), all.end(), Reading{Of::right_y, 2}), 1);
  EXPECT_EQ(std::count(all.begin(), all.end(), Reading{Of::going}), 0); // follows from the corners
  EXPECT_EQ(std::count(all.begin(), all.end(), Reading{Of::width}), 0);
}

TEST(Readings, ChangedMovesItsOwnValueAndNoOther) {
  auto open = box_step();
  open.left = open.right = {SideKind::open, inches(1), inches(1)};
  auto winder = box_step();
  set_plan(winder, {{0, 0}, {50, 120}}, {{900, 0}, {1200, 550}});
  auto out_of_level = box_step();
  out_of_level.fall_right = inches(0, 1, 2);
  auto bevelled = box_step();
  bevelled.nosing = {inches(1), inches(1), {}, inches(0, 1, 2)};
  for (const auto& step : {box_step(), open, winder, out_of_level, bevelled})
    for (const auto& reading : readings(step))
      for (const double by : {-1.5, 0.25}) {
        const auto other = changed(step, reading, by);
        for (const auto& r : readings(step))
          EXPECT_NEAR(value_mm(other, r) - value_mm(step, r), r == reading ? by : 0, 1e-4)
              << static_cast<int>(reading.of) << ' ' << static_cast<int>(r.of);
      }
}

TEST(Readings, ChangedKeepsANosingWhole) {
  auto half_round = box_step();
  half_round.nosing.radius = inches(0, 1, 2);
  EXPECT_EQ(kinds(half_round), (std::vector{Of::rise, Of::projection, Of::thickness, Of::going, Of::width}));
  EXPECT_TRUE(changed(half_round, {Of::thickness}, 1.03).nosing.half_round());
  const auto thin = changed(box_step(), {Of::thickness}, -22);
  EXPECT_LE(thin.nosing.radius * 2, thin.nosing.thickness);
  EXPECT_EQ(changed(box_step(), {Of::projection}, -100).nosing.projection, Length{});
}
