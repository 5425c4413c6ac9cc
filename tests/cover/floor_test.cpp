// Floors that no roll covers in one piece: the breadths cover them once, and each fits the roll.
#include "steps.h"

#include "cover/floor.h"
#include "cover/rough_outline.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

using Corners = std::vector<PlanPoint>;

double area(const Corners& p) {
  double twice = 0;
  for (std::size_t i = 0; i < p.size(); ++i)
    twice += cross(p[i], p[(i + 1) % p.size()]);
  return twice / 2;
}

bool inside(const Corners& p, PlanPoint at) {
  bool in = false;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const auto &a = p[i], &b = p[(i + 1) % p.size()];
    if ((a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x)) in = !in;
  }
  return in;
}

/// Columns of whole feet, front and back of each anywhere: corners often lie on seams.
Corners columns() {
  const int count = *rc::gen::inRange(1, 9);
  Corners front, back;
  for (int i = 0; i < count; ++i) {
    const double low = *rc::gen::inRange(0, 4) * 304.8, high = *rc::gen::inRange(5, 12) * 304.8;
    for (const int end : {i, i + 1}) {
      front.push_back({4 * end * 304.8, low});
      back.push_back({4 * end * 304.8, high});
    }
  }
  front.insert(front.end(), back.rbegin(), back.rend());
  Corners corners;
  for (const auto& c : front)
    if (corners.empty() || !(corners.back() == c)) corners.push_back(c);
  return corners;
}

/// Within columns(), whose columns all have what lies from 3 ft to 5 ft; often on seams.
std::vector<FloorOpening> in_columns(const Corners& columns) {
  double end = 0;
  for (const auto& c : columns)
    end = std::max(end, c.x);
  std::vector<FloorOpening> openings;
  double x = 0;
  while (*rc::gen::inRange(0, 3) > 0) {
    const double left = x + 152.4 * *rc::gen::inRange(1, 12), right = left + 152.4 * *rc::gen::inRange(1, 40);
    if (right >= end) break;
    const double front = 304.8 * 3 + *rc::gen::inRange(1, 300), back = front + *rc::gen::inRange(1, 300);
    openings.push_back({"hearth", {{left, front}, {right, front}, {right, back}, {left, back}}});
    x = right;
  }
  return openings;
}

/// As far from its middle as chance will have it, in each of several directions.
Corners star() {
  const int count = *rc::gen::inRange(3, 12);
  Corners corners;
  for (int i = 0; i < count; ++i) {
    const double turn = 2 * std::numbers::pi * i / count, far = *rc::gen::inRange(300, 9000);
    corners.push_back({far * std::cos(turn), far * std::sin(turn)});
  }
  return corners;
}

/// Points all over where floors may lie, on none of their edges.
auto some_points() {
  return [dice = std::mt19937(*rc::gen::arbitrary<unsigned>())]() mutable {
    const auto mm = [&] { return static_cast<double>(dice() % 20000) - 9999.63; };
    const double x = mm();
    return PlanPoint{x, mm()};
  };
}

Floor floor_of(Corners corners) {
  Floor floor;
  floor.name = "hall", floor.carpet = "main", floor.corners = std::move(corners);
  return floor;
}

Corners rectangle(double width_ft, double length_ft) {
  const double w = width_ft * 304.8, l = length_ft * 304.8;
  return {{0, 0}, {w, 0}, {w, l}, {0, l}};
}

Carpet goods(Length width) {
  auto carpet = usual_carpet();
  carpet.roll_widths = {width};
  return carpet;
}

std::vector<Piece> covered(const Floor& floor, const Carpet& carpet) {
  return cover_floor(floor, {carpet, {}, usual_allowances(), LengthUnit::inch}, "F");
}

double extent(const Piece& piece, double FlatPoint::*axis) {
  return (*std::max_element(piece.outline.begin(), piece.outline.end(),
                            [&](auto a, auto b) { return a.*axis < b.*axis; })).*
         axis;
}

Corners plan_of(const FlatPath& path) {
  Corners corners;
  for (const auto& p : path)
    corners.push_back({p.u, -p.v});
  return corners;
}
Corners plan_of(const Piece& piece) { return plan_of(piece.outline); }

bool carpeted(const Piece& piece, PlanPoint at) {
  return inside(plan_of(piece), at) &&
         std::none_of(piece.openings.begin(), piece.openings.end(),
                      [&](const Opening& o) { return inside(plan_of(o.hole), at); });
}

