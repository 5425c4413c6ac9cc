#include "price/area_account.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <charconv>
#include <cmath>

namespace treadfold {
namespace {

RollLayout roll(Length width, Length used, Length to_buy, std::vector<std::pair<Length, Length>> pieces) {
  RollLayout r;
  r.width = width;
  r.length_used = used;
  r.length_to_buy = to_buy;
  for (const auto& [w, l] : pieces)
    r.placements.push_back({"", {}, {}, w, l});
  return r;
}

Layout layout(RollLayout r) {
  Layout l;
  l.length_without_pattern = r.length_used;
  l.rolls = {std::move(r)};
  return l;
}

/// The figures before "sq yd" or "m²", in order, in hundredths.
std::vector<std::int64_t> figures(const std::string& words) {
  std::vector<std::int64_t> out;
  for (std::size_t i = 0; i < words.size(); ++i) {
    double x = 0;
    const auto [end, error] = std::from_chars(words.data() + i, words.data() + words.size(), x);
    if (error != std::errc{}) continue;
    const std::string rest(end, words.data() + words.size());
    if (rest.rfind(" sq yd", 0) == 0 || rest.rfind(" m²", 0) == 0) out.push_back(std::llround(x * 100));
    i = static_cast<std::size_t>(end - words.data());
  }
  return out;
}

// docs/sources.md: 12 box steps 36 × 18 in, 4 across, 3 rows: 12 ft × 4 ft 6 in = 6.00 sq yd.
TEST(AreaAccount, TwelveBoxStepsFillTheirRoll) {
  const std::vector<std::pair<Length, Length>> steps(12, {inches(36), inches(18)});
  const auto l = layout(roll(kFoot * 12, inches(54), inches(54), steps));
  const Area net = area(inches(36) * 12, inches(18));
  const auto a = account_areas({l}, net);
  EXPECT_EQ(a.ordered, net);
  EXPECT_EQ(a.left_over, Area{});
  EXPECT_EQ(in_words(a, LengthUnit::inch), "Ordered: 6.00 sq yd. The pieces alone measure 6.00 sq yd.");
}

// docs/sources.md: 14 steps 68 × 43 cm on a 4 m roll, whole rows: 3 × 0.43 = 1.29 m. Sold by 10 cm here.
TEST(AreaAccount, FourteenMetricStepsByHand) {
  const std::vector<std::pair<Length, Length>> steps(14, {millimetres(680), millimetres(430)});
  const auto l = layout(roll(millimetres(4000), millimetres(1290), millimetres(1300), steps));
  const auto a = account_areas({l}, area_from_m2(14 * 0.66 * 0.40)); // 3.696 m² net
  EXPECT_EQ(a.ordered, area(millimetres(4000), millimetres(1300)));
  EXPECT_EQ(a.rounding, area(millimetres(4000), millimetres(10))); // 0.04 m²
  EXPECT_NEAR(a.left_over.m2(), 4 * 1.29 - 14 * 0.68 * 0.43, 1e-9);
  EXPECT_NEAR(a.allowances.m2(), 14 * 0.68 * 0.43 - 3.696, 1e-9);
}

TEST(AreaAccount, PatternIsWhatMatchingAdds) {
  auto l = layout(roll(kFoot * 12, kFoot * 10, kFoot * 10, {{kFoot * 12, kFoot * 8}}));
  l.length_without_pattern = kFoot * 8;
  const auto a = account_areas({l}, area(kFoot * 12, kFoot * 8));
  EXPECT_EQ(a.pattern, area(kFoot * 12, kFoot * 2));
  EXPECT_EQ(a.left_over, Area{});
  EXPECT_NE(in_words(a, LengthUnit::inch).find("make the pattern meet"), std::string::npos);
}

TEST(AreaAccount, ALongOrderInSeveralCutsSpendsItsPatternOnce) {
  auto l = layout(roll(kFoot * 12, kFoot * 10, kFoot * 10, {{kFoot * 12, kFoot * 9}}));
  l.rolls.push_back(roll(kFoot * 12, kFoot * 5, kFoot * 5, {{kFoot * 12, kFoot * 5}}));
  l.length_without_pattern = kFoot * 14;
  const auto a = account_areas({l}, area(kFoot * 12, kFoot * 14));
  EXPECT_EQ(a.pattern, area(kFoot * 12, kFoot));
  EXPECT_EQ(a.left_over, Area{});
}

TEST(AreaAccount, RemnantsAreNotOrdered) {
  auto r = roll(kFoot * 6, kFoot * 3, {}, {{kFoot * 6, kFoot * 3}});
  r.remnant = true;
  const auto a = account_areas({layout(r)}, area(kFoot * 6, kFoot * 3));
  EXPECT_EQ(a.ordered, Area{});
  EXPECT_EQ(in_words(a, LengthUnit::inch),
            "Nothing is ordered: 2.00 sq yd come from remnants. The pieces alone measure 2.00 sq yd.");
}

TEST(AreaAccount, NoLayoutNoWords) { EXPECT_EQ(in_words(account_areas({}, {}), LengthUnit::inch), ""); }

RC_GTEST_PROP(AreaAccount, EverySquareTickIsAccountedFor, ()) {
  std::vector<Layout> layouts;
  Area net;
  const int n = *rc::gen::inRange(1, 4);
  for (int i = 0; i < n; ++i) {
    const Length width = millimetres(*rc::gen::inRange(1000, 5000));
    const Length w = Length{width.ticks * *rc::gen::inRange(50, 101) / 100};
    const Length plain = millimetres(*rc::gen::inRange(100, 20000));
    const Length used = plain + millimetres(*rc::gen::inRange(0, 1000));
    auto l = layout(roll(width, used, used + millimetres(*rc::gen::inRange(0, 300)), {{w, plain}}));
    l.length_without_pattern = plain;
    l.rolls[0].remnant = *rc::gen::inRange(0, 4) == 0;
    if (l.rolls[0].remnant) l.rolls[0].length_to_buy = {};
    layouts.push_back(l);
    net += Area{area(w, plain).square_ticks / 100 * *rc::gen::inRange(70, 100)};
  }
  const auto a = account_areas(layouts, net);
  RC_ASSERT(a.ordered + a.from_remnants == a.net + a.allowances + a.pattern + a.left_over + a.rounding);
  for (Area part : {a.allowances, a.pattern, a.left_over, a.rounding})
    RC_ASSERT(part >= Area{});

  const auto unit = *rc::gen::element(LengthUnit::inch, LengthUnit::millimetre);
  const auto f = figures(in_words(a, unit));
  const std::size_t wholes = a.ordered > Area{} && a.from_remnants > Area{} ? 2 : 1;
  std::int64_t left = 0;
  for (std::size_t i = 0; i < f.size(); ++i)
    left += i < wholes ? f[i] : -f[i];
  RC_ASSERT(f.size() > wholes);
  RC_ASSERT(left == 0);
}

} // namespace
} // namespace treadfold
