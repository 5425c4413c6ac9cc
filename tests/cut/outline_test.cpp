// Packing true outlines, against its guarantees and an exact checker that knows nothing of it.
#include "cut/pack/convex_parts.h"
#include "cut/pack/lying.h"
#include "cut/pack/outlines.h"
#include "outline_samples.h"
#include "tiny_packings.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold::pack;
using namespace samples;

namespace {

OutlineOptions quick(std::int64_t work = 300'000, unsigned seed = 1) {
  OutlineOptions options;
  options.work = work, options.seed = seed;
  return options;
}

constexpr Ticks kWidth = 90;

std::vector<OutlinePiece> random_pieces(int most) {
  std::vector<OutlinePiece> pieces;
  for (Ticks n = number(1, most); n > 0; --n) {
    OutlinePiece piece{{any_outline()}};
    for (Ticks turns = number(0, 3); turns > 0; --turns)
      piece.ways.push_back(quarter_turn(piece.ways.back()));
    pieces.push_back(std::move(piece));
  }
  return pieces;
}

Outline scaled(Outline o, Ticks by) {
  for (auto& c : o.ring)
    c = {c.u * by, c.v * by};
  for (auto& h : o.holes)
    for (auto& c : h)
      c = {c.u * by, c.v * by};
  return o;
}

std::vector<Ticks> numbers(const OutlineAnswer& a) {
  std::vector<Ticks> all{a.length, a.bound, a.work};
  for (const auto& s : a.at)
    all.insert(all.end(), {s.way, s.by.u, s.by.v});
  return all;
}

/// Packed without breach; its length.
Ticks length_of(const std::vector<Outline>& outlines, Ticks width, std::int64_t work = 20'000'000) {
  std::vector<OutlinePiece> pieces;
  for (const auto& o : outlines)
    pieces.push_back({{o}});
  const auto answer = pack_outlines(pieces, width, quick(work));
  EXPECT_EQ(breach(pieces, width, answer), "");
  return answer.length;
}

Shape shape_of(const Outline& o) { // o begins at (0, 0)
  const auto e = extent(o.ring);
  Shape s{{}, {}, e.w(), e.l(), area_twice(o)};
  for (const auto& part : convex_parts(o)) {
    s.parts.push_back(from_lowest(part));
    Ring turned;
    for (const auto& c : part)
      turned.push_back(Corner{} - c);
    s.turned.push_back(from_lowest(turned));
  }
  return s;
}

} // namespace

RC_GTEST_PROP(Outlines, InsidesNeverMeetAndNothingLeavesTheStrip, ()) {
  const auto pieces = random_pieces(14);
  RC_ASSERT(breach(pieces, kWidth, pack_outlines(pieces, kWidth, quick())) == "");
}

