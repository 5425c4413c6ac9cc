#include "units/chance.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>

using namespace treadfold;

// Against the C library's error function, which shares nothing with ours.
TEST(Chance, NormalTailIsTheLibrarys) {
  for (int i = -800; i <= 3000; ++i) {
    const double z = i / 100.0, library = std::erfc(z / std::numbers::sqrt2) / 2;
    EXPECT_NEAR(normal_tail(z) / library, 1, 1e-12) << z;
  }
  EXPECT_EQ(normal_tail(0), 0.5);
  EXPECT_EQ(normal_tail(40), 0);
  EXPECT_EQ(normal_tail(-40), 1);
}

// Two standard deviations either way leave out 1 in 22 (4.55 %); we say 19 times in 20.
TEST(Chance, NeverRisesWithDistance) {
  for (int i = -4000; i < 4000; ++i)
    EXPECT_GE(normal_tail(i / 100.0), normal_tail((i + 1) / 100.0));
}

TEST(Chance, IsSaidInTwoDigits) {
  EXPECT_EQ(show_chance(1), "certain");
  EXPECT_EQ(show_chance(0.7), "more likely than not");
  EXPECT_EQ(show_chance(0.49), "1 in 2");
  EXPECT_EQ(show_chance(0.005), "1 in 200");
  EXPECT_EQ(show_chance(1 / 356.0), "1 in 350");
  EXPECT_EQ(show_chance(1 / 12345.0), "1 in 12,000");
  EXPECT_EQ(show_chance(1e-6), "1 in a million");
  EXPECT_EQ(show_chance(0.99e-6), "under 1 in a million");
  EXPECT_EQ(show_chance(0), "under 1 in a million");
}
