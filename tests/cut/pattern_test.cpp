// Layouts of patterned goods.
#include "jobs.h"

#include "cut/rows.h"

using namespace treadfold;

TEST(Search, HalfDropStacksColumnsWhenThatIsShorterThanRows) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(36), inches(24), inches(12)};
  auto pieces = steps(12, inches(36), inches(20));
  for (auto& p : pieces)
    p.matched = true, p.match_group = "flight";
  const auto layout = good_layout(pieces, carpet);
  // Columns at a pitch of 24 in, every other one 12 in lower: 12 + 24 + 24 + 20.
  EXPECT_EQ(only_roll(layout).length_used, inches(80));
}

TEST(Search, LaysAPinwheelOfPatternedGoodsClose) {
  std::vector<CutPiece> pieces;
  add(pieces, 2, inches(84), inches(20)), add(pieces, 2, inches(60), inches(40));
  for (auto& p : pieces)
    p.matched = true, p.match_group = "stair";
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(12), inches(20), {}};
  EXPECT_EQ(good_layout(pieces, carpet).rolls.front().length_used, inches(80));
  carpet.laid = Laid::close;
  const auto close = good_layout(pieces, carpet);
  EXPECT_EQ(close.rolls.front().length_used, inches(60));
  EXPECT_TRUE(close.proved_least);
}

TEST(Search, PiecesWithPhasesOfTheirOwnKeepThem) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(27), inches(18), inches(6)};
  auto pieces = steps(9, inches(38), inches(21));
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    pieces[i].matched = i % 3 != 2, pieces[i].match_group = i % 2 ? "left" : "right";
    pieces[i].phase_u = inches(static_cast<int>(i)), pieces[i].phase_v = inches(-3 * static_cast<int>(i));
  }
  const auto layout = good_layout(pieces, carpet);
  EXPECT_GE(only_roll(layout).length_used, layout.length_without_pattern);
}

// Two flights, each with its motif on every nosing. Three pieces go side by side, two of one flight and one
// of the other, only if the flights' motifs lie right beside one another.
TEST(Search, FlightsFindHowTheirMotifsLieBesideOneAnother) {
  auto carpet = plain_carpet();
  carpet.roll_widths = {inches(158)};
  carpet.pattern = Pattern{inches(30), inches(33), {}};
  auto pieces = steps(20, inches(43), inches(23));
  add(pieces, 17, inches(42), inches(23));
  for (std::size_t i = 0; i < pieces.size(); ++i)
    pieces[i].matched = true, pieces[i].match_group = i < 20 ? "lower" : "upper";
  const auto layout = good_layout(pieces, carpet);
  EXPECT_LE(only_roll(layout).length_used, inches(12 * 33 + 23)); // thirteen rows
  EXPECT_GE(layout.lower_bound, inches(12 * 33));
}

// A floor of 240 in from goods of 144: its breadths are one match group, and the phase of the second is that
// of the floor's motif, 144 in to the left of its edge.
TEST(Search, BreadthsOfAFloorMatchAcrossTheirSeam) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(27), inches(18), inches(9)};
  std::vector<CutPiece> pieces;
  add(pieces, 1, inches(144), inches(60));
  add(pieces, 1, inches(96), inches(60));
  for (auto& p : pieces)
    p.matched = true, p.match_group = "floor";
  pieces[1].phase_u = inches(-144);
  const auto layout = good_layout(pieces, carpet);
  const auto& placed = only_roll(layout).placements;
  const auto& left = placed[placed[0].piece == pieces[0].id ? 0 : 1];
  const auto& right = placed[placed[0].piece == pieces[0].id ? 1 : 0];
  // What lies on the roll right of the left breadth's edge is what the right one begins with, whole repeats
  // on.
  const auto across = (right.u - left.u - inches(144)).ticks, along = (right.v - left.v).ticks;
  ASSERT_EQ(across % inches(27).ticks, 0);
  EXPECT_EQ((along - across / inches(27).ticks * inches(9).ticks) % inches(18).ticks, 0);
}

TEST(Pattern, SeveralCutsBeginOnTheSameMotifAndAreBoundByNoMoreThanTheyUse) {
  auto carpet = plain_carpet();
  carpet.pattern = Pattern{inches(18), inches(12), inches(6)};
  carpet.roll_length = inches(40);
  auto pieces = steps(4, feet(10), inches(27));
  for (auto& p : pieces)
    p.matched = true, p.match_group = "stair";
  Problems problems;
  const auto layout = lay_out(pieces, carpet, {}, problems);
  EXPECT_TRUE(check_layout(pieces, carpet, layout).empty());
  ASSERT_EQ(layout.rolls.size(), 4u);
  Length used;
  for (const auto& roll : layout.rolls) {
    used += roll.length_used;
    const auto &placed = roll.placements[0], &first = layout.rolls[0].placements[0];
    const auto columns = (placed.u - first.u).ticks / inches(18).ticks;
    EXPECT_EQ((placed.u - first.u).ticks % inches(18).ticks, 0);
    EXPECT_EQ((placed.v - first.v - inches(6) * columns).ticks % inches(12).ticks, 0);
  }
  EXPECT_LE(layout.lower_bound, used);
}

TEST(Pattern, ARowIsNoLongerThanTheLongestCutWhereverThePatternHasItsFirstPiece) {
  // The second lies at 39 beside the repeat of 40, so 19 behind the first. The third would go between them,
  // and the row would be 95 long.
  rows::Strip strip;
  strip.width = 144, strip.longest_row = 90, strip.longest_cut = 90, strip.repeat = rows::Repeat{12, 40, 0};
  const std::vector<rows::Rect> rects{{100, 60, 0}, {100, 76, 0, 0, 1}, {100, 19}};
  ASSERT_EQ(rows::find_motif_places(rects, 1, strip), -1);
  std::int64_t steps = 0;
  const auto packed = rows::pack(rects, {0, 1, 2}, {}, strip, steps);
  EXPECT_EQ(packed.at[1].v, 79);
  EXPECT_EQ(packed.at[2].v, 79 + 76);
}
