#include "jobs.h"

#include <algorithm>
#include <chrono>
#include <set>

using namespace treadfold;

namespace {

Problems problems_of(const std::vector<CutPiece>& pieces, const Carpet& carpet) {
  Problems problems;
  const auto layout = lay_out(pieces, carpet, {}, problems);
  if (has_errors(problems)) {
    EXPECT_TRUE(layout.rolls.empty());
  }
  return problems;
}

} // namespace

TEST(Knife, CrossCutsARowRipsItTrimsItThenTheNext) {
  std::vector<CutPiece> pieces;
  add(pieces, 1, inches(60), inches(40));
  add(pieces, 1, inches(50), inches(30));
  add(pieces, 1, inches(144), inches(20));
  auto carpet = plain_carpet();
  carpet.sold_in = feet(1);
  const auto layout = good_layout(pieces, carpet);
  const auto& roll = only_roll(layout);
  using Kind = Stroke::Kind;
  std::vector<Kind> kinds;
  for (const auto& s : roll.knife_order)
    kinds.push_back(s.kind);
  // The other row needs no stroke: its end is where the goods end.
  EXPECT_EQ(kinds, (std::vector{Kind::cross_cut, Kind::rip, Kind::rip, Kind::trim}));
  EXPECT_EQ(roll.length_to_buy, inches(60));
  std::vector<std::string> freed;
  for (const auto& s : roll.knife_order)
    freed.push_back(s.frees);
  EXPECT_NE(std::find(freed.begin(), freed.end(), "P1"), freed.end());
  EXPECT_NE(std::find(freed.begin(), freed.end(), "P2, to be trimmed"), freed.end());
  EXPECT_NE(std::find(freed.begin(), freed.end(), "P2"), freed.end());
}

TEST(Knife, WhatIsLaidCloseIsCutAroundWhereNoStrokeGoesThrough) {
  std::vector<CutPiece> pieces; // a pinwheel: side by side or in rows they take 80 in
  add(pieces, 1, inches(84), inches(20)), add(pieces, 1, inches(60), inches(40));
  add(pieces, 1, inches(84), inches(20)), add(pieces, 1, inches(60), inches(40));
  add(pieces, 1, inches(24), inches(20));
  add(pieces, 1, inches(144), inches(10));
  auto carpet = plain_carpet();
  carpet.sold_in = kInch;
  const auto straight = good_layout(pieces, carpet);
  carpet.laid = Laid::close;
  const auto close = good_layout(pieces, carpet);
  EXPECT_EQ(only_roll(close).length_to_buy, inches(70));
  EXPECT_TRUE(close.proved_least);
  for (const auto* layout : {&straight, &close}) {
    EXPECT_EQ(layout->close_to_buy, inches(70));
    EXPECT_EQ(layout->straight_to_buy, only_roll(straight).length_to_buy);
  }
  EXPECT_GT(straight.straight_to_buy, straight.close_to_buy);
  const auto around = [](const Layout& layout) {
    std::set<std::string> freed;
    for (const auto& s : only_roll(layout).knife_order)
      if (s.kind == Stroke::Kind::around) freed.insert(s.frees);
    return freed;
  };
  EXPECT_EQ(around(straight), std::set<std::string>{});
  EXPECT_EQ(around(close), (std::set<std::string>{"P1", "P2", "P3", "P4", "P5"}));
}

