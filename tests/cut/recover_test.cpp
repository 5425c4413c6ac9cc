#include "random_jobs.h"
#include "recovery_check.h"

#include <algorithm>

using namespace treadfold;

namespace {

/// Of pieces laid out on plain goods: what is cut, spoiled or faulty is told by the test.
struct Bench {
  std::vector<CutPiece> pieces;
  Carpet carpet;
  Layout layout;

  Bench(std::vector<CutPiece> p, Carpet c) : pieces(std::move(p)), carpet(std::move(c)) {
    Problems problems;
    LayoutOptions options;
    options.work = 100;
    layout = lay_out(pieces, carpet, options, problems);
  }

  std::vector<CutPiece> wanted(const Cutting& cutting) const {
    std::vector<CutPiece> rest;
    for (const auto& p : pieces)
      if (std::find(cutting.cut.begin(), cutting.cut.end(), p.id) == cutting.cut.end()) rest.push_back(p);
    return rest;
  }

  Recovered recover(const Cutting& cutting, bool keep_plan) const {
    RecoverOptions options;
    options.keep_plan = keep_plan, options.work = 50;
    return treadfold::recover(pieces, wanted(cutting), carpet, layout, cutting, options);
  }

  std::vector<std::string> breaches(const Cutting& cutting, const Recovered& r, bool keep_plan) const {
    return check_recovery(pieces, wanted(cutting), carpet, layout, cutting, r, keep_plan);
  }

  Recovered good(const Cutting& cutting, bool keep_plan) const {
    auto r = recover(cutting, keep_plan);
    for (const auto& b : breaches(cutting, r, keep_plan))
      ADD_FAILURE() << b;
    return r;
  }

  /// The first pieces that the knife frees.
  std::vector<std::string> first_freed(std::size_t count) const {
    std::vector<std::string> ids;
    for (const auto& roll : layout.rolls)
      for (const auto& p : roll.placements)
        if (ids.size() < count) ids.push_back(p.piece);
    return ids;
  }
};

/// Twelve steps of 36 in × 20 in, four across a 12 ft roll: three rows, 5 ft.
Bench twelve_steps() { return {steps(12, inches(36), inches(20)), plain_carpet()}; }

Cutting spoilt(const std::string& piece) {
  Cutting cutting;
  cutting.spoiled = {{piece, {}, {}}};
  return cutting;
}

std::string where_from(const Recovered& r, const std::string& piece) {
  for (const auto& part : r.parts)
    for (const auto& p : part.layout.placements)
      if (p.piece == piece) return part.layout.stock;
  return "as planned";
}

} // namespace

TEST(Recover, NothingLostIsAsPlanned) {
  const auto b = twelve_steps();
  const auto r = b.good({}, true);
  EXPECT_EQ(r.as_planned.size(), 12u);
  EXPECT_TRUE(r.parts.empty());
  EXPECT_EQ(r.length_to_buy, Length{});
}

TEST(Recover, ASpoiledPieceComesFromAnOffcutThatHoldsIt) {
  auto b = Bench(steps(11, inches(36), inches(20)), plain_carpet()); // a place in the last row is free
  const auto first = b.first_freed(1).front();
  const auto r = b.good(spoilt(first), true);
  EXPECT_EQ(r.length_to_buy, Length{});
  EXPECT_EQ(r.as_planned.size(), 10u);
  ASSERT_EQ(r.parts.size(), 1u);
  EXPECT_EQ(r.parts[0].layout.placements.at(0).piece, first);
  EXPECT_EQ(r.parts[0].of, only_roll(b.layout).stock);
}

TEST(Recover, WithNoRoomARowIsBought) {
  const auto b = twelve_steps();
  const auto r = b.good(spoilt(b.first_freed(1).front()), true);
  EXPECT_EQ(r.length_to_buy, inches(20));
  EXPECT_EQ(r.parts.back().of, "");
}

TEST(Recover, ALongerRollThanOrderedServes) {
  const auto b = twelve_steps();
  auto cutting = spoilt(b.first_freed(1).front());
  cutting.roll_length = feet(5) + inches(20);
  EXPECT_EQ(b.good(cutting, true).length_to_buy, Length{});
  cutting.roll_length = feet(5) + inches(19, 15, 16);
  EXPECT_EQ(b.good(cutting, true).length_to_buy, inches(20));
}

TEST(Recover, AShortRollIsNotCutBeyondItsEnd) {
  const auto b = twelve_steps();
  Cutting cutting;
  cutting.roll_length = inches(59);
  const auto kept = b.good(cutting, true);
  EXPECT_EQ(kept.as_planned.size(), 8u);
  EXPECT_EQ(kept.length_to_buy, inches(20));
}

