#include "units/length.h"
#include "units/money.h"
#include "units/problem.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;

namespace {

Length read(std::string_view text, LengthUnit unit = LengthUnit::inch) {
  const auto length = parse_length(text, unit);
  EXPECT_TRUE(length.has_value()) << text;
  return length.value_or(Length{-1});
}

} // namespace

TEST(Length, ReadsWhatPeopleWrite) {
  EXPECT_EQ(read("27 1/2"), inches(27, 1, 2));
  EXPECT_EQ(read("27-1/2\""), inches(27, 1, 2));
  EXPECT_EQ(read(" 27 1/2 in. "), inches(27, 1, 2));
  EXPECT_EQ(read("27½"), inches(27, 1, 2));
  EXPECT_EQ(read("2' 3-1/2\""), inches(27, 1, 2));
  EXPECT_EQ(read("2'3 1/2"), inches(27, 1, 2));
  EXPECT_EQ(read("2 ft 3 1/2 in"), inches(27, 1, 2));
  EXPECT_EQ(read("2'-3 1/2\""), inches(27, 1, 2));
  EXPECT_EQ(read("2′ 3 1/2″"), inches(27, 1, 2));
  EXPECT_EQ(read("12'"), inches(144));
  EXPECT_EQ(read("3/4"), inches(0, 3, 4));
  EXPECT_EQ(read(".5"), inches(0, 1, 2));
  EXPECT_EQ(read("7.5"), inches(7, 1, 2));
  EXPECT_EQ(read("7.5", LengthUnit::centimetre), millimetres(75));
  EXPECT_EQ(read("700 mm"), millimetres(700));
  EXPECT_EQ(read("68 cm"), millimetres(680));
  EXPECT_EQ(read("1.2 m"), millimetres(1200));
  EXPECT_EQ(read("-3"), inches(-3));
  EXPECT_EQ(read("12' 6''"), inches(150));
  EXPECT_EQ(read("36 Inches"), inches(36));
  EXPECT_EQ(read("27–1/2"), inches(27, 1, 2));
  EXPECT_EQ(read("36 1⁄2"), inches(36, 1, 2));
}

TEST(Length, RefusesWhatIsNoLength) {
  for (const auto* text :
       {"",       " ",         "-",      "abc",     "7..5",   "7.",  "1/0",         "5/4",
        "3 5/4",  "7 1/2 1/4", "7 cm 3", "2' 3 mm", "7,5",    "1e3", "12 furlongs", "9999999999",
        "2000 m", "7 1",       "--7",    "1/2/3",   "3' 4' 5"})
    EXPECT_FALSE(parse_length(text, LengthUnit::inch)) << text;
}

TEST(Length, ParseOfPrintIsIdentityOnEverySixtyFourthTo50Feet) {
  for (int k = 0; k <= 50 * 12 * 64; ++k) {
    const Length x{k * std::int64_t{3175}};
    ASSERT_EQ(parse_length(print_length(x, LengthUnit::inch), LengthUnit::inch), x);
  }
}

TEST(Length, ParseOfPrintIsIdentityOnEveryTenthOfAMillimetreTo16Metres) {
  for (int k = 0; k <= 160000; ++k) {
    const Length x{k * std::int64_t{800}};
    ASSERT_EQ(parse_length(print_length(x, LengthUnit::millimetre), LengthUnit::millimetre), x);
    ASSERT_EQ(parse_length(print_length(x, LengthUnit::centimetre), LengthUnit::centimetre), x);
  }
}

RC_GTEST_PROP(Length, ParseOfPrintIsIdentityOnEveryTick, ()) {
  const Length x{*rc::gen::inRange<std::int64_t>(-2'000'000'000, 2'000'000'000)};
  for (const auto unit : {LengthUnit::inch, LengthUnit::millimetre, LengthUnit::centimetre})
    RC_ASSERT(parse_length(print_length(x, unit), unit) == x);
}

RC_GTEST_PROP(Length, AnyTextIsReadOrRefused, (const std::string& text)) {
  const auto length = parse_length(text, LengthUnit::inch);
  if (length) RC_ASSERT(length->ticks <= 8'000'000'000 && length->ticks >= -8'000'000'000);
}

RC_GTEST_PROP(Length, RoundingOutwardIsNeverShort, ()) {
  const Length x{*rc::gen::inRange<std::int64_t>(-1'000'000, 1'000'000)};
  const Length step{*rc::gen::inRange<std::int64_t>(1, 50'000)};
  RC_ASSERT(ceil_to(x, step) >= x);
  RC_ASSERT(ceil_to(x, step) - x < step);
  RC_ASSERT(floor_to(x, step) <= x);
  RC_ASSERT(x - floor_to(x, step) < step);
  RC_ASSERT(from_mm_up(x.mm()) == x);
}

TEST(Length, ShowsSixteenthsAndFeet) {
  EXPECT_EQ(show_length(inches(27, 1, 2), LengthUnit::inch), "27 1/2\"");
  EXPECT_EQ(show_length(inches(27, 31, 64), LengthUnit::inch), "27 1/2\"");
  EXPECT_EQ(show_length(inches(27, 1, 2), LengthUnit::inch, true), "2' 3 1/2\"");
  EXPECT_EQ(show_length(inches(144), LengthUnit::inch, true), "12' 0\"");
  EXPECT_EQ(show_length(inches(23), LengthUnit::inch, true), "23\"");
  EXPECT_EQ(show_length(millimetres(699), LengthUnit::millimetre), "699 mm");
  EXPECT_EQ(show_length(millimetres(699), LengthUnit::centimetre), "69.9 cm");
}

TEST(Money, RoundsHalfToEvenOnce) {
  EXPECT_EQ(scaled({5}, 1, 2).cents, 2);
  EXPECT_EQ(scaled({15}, 1, 2).cents, 8);
  EXPECT_EQ(scaled({-15}, 1, 2).cents, -8);
  EXPECT_EQ(scaled({100}, 1, 3).cents, 33);
  EXPECT_EQ(scaled({9'000'000'000'000}, 1'000'000, 1'000'000).cents, 9'000'000'000'000);
}

TEST(Money, ReadsAndShows) {
  EXPECT_EQ(parse_money("1,234.5"), Money{123450});
  EXPECT_EQ(parse_money("12"), Money{1200});
  EXPECT_EQ(parse_money("-0.07"), Money{-7});
  for (const auto* text : {"", "-", "1.234", "1,23", "12a", "1.", "1,2345", ",123", "1..2", "1234,567"})
    EXPECT_FALSE(parse_money(text)) << text;
  EXPECT_EQ(show_money({123450}, "$"), "$1,234.50");
  EXPECT_EQ(show_money({-7}, "£"), "-£0.07");
  EXPECT_EQ(show_money({123456789012}, ""), "1,234,567,890.12");
}

RC_GTEST_PROP(Money, ParseOfShowIsIdentity, ()) {
  const Money x{*rc::gen::inRange<std::int64_t>(-99'999'999'999, 99'999'999'999)};
  RC_ASSERT(parse_money(show_money(x, "")) == x);
}

TEST(Problem, IsOneSentence) {
  EXPECT_EQ(sentence({Severity::error, "/stairs/0", "-3", "a length from 2 in to 15 in"}),
            "/stairs/0: found -3, expected a length from 2 in to 15 in.");
}
