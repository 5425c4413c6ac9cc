#include "buy/quantity.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace treadfold {
namespace {

TEST(Quantity, RoundsHalfToEven) {
  EXPECT_EQ(scaled_half_even(5, 1, 2), 2);
  EXPECT_EQ(scaled_half_even(15, 1, 2), 8);
  EXPECT_EQ(scaled_half_even(7, 1, 2), 4);
  EXPECT_EQ(scaled_half_even(-5, 1, 2), -2);
  EXPECT_EQ(scaled_half_even(-7, 1, 2), -4);
  EXPECT_EQ(scaled_half_even(2, 2, 3), 1);
  EXPECT_EQ(scaled_half_even(1, 1, 3), 0);
}

RC_GTEST_PROP(Quantity, RoundingIsNeverOffByMoreThanAHalf, ()) {
  const auto x = *rc::gen::inRange<std::int64_t>(-1'000'000'000, 1'000'000'000);
  const auto num = *rc::gen::inRange<std::int64_t>(0, 1'000'000),
             den = *rc::gen::inRange<std::int64_t>(1, 1'000'000);
  const auto r = scaled_half_even(x, num, den);
  const auto twice_error = 2 * (r * den - x * num);
  RC_ASSERT(twice_error <= den && twice_error >= -den);
  if (twice_error == den || twice_error == -den) RC_ASSERT(r % 2 == 0);
}

TEST(Quantity, DoesNotOverflowOnLargeAreas) {
  const Area big = area(millimetres(100'000), millimetres(100'000)); // 10,000 m²
  EXPECT_EQ(milli(big, kSquareMetre), 10'000'000);
  EXPECT_EQ(show_area(big, LengthUnit::millimetre), "10000.00 m²");
}

// A square yard is 0.83612736 m² by definition (1 yd = 0.9144 m).
TEST(Quantity, SquareYardByDefinition) {
  EXPECT_DOUBLE_EQ(kSquareYard.m2(), 0.83612736);
  EXPECT_EQ(area_from_m2(0.83612736), kSquareYard);
  EXPECT_EQ(milli(area(inches(144), inches(324)), kSquareYard), 36'000);
}

TEST(Quantity, Shown) {
  EXPECT_EQ(show_milli(36'000), "36.00");
  EXPECT_EQ(show_milli(12'347), "12.347");
  EXPECT_EQ(show_milli(5), "0.005");
  EXPECT_EQ(show_milli(-500), "-0.50");
  EXPECT_EQ(show_area(area(kFoot * 12, kFoot * 27), LengthUnit::inch), "36.00 sq yd");
  EXPECT_EQ(show_run(millimetres(8381), LengthUnit::millimetre), "8.39 m");
  EXPECT_EQ(show_run(millimetres(8380), LengthUnit::millimetre), "8.38 m");
  EXPECT_EQ(show_run(kFoot * 27, LengthUnit::inch), show_length(kFoot * 27, LengthUnit::inch, true));
}

} // namespace
} // namespace treadfold
