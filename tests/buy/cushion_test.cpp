#include "buy/cushion.h"

#include "buy/quantity.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace treadfold {
namespace {

constexpr Length kWidth = kFoot * 6, kRoll = kFoot * 45;

// docs/sources.md: cushion 6 ft × 45 ft rolls = 30 sq yd (common practice, no source).
TEST(Cushion, CommonPracticeNoSource_ARollIsThirtySquareYards) {
  EXPECT_EQ(milli(area(kWidth, kRoll), kSquareYard), 30'000);
  const auto whole = cut_cushion({{kWidth, kRoll}}, kWidth, kRoll);
  EXPECT_EQ(whole.length_used, kRoll);
  EXPECT_EQ(whole.rolls, 1);
  EXPECT_EQ(cut_cushion({{kWidth, kRoll + Length{1}}}, kWidth, kRoll).rolls, 2);
}

TEST(Cushion, WholeRowsForFourteenSteps) {
  const std::vector<CushionCut> steps(14, {inches(34), inches(19)});
  const auto plan = cut_cushion(steps, kWidth, kRoll);
  EXPECT_EQ(plan.length_used, inches(19) * 7);
  EXPECT_EQ(plan.rolls, 1);
}

TEST(Cushion, RowsDoNotRunOverARollsEnd) {
  // rows of 20 ft: two to a roll of 45 ft, 5 ft left, so five rows take three rolls although 100 ft < 135 ft
  const std::vector<CushionCut> rows(5, {kWidth, kFoot * 20});
  EXPECT_EQ(cut_cushion(rows, kWidth, kRoll).rolls, 3);
}

TEST(Cushion, APieceTooWideIsTurned) {
  const auto plan = cut_cushion({{kFoot * 7, kFoot * 2}}, kWidth, kRoll);
  EXPECT_EQ(plan.length_used, kFoot * 7);
}

TEST(Cushion, AFloorWiderThanTheRollTakesBreadths) {
  // 15 × 10 ft: two breadths of 10 ft and 3 ft beside, in which a step's piece finds room
  EXPECT_EQ(cut_cushion({{kFoot * 15, kFoot * 10}}, kWidth, kRoll).length_used, kFoot * 30);
  EXPECT_EQ(cut_cushion({{kFoot * 15, kFoot * 10}, {kFoot * 3, kFoot * 2}}, kWidth, kRoll).length_used,
            kFoot * 30);
}

rc::Gen<std::vector<CushionCut>> cuts() {
  return rc::gen::container<std::vector<CushionCut>>(
      rc::gen::map(rc::gen::pair(rc::gen::inRange(1, 200), rc::gen::inRange(1, 200)), [](const auto& p) {
        return CushionCut{inches(p.first), inches(p.second)};
      }));
}

RC_GTEST_PROP(Cushion, AtLeastTheAreaAndAtMostARowEach, ()) {
  const auto pieces = *cuts();
  const auto plan = cut_cushion(pieces, kWidth, kRoll);
  Area all;
  Length rows;
  for (const auto& p : pieces) {
    all += area(p.width, p.length);
    const Length across = p.width > kWidth && p.length <= kWidth ? p.length : p.width;
    const Length along = across == p.width ? p.length : p.width;
    rows += along * ((across.ticks + kWidth.ticks - 1) / kWidth.ticks);
  }
  RC_ASSERT(area(kWidth, plan.length_used) >= all);
  RC_ASSERT(plan.length_used <= rows);
  RC_ASSERT(kRoll * plan.rolls >= plan.length_used);
}

RC_GTEST_PROP(Cushion, TwiceTheCutsNeverTakeLess, ()) {
  auto pieces = *cuts();
  const auto once = cut_cushion(pieces, kWidth, kRoll);
  for (std::size_t i = 0, n = pieces.size(); i < n; ++i)
    pieces.push_back(CushionCut(pieces[i]));
  const auto twice = cut_cushion(pieces, kWidth, kRoll);
  RC_ASSERT(twice.length_used >= once.length_used);
}

} // namespace
} // namespace treadfold