bool carpeted(const Floor& floor, PlanPoint at) {
  return inside(floor.corners, at) &&
         std::none_of(floor.openings.begin(), floor.openings.end(),
                      [&](const FloorOpening& o) { return inside(o.corners, at); });
}

} // namespace

RC_GTEST_PROP(Breadths, CoverTheFloorOnceAndFitTheRoll, ()) {
  const bool in_whole_feet = *rc::gen::inRange(0, 2) > 0;
  const auto corners = in_whole_feet ? columns() : star();
  auto floor = floor_of(corners);
  if (in_whole_feet) floor.openings = in_columns(corners);
  floor.fill_pieces = *rc::gen::inRange(1, 5);
  auto carpet = goods(inches(*rc::gen::inRange(27, 180)));
  if (*rc::gen::inRange(0, 2))
    carpet.pattern = Pattern{inches(*rc::gen::inRange(3, 27)), inches(20), inches(10)};
  const auto pieces = covered(floor, carpet);

  double sum = 0;
  for (const auto& piece : pieces) {
    RC_ASSERT(area(plan_of(piece)) > 0);
    sum += net_area_mm2(piece);
    RC_ASSERT(piece.cut_width <= carpet.roll_widths.front());
    RC_ASSERT(piece.cut_width >= piece.net_width + piece.trim_left + piece.trim_right);
    // Where it ends without another piece to meet it, there is a wall.
    const auto part = piece.breadth.value_or(FloorPart{});
    const auto meets = [&](auto mine, auto theirs) {
      return std::any_of(pieces.begin(), pieces.end(), [&](const Piece& p) {
        return &p != &piece && std::abs(mine(piece) - theirs(p)) < 1e-6;
      });
    };
    const auto low_u = [](const Piece& p) { return p.net_origin.u; };
    const auto high_u = [](const Piece& p) { return extent(p, &FlatPoint::u); };
    const auto low_v = [](const Piece& p) { return p.net_origin.v; };
    const auto high_v = [](const Piece& p) { return extent(p, &FlatPoint::v); };
    const auto trim = usual_allowances().floor_trim;
    const auto at_wall = [&](Length given) { // what the roll does not give cannot be had
      return given == trim ||
             (given < trim && piece.cut_width + inches(0, 1, 16) > carpet.roll_widths.front());
    };
    RC_ASSERT((part.seam_left ? meets(low_u, high_u) : at_wall(piece.trim_left)));
    RC_ASSERT((part.seam_right ? meets(high_u, low_u) : at_wall(piece.trim_right)));
    RC_ASSERT((part.seam_back ? meets(low_v, high_v) : piece.trim_back == trim));
    RC_ASSERT((part.seam_front ? meets(high_v, low_v) : piece.trim_foot == trim));
  }
  double net = area(corners);
  for (const auto& opening : floor.openings)
    net -= area(opening.corners);
  RC_ASSERT(std::abs(sum - net) < 1 + 1e-9 * sum); // mm²

  auto points = some_points();
  for (int i = 0; i < 500; ++i) {
    const PlanPoint at = points();
    const auto times =
        std::count_if(pieces.begin(), pieces.end(), [&](const Piece& p) { return carpeted(p, at); });
    RC_ASSERT(times == (carpeted(floor, at) ? 1 : 0));
  }
}

TEST(Breadths, AFloorThatTheRollCoversIsOnePiece) {
  const auto pieces = covered(floor_of(rectangle(11.5, 30)), goods(kFoot * 12));
  ASSERT_EQ(pieces.size(), 1u);
  EXPECT_EQ(pieces[0].id, "F");
  EXPECT_EQ(pieces[0].cut_width, kFoot * 12);
  EXPECT_FALSE(pieces[0].breadth);
}

TEST(Breadths, AreTrimmedAtWallsAndSeams) {
  const auto pieces = covered(floor_of(rectangle(25, 10)), goods(kFoot * 12));
  ASSERT_EQ(pieces.size(), 3u);
  EXPECT_EQ(pieces[0].cut_width, kFoot * 12);
  EXPECT_EQ(pieces[1].cut_width, kFoot * 12);
  // 25 ft less 12 ft, of which 3 1/2 in are trimmed, and 12 ft, of which 1 in is; and as much as is trimmed.
  EXPECT_EQ(pieces[2].cut_width, inches(12 + 4, 1, 2) + inches(3, 1, 2));
  EXPECT_EQ(pieces[2].id, "F-3");
  EXPECT_EQ(pieces[2].kind, "fill of a floor");
  EXPECT_EQ(pieces[1].trim_left, kSeamTrim);
  EXPECT_EQ(pieces[2].trim_right, usual_allowances().floor_trim);
  for (const auto& piece : pieces) {
    const auto seams = std::count_if(piece.lines.begin(), piece.lines.end(),
                                     [](const FlatLine& l) { return l.role == LineRole::seam; });
    EXPECT_EQ(seams, piece.id == "F-2" ? 2 : 1);
  }
}