RC_GTEST_PROP(Outlines, SameAnswerForTheSameSeedAndWork, ()) {
  const auto pieces = random_pieces(10);
  const auto seed = static_cast<unsigned>(number(0, 9));
  RC_ASSERT(numbers(pack_outlines(pieces, kWidth, quick(300'000, seed))) ==
            numbers(pack_outlines(pieces, kWidth, quick(300'000, seed))));
}

RC_GTEST_PROP(Outlines, MoreWorkIsNeverLonger, ()) {
  const auto pieces = random_pieces(10);
  Ticks last = kNoLimit;
  for (const std::int64_t work : {0, 10'000, 100'000, 600'000}) {
    const auto answer = pack_outlines(pieces, kWidth, quick(work));
    RC_ASSERT(breach(pieces, kWidth, answer) == "");
    RC_ASSERT(answer.length <= last);
    last = answer.length;
  }
}

RC_GTEST_PROP(Outlines, WhereOutlinesLieDoesNotMatter, ()) {
  auto pieces = random_pieces(8);
  const auto here = pack_outlines(pieces, kWidth, quick());
  for (auto& piece : pieces)
    for (auto& way : piece.ways)
      way = moved(way, {number(-1000, 1000), number(-1000, 1000)});
  const auto there = pack_outlines(pieces, kWidth, quick());
  RC_ASSERT(breach(pieces, kWidth, there) == "");
  RC_ASSERT(there.length == here.length);
}

RC_GTEST_PROP(Outlines, OrderAndUnitDoNotBreakAPacking, ()) {
  auto pieces = random_pieces(8);
  std::reverse(pieces.begin(), pieces.end());
  const Ticks unit = number(1, 100'000);
  for (auto& piece : pieces)
    for (auto& way : piece.ways)
      way = scaled(way, unit);
  const auto answer = pack_outlines(pieces, kWidth * unit, quick());
  RC_ASSERT(breach(pieces, kWidth * unit, answer) == "");
}

RC_GTEST_PROP(Outlines, RectanglesKeepBetweenTheLeastLengthAndAllInARow, ()) {
  std::vector<Box> boxes;
  std::vector<OutlinePiece> pieces;
  const Ticks width = number(3, 9);
  Ticks row = 0;
  for (Ticks n = number(1, 6); n > 0; --n) {
    boxes.push_back({number(1, width), number(1, 6)});
    pieces.push_back({{rectangle(boxes.back().w, boxes.back().l)}});
    row += boxes.back().l;
  }
  const auto answer = pack_outlines(pieces, width, quick());
  RC_ASSERT(breach(pieces, width, answer) == "");
  const Ticks least = tiny::least_length(boxes, width);
  RC_ASSERT(answer.length >= least && answer.length <= row);
  RC_ASSERT(answer.bound <= least);
}

RC_GTEST_PROP(Outlines, DepthIsNothingWhereInsidesAreApart, ()) {
  const auto begin = [](const Outline& o) { return moved(o, Corner{} - extent(o.ring).low); };
  const auto a = begin(any_outline()), b = begin(any_outline());
  const auto x = extent(a.ring), y = extent(b.ring);
  const Corner at{number(-y.w() - 1, x.w() + 1), number(-y.l() - 1, x.l() + 1)};
  // Small as they are, and so large that a double does not hold the products: a hair off or on.
  for (const Ticks unit : {Ticks{1}, number(1'000'000, 2'000'000)}) {
    const Corner there{at.u * unit + (unit > 1 ? number(-1, 1) : 0),
                       at.v * unit + (unit > 1 ? number(-1, 1) : 0)};
    const auto still = scaled(a, unit), moving = scaled(b, unit);
    std::int64_t work = 0;
    NoFits no_fits({shape_of(still), shape_of(moving)}, work);
    RC_ASSERT((no_fits.depth({0, {}}, {1, there}) > 0) == insides_meet(still, moved(moving, there)));
    RC_ASSERT(no_fits.depth({0, {}}, {1, there}) == no_fits.depth({1, there}, {0, {}}));
  }
}

RC_GTEST_PROP(Outlines, ConvexPartsFillTheOutlineOnce, ()) {
  const auto o = any_outline();
  Ticks area = 0;
  const auto parts = convex_parts(o);
  for (const auto& p : parts) {
    for (std::size_t i = 0; i < p.size(); ++i)
      RC_ASSERT(turn(p[i], p[(i + 1) % p.size()], p[(i + 2) % p.size()]) > 0);
    area += area_twice(p);
    for (const auto& q : parts)
      RC_ASSERT(&p == &q || !insides_meet({p, {}}, {q, {}}));
  }
  RC_ASSERT(area == area_twice(o));
}

RC_GTEST_PROP(Outlines, FilledDentsGainNoMoreThanTheyMay, ()) {
  const auto o = any_outline();
  const auto filled = without_dents(o, 1, 0.1);
  RC_ASSERT(static_cast<double>(area_twice(filled)) <= 1.1 * static_cast<double>(area_twice(o)));
  // What keeps clear of the filled outline keeps clear of the outline.
  const auto other = moved(any_outline(), {number(-20, 20), number(-20, 20)});
  RC_ASSERT(insides_meet(filled, other) || !insides_meet(o, other));
}

TEST(Outlines, NoPiecesNoLength) { EXPECT_EQ(pack_outlines({}, 10, quick()).length, 0); }

TEST(Outlines, AHoleTakesThePieceThatFitsIt) {
  const Outline frame{{{0, 0}, {100, 0}, {100, 80}, {0, 80}}, {{{30, 20}, {70, 20}, {70, 60}, {30, 60}}}};
  EXPECT_EQ(length_of({frame, rectangle(40, 40)}, 100), 80);
  const Ring kite{{50, 10}, {80, 40}, {50, 71}, {20, 40}};
  EXPECT_EQ(length_of({{frame.ring, {kite}}, {kite, {}}}, 100), 80);
}

TEST(Outlines, OnlyTheWaysAllowedAreUsed) {
  const Outline bar = rectangle(10, 70);
  EXPECT_EQ(length_of({bar}, 100), 70);
  const std::vector<OutlinePiece> either{{{bar, quarter_turn(bar)}}};
  EXPECT_EQ(pack_outlines(either, 100, quick()).length, 10);
  EXPECT_EQ(pack_outlines(either, 60, quick()).length, 70); // turned it is too wide
}

// Puzzles of our own: each fills a rectangle whole.
TEST(Outlines, PuzzlesComeOutWhole) {
  // Two Ls, one the other's half turn.
  const Outline l{{{0, 0}, {40, 0}, {40, 20}, {20, 20}, {20, 60}, {0, 60}}, {}};
  const Outline half_turn = quarter_turn(quarter_turn(l));
  EXPECT_EQ(length_of({l, half_turn}, 60), 60);
  // A square of four triangles about a point off its middle.
  const Corner p{37, 55};
  EXPECT_EQ(length_of({{{{0, 0}, {100, 0}, p}, {}},
                       {{{100, 0}, {100, 100}, p}, {}},
                       {{{100, 100}, {0, 100}, p}, {}},
                       {{{0, 100}, {0, 0}, p}, {}}},
                      100),
            100);
  // A strip torn along two jagged lines.
  const Ring first{{0, 0}, {90, 0}, {90, 30}, {60, 45}, {50, 20}, {25, 50}, {0, 35}};
  const Ring second{{0, 35}, {25, 50}, {50, 20}, {60, 45}, {90, 30}, {90, 80}, {45, 60}, {0, 75}};
  const Ring third{{0, 75}, {45, 60}, {90, 80}, {90, 120}, {0, 120}};
  EXPECT_EQ(length_of({{third, {}}, {first, {}}, {second, {}}}, 90), 120);
}

TEST(Outlines, TheSearchStopsWhenTold) {
  auto options = quick(1'000'000'000'000);
  int asked = 0;
  options.should_stop = [&] { return ++asked > 3; };
  std::vector<OutlinePiece> pieces;
  for (int i = 0; i < 12; ++i)
    pieces.push_back({{Outline{{{0, 0}, {31 + i, 0}, {17, 29 + i}}, {}}}});
  const auto answer = pack_outlines(pieces, 100, options);
  EXPECT_EQ(breach(pieces, 100, answer), "");
  EXPECT_EQ(asked, 4);
}

TEST(OutlineCheck, SeesWhatIsWrong) {
  const std::vector<OutlinePiece> two{{{rectangle(10, 10)}}, {{rectangle(10, 10)}}};
  OutlineAnswer a;
  a.at = {{0, {0, 0}}, {0, {10, 0}}}, a.length = 10, a.bound = 10;
  EXPECT_EQ(breach(two, 20, a), "");
  EXPECT_EQ(breach(two, 19, a), "a piece leaves the strip");
  a.length = 11;
  EXPECT_EQ(breach(two, 20, a), "the length is not the pieces'");
  a.length = 10, a.bound = 11;
  EXPECT_EQ(breach(two, 20, a), "the bound is above the length");
  a.at[1].by.u = 9;
  EXPECT_EQ(breach(two, 20, a), "pieces overlap");
  a.at[1].way = 1;
  EXPECT_EQ(breach(two, 20, a), "a piece lies in a way it may not");
  a.at.pop_back();
  EXPECT_EQ(breach(two, 20, a), "not every piece has a spot");
}

TEST(OutlineCheck, EqualOutlinesAndThoseInsideMeet) {
  const auto square = rectangle(10, 10);
  EXPECT_TRUE(insides_meet(square, square));
  EXPECT_TRUE(insides_meet(square, moved(rectangle(2, 2), {4, 4})));
  EXPECT_TRUE(insides_meet(square, moved(rectangle(10, 10), {5, 0})));
  EXPECT_FALSE(insides_meet(square, moved(rectangle(10, 10), {10, 3})));
  const Outline frame{{{0, 0}, {10, 0}, {10, 10}, {0, 10}}, {{{2, 2}, {8, 2}, {8, 8}, {2, 8}}}};
  EXPECT_FALSE(insides_meet(frame, moved(rectangle(6, 6), {2, 2})));
  EXPECT_TRUE(insides_meet(frame, moved(rectangle(7, 6), {2, 2})));
}
