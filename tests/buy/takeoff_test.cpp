#include "buy/takeoff.h"

#include "buy/quantity.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

namespace treadfold {
namespace {

/// Everything take_off() reads, by value: fourteen box steps 36 in wide on 27 ft of 12 ft roll.
struct Given {
  std::vector<Layout> layouts;
  std::vector<Carpet> carpets;
  std::vector<FlightFixings> fixings;
  Cushion cushion;
  TackStrip strip;
  Supplies supplies;
  std::vector<Floor> floors;
  Length fraying_floors, floor_seams;
  LengthUnit unit = LengthUnit::inch;

  Takeoff take_off() const {
    return treadfold::take_off(
        {layouts, carpets, fixings, cushion, strip, supplies, floors, fraying_floors, floor_seams, unit});
  }
};

Given given(int steps = 14) {
  Given g;
  Carpet c;
  c.id = "twist";
  c.name = "Harbour twist";
  c.roll_widths = {kFoot * 12};
  c.sold_in = inches(3);
  g.carpets = {c};
  RollLayout roll;
  roll.stock = "roll 12'";
  roll.width = kFoot * 12;
  roll.length_used = kFoot * 26 + inches(10);
  roll.length_to_buy = kFoot * 27;
  roll.placements.resize(14);
  Layout layout;
  layout.carpet = "twist";
  layout.rolls = {roll};
  g.layouts = {layout};
  g.cushion = {"Dense foam", inches(0, 3, 8), kFoot * 6, kFoot * 45, ""};
  g.strip = {inches(1), inches(0, 1, 4), kFoot * 4, 100, 55, ""};
  FlightFixings flight;
  flight.flight = "main";
  for (int i = 1; i <= steps; ++i) {
    Fixings f;
    f.step = i;
    f.strips = {{StripPlace::tread, {}, inches(35), inches(0, 1, 4), 90, 90},
                {StripPlace::riser, {}, inches(35), inches(0, 1, 4), 90, 90}};
    f.pad.width = inches(35);
    f.pad.length = inches(12);
    f.hot_melt = inches(20);
    f.latex = inches(60);
    f.staple_run = inches(37);
    flight.steps.push_back(f);
  }
  flight.steps.back().seam_tape = inches(36);
  g.fixings = {flight};
  return g;
}

const TakeoffLine* find(const Takeoff& t, const std::string& item) {
  for (const auto& l : t.lines)
    if (l.item.find(item) != std::string::npos) return &l;
  return nullptr;
}

TEST(Takeoff, CarpetIsRollWidthByLengthToBuy) {
  const auto t = given().take_off();
  const auto* l = find(t, "Carpet, 'Harbour twist'");
  ASSERT_NE(l, nullptr);
  EXPECT_DOUBLE_EQ(l->quantity, 27);
  EXPECT_EQ(l->unit, "ft of roll");
  EXPECT_NE(l->need.find("36.00 sq yd"), std::string::npos)
      << l->need; // 12 × 27 ft, docs/sources.md: 15 × 20 ft room
  EXPECT_NE(l->rule.find("14 pieces"), std::string::npos);
  EXPECT_NE(l->rule.find("rounded up to how it is sold"), std::string::npos);
}

TEST(Takeoff, ARemnantIsNotBought) {
  auto g = given();
  g.layouts[0].rolls[0].remnant = true;
  g.layouts[0].rolls[0].stock = "hall piece";
  const auto t = g.take_off();
  const auto* l = find(t, "remnant 'hall piece'");
  ASSERT_NE(l, nullptr);
  EXPECT_EQ(l->unit, "remnant on hand");
  EXPECT_NE(l->rule.find("nothing is bought"), std::string::npos);
}

TEST(Takeoff, MetricJobsBuyMetres) {
  auto g = given();
  g.unit = LengthUnit::millimetre;
  g.layouts[0].rolls[0].width = millimetres(4000);
  g.layouts[0].rolls[0].length_to_buy = millimetres(7500);
  const auto t = g.take_off();
  const auto* l = find(t, "Carpet");
  ASSERT_NE(l, nullptr);
  EXPECT_DOUBLE_EQ(l->quantity, 7.5);
  EXPECT_EQ(l->unit, "m of roll");
  EXPECT_EQ(l->need, "7.50 m of 4.00 m roll = 30.00 m²");
}

// docs/sources.md: tack strip in 4 ft pieces, 100 a case = 400 ft.
TEST(Takeoff, StripComesInCasesOfAHundredPieces) {
  auto g = given(50); // 100 strips of 35 in, one from each 4 ft piece: 400 ft
  auto t = g.take_off();
  EXPECT_EQ(t.strip.size(), 100u);
  EXPECT_EQ(t.strip_lower_bound, 100);
  EXPECT_DOUBLE_EQ(find(t, "Tack strip")->quantity, 1);
  EXPECT_EQ(find(t, "Tack strip")->unit, "case of 100");
  EXPECT_EQ(g.strip.stock_length * 100, kFoot * 400);
  g.fixings[0].steps.push_back(g.fixings[0].steps[0]);
  t = g.take_off();
  EXPECT_DOUBLE_EQ(find(t, "Tack strip")->quantity, 2);
  EXPECT_EQ(find(t, "Tack strip")->unit, "cases of 100");
}

TEST(Takeoff, AFloorTakesStripRoundAllSidesButTheLandingEdge) {
  auto g = given(1);
  g.fixings[0].steps[0].strips.clear();
  const double w = 1828.8, d = 914.4; // 6 × 3 ft
  g.floors = {{"landing", {{0, 0}, {w, 0}, {w, d}, {0, d}}, "twist", ""}};
  const auto t = g.take_off();
  Length sum;
  for (const auto& s : t.strip)
    for (Length c : s.cuts)
      sum += c;
  EXPECT_EQ(sum, kFoot * 12); // 3 + 6 + 3, not the front 6
  EXPECT_EQ(t.pad_cuts.size(), 2u);
  EXPECT_EQ(t.pad_cuts.back().flight, "landing");
  EXPECT_EQ(t.pad_cuts.back().width, kFoot * 6);
  EXPECT_EQ(t.pad_cuts.back().length, kFoot * 3);
}

TEST(Takeoff, StripRunsAllRoundAnOpeningOfAFloor) {
  auto g = given(1);
  const double w = (kFoot * 12).mm(), d = (kFoot * 10).mm(), ft = kFoot.mm();
  Floor hall{"hall", {{0, 0}, {w, 0}, {w, d}, {0, d}}, "twist", ""};
  hall.openings = {{"hearth", {{3 * ft, 3 * ft}, {8 * ft, 3 * ft}, {8 * ft, 5 * ft}, {3 * ft, 5 * ft}}}};
  g.floors = {hall};
  const auto t = g.take_off();
  ASSERT_EQ(t.floor_strips.size(), 2u);
  EXPECT_EQ(t.floor_strips[1].name, "hall, hearth");
  EXPECT_EQ(t.floor_strips[1].lengths, (std::vector<Length>{kFoot * 5, kFoot * 2, kFoot * 5, kFoot * 2}));
}

TEST(Takeoff, FloorsStripsAreNamedSideBySide) {
  auto g = given(1);
  const double w = 1828.8, d = 914.4; // 6 × 3 ft
  g.floors = {{"landing", {{0, 0}, {w, 0}, {w, d}, {0, d}}, "twist", ""}, {"unmeasured", {}, "twist", ""}};
  const auto t = g.take_off();
  ASSERT_EQ(t.floor_strips.size(), 1u);
  EXPECT_EQ(t.floor_strips[0].name, "landing");
  EXPECT_EQ(t.floor_strips[0].lengths, (std::vector<Length>{kFoot * 3, kFoot * 6, kFoot * 3}));
}

TEST(Takeoff, CutsOfStripAreCountedAsTheyAreCut) {
  auto g = given(1);
  g.fixings[0].steps[0].strips = {{StripPlace::tread, {}, kFoot * 9, {}, 90, 90},
                                  {StripPlace::riser, {}, kFoot * 2, {}, 90, 90}};
  const auto t = g.take_off(); // 9 ft from stock of 4 ft: 4 + 4 + 1, and the 2 ft
  EXPECT_NE(find(t, "Tack strip")->need.find("11' 0\" in 4 cuts"), std::string::npos)
      << find(t, "Tack strip")->need;
}

TEST(Takeoff, CushionOfWholeRows) {
  const auto t = given().take_off(); // 35 in, two to a row of 72 in: seven rows of 12 in
  EXPECT_EQ(t.pad_roll_length, inches(84));
  EXPECT_EQ(t.pad_roll_width, kFoot * 6);
  EXPECT_EQ(t.pad_cuts.size(), 14u);
  EXPECT_DOUBLE_EQ(find(t, "Cushion")->quantity, 1);
  EXPECT_EQ(find(t, "Cushion")->unit, "roll");
}

TEST(Takeoff, LatexIsForTheStairAndForFloorsThatFray) {
  auto g = given(1); // 60 in of cut edge
  g.supplies.latex_per_bottle = inches(60);
  EXPECT_DOUBLE_EQ(find(g.take_off(), "Latex")->quantity, 1);
  g.fraying_floors = Length{1};
  EXPECT_DOUBLE_EQ(find(g.take_off(), "Latex")->quantity, 2);
}

TEST(Takeoff, SeamsOfFloorsAreTapedAndBothTheirEdgesSealed) {
  auto g = given(1); // 60 in of cut edge, and a landing's seam of 36 in
  g.supplies.latex_per_bottle = inches(60), g.supplies.tape_per_roll = inches(36);
  g.floor_seams = inches(30);
  EXPECT_DOUBLE_EQ(find(g.take_off(), "Latex")->quantity, 2);
  EXPECT_DOUBLE_EQ(find(g.take_off(), "Seaming tape")->quantity, 2);
}

TEST(Takeoff, NoCushionNoLine) {
  auto g = given();
  g.cushion = {};
  const auto t = g.take_off();
  EXPECT_EQ(find(t, "Cushion"), nullptr);
  EXPECT_TRUE(t.pad_cuts.empty());
}

TEST(Takeoff, WithoutCoverageFiguresTheNeedIsToldAndNothingCounted) {
  const auto t = given().take_off();
  for (const char* item : {"Hot-melt", "Latex", "Staples", "Seaming tape"}) {
    const auto* l = find(t, item);
    ASSERT_NE(l, nullptr) << item;
    EXPECT_FALSE(l->counted) << item;
    EXPECT_EQ(l->quantity, 0) << item;
    EXPECT_NE(l->rule.find("Not counted: say how"), std::string::npos) << item;
    EXPECT_FALSE(l->need.empty());
  }
  EXPECT_NE(find(t, "Latex")->need.find(show_run(inches(60) * 14, LengthUnit::inch)), std::string::npos);
  EXPECT_NE(find(t, "Staples")->need.find("182 staples"), std::string::npos); // 37 in at 3 in: 13 a step
}

TEST(Takeoff, CoverageFiguresAreRoundedUpToWholePackages) {
  auto g = given();
  g.supplies.hot_melt_per_stick = inches(40); // 280 in: 7 sticks
  g.supplies.latex_per_bottle = inches(839);  // 840 in: 2 bottles
  g.supplies.staples_per_box = 182;
  g.supplies.tape_per_roll = inches(36);
  auto t = g.take_off();
  EXPECT_EQ(find(t, "Hot-melt")->quantity, 7);
  EXPECT_EQ(find(t, "Hot-melt")->unit, "sticks");
  EXPECT_EQ(find(t, "Latex")->quantity, 2);
  EXPECT_EQ(find(t, "Latex")->unit, "bottles");
  EXPECT_EQ(find(t, "Staples")->quantity, 1);
  EXPECT_EQ(find(t, "Seaming tape")->quantity, 1);
  EXPECT_EQ(find(t, "Seaming tape")->unit, "roll");
  g.supplies.sticks_per_box = 6;
  g.supplies.staples_per_box = 181;
  t = g.take_off();
  EXPECT_EQ(find(t, "Hot-melt")->quantity, 2);
  EXPECT_EQ(find(t, "Hot-melt")->unit, "boxes");
  EXPECT_EQ(find(t, "Staples")->quantity, 2);
}

TEST(Takeoff, BindingOfOneKindIsBoughtTogether) {
  auto g = given();
  EXPECT_EQ(find(g.take_off(), "Binding"), nullptr);
  g.fixings.push_back({"attic", {}, "tape", kFoot * 30});
  g.fixings.push_back({"cellar", {}, "tape", kFoot * 31});
  g.fixings.push_back({"porch", {}, "", kFoot * 4});
  auto t = g.take_off();
  EXPECT_EQ(t.binding, kFoot * 65);
  EXPECT_FALSE(find(t, "Binding")->counted);
  g.supplies.binding_per_roll = kFoot * 60;
  t = g.take_off();
  const auto* l = find(t, "Binding, 'tape'");
  ASSERT_NE(l, nullptr);
  EXPECT_EQ(l->quantity, 2);
  EXPECT_EQ(l->unit, "rolls");
  EXPECT_NE(l->need.find("61'"), std::string::npos) << l->need;
  EXPECT_EQ(t.lines.back().item, "Binding");
  EXPECT_EQ(t.lines.back().quantity, 1);
}

TEST(Takeoff, WhatIsNotNeededHasNoLine) {
  auto g = given();
  for (auto& f : g.fixings[0].steps)
    f.hot_melt = f.latex = f.staple_run = f.seam_tape = {}, f.strips.clear();
  const auto t = g.take_off();
  EXPECT_EQ(t.lines.size(), 2u); // carpet and cushion
}

TEST(Takeoff, EveryLineHasARuleInOneSentence) {
  auto g = given();
  g.fixings[0].binding_length = kFoot;
  for (const auto& l : g.take_off().lines) {
    EXPECT_FALSE(l.need.empty()) << l.item;
    ASSERT_FALSE(l.rule.empty()) << l.item;
    EXPECT_EQ(l.rule.back(), '.') << l.item;
  }
}

RC_GTEST_PROP(Takeoff, EveryStripOfEveryStepIsCutOnce, ()) {
  auto g = given(*rc::gen::inRange(1, 30));
  std::vector<Length> wanted;
  for (auto& f : g.fixings[0].steps)
    for (auto& s : f.strips) {
      s.to = inches(*rc::gen::inRange(1, 48));
      wanted.push_back(s.length());
    }
  const auto t = g.take_off();
  std::vector<Length> made;
  for (const auto& s : t.strip) {
    Length sum;
    for (Length c : s.cuts)
      made.push_back(c), sum += c;
    RC_ASSERT(sum + s.left_over == g.strip.stock_length);
    RC_ASSERT(s.left_over >= Length{});
  }
  std::sort(made.begin(), made.end());
  std::sort(wanted.begin(), wanted.end());
  RC_ASSERT(made == wanted);
  RC_ASSERT(static_cast<int>(t.strip.size()) >= t.strip_lower_bound);
}

} // namespace
} // namespace treadfold