// Twelve repeats of 12 in lie on 12 ft of goods, on 11 ft 11 in eleven (docs/sources.md: fcimag 84819).
TEST(Breadths, OfAPatternAreSoManyRepeatsApart) {
  auto carpet = goods(kFoot * 12);
  carpet.pattern = Pattern{inches(12), inches(20), {}};
  const auto second = [&] { return covered(floor_of(rectangle(40, 10)), carpet)[1].net_width; };
  EXPECT_EQ(second(), kFoot * 12);
  carpet.selvage = inches(0, 1, 2);
  EXPECT_EQ(second(), kFoot * 11);
}

TEST(Breadths, AFillIsNoSliver) {
  const auto pieces = covered(floor_of(rectangle(12, 10)), goods(kFoot * 12));
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[1].net_width, inches(6));
}

TEST(Breadths, AFillInPiecesIsCutInEqualLengths) {
  auto floor = floor_of(rectangle(15, 20));
  floor.fill_pieces = 3;
  const auto pieces = covered(floor, goods(kFoot * 12));
  ASSERT_EQ(pieces.size(), 4u);
  EXPECT_LE(pieces[1].cut_length - pieces[3].cut_length, inches(0, 1, 4));
  EXPECT_LE(pieces[3].cut_length - pieces[1].cut_length, inches(0, 1, 4));
  std::vector<FloorPart> parts;
  for (const auto& piece : pieces)
    parts.push_back(*piece.breadth);
  const double across = pieces[1].net_width.mm();
  EXPECT_NEAR(seams_mm(parts), 20 * 304.8 + 2 * across, 1e-6);
}

RC_GTEST_PROP(RoughOutlines, OfFloorsHoldTheNetWithItsAllowancesEverywhere, ()) {
  const auto floor = floor_of(*rc::gen::inRange(0, 2) ? columns() : star());
  const auto piece = covered(floor, goods(kFoot * 200)).front();
  const auto step = cut_step(LengthUnit::inch);
  Corners ring;
  for (const auto& [u, v] : rough_outline(piece, step, true).ring) {
    RC_ASSERT(u.ticks % step.ticks == 0 && v.ticks % step.ticks == 0);
    ring.push_back({u.mm(), v.mm()});
  }
  if (ring.empty())
    ring = {{0, 0},
            {piece.cut_width.mm(), 0},
            {piece.cut_width.mm(), piece.cut_length.mm()},
            {0, piece.cut_length.mm()}};
  const auto reach = [&](auto less, double PlanPoint::*axis) {
    return (*std::min_element(ring.begin(), ring.end(),
                              [&](auto a, auto b) { return less(a.*axis, b.*axis); })).*
           axis;
  };
  RC_ASSERT(reach(std::less<>(), &PlanPoint::x) == 0);
  RC_ASSERT(reach(std::less<>(), &PlanPoint::y) == 0);
  RC_ASSERT(reach(std::greater<>(), &PlanPoint::x) == piece.cut_width.mm());
  RC_ASSERT(reach(std::greater<>(), &PlanPoint::y) == piece.cut_length.mm());

  const double more_u = (piece.cut_width - piece.net_width).mm(),
               more_v = (piece.cut_length - piece.net_length).mm();
  auto points = some_points();
  for (int i = 0; i < 500; ++i) {
    const PlanPoint at = points();
    if (!inside(floor.corners, at)) continue;
    const PlanPoint in_cut{at.x - piece.net_origin.u, -at.y - piece.net_origin.v};
    for (const double u : {0.0, more_u / 3, more_u})
      for (const double v : {0.0, more_v / 3, more_v})
        RC_ASSERT(inside(ring, {in_cut.x + u, in_cut.y + v}));
  }
  // Corners are the hardest.
  for (const auto& c : piece.outline)
    for (const double u : {1e-3, more_u - 1e-3})
      for (const double v : {1e-3, more_v - 1e-3}) {
        const PlanPoint p{c.u - piece.net_origin.u + u, c.v - piece.net_origin.v + v};
        RC_ASSERT(inside(ring, p));
      }
  RC_TAG(area(ring) < 0.9 * piece.cut_width.mm() * piece.cut_length.mm() ? "hollow" : "whole");
}