TEST(Outlines, SlantedPiecesReachIntoEachOthersRectanglesAndAreCutAround) {
  std::vector<CutPiece> pieces;
  add(pieces, 4, inches(100), inches(40));
  for (auto& p : pieces) // from 40 in long at the left to a point at the right
    p.outline.ring = {{{}, {}}, {inches(100), inches(39)}, {inches(100), inches(40)}, {{}, inches(40)}};
  auto carpet = plain_carpet();
  carpet.sold_in = kInch;
  EXPECT_EQ(only_roll(good_layout(pieces, carpet)).length_to_buy, inches(160));
  carpet.laid = Laid::outlines;
  const auto layout = good_layout(pieces, carpet);
  const auto& roll = only_roll(layout);
  // One behind another each needs no more than its 40 in at the left, less what reaches past the next.
  EXPECT_EQ(roll.length_to_buy, layout.outlines_to_buy);
  EXPECT_LT(layout.outlines_to_buy, layout.close_to_buy);
  EXPECT_LE(layout.lower_bound, roll.length_used);
  EXPECT_EQ(layout.bound_name, "area");
  std::set<std::string> around;
  for (const auto& s : roll.knife_order)
    if (s.kind == Stroke::Kind::around) around.insert(s.frees);
  for (const auto& p : roll.placements)
    EXPECT_EQ(around.contains(p.piece), !p.outline.empty());
  EXPECT_GE(around.size(), 2u);

  auto pushed = layout; // one into another: the checker sees it, though rectangles may overlap
  auto& p = pushed.rolls.front().placements.back();
  p.v -= inches(1);
  for (auto& c : p.outline.ring)
    c.v -= inches(1);
  EXPECT_FALSE(check_layout(pieces, carpet, pushed).empty());
}

TEST(Outlines, PiecesLieInTheOpeningOfAFloor) {
  std::vector<CutPiece> pieces;
  add(pieces, 1, inches(144), inches(120), "hall");
  pieces[0].outline.ring = {{{}, {}}, {inches(144), {}}, {inches(144), inches(120)}, {{}, inches(120)}};
  pieces[0].outline.holes = {{{inches(30), inches(30)},
                              {inches(30), inches(90)},
                              {inches(110), inches(90)},
                              {inches(110), inches(30)}}};
  add(pieces, 4, inches(40), inches(30)); // fill the opening
  auto carpet = plain_carpet();
  carpet.laid = Laid::outlines;
  const auto layout = good_layout(pieces, carpet);
  const auto& roll = only_roll(layout);
  EXPECT_EQ(roll.length_to_buy, inches(120));
  EXPECT_EQ(layout.close_to_buy, inches(180));
  EXPECT_TRUE(layout.proved_least); // the hall alone is as long
  const auto& hall = *std::find_if(roll.placements.begin(), roll.placements.end(),
                                   [](const auto& p) { return p.piece == "P1"; });
  EXPECT_EQ(hall.outline, pieces[0].outline);
  EXPECT_EQ(covered_area(hall.width, hall.length, hall.outline),
            (inches(144).ticks * inches(120).ticks) - inches(80).ticks * inches(60).ticks);

  auto moved = layout; // half an inch over the opening's edge
  for (auto& p : moved.rolls.front().placements)
    if (p.piece != "P1") p.u += inches(0, 1, 2);
  EXPECT_FALSE(check_layout(pieces, carpet, moved).empty());
}

TEST(Outlines, AreTurnedHalfRoundOnlyOnGoodsWithoutDirection) {
  std::vector<CutPiece> pieces;
  add(pieces, 2, inches(144), inches(40));
  for (auto& p : pieces)
    p.outline.ring = {{{}, {}}, {inches(144), {}}, {{}, inches(40)}};
  auto carpet = plain_carpet();
  carpet.laid = Laid::outlines;
  EXPECT_EQ(only_roll(good_layout(pieces, carpet)).length_to_buy, inches(80));
  carpet.directional = false;
  const auto layout = good_layout(pieces, carpet);
  const auto& roll = only_roll(layout);
  EXPECT_EQ(roll.length_to_buy, inches(40));
  EXPECT_TRUE(layout.proved_least);
  EXPECT_NE(roll.placements[0].turned, roll.placements[1].turned);
  carpet.directional = true;
  EXPECT_FALSE(check_layout(pieces, carpet, layout).empty());
}

TEST(Knife, NoStrokeAlongAnEdgeThatIsOneAlready) {
  const auto layout = good_layout(steps(1, feet(12), feet(3)), plain_carpet());
  EXPECT_TRUE(only_roll(layout).knife_order.empty());
}

TEST(Knife, SelvageIsTrimmedOffBothSides) {
  auto carpet = plain_carpet();
  carpet.selvage = inches(2);
  const auto layout = good_layout(steps(1, inches(140), feet(3)), carpet);
  const auto& order = only_roll(layout).knife_order;
  ASSERT_EQ(order.size(), 2u);
  EXPECT_EQ(order[0].at, inches(2));
  EXPECT_EQ(order[0].frees, "selvage");
  EXPECT_EQ(order[1].at, inches(142));
  EXPECT_EQ(order[1].frees, "P1");
  EXPECT_TRUE(only_roll(layout).offcuts.empty());
}