TEST(Recover, AFlawIsCutAround) {
  auto b = twelve_steps();
  Cutting cutting;
  cutting.roll_length = feet(7);
  cutting.flaws = {{inches(30), inches(31)}}; // in the second row; 52 in left after it, and 30 before
  const auto r = b.good(cutting, false);
  EXPECT_EQ(r.length_to_buy, Length{});
  EXPECT_EQ(b.good(cutting, true).length_to_buy, Length{}); // the last row stays; another goes to the end
  cutting.roll_length = inches(70);
  EXPECT_EQ(b.good(cutting, false).length_to_buy, inches(20));
}

/// Around a square foot in the middle of 5 ft: by straight strokes they take 6 ft.
Bench pinwheel(Laid laid) {
  auto carpet = plain_carpet();
  carpet.roll_widths = {feet(5)}, carpet.laid = laid;
  std::vector<CutPiece> pieces;
  add(pieces, 2, feet(3), feet(2));
  add(pieces, 2, feet(2), feet(3));
  add(pieces, 1, feet(1), feet(1));
  return {pieces, carpet};
}

TEST(Recover, WhatIsLaidAnewIsLaidAsCloseAsThePlan) {
  const auto close = pinwheel(Laid::close);
  ASSERT_EQ(only_roll(close.layout).length_to_buy, feet(5));
  EXPECT_EQ(close.good({}, false).length_to_buy, Length{});
  Cutting lost; // all but a foot, which the smallest comes from
  lost.roll_length = feet(1);
  EXPECT_EQ(close.good(lost, false).length_to_buy, feet(5));
  const auto straight = pinwheel(Laid::straight);
  ASSERT_EQ(only_roll(straight.layout).length_to_buy, feet(6));
  EXPECT_EQ(straight.good(lost, false).length_to_buy, feet(6));
}

TEST(Recover, WhatIsSoundOfASpoiledPieceServesForASmallerOne) {
  std::vector<CutPiece> pieces;
  add(pieces, 1, feet(12), inches(40));
  add(pieces, 1, feet(12), inches(10));
  const Bench b(pieces, plain_carpet());
  Cutting cutting;
  cutting.spoiled = {{"P2", {}, {}}};
  EXPECT_EQ(b.good(cutting, true).length_to_buy, inches(10));
  cutting.cut = {"P2"};
  cutting.spoiled = {{"P1", feet(12), inches(10)}};
  EXPECT_EQ(b.good(cutting, true).length_to_buy, inches(40));
  // The small one spoiled, and the large one too, but of that a foot is sound.
  cutting.cut = {};
  cutting.spoiled = {{"P2", {}, {}}, {"P1", feet(12), inches(12)}};
  const auto r = b.good(cutting, true);
  EXPECT_EQ(r.length_to_buy, inches(40));
  EXPECT_EQ(where_from(r, "P2"), "what is sound of P1");
}

TEST(Recover, RowsAreChosenSoThatLeastIsBought) {
  std::vector<CutPiece> pieces; // 30 + 30 + 40: of 75 in left 70 serve, not 60
  add(pieces, 2, feet(12), inches(30));
  add(pieces, 1, feet(12), inches(40));
  const Bench b(pieces, plain_carpet());
  Cutting cutting;
  cutting.roll_length = inches(75);
  EXPECT_EQ(b.good(cutting, false).length_to_buy, inches(30));
}

TEST(Recover, ALoosePieceThatIsNotWantedAnyMoreServesForSmallerOnes) {
  std::vector<CutPiece> pieces;
  add(pieces, 1, feet(12), inches(60));
  add(pieces, 1, feet(12), inches(50));
  const Bench b(pieces, plain_carpet());
  Cutting cutting;
  cutting.spoiled = {{b.first_freed(2).back(), {}, {}}}; // the first lies loose, too
  const auto first = b.first_freed(1).front();
  std::vector<CutPiece> wanted;
  add(wanted, 3, feet(12), inches(16));
  for (auto& p : wanted)
    p.id += " of " + first;
  RecoverOptions options;
  const auto r = recover(b.pieces, wanted, b.carpet, b.layout, cutting, options);
  EXPECT_EQ(r.length_to_buy, Length{});
  for (const auto& breach : check_recovery(b.pieces, wanted, b.carpet, b.layout, cutting, r, false))
    ADD_FAILURE() << breach;
}