TEST(RoughOutlines, OfAnLShapedFloorKeepTheHollow) {
  const double ft = 304.8;
  const auto floor =
      floor_of({{0, 0}, {10 * ft, 0}, {10 * ft, 4 * ft}, {4 * ft, 4 * ft}, {4 * ft, 12 * ft}, {0, 12 * ft}});
  const auto piece = covered(floor, goods(kFoot * 12)).front();
  double twice = 0;
  const auto ring = rough_outline(piece, cut_step(LengthUnit::inch), true).ring;
  ASSERT_EQ(ring.size(), 6u);
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto &a = ring[i], &b = ring[(i + 1) % ring.size()];
    twice += a.first.inches() * b.second.inches() - b.first.inches() * a.second.inches();
  }
  // 10 ft 6 in by 12 ft 6 in, less 6 by 8 ft; a sixteenth along the hollow's sides is lost.
  EXPECT_NEAR(twice / 2, 126 * 150 - (72 - 1.0 / 16) * (96 - 1.0 / 16), 1e-6);
}

// The hall's arm ends at a wall short of the seam that its breadth has elsewhere.
TEST(Breadths, AnArmThatEndsAtAWallIsTrimmedLikeOne) {
  const double ft = 304.8;
  const auto pieces = covered(floor_of({{0, 0},
                                        {30 * ft, 0},
                                        {30 * ft, 4 * ft},
                                        {5 * ft, 4 * ft},
                                        {5 * ft, 8 * ft},
                                        {20 * ft, 8 * ft},
                                        {20 * ft, 12 * ft},
                                        {0, 12 * ft}}),
                              goods(kFoot * 12));
  std::size_t walls = 0;
  for (const auto& piece : pieces)
    if (piece.trim_right == usual_allowances().floor_trim) ++walls;
  EXPECT_EQ(pieces.size(), 4u); // the first breadth, two arms of the second, the fill of the longer
  EXPECT_EQ(walls, 2u);
}

// The seam runs on along the wall before the alcove that is left for the fill.
TEST(Breadths, AFillBehindAWallOnItsSeamIsNoLongerThanItsFloor) {
  const double ft = 304.8;
  auto floor =
      floor_of({{0, 0}, {12 * ft, 0}, {12 * ft, 3 * ft}, {16 * ft, 3 * ft}, {16 * ft, 5 * ft}, {0, 5 * ft}});
  auto carpet = goods(inches(147));
  carpet.pattern = Pattern{inches(3), inches(20), inches(10)};
  const auto pieces = covered(floor, carpet);
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[0].net_width, kFoot * 12);
  EXPECT_EQ(pieces[1].net_length, kFoot * 2);
  EXPECT_EQ(pieces[1].outline.size(), 4u);
}

// The fill's back piece lies between walls, half an inch narrower than the others.
TEST(Breadths, APieceOfTheFillBetweenWallsFitsTheRoll) {
  const double ft = 304.8;
  auto floor =
      floor_of({{0, 0}, {8 * ft, 0}, {8 * ft, 8 * ft}, {4 * ft, 8 * ft}, {4 * ft, 5 * ft}, {0, 5 * ft}});
  floor.fill_pieces = 3;
  auto carpet = goods(inches(53));
  carpet.pattern = Pattern{inches(5), inches(20), inches(10)};
  const auto pieces = covered(floor, carpet);
  ASSERT_EQ(pieces.size(), 4u);
  EXPECT_EQ(pieces[3].net_width, kFoot * 4);
  EXPECT_EQ(pieces[3].cut_width, inches(53));
  EXPECT_EQ(pieces[3].trim_left, inches(2, 1, 2));
  EXPECT_EQ(pieces[3].trim_right, inches(2, 1, 2));
}

TEST(Breadths, AFloorWhoseOutlineCrossesItselfIsNotDivided) {
  const double ft = 304.8;
  const auto pieces = covered(
      floor_of({{0, 0}, {30 * ft, 0}, {0, 20 * ft}, {30 * ft, 20 * ft}, {30 * ft, 21 * ft}, {0, 10 * ft}}),
      goods(kFoot * 12));
  EXPECT_EQ(pieces.size(), 1u);
}

