#include "buy/strip.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <functional>
#include <map>
#include <random>

namespace treadfold {
namespace {

int stocks(const std::vector<Length>& cuts, Length stock) {
  return static_cast<int>(cut_strip(cuts, stock).stock.size());
}

/// All cuts of no more than the stock, each exactly once, and no stock overfull.
void expect_sound(std::vector<Length> cuts, Length stock, const StripPlan& plan) {
  std::vector<Length> made;
  for (const auto& s : plan.stock) {
    ASSERT_FALSE(s.cuts.empty());
    ASSERT_TRUE(std::is_sorted(s.cuts.begin(), s.cuts.end(), std::greater<>()));
    Length sum = s.left_over;
    for (Length c : s.cuts)
      sum += c, made.push_back(c);
    ASSERT_EQ(sum, stock);
    ASSERT_GE(s.left_over, Length{});
  }
  std::sort(made.begin(), made.end());
  std::sort(cuts.begin(), cuts.end());
  ASSERT_EQ(made, cuts);
  ASSERT_GE(static_cast<int>(plan.stock.size()), plan.lower_bound);
}

/// The fewest stocks, by trying every cut in every stock.
int brute_force(const std::vector<Length>& cuts, Length stock) {
  std::vector<Length> room;
  int best = static_cast<int>(cuts.size());
  const std::function<void(std::size_t)> place = [&](std::size_t i) {
    if (static_cast<int>(room.size()) >= best) return;
    if (i == cuts.size()) {
      best = static_cast<int>(room.size());
      return;
    }
    for (std::size_t j = 0; j < room.size(); ++j) {
      if (room[j] < cuts[i]) continue;
      room[j] -= cuts[i];
      place(i + 1);
      room[j] += cuts[i];
    }
    room.push_back(stock - cuts[i]);
    place(i + 1);
    room.pop_back();
  };
  place(0);
  return best;
}

rc::Gen<std::vector<Length>> cuts_up_to(int most, int longest) {
  return rc::gen::mapcat(rc::gen::inRange(0, most + 1), [longest](int n) {
    return rc::gen::container<std::vector<Length>>(
        n, rc::gen::map(rc::gen::inRange(1, longest + 1), [](int x) { return inches(x); }));
  });
}

RC_GTEST_PROP(CutStrip, EveryCutAppearsOnceAndNoStockIsOverfull, ()) {
  const auto cuts = *cuts_up_to(80, 48);
  const auto plan = cut_strip(cuts, inches(48));
  expect_sound(cuts, inches(48), plan);
  RC_ASSERT(!::testing::Test::HasFailure());
}

RC_GTEST_PROP(CutStrip, AsFewAsBruteForce, ()) {
  const auto cuts = *cuts_up_to(8, 20);
  const auto plan = cut_strip(cuts, inches(20));
  const int fewest = brute_force(cuts, inches(20));
  RC_ASSERT(static_cast<int>(plan.stock.size()) == fewest);
  RC_ASSERT(plan.lower_bound == fewest);
}

// Cuts of a fifth to a half of the stock are the hard ones: their sum says little about how they fit.
RC_GTEST_PROP(CutStrip, AsFewAsBruteForceWhereTheSumSaysLittle, ()) {
  auto cuts = *cuts_up_to(9, 7);
  for (auto& c : cuts)
    c += inches(3);
  const auto plan = cut_strip(cuts, inches(20));
  const int fewest = brute_force(cuts, inches(20));
  RC_ASSERT(static_cast<int>(plan.stock.size()) == fewest);
  RC_ASSERT(plan.lower_bound == fewest);
}

TEST(CutStrip, ProvesWhatTheSumDoesNotShow) {
  // 5 × 19 in = 95 in would go into two stocks of 48 in, but only two cuts come from each
  const auto plan = cut_strip(std::vector<Length>(5, inches(19)), inches(48));
  EXPECT_EQ(plan.stock.size(), 3u);
  EXPECT_EQ(plan.lower_bound, 3);
}

RC_GTEST_PROP(CutStrip, OrderOfCutsDoesNotMatter, ()) {
  auto cuts = *cuts_up_to(30, 40);
  const int before = stocks(cuts, inches(48));
  std::sort(cuts.begin(), cuts.end());
  RC_ASSERT(stocks(cuts, inches(48)) == before);
}

RC_GTEST_PROP(CutStrip, OneCutFewerNeverRaisesTheBoundOverThePlan, ()) {
  auto cuts = *cuts_up_to(30, 40);
  RC_PRE(!cuts.empty());
  const auto all = cut_strip(cuts, inches(48));
  cuts.pop_back();
  RC_ASSERT(cut_strip(cuts, inches(48)).lower_bound <= static_cast<int>(all.stock.size()));
}

RC_GTEST_PROP(CutStrip, LongCutsAreWholeStocksAndARest, ()) {
  const Length cut = inches(*rc::gen::inRange(1, 500));
  const auto plan = cut_strip({cut}, inches(48));
  Length sum;
  for (const auto& s : plan.stock)
    for (Length c : s.cuts)
      sum += c;
  RC_ASSERT(sum == cut);
  RC_ASSERT(static_cast<std::int64_t>(plan.stock.size()) ==
            (cut.ticks + inches(48).ticks - 1) / inches(48).ticks);
  RC_ASSERT(plan.lower_bound == static_cast<int>(plan.stock.size()));
}

TEST(CutStrip, NothingToCut) {
  EXPECT_EQ(stocks({}, inches(48)), 0);
  EXPECT_EQ(stocks({Length{}}, inches(48)), 0);
  EXPECT_EQ(cut_strip({}, inches(48)).lower_bound, 0);
}

TEST(CutStrip, ExactSearchBeatsBestFitDecreasing) {
  // best-fit decreasing puts 27 and 20 together and ends with three stocks; 27 + 11 + 10 and 20 + 17 + 11
  // fill two
  std::vector<Length> cuts;
  for (int x : {27, 20, 17, 11, 11, 10})
    cuts.push_back(inches(x));
  EXPECT_EQ(stocks(cuts, inches(48)), 2);
}

// docs/sources.md: 4 ft pieces, 100 a case = 400 ft. Fourteen steps 36 in wide take a tread strip and a riser
// strip each; no two such strips come from one 4 ft piece, so a piece each.
TEST(CutStrip, WholePiecesForAThreeFootStair) {
  const std::vector<Length> cuts(28, inches(34));
  const auto plan = cut_strip(cuts, kFoot * 4);
  EXPECT_EQ(plan.stock.size(), 28u);
  EXPECT_EQ(plan.lower_bound, 28);
}

TEST(CutStrip, ManyCutsEndSoonWithABound) {
  std::mt19937 random(7);
  std::vector<Length> cuts;
  for (int i = 0; i < 1500; ++i)
    cuts.push_back(Length{3175 * (300 + static_cast<int>(random() % 2500))});
  const auto plan = cut_strip(cuts, kFoot * 4);
  expect_sound(cuts, kFoot * 4, plan);
  EXPECT_LE(static_cast<int>(plan.stock.size()), plan.lower_bound + plan.lower_bound / 10);
}

TEST(CutStrip, HardListsGiveUpWithAValidBound) {
  // sizes just over a quarter and a third of the stock, all different
  std::mt19937 random(11);
  std::vector<Length> cuts;
  for (int i = 0; i < 60; ++i)
    cuts.push_back(Length{9'753'600 / (3 + i % 2) - 20'000 + static_cast<int>(random() % 60'000)});
  const auto plan = cut_strip(cuts, kFoot * 4);
  expect_sound(cuts, kFoot * 4, plan);
}

} // namespace
} // namespace treadfold