TEST(Recover, WhatLayInTheHollowOfACutPieceServesWhole) {
  auto carpet = plain_carpet();
  carpet.roll_widths = {feet(5)}, carpet.laid = Laid::outlines;
  const Length half = inches(30);
  std::vector<CutPiece> pieces;
  add(pieces, 1, feet(5), feet(5));
  pieces[0].outline.ring = {{{}, {}},     {feet(5), {}},   {feet(5), half},
                            {half, half}, {half, feet(5)}, {{}, feet(5)}};
  add(pieces, 1, half, feet(5));
  add(pieces, 1, half, half);
  const Bench b(pieces, carpet);
  ASSERT_EQ(only_roll(b.layout).length_used, inches(90)); // P2 lies half in the hollow
  Cutting cutting;
  cutting.cut = {"P1"}, cutting.spoiled = {{"P3", {}, {}}};
  std::vector<CutPiece> wanted;
  add(wanted, 2, half, half);
  for (auto& p : wanted)
    p.id += " of P2";
  const auto breaches = [&](const Bench& of) {
    RecoverOptions options;
    options.keep_plan = true;
    const auto r = recover(b.pieces, wanted, b.carpet, b.layout, cutting, options);
    EXPECT_EQ(r.length_to_buy, Length{});
    return check_recovery(of.pieces, wanted, of.carpet, of.layout, cutting, r, true);
  };
  for (const auto& breach : breaches(b))
    ADD_FAILURE() << breach;
  auto without_hollow = b;
  for (auto& p : without_hollow.layout.rolls[0].placements)
    p.outline = {};
  EXPECT_FALSE(breaches(without_hollow).empty());
}

TEST(Recover, NothingIsMixedIntoAGroupFromARemnantOfAnUnknownLot) {
  auto carpet = plain_carpet();
  carpet.remnants = {{"end of the hall", feet(12), inches(40), "", ""}};
  std::vector<CutPiece> pieces;
  add(pieces, 1, feet(12), inches(40), "hall");
  add(pieces, 1, feet(12), inches(80), "stair");
  const Bench b(pieces, carpet);
  ASSERT_EQ(b.layout.rolls.size(), 2u);
  const auto r = b.recover(spoilt("P1"), true);
  EXPECT_EQ(r.why_not,
            "what is left of remnant 'end of the hall' has no room for all that was to be cut from "
            "it, and nothing else is of its dye lot");
  EXPECT_TRUE(r.parts.empty());
  EXPECT_EQ(b.good(spoilt("P2"), true).length_to_buy, inches(80));
}

TEST(Recover, TheCheckSeesWhatIsWrong) {
  const auto b = twelve_steps();
  const auto cutting = spoilt(b.first_freed(1).front());
  const auto r = b.good(cutting, true);
  auto twice = r;
  twice.as_planned.push_back(cutting.spoiled[0].piece);
  EXPECT_FALSE(b.breaches(cutting, twice, true).empty());
  auto short_of = r;
  short_of.as_planned.pop_back();
  EXPECT_FALSE(b.breaches(cutting, short_of, true).empty());
  auto over = r;
  over.parts.back().of = only_roll(b.layout).stock; // as if it lay at the roll's beginning
  EXPECT_FALSE(b.breaches(cutting, over, true).empty());
}

RC_GTEST_PROP(RecoverProperty, KeepsItsPromises, ()) {
  const bool patterned = *rc::gen::inRange(0, 2) == 1;
  auto carpet = random_carpet(patterned, *rc::gen::inRange(0, 2) == 1);
  carpet.roll_length = feet(100);
  const Bench b(random_pieces(patterned), carpet);
  RC_PRE(!b.layout.rolls.empty());
  Cutting cutting;
  const auto order = b.first_freed(b.pieces.size());
  const auto done = *rc::gen::inRange<std::size_t>(0, order.size() + 1);
  for (std::size_t i = 0; i < done; ++i)
    if (*rc::gen::inRange(0, 4) > 0)
      cutting.cut.push_back(order[i]);
    else if (*rc::gen::inRange(0, 2) == 1)
      cutting.spoiled.push_back({order[i], random_length(0, 400), random_length(0, 400)});
  const auto& first = b.layout.rolls.back();
  if (!first.remnant) {
    // Never over what is cut already: that was there.
    Length cut_to;
    for (const auto& p : first.placements) {
      const bool is_cut = std::find(cutting.cut.begin(), cutting.cut.end(), p.piece) != cutting.cut.end();
      const bool lost = std::any_of(cutting.spoiled.begin(), cutting.spoiled.end(),
                                    [&](const auto& s) { return s.piece == p.piece; });
      if (is_cut || lost) cut_to = std::max(cut_to, p.v + p.length);
    }
    if (*rc::gen::inRange(0, 2) == 1)
      cutting.roll_length = std::max(cut_to, first.length_to_buy + random_length(-800, 800));
    for (int i = *rc::gen::inRange(0, 3); i > 0; --i) {
      const Length from = cut_to + random_length(0, 1600);
      cutting.flaws.push_back({from, from + random_length(1, 100)});
    }
  }
  for (const bool keep_plan : {true, false}) {
    const auto r = b.recover(cutting, keep_plan);
    if (!r.why_not.empty()) {
      RC_ASSERT(std::any_of(b.layout.rolls.begin(), b.layout.rolls.end(), [](auto& l) { return l.remnant; }));
      continue;
    }
    const auto breaches = b.breaches(cutting, r, keep_plan);
    if (!breaches.empty()) RC_FAIL(breaches.front());
  }
}
