#include "measure/quad.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <geos_c.h>

#include <cmath>
#include <cstdarg>

namespace treadfold {
namespace {

using Corners = std::array<PlanPoint, 4>;

double distance(PlanPoint a, PlanPoint b) { return std::hypot(b.x - a.x, b.y - a.y); }

/// What a tape that reads to the tick would find.
QuadReadings measured(const Corners& c, bool ac = true, bool bd = true) {
  QuadReadings r;
  r.front = from_mm(distance(c[0], c[1]));
  r.right = from_mm(distance(c[1], c[2]));
  r.back = from_mm(distance(c[2], c[3]));
  r.left = from_mm(distance(c[3], c[0]));
  if (ac) r.diagonal_ac = from_mm(distance(c[0], c[2]));
  if (bd) r.diagonal_bd = from_mm(distance(c[1], c[3]));
  r.where = "/stairs/0/floors/0";
  return r;
}

Length& reading(QuadReadings& r, int index) {
  Length* const all[] = {&r.front, &r.right, &r.back, &r.left, &*r.diagonal_ac, &*r.diagonal_bd};
  return *all[index];
}

/// A near-rectangular to clearly skewed floor of 0.5 … 4 m, A at the origin, AB along +x, in whole ticks.
rc::Gen<Corners> quads(int skew_percent) {
  return rc::gen::map(
      rc::gen::tuple(rc::gen::inRange(500, 4000), rc::gen::inRange(500, 4000),
                     rc::gen::container<std::array<int, 4>>(rc::gen::inRange(-100, 101))),
      [skew_percent](const auto& t) {
        const auto& [w, h, k] = t;
        const double s = 0.01 * 0.01 * skew_percent * std::min(w, h);
        return Corners{{{0, 0}, {double(w), 0}, {w + k[0] * s, h + k[1] * s}, {k[2] * s, h + k[3] * s}}};
      });
}

double geos_area(const Corners& c) {
  initGEOS(nullptr, nullptr);
  GEOSCoordSequence* points = GEOSCoordSeq_create(5, 2);
  for (unsigned i = 0; i < 5; ++i) {
    GEOSCoordSeq_setX(points, i, c[i % 4].x);
    GEOSCoordSeq_setY(points, i, c[i % 4].y);
  }
  GEOSGeometry* polygon = GEOSGeom_createPolygon(GEOSGeom_createLinearRing(points), nullptr, 0);
  double area = -1;
  EXPECT_EQ(GEOSisValid(polygon), 1);
  GEOSArea(polygon, &area);
  GEOSGeom_destroy(polygon);
  finishGEOS();
  return area;
}

/// Twice Heron's formula: the area from the readings alone.
double area_by_tape(const QuadReadings& r) {
  const auto heron = [](double a, double b, double c) {
    const double s = (a + b + c) / 2;
    return std::sqrt(s * (s - a) * (s - b) * (s - c));
  };
  const double d = r.diagonal_ac->mm();
  return heron(r.front.mm(), r.right.mm(), d) + heron(r.back.mm(), r.left.mm(), d);
}

double farthest(const Corners& a, const Corners& b) {
  double most = 0;
  for (int i = 0; i < 4; ++i)
    most = std::max(most, distance(a[i], b[i]));
  return most;
}

TEST(Quad, RectangleThreeByFourIsExact) {
  QuadReadings r;
  r.front = r.back = inches(4 * 12);
  r.left = r.right = inches(3 * 12);
  r.diagonal_ac = inches(5 * 12);
  const auto s = solve_quad(r);
  ASSERT_TRUE(s.problems.empty());
  EXPECT_EQ(s.worst, -1);
  const Corners expected = {{{0, 0}, {1219.2, 0}, {1219.2, 914.4}, {0, 914.4}}};
  EXPECT_LT(farthest(s.corners, expected), 1e-9);
}

// Corners lie on whole ticks only along AB; the readings are rounded to a tick (125 nm), so the shape comes
// back to a few ticks. With unrounded lengths the solver itself is exact: see the residuals.
RC_GTEST_PROP(Quad, OneDiagonalGivesTheShapeBack, ()) {
  const auto c = *quads(30);
  const bool ac = *rc::gen::arbitrary<bool>();
  const auto s = solve_quad(measured(c, ac, !ac));
  RC_ASSERT(s.problems.empty());
  RC_ASSERT(farthest(s.corners, c) < 2e-3);
  for (double x : s.residuals)
    RC_ASSERT(std::abs(x) < 1e-6);
}

RC_GTEST_PROP(Quad, TwoDiagonalsGiveTheShapeBack, ()) {
  const auto c = *quads(30);
  const auto s = solve_quad(measured(c));
  RC_ASSERT(s.problems.empty());
  RC_ASSERT(s.worst == -1);
  RC_ASSERT(farthest(s.corners, c) < 2e-3);
}

// Pythagorean readings are whole ticks, so nothing is rounded and the shape must come back within 1e-6 mm.
RC_GTEST_PROP(Quad, ConsistentReadingsAreRecoveredWithinAMillionthOfAMillimetre, ()) {
  const int k = *rc::gen::inRange(10, 40), m = *rc::gen::inRange(2, 9), n = *rc::gen::inRange(1, m);
  const double w = k * double(m * m - n * n), h = k * 2.0 * m * n;
  const Corners c = {{{0, 0}, {w, 0}, {w, h}, {0, h}}};
  for (int which = 0; which < 3; ++which) {
    const auto s = solve_quad(measured(c, which != 1, which != 2));
    RC_ASSERT(s.problems.empty());
    RC_ASSERT(farthest(s.corners, c) < 1e-6);
  }
}

RC_GTEST_PROP(Quad, ShapeIsConvexAndFramed, ()) {
  const auto s = solve_quad(measured(*quads(30)));
  RC_ASSERT(s.corners[0].x == 0 && s.corners[0].y == 0 && s.corners[1].y == 0 && s.corners[1].x > 0);
  for (int i = 0; i < 4; ++i) {
    const auto a = s.corners[i], b = s.corners[(i + 1) % 4], d = s.corners[(i + 2) % 4];
    RC_ASSERT((b.x - a.x) * (d.y - a.y) - (b.y - a.y) * (d.x - a.x) > 0);
  }
}

RC_GTEST_PROP(Quad, AreaAgreesWithGeosAndHeron, ()) {
  const auto c = *quads(30);
  const auto r = measured(c);
  const double area = geos_area(solve_quad(r).corners);
  RC_ASSERT(std::abs(area - geos_area(c)) < 1e-6 * area);
  RC_ASSERT(std::abs(area - area_by_tape(r)) < 1e-6 * area);
}

// Floors are out of square by up to 1 % here and at most twice as long as wide: diagonals say little about
// the short sides of a long floor. One reading is out by 15 % of the shorter side.
RC_GTEST_PROP(Quad, CorruptedReadingIsNamedOnNearlySquareFloors, ()) {
  auto r = measured(*quads(1));
  RC_PRE(r.front < r.left * 2 && r.left < r.front * 2);
  const int bad = *rc::gen::inRange(0, 6);
  const Length truth = reading(r, bad);
  const Length out_by = from_mm(std::min(r.front.mm(), r.left.mm()) * 0.15);
  reading(r, bad) += *rc::gen::arbitrary<bool>() ? out_by : -out_by;
  const auto s = solve_quad(r);
  RC_ASSERT(s.worst == bad);
  RC_ASSERT(s.problems.size() == 1u);
  RC_ASSERT(s.problems[0].severity == Severity::warning);
  // "about 47 1/2\" there, …": the value that would agree is the true one, shown to the sixteenth
  const std::string& told = s.problems[0].expected;
  const auto value = parse_length(told.substr(6, told.find(" there") - 6), LengthUnit::inch);
  RC_ASSERT(value.has_value());
  RC_ASSERT(std::abs(value->mm() - truth.mm()) <= inches(0, 1, 32).mm() + 0.01);
}

RC_GTEST_PROP(Quad, WarnsIfAndOnlyIfAReadingIsFartherOffThanTheTolerance, ()) {
  auto r = measured(*quads(30));
  reading(r, *rc::gen::inRange(0, 6)) += Length{*rc::gen::inRange(-3, 4) * kInch.ticks / 2};
  const auto s = solve_quad(r);
  RC_PRE(!has_errors(s.problems));
  double most = 0;
  for (double x : s.residuals)
    most = std::max(most, std::abs(x));
  RC_ASSERT((s.worst >= 0) == (most > r.tolerance.mm() + 1e-6));
  RC_ASSERT(s.problems.size() == (s.worst >= 0 ? 1u : 0u));
}

RC_GTEST_PROP(Quad, NoShapeNearbyFitsBetter, ()) {
  auto r = measured(*quads(20));
  reading(r, *rc::gen::inRange(0, 6)) += inches(1);
  const auto s = solve_quad(r);
  RC_PRE(!has_errors(s.problems));
  const auto cost = [&](const Corners& c) {
    double sum = 0;
    auto copy = r;
    const int ends[6][2] = {{0, 1}, {1, 2}, {2, 3}, {3, 0}, {0, 2}, {1, 3}};
    for (int i = 0; i < 6; ++i)
      sum += std::pow(distance(c[ends[i][0]], c[ends[i][1]]) - reading(copy, i).mm(), 2);
    return sum;
  };
  const double least = cost(s.corners);
  for (int i = 1; i < 4; ++i)
    for (double d : {-0.05, 0.05}) {
      auto c = s.corners;
      c[i].x += d;
      RC_ASSERT(cost(c) > least);
      c = s.corners;
      c[i].y += d;
      RC_ASSERT(cost(c) > least);
    }
}

TEST(Quad, ReadingsWithinToleranceAgree) {
  auto r = measured({{{0, 0}, {2400, 0}, {2400, 1200}, {0, 1200}}});
  r.front += inches(0, 1, 16);
  const auto s = solve_quad(r);
  EXPECT_TRUE(s.problems.empty());
  EXPECT_EQ(s.worst, -1);
  double most = 0;
  for (double x : s.residuals)
    most = std::max(most, std::abs(x));
  EXPECT_GT(most, 0.1);
  EXPECT_LE(most, r.tolerance.mm());
}

TEST(Quad, TriangleThatCannotCloseIsNamed) {
  QuadReadings r;
  r.front = r.back = inches(96);
  r.left = r.right = inches(40);
  r.diagonal_ac = inches(140);
  r.where = "/stairs/0/floors/0";
  const auto s = solve_quad(r);
  ASSERT_TRUE(has_errors(s.problems));
  EXPECT_EQ(s.problems[0].where, "/stairs/0/floors/0");
  EXPECT_NE(s.problems[0].found.find("diagonal front left to back right"), std::string::npos);
  EXPECT_NE(s.problems[0].expected.find("front and right side together"), std::string::npos);
}

TEST(Quad, CornerThatTurnsInwardIsAnError) {
  const Corners inward = {{{0, 0}, {1000, 0}, {300, 300}, {0, 1000}}};
  for (bool both : {true, false}) {
    const auto s = solve_quad(measured(inward, true, both));
    ASSERT_TRUE(has_errors(s.problems));
    EXPECT_NE(s.problems[0].expected.find("point outward"), std::string::npos);
  }
}

TEST(Quad, DiagonalMissing) {
  const auto s = solve_quad(measured({{{0, 0}, {1000, 0}, {1000, 1000}, {0, 1000}}}, false, false));
  ASSERT_TRUE(has_errors(s.problems));
  EXPECT_NE(s.problems[0].found.find("no diagonal"), std::string::npos);
}

TEST(Quad, EveryReadingMustBeAboveNothing) {
  auto r = measured({{{0, 0}, {1000, 0}, {1000, 1000}, {0, 1000}}});
  r.front = Length{};
  r.left = -r.left;
  const auto s = solve_quad(r);
  EXPECT_EQ(s.problems.size(), 2u);
  EXPECT_TRUE(has_errors(s.problems));
}

} // namespace
} // namespace treadfold