TEST(Offcuts, EndStripAndTrimLargestFirstWithoutSlivers) {
  std::vector<CutPiece> pieces;
  add(pieces, 1, inches(100), inches(40));
  add(pieces, 1, inches(40), inches(30));
  auto carpet = plain_carpet();
  carpet.sold_in = feet(5);
  const auto layout = good_layout(pieces, carpet);
  const auto& offcuts = only_roll(layout).offcuts;
  ASSERT_EQ(offcuts.size(), 3u);
  EXPECT_EQ(offcuts[0].width, feet(12)); // the clean end
  EXPECT_EQ(offcuts[0].length, inches(20));
  EXPECT_EQ(offcuts[1].width, inches(40)); // below the shorter piece
  EXPECT_EQ(offcuts[1].length, inches(10));
  EXPECT_EQ(offcuts[2].width, inches(4)); // beside them
  EXPECT_EQ(offcuts[2].length, inches(40));

  pieces[1].width = inches(43, 1, 2); // leaves half an inch beside
  EXPECT_EQ(only_roll(good_layout(pieces, carpet)).offcuts.size(), 2u);
}

TEST(Search, ShortPiecesFillInBesideLongOnes) {
  std::vector<CutPiece> pieces;
  add(pieces, 1, inches(96), inches(60));
  add(pieces, 3, inches(48), inches(20));
  const auto layout = good_layout(pieces, plain_carpet());
  EXPECT_EQ(only_roll(layout).length_used, inches(60));
  EXPECT_EQ(layout.whole_rows, inches(80));
  EXPECT_TRUE(layout.proved_least);
}

TEST(Order, RoundedUpToHowItIsSoldAndToTheLeastOrder) {
  auto carpet = plain_carpet();
  carpet.sold_in = inches(6);
  EXPECT_EQ(only_roll(good_layout(steps(3, inches(48), inches(31)), carpet)).length_to_buy, inches(36));
  carpet.least_order = feet(4);
  EXPECT_EQ(only_roll(good_layout(steps(3, inches(48), inches(31)), carpet)).length_to_buy, feet(4));
}

// 46 in of goods would be used where 45 is the bound, but neither can be bought: both come to 48.
TEST(Order, ProvedLeastByWhatCanBeBought) {
  auto carpet = plain_carpet();
  carpet.sold_in = feet(1);
  std::vector<CutPiece> pieces;
  add(pieces, 2, inches(60), inches(25));
  add(pieces, 2, inches(70), inches(21));
  const auto layout = good_layout(pieces, carpet);
  EXPECT_EQ(only_roll(layout).length_to_buy, feet(4));
  EXPECT_LE(layout.lower_bound, only_roll(layout).length_used);
  EXPECT_TRUE(layout.proved_least);
}

TEST(Offers, EveryWidthIsTriedAndTheLeastAreaIsChosen) {
  auto carpet = plain_carpet();
  carpet.roll_widths = {feet(12), inches(162), feet(15), feet(3)};
  const auto layout = good_layout(steps(12, inches(38), inches(21)), carpet);
  ASSERT_EQ(layout.offers.size(), 4u);
  // 12 ft: 4 rows of 3, 84 sq ft; 13 ft 6 in: 3 rows of 4, 70.9; 15 ft: 3 rows, 78.8.
  EXPECT_EQ(layout.offers[0].width, inches(162));
  EXPECT_EQ(layout.offers[1].width, feet(15));
  EXPECT_EQ(layout.offers[2].width, feet(12));
  EXPECT_FALSE(layout.offers[3].feasible);
  EXPECT_FALSE(layout.offers[3].why_not.empty());
  EXPECT_EQ(only_roll(layout).width, inches(162));
}

TEST(Problems, WiderThanEveryRollNamesThePieces) {
  auto pieces = steps(5, inches(36), inches(18));
  add(pieces, 2, inches(150), inches(18));
  const auto problems = problems_of(pieces, plain_carpet());
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].severity, Severity::error);
  EXPECT_EQ(problems[0].where, "/carpets/0/widths");
  EXPECT_NE(problems[0].found.find("P6"), std::string::npos);
  EXPECT_NE(problems[0].found.find("1 more"), std::string::npos);
}

