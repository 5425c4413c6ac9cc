// Worked examples that were published by others, and what follows from them. The names say whose.
#include "jobs.h"

using namespace treadfold;

namespace {

double square_yards(const Layout& layout) {
  const auto& roll = only_roll(layout);
  return roll.width.inches() * roll.length_to_buy.inches() / 1296.0;
}

} // namespace

TEST(StairsTheSpruce, TwelveBoxStepsOf36By18InchesTakeThreeRowsOfFour) {
  const auto layout = good_layout(steps(12, inches(36), inches(18)), plain_carpet());
  EXPECT_EQ(across(layout), 4);
  EXPECT_EQ(only_roll(layout).length_used, inches(54));
  EXPECT_DOUBLE_EQ(square_yards(layout), 6.00);
  EXPECT_TRUE(layout.proved_least);
  EXPECT_TRUE(only_roll(layout).offcuts.empty());
}

TEST(StairsBoulderLibrary, TurnedSidesOfTwoAndAHalfInchesLeaveOnlyThreeAcross) {
  const auto layout = good_layout(steps(12, inches(38, 1, 2), inches(18)), plain_carpet());
  EXPECT_EQ(across(layout), 3);
  EXPECT_EQ(only_roll(layout).length_used, inches(72));
  EXPECT_TRUE(layout.proved_least);
}

TEST(StairsMathAnswers, TwelveStepsOf38By21InchesTakeSevenFeet) {
  const auto layout = good_layout(steps(12, inches(38), inches(21)), plain_carpet());
  EXPECT_EQ(across(layout), 3);
  EXPECT_EQ(only_roll(layout).length_to_buy, feet(7));
  EXPECT_NEAR(square_yards(layout), 9.33, 0.005);
  EXPECT_TRUE(layout.proved_least);
}

TEST(StairsTheSpruce, TwelvePieStepsOf48By30InchesTakeTenFeet) {
  const auto layout = good_layout(steps(12, inches(48), inches(30)), plain_carpet());
  EXPECT_EQ(across(layout), 3);
  EXPECT_EQ(only_roll(layout).length_to_buy, feet(10));
  EXPECT_NEAR(square_yards(layout), 13.33, 0.005);
  EXPECT_TRUE(layout.proved_least);
}

// The published 1.204 m comes of counting parts of a row; 14 steps at 5 across are three whole rows.
TEST(StairsCentimetres, FourteenStepsOf68By43OnFourMetresTakeWholeRowsNotFractions) {
  auto carpet = plain_carpet();
  carpet.roll_widths = {millimetres(4000)};
  carpet.sold_in = millimetres(1);
  const auto layout = good_layout(steps(14, millimetres(680), millimetres(430)), carpet);
  EXPECT_EQ(across(layout), 5);
  EXPECT_EQ(only_roll(layout).length_to_buy, millimetres(1290));
  EXPECT_EQ(layout.lower_bound, millimetres(1290));
  EXPECT_TRUE(layout.proved_least);
}

namespace {

// Breadths the full width of the goods, cut in sequence. Where they lie side by side on the floor, the motifs
// of the next breadth must have moved along by the drop: its phase does so.
Layout breadths(int count, Length length, Length repeat, Length drop) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{feet(12), repeat, drop};
  auto pieces = steps(count, feet(12), length);
  for (int i = 0; i < count; ++i) {
    auto& p = pieces[static_cast<std::size_t>(i)];
    p.matched = true, p.match_group = "floor";
    p.phase_v = drop * i;
  }
  return good_layout(pieces, carpet);
}

} // namespace

TEST(PatternStripsComputed, TwoBreadthsOf210AtRepeat24SetMatch) {
  const auto layout = breadths(2, inches(210), inches(24), {});
  EXPECT_EQ(only_roll(layout).length_used, inches(426)); // 35.5 ft
  EXPECT_EQ(layout.length_without_pattern, feet(35));
  EXPECT_TRUE(layout.proved_least) << layout.bound_name;
}

TEST(PatternStripsComputed, TwoBreadthsOf210AtRepeat24HalfDrop) {
  EXPECT_EQ(only_roll(breadths(2, inches(210), inches(24), inches(12))).length_used, inches(438)); // 36.5 ft
}

TEST(PatternStripsComputed, ThreeBreadthsOf126AtRepeat36SetMatch) {
  const auto layout = breadths(3, inches(126), inches(36), {});
  EXPECT_EQ(only_roll(layout).length_used, inches(414)); // 34.5 ft
  EXPECT_TRUE(layout.proved_least) << layout.bound_name;
}

TEST(PatternStripsComputed, ThreeBreadthsOf126AtRepeat36HalfDrop) {
  const auto layout = breadths(3, inches(126), inches(36), inches(18));
  EXPECT_EQ(only_roll(layout).length_used, inches(378)); // 31.5 ft, as if there were no pattern
  EXPECT_EQ(layout.length_without_pattern, inches(378));
  EXPECT_TRUE(layout.proved_least);
}

TEST(PatternPitchComputed, SameMotifOnEveryNoseOf20InchStepsAtRepeat18Needs36EachRow) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(36), inches(18), {}};
  auto pieces = steps(12, inches(36), inches(20));
  for (auto& p : pieces)
    p.matched = true, p.match_group = "flight";
  const auto layout = good_layout(pieces, carpet);
  EXPECT_EQ(across(layout), 4);
  EXPECT_EQ(only_roll(layout).length_used, inches(36 + 36 + 20));
  EXPECT_TRUE(layout.proved_least) << layout.bound_name;
}

namespace {

// One breadth of the whole width, and fill pieces of equal size side by side.
Layout room(Length main, int fills, Length fill_width, Length fill_length) {
  std::vector<CutPiece> pieces;
  add(pieces, 1, feet(12), main);
  add(pieces, fills, fill_width, fill_length);
  return good_layout(pieces, plain_carpet());
}

} // namespace

TEST(RoomsConstructionWork, FifteenBySixteenFeetTakesTwentyFeet) {
  const auto layout = room(feet(16), 4, feet(3), feet(4));
  EXPECT_EQ(only_roll(layout).length_to_buy, feet(20));
  EXPECT_NEAR(square_yards(layout), 26.67, 0.005);
  EXPECT_TRUE(layout.proved_least);
}

TEST(RoomsSellersPage, FifteenByTwentyFeetWithThreeFillsOfFourBySevenTakes27Feet) {
  const auto layout = room(feet(20), 3, feet(4), feet(7));
  EXPECT_EQ(only_roll(layout).length_to_buy, feet(27));
  EXPECT_DOUBLE_EQ(square_yards(layout), 36.0);
}

TEST(RoomsJiskha, FifteenByTwentyOneFeetTakes28Feet) {
  const auto layout = room(feet(21), 3, feet(4), feet(7));
  EXPECT_EQ(only_roll(layout).length_to_buy, feet(28));
  EXPECT_NEAR(square_yards(layout), 37.33, 0.005);
}
