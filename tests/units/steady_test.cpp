// Our own trigonometry against the C library's, in its longest type.
#include "units/steady.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <numbers>

using namespace treadfold;

namespace {

/// From -`reach` to `reach`, a million steps.
double within(double reach) { return *rc::gen::inRange(-500000, 500001) * (reach / 500000); }

double off(double ours, long double theirs) {
  return static_cast<double>(std::fabs(static_cast<long double>(ours) - theirs));
}

} // namespace

RC_GTEST_PROP(Steady, SineAndCosineAreWithin4e16, ()) {
  for (const double reach : {0.01, 1.0, 7.0, 1000.0}) {
    const double x = within(reach);
    RC_ASSERT(off(steady::sin(x), std::sin(static_cast<long double>(x))) <= 4e-16);
    RC_ASSERT(off(steady::cos(x), std::cos(static_cast<long double>(x))) <= 4e-16);
  }
}

RC_GTEST_PROP(Steady, AnglesAreWithin1e15, ()) {
  const double x = within(1), y = within(1), far = within(3000);
  RC_ASSERT(off(steady::asin(x), std::asin(static_cast<long double>(x))) <= 1e-15);
  RC_ASSERT(off(steady::acos(x), std::acos(static_cast<long double>(x))) <= 1e-15);
  RC_ASSERT(off(steady::atan2(y, x), std::atan2(static_cast<long double>(y), static_cast<long double>(x))) <=
            1e-15);
  RC_ASSERT(off(steady::atan2(far, x),
                std::atan2(static_cast<long double>(far), static_cast<long double>(x))) <= 1e-15);
}

RC_GTEST_PROP(Steady, HypotIsWithin4e16OfItsSize, ()) {
  const double x = within(1), y = within(5000);
  const auto true_size = std::hypot(static_cast<long double>(x), static_cast<long double>(y));
  RC_ASSERT(off(steady::hypot(x, y), true_size) <= 4e-16 * static_cast<double>(true_size));
}

TEST(Steady, WhatIsStraightStaysStraight) {
  EXPECT_EQ(steady::sin(0), 0);
  EXPECT_EQ(steady::cos(0), 1);
  EXPECT_EQ(steady::atan2(0, 3), 0);
  EXPECT_EQ(steady::atan2(3, 0), std::numbers::pi / 2);
  EXPECT_EQ(steady::atan2(0, -3), std::numbers::pi);
  EXPECT_EQ(steady::atan2(0, 0), 0);
  EXPECT_EQ(steady::asin(1), std::numbers::pi / 2);
  EXPECT_EQ(steady::acos(-1), std::numbers::pi);
  EXPECT_EQ(steady::acos(1), 0);
  EXPECT_EQ(steady::sin(std::numbers::pi / 2), 1);
  EXPECT_NEAR(steady::tan(std::numbers::pi / 4), 1, 1e-15);
}