TEST(Problems, LongerThanTheLongestCut) {
  const auto problems = problems_of(steps(1, inches(36), feet(101)), plain_carpet());
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].severity, Severity::error);
  EXPECT_EQ(problems[0].where, "/carpets/0/roll_length");
}

TEST(Problems, ALayoutLongerThanTheLongestCutIsSeveralCutsAndSaysSo) {
  auto carpet = plain_carpet();
  carpet.roll_length = feet(10);
  const auto pieces = steps(7, feet(10), feet(4));
  Problems problems;
  const auto layout = lay_out(pieces, carpet, {}, problems);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_EQ(problems[0].where, "/carpets/0/roll_length");
  EXPECT_EQ(layout.rolls.size(), 4u); // two to a cut
  EXPECT_EQ(layout.offers[0].length_to_buy, feet(28));
  EXPECT_TRUE(check_layout(pieces, carpet, layout).empty());
}

TEST(InHand, NoMoreIsCutOffAtOnceThanTheUserSays) {
  auto pieces = steps(3, inches(84), inches(40));
  add(pieces, 2, inches(60), inches(60));
  auto carpet = plain_carpet();
  const auto long_row = good_layout(pieces, carpet);
  EXPECT_EQ(only_roll(long_row).length_used, inches(120)); // one row, then ripped
  carpet.in_hand = inches(60);
  const auto breaches = check_layout(pieces, carpet, long_row);
  ASSERT_EQ(breaches.size(), 1u);
  EXPECT_EQ(breaches[0], "too much of roll 12' 0\" would be in hand at once");
  const auto layout = good_layout(pieces, carpet); // checked
  EXPECT_EQ(only_roll(layout).length_used, inches(60 + 60 + 40));
  EXPECT_LT(layout.close_to_buy, layout.straight_to_buy);
}

TEST(InHand, OfPatternedGoodsTooAndFromARemnant) {
  auto pieces = steps(3, inches(84), inches(40));
  add(pieces, 2, inches(60), inches(60));
  for (auto& p : pieces)
    p.matched = true, p.match_group = "flight";
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(12), inches(20), {}};
  EXPECT_EQ(only_roll(good_layout(pieces, carpet)).length_used, inches(120));
  carpet.in_hand = inches(60);
  EXPECT_EQ(only_roll(good_layout(pieces, carpet)).length_used, inches(160));
  carpet.remnants = {{"shelf", feet(12), inches(185), "", "/carpets/0/remnants/0"}};
  EXPECT_TRUE(only_roll(good_layout(pieces, carpet)).remnant);
  carpet.remnants[0].length = inches(125); // enough for the long row alone
  EXPECT_FALSE(only_roll(good_layout(pieces, carpet)).remnant);
}

TEST(InHand, APieceThatIsLongerIsNamed) {
  auto carpet = plain_carpet();
  carpet.in_hand = feet(6);
  const auto problems = problems_of(steps(2, inches(36), feet(9)), carpet);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_EQ(problems[0].where, "/carpets/0/longest_in_hand");
  EXPECT_EQ(problems[0].found, "piece P1, 9' 0\" long");
}

TEST(Problems, APatternThatCannotBeKept) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{feet(12), inches(24), {}};
  auto pieces = steps(2, inches(100), inches(18));
  for (auto& p : pieces)
    p.matched = true, p.match_group = "landing";
  pieces[1].phase_u = inches(72); // the second would have to begin half the width away from the first
  const auto problems = problems_of(pieces, carpet);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].where, "/carpets/0/pattern");
  EXPECT_NE(problems[0].found.find("landing"), std::string::npos);
  pieces[1].phase_u = inches(20);
  good_layout(pieces, carpet);
}

TEST(Problems, ARepeatOfNoLengthIsNotOne) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(27), {}, {}};
  EXPECT_EQ(problems_of(steps(2, inches(36), inches(18)), carpet).size(), 1u);
}

TEST(Problems, NoPiecesNoGoods) {
  const auto layout = good_layout({}, plain_carpet());
  EXPECT_TRUE(layout.rolls.empty());
}