// A hall over a stairwell: the opening lies across the seam, and is a hollow of both breadths.
TEST(Breadths, AnOpeningOnASeamIsAHollowOfBothBreadths) {
  const double ft = 304.8;
  auto floor = floor_of(rectangle(20, 10));
  floor.openings = {{"stairwell", {{9 * ft, 4 * ft}, {15 * ft, 4 * ft}, {15 * ft, 7 * ft}, {9 * ft, 7 * ft}}},
                    {"hearth", {{2 * ft, 2 * ft}, {5 * ft, 2 * ft}, {5 * ft, 4 * ft}, {2 * ft, 4 * ft}}}};
  const auto pieces = covered(floor, goods(kFoot * 12));
  ASSERT_EQ(pieces.size(), 2u);
  EXPECT_EQ(pieces[0].outline.size(), 8u);
  EXPECT_EQ(pieces[1].outline.size(), 8u);
  ASSERT_EQ(pieces[0].openings.size(), 1u);
  EXPECT_EQ(pieces[0].openings[0].what, "hearth");
  EXPECT_TRUE(pieces[1].openings.empty());
  EXPECT_NEAR(seams_mm({*pieces[0].breadth, *pieces[1].breadth}), 7 * ft, 1e-6);
  EXPECT_NEAR(net_area_mm2(pieces[0]) + net_area_mm2(pieces[1]), (200 - 18 - 6) * ft * ft, 1);
}

RC_GTEST_PROP(RoughOutlines, LeaveTheTrimOverEverySideOfAnOpening, ()) {
  auto floor = floor_of(rectangle(80, 80));
  auto hole = *rc::gen::inRange(0, 2) ? columns() : star();
  const double by = *rc::gen::inRange(1, 8) / 8.0; // small ones leave nothing
  for (auto& c : hole)
    c = {12192 + by * c.x * 0.5, 12192 + by * c.y * 0.5};
  floor.openings = {{"well", hole}};
  const auto piece = covered(floor, goods(kFoot * 200)).front();
  const auto rough = rough_outline(piece, cut_step(LengthUnit::inch), true);
  RC_ASSERT(rough.holes.size() <= 1u);
  RC_TAG(rough.holes.empty() ? "closed" : "open");
  if (rough.holes.empty()) return;
  Corners ring;
  for (const auto& [u, v] : rough.holes[0])
    ring.push_back({u.mm(), v.mm()});
  const double trim = usual_allowances().floor_trim.mm();
  const auto stays_clear = [&](PlanPoint in_cut) {
    const PlanPoint at{in_cut.x - trim + piece.net_origin.u, -(in_cut.y - trim + piece.net_origin.v)};
    for (const double x : {-trim, 0.0, trim})
      for (const double y : {-trim, 0.0, trim})
        RC_ASSERT(inside(hole, {at.x + x, at.y + y}));
  };
  for (std::size_t i = 0; i < ring.size(); ++i)
    for (const double share : {0.0, 0.25, 0.5, 0.75})
      stays_clear(ring[i] + share * (ring[(i + 1) % ring.size()] - ring[i]));
  auto points = some_points();
  for (int i = 0; i < 500; ++i) {
    const PlanPoint at = PlanPoint{12192, 12192} + 0.5 * points();
    if (inside(ring, at)) stays_clear(at);
  }
}

TEST(RoughOutlines, OfAHearthAreItsSizeLessTwoTrims) {
  auto floor = floor_of(rectangle(11, 11));
  const double ft = 304.8;
  floor.openings = {
      {"hearth", {{3 * ft, 3 * ft}, {7 * ft, 3 * ft}, {7 * ft, 5 * ft}, {3 * ft, 5 * ft}}},
      {"pipe", {{8 * ft, 8 * ft}, {8.4 * ft, 8 * ft}, {8.4 * ft, 8.4 * ft}, {8 * ft, 8.4 * ft}}}};
  const auto rough =
      rough_outline(covered(floor, goods(kFoot * 12)).front(), cut_step(LengthUnit::inch), true);
  EXPECT_EQ(rough.ring.size(), 4u);
  ASSERT_EQ(rough.holes.size(), 1u); // the pipe's is all trim
  const auto& hole = rough.holes[0];
  ASSERT_EQ(hole.size(), 4u);
  const auto [left, right] = std::minmax_element(hole.begin(), hole.end());
  // 48 by 24 in less 3 in at every side; a sixteenth there is lost.
  EXPECT_EQ(right->first - left->first, inches(42) - inches(0, 1, 8));
  EXPECT_EQ(right->second - left->second, inches(18) - inches(0, 1, 8));
}