namespace {

Remnant remnant(const std::string& name, Length width, Length length, const std::string& lot = "") {
  return {name, width, length, lot, "/carpets/0/remnants/0"};
}

} // namespace

TEST(Remnants, OneThatServesAWholeFlightShortensTheOrder) {
  auto carpet = plain_carpet();
  carpet.remnants = {remnant("from the hall", feet(9), inches(40))};
  auto pieces = steps(12, inches(36), inches(18));
  add(pieces, 6, inches(36), inches(18), "upper flight");
  const auto layout = good_layout(pieces, carpet);
  ASSERT_EQ(layout.rolls.size(), 2u);
  EXPECT_TRUE(layout.rolls[0].remnant);
  EXPECT_EQ(layout.rolls[0].stock, "from the hall");
  EXPECT_EQ(layout.rolls[0].length_to_buy, Length{});
  EXPECT_EQ(layout.rolls[0].placements.size(), 6u);
  EXPECT_EQ(layout.rolls[1].length_to_buy, inches(54));
  EXPECT_EQ(layout.lower_bound, inches(54));
  EXPECT_TRUE(layout.proved_least);
}

TEST(Remnants, AFlightIsNotDividedBetweenDyeLots) {
  auto carpet = plain_carpet();
  carpet.remnants = {remnant("from the hall", feet(9), inches(40))};
  EXPECT_EQ(good_layout(steps(12, inches(36), inches(18)), carpet).rolls.size(), 1u);
}

TEST(Remnants, OneOfTheRollsOwnDyeLotMayServePartOfAFlight) {
  auto carpet = plain_carpet();
  carpet.dye_lot = "B7";
  carpet.remnants = {remnant("from the hall", feet(9), inches(40), "B7")};
  const auto layout = good_layout(steps(12, inches(36), inches(18)), carpet);
  ASSERT_EQ(layout.rolls.size(), 2u);
  EXPECT_EQ(layout.rolls[1].length_to_buy, inches(36)); // six of twelve are left for the roll
  carpet.dye_lot = "";
  carpet.remnants[0].dye_lot = "";
  EXPECT_EQ(good_layout(steps(12, inches(36), inches(18)), carpet).rolls.size(), 1u);
}

TEST(Remnants, TheSmallestThatServesIsUsedAndTheOrderMayVanish) {
  auto carpet = plain_carpet();
  carpet.remnants = {remnant("large", feet(12), feet(20)), remnant("small", feet(12), feet(5)),
                     remnant("too small", feet(12), feet(4))};
  const auto layout = good_layout(steps(12, inches(36), inches(18)), carpet);
  EXPECT_EQ(only_roll(layout).stock, "small");
  EXPECT_EQ(layout.offers[0].length_to_buy, Length{});
  EXPECT_TRUE(layout.proved_least);
}

TEST(Remnants, NotUsedWhenTheOrderGetsNoShorter) {
  auto carpet = plain_carpet();
  carpet.least_order = feet(10);
  carpet.remnants = {remnant("from the hall", feet(9), inches(40))};
  auto pieces = steps(12, inches(36), inches(18));
  add(pieces, 6, inches(36), inches(18), "upper flight");
  EXPECT_EQ(good_layout(pieces, carpet).rolls.size(), 1u);
}

TEST(Remnants, OnlyTheRemnantIsWideEnough) {
  auto carpet = plain_carpet();
  carpet.remnants = {remnant("wide", feet(15), feet(4))};
  auto pieces = steps(4, inches(36), inches(18));
  add(pieces, 1, feet(14), feet(3), "landing");
  const auto layout = good_layout(pieces, carpet);
  ASSERT_EQ(layout.rolls.size(), 2u);
  EXPECT_EQ(layout.rolls[0].placements.front().piece, "P5");
}

TEST(Remnants, LeftAloneWhenAskedTo) {
  auto carpet = plain_carpet();
  carpet.remnants = {remnant("large", feet(12), feet(20))};
  LayoutOptions options;
  options.use_remnants = false;
  EXPECT_FALSE(only_roll(good_layout(steps(12, inches(36), inches(18)), carpet, options)).remnant);
}

TEST(Bound, NamesItsArgument) {
  EXPECT_EQ(lower_bound(steps(1, inches(10), inches(18)), feet(12)).name, "longest piece");
  EXPECT_EQ(lower_bound(steps(4, inches(72), inches(18)), feet(12)).name, "area");
  const auto wide = lower_bound(steps(3, inches(73), inches(18)), feet(12));
  EXPECT_EQ(wide.length, inches(54));
  // 5 across by dual feasible function or by the width that 5 of them use: 14/5 of 43 cm; next sum 129 cm.
  EXPECT_EQ(lower_bound(steps(14, millimetres(680), millimetres(430)), millimetres(4000)).length,
            millimetres(1290));
  EXPECT_EQ(lower_bound({}, feet(12)).length, Length{});
}

TEST(Bound, FeketeSchepersSeesThatOnlyTwoLieSideBySide) {
  std::vector<CutPiece> pieces;
  for (int i = 0; i < 9; ++i)
    add(pieces, 1, inches(50 + i), inches(20));
  // All wider than a third: five rows of two. Their area makes only 67.5 in.
  EXPECT_EQ(lower_bound(pieces, feet(12)).length, inches(100));
}

TEST(Determinism, SameWorkAndSeedSameLayout) {
  std::vector<CutPiece> pieces;
  for (int i = 0; i < 20; ++i)
    add(pieces, 1, inches(20 + (i * 37) % 50, i % 16, 16), inches(12 + (i * 23) % 40));
  const auto a = good_layout(pieces, plain_carpet()), b = good_layout(pieces, plain_carpet());
  ASSERT_EQ(only_roll(a).placements.size(), only_roll(b).placements.size());
  for (std::size_t i = 0; i < only_roll(a).placements.size(); ++i) {
    EXPECT_EQ(only_roll(a).placements[i].piece, only_roll(b).placements[i].piece);
    EXPECT_EQ(only_roll(a).placements[i].u, only_roll(b).placements[i].u);
    EXPECT_EQ(only_roll(a).placements[i].v, only_roll(b).placements[i].v);
  }
}

namespace {

double seconds(const std::vector<CutPiece>& pieces, const Carpet& carpet) {
  const auto begin = std::chrono::steady_clock::now();
  Problems problems;
  const auto layout = lay_out(pieces, carpet, {}, problems);
  const std::chrono::duration<double> taken = std::chrono::steady_clock::now() - begin;
  EXPECT_FALSE(has_errors(problems));
  const auto checked = std::chrono::steady_clock::now();
  EXPECT_TRUE(check_layout(pieces, carpet, layout).empty());
  const std::chrono::duration<double> check_time = std::chrono::steady_clock::now() - checked;
  Length used;
  for (const auto& roll : layout.rolls)
    used += roll.length_used;
  fmt::print("  {:6} pieces: {:8.2f} ms, checked in {:.2f} ms; used {:.1f} in, bound {:.1f} in ({}), by hand "
             "{:.1f} in\n",
             pieces.size(), taken.count() * 1e3, check_time.count() * 1e3, used.inches(),
             layout.lower_bound.inches(), layout.bound_name, layout.whole_rows.inches());
  return taken.count();
}

std::vector<CutPiece> mixed(int n) {
  std::vector<CutPiece> pieces;
  for (int i = 0; i < n; ++i)
    add(pieces, 1, inches(24 + (i * 37) % 41, (i * 7) % 16, 16),
        inches(17 + (i * 23) % 29, (i * 5) % 16, 16));
  return pieces;
}

} // namespace

// Generous limits: they are there to notice a hang, on a slow machine and under sanitizers too.
TEST(Time, EqualAndMixedPiecesFromFourteenToTenThousand) {
  auto carpet = plain_carpet();
  carpet.roll_length = {};
  for (int n : {14, 100, 1000, 10000}) {
    EXPECT_LT(seconds(steps(n, inches(36), inches(18)), carpet), 10);
    EXPECT_LT(seconds(mixed(n), carpet), 20);
    auto patterned = carpet;
    patterned.pattern = Pattern{inches(27), inches(18), inches(9)};
    auto pieces = mixed(n);
    for (auto& p : pieces)
      p.matched = true, p.match_group = "all";
    EXPECT_LT(seconds(pieces, patterned), 30);
  }
}
