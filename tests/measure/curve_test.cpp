#include "measure/curve_fit.h"
#include "measure/curved_front.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

namespace treadfold {
namespace {

constexpr double kPi = std::numbers::pi;
constexpr double kIn = 25.4;

double distance(PlanPoint a, PlanPoint b) { return std::hypot(b.x - a.x, b.y - a.y); }

double polyline_length(const std::vector<PlanPoint>& points) {
  double length = 0;
  for (std::size_t i = 1; i < points.size(); ++i)
    length += distance(points[i - 1], points[i]);
  return length;
}

/// The curve moved outward by `off`, as a fine polyline.
double moved_length(const Curve& curve, double off) {
  std::vector<PlanPoint> moved;
  for (const auto& p : facets(curve, 1e-6, 20000))
    moved.push_back({p.at.x + off * p.along.y, p.at.y - off * p.along.x});
  return polyline_length(moved);
}

/// A step 36 in wide, 10 in deep, its nosing 1 1/4 in out, with the half of an ellipse at its right.
FrontReadings half_right(Length past, Length along, Length across) {
  FrontReadings r;
  r.right = {FrontEndShape::half, past, along, across};
  r.where = "/starter";
  return r;
}
const FrontPlace kUsual{inches(36), inches(10), inches(1, 1, 4), inches(0, 1, 2)};

FrontOffset offset(Length at, Length out, int i) {
  return {at, out, "/starter/offsets/" + std::to_string(i)};
}

/// Half of an ellipse on the line y = 0, from left to right, read at `count` equal steps of its angle.
std::vector<PlanPoint> read_ellipse(double along, double across, int count) {
  std::vector<PlanPoint> points;
  for (int i = 0; i <= count; ++i) {
    const double t = kPi + kPi * i / count;
    points.push_back({along * std::cos(t), across * std::sin(t)});
  }
  return points;
}

double most_off_ellipse(const Curve& curve, double along, double across) {
  double most = 0;
  for (const auto& p : facets(curve, 1e-4, 2000)) {
    const double k = std::hypot(p.at.x / along, p.at.y / across); // 1 on it
    most = std::max(most, std::abs(k - 1) * std::hypot(p.at.x, p.at.y));
  }
  return most;
}

} // namespace

TEST(Curve, ACircleIsMeasuredExactly) {
  const Curve half{arc_span({0, 0}, 150, 150, -kPi / 2, kPi / 2)};
  EXPECT_NEAR(length_mm(half), 150 * kPi, 1e-9);
  EXPECT_NEAR(turn_rad(half), kPi, 1e-9);
  EXPECT_NEAR(tightest(half).radius, 150, 1e-9);
}

// Ramanujan's second approximation of an ellipse's perimeter, from memory: π(a + b)(1 + 3h/(10 + √(4 − 3h))),
// h = ((a − b)/(a + b))².
TEST(Curve, AnEllipseIsAsLongAsRamanujanSays) {
  for (const auto& [a, b] : {std::pair{9.0, 13.5}, {9.0, 6.5}, {12.0, 4.0}}) {
    const double h = std::pow((a - b) / (a + b), 2);
    const double perimeter = kPi * (a + b) * (1 + 3 * h / (10 + std::sqrt(4 - 3 * h)));
    EXPECT_NEAR(length_mm({arc_span({0, 0}, a, b, 0, 2 * kPi)}), perimeter, 1e-4 * perimeter);
    EXPECT_NEAR(tightest({arc_span({0, 0}, a, b, 0, 2 * kPi)}).radius,
                std::min(a, b) * std::min(a, b) / std::max(a, b), 1e-9);
  }
}

TEST(Curve, AStraightLineHasNoBend) {
  EXPECT_EQ(tightest({line_span({0, 0}, {10, 3})}).radius, std::numeric_limits<double>::infinity());
  EXPECT_EQ(facets({line_span({0, 0}, {10, 3})}, 0.05).size(), 2u);
}

RC_GTEST_PROP(Curve, FacetsKeepToTheCurve, ()) {
  const double along = *rc::gen::inRange(20, 800), across = *rc::gen::inRange(20, 800);
  const auto points = facets({arc_span({0, 0}, along, across, -kPi / 2, kPi / 2)}, 0.05);
  for (std::size_t i = 1; i < points.size(); ++i) {
    const auto a = points[i - 1].at, b = points[i].at;
    // The point of the arc furthest from the chord, searched for.
    const double from = std::atan2(a.y / across, a.x / along), to = std::atan2(b.y / across, b.x / along);
    double off = 0;
    for (int k = 0; k <= 20; ++k) {
      const double t = from + (to - from) * k / 20;
      const PlanPoint p{along * std::cos(t), across * std::sin(t)};
      off = std::max(off, std::abs(cross(b - a, p - a)) / distance(a, b));
    }
    RC_ASSERT(off <= 0.05 * 1.001);
  }
}

RC_GTEST_PROP(Curve, MovedOutwardItGrowsByItsTurn, ()) {
  FrontReadings r;
  const int along = *rc::gen::inRange(150, 300);
  r.right = {FrontEndShape::half, millimetres(along + *rc::gen::inRange(0, 50)), millimetres(along),
             millimetres(*rc::gen::inRange(150, 300))};
  r.left = {FrontEndShape::quarter, millimetres(*rc::gen::inRange(0, 100)),
            millimetres(*rc::gen::inRange(120, 250)), millimetres(*rc::gen::inRange(120, 280))};
  const auto solved = solve_front(r, kUsual);
  RC_PRE(solved.front.has_value());
  const auto& edge = solved.front->edge;
  for (const double off : {-20.0, 11.1})
    RC_ASSERT(std::abs(moved_length(edge, off) - (length_mm(edge) + off * turn_rad(edge))) < 0.01);
}

TEST(CurveFit, HalfAnEllipseComesBackFromItsReadings) {
  // Eleven readings of a half-round 22 in across, thirteen of an ellipse 24 × 18 in.
  EXPECT_LT(
      most_off_ellipse(fit_curve(read_ellipse(11 * kIn, 11 * kIn, 10), kIn / 16).curve, 11 * kIn, 11 * kIn),
      kIn / 64);
  EXPECT_LT(
      most_off_ellipse(fit_curve(read_ellipse(12 * kIn, 9 * kIn, 12), kIn / 16).curve, 12 * kIn, 9 * kIn),
      kIn / 64);
}

TEST(CurveFit, PassesThroughItsReadings) {
  const auto points = read_ellipse(300, 200, 8);
  const auto fit = fit_curve(points, 1.6);
  ASSERT_TRUE(fit.dents.empty());
  for (const auto& p : points) {
    double nearest = 1e9;
    for (const auto& q : facets(fit.curve, 1e-4))
      nearest = std::min(nearest, distance(p, q.at));
    EXPECT_LT(nearest, 1e-6);
  }
}

TEST(CurveFit, AStraightFrontStaysStraight) {
  auto points = std::vector<PlanPoint>{{0, -200}, {200, -200}, {400, -200}, {600, -200}, {800, -200}};
  for (const auto& p : read_ellipse(150, 200, 10))
    if (p.x > 1) points.push_back({800 + p.x, p.y});
  const auto fit = fit_curve(points, kIn / 16);
  EXPECT_TRUE(fit.dents.empty());
  for (const auto& p : facets(fit.curve, 0.01))
    EXPECT_TRUE(p.at.x >= 800 || std::abs(p.at.y + 200) < 1e-9) << p.at.x;
  // No corner where the line becomes a curve.
  const auto all = facets(fit.curve, 0.01);
  for (std::size_t i = 1; i < all.size(); ++i)
    EXPECT_GT(dot(all[i].along, all[i - 1].along), std::cos(0.1));
}

TEST(CurveFit, AReadingInsideItsNeighboursIsNamed) {
  auto points = read_ellipse(300, 200, 8);
  points[3].y += 30; // read 30 mm too far back
  const auto fit = fit_curve(points, kIn / 16);
  ASSERT_EQ(fit.dents.size(), 1u);
  EXPECT_EQ(fit.dents[0].point, 3u);
  EXPECT_GT(fit.dents[0].depth_mm, 5);
}

RC_GTEST_PROP(CurveFit, ReadToTheSixteenthItStaysConvexAndNear, ()) {
  const double along = *rc::gen::inRange(200, 500), across = *rc::gen::inRange(200, 500);
  const int count = *rc::gen::inRange(8, 14);
  auto points = read_ellipse(along, across, count);
  for (auto& p : points)
    p = {std::round(p.x / kIn * 16) * kIn / 16, std::round(p.y / kIn * 16) * kIn / 16};
  const auto fit = fit_curve(points, kIn / 16);
  RC_ASSERT(fit.dents.empty());
  RC_ASSERT(most_off_ellipse(fit.curve, along, across) < kIn / 8);
}

TEST(CurvedFront, HalfRoundComesBackToTheStringer) {
  const auto solved = solve_front(half_right(inches(5, 5, 8), inches(5, 5, 8), inches(5, 5, 8)), kUsual);
  ASSERT_TRUE(solved.front) << (solved.problems.empty() ? "" : sentence(solved.problems[0]));
  const auto ends = facets(solved.front->edge, 0.05);
  EXPECT_NEAR(ends.front().at.x, 0, 1e-9);
  EXPECT_NEAR(ends.front().at.y, -1.25 * kIn, 1e-9);
  EXPECT_NEAR(ends.back().at.x, 36 * kIn, 1e-9);
  EXPECT_NEAR(ends.back().at.y, 10 * kIn, 1e-9);
  EXPECT_NEAR(ends.back().along.x, -1, 1e-9);
  EXPECT_EQ(solved.front->right, EdgeStop::stringer);
  EXPECT_NEAR(length_mm(solved.front->edge), (36 + kPi * 5.625) * kIn, 1e-6);
  EXPECT_NEAR(reach_of(*solved.front, 36 * kIn).right, 5.625 * kIn, 0.06);
}

TEST(CurvedFront, LeftAndRightAreMirrored) {
  for (const auto shape : {FrontEndShape::half, FrontEndShape::quarter}) {
    FrontReadings right, left;
    right.right = left.left = {shape, inches(4), inches(6), inches(7)};
    const auto a = solve_front(right, kUsual).front, b = solve_front(left, kUsual).front;
    ASSERT_TRUE(a && b);
    const auto p = facets(a->edge, 0.05), q = facets(b->edge, 0.05);
    ASSERT_EQ(p.size(), q.size());
    for (std::size_t i = 0; i < p.size(); ++i) {
      const auto& m = q[q.size() - 1 - i];
      EXPECT_NEAR(p[i].at.x, 36 * kIn - m.at.x, 1e-9);
      EXPECT_NEAR(p[i].at.y, m.at.y, 1e-9);
      EXPECT_NEAR(p[i].along.x, m.along.x, 1e-9);
    }
  }
}

TEST(CurvedFront, RefusesWhatDoesNotFit) {
  const auto first = [](const FrontReadings& r) {
    const auto solved = solve_front(r, kUsual);
    EXPECT_FALSE(solved.front);
    return solved.problems.empty() ? std::string("none") : sentence(solved.problems[0]);
  };
  EXPECT_EQ(first(half_right(inches(4), inches(4), inches(4))),
            "/starter/right/across: found 4\", expected enough to come round behind the next riser: its edge "
            "comes back 3 1/4\" before it.");
  EXPECT_NE(first(half_right(inches(1), inches(0), inches(6))).find("/starter/right/along"),
            std::string::npos);
  FrontReadings square;
  square.where = "/starter";
  EXPECT_NE(first(square).find("both ends square"), std::string::npos);
  FrontReadings tight;
  tight.right = {FrontEndShape::quarter, inches(1), inches(1), inches(1)};
  EXPECT_NE(first(tight).find("a bend of radius 1\""), std::string::npos);
  FrontReadings lost;
  lost.offsets = {offset(inches(0), inches(0), 0), offset(inches(9), inches(10), 1),
                  offset(inches(20), inches(11), 2), offset(inches(30), inches(4), 3)};
  EXPECT_NE(first(lost).find("/starter/offsets/3"), std::string::npos);
}

// fcimag.com/articles/84860, a published set of measures of a curved starter: around the nose 6 ft 10 in;
// curve starts at 4 ft; wall to curve point 4 ft 9 in; wall to newel mark 3 ft 10 in; floor to the base of
// the second step 1 ft 6 in; floor to nose centre 6 1/2 in; across the widest part 2 ft 3 in. Least bounding
// piece 6 ft 10 in × 2 ft 3 in (computed from them). It does not say what kind of curve: we read it as half
// an ellipse that runs 9 in beyond the straight front and comes back to the newel, 2 ft 3 in from its front.
TEST(PublishedStarter, ACurveFittedToTheMeasuresIsAsLongAsTheTapeAroundTheNose) {
  const Length around = inches(82), starts = inches(48), point = inches(57), newel = inches(46),
               widest = inches(27);
  const FrontPlace place{newel, inches(11), inches(0), inches(0)}; // 18 in over the nose less 7 in of rise
  FrontReadings r;
  r.right = {FrontEndShape::half, point - newel, point - starts, Length{widest.ticks / 2}};
  const auto solved = solve_front(r, place);
  ASSERT_TRUE(solved.front);
  const double length = length_mm(solved.front->edge);
  // By parts: the straight front, half an ellipse, and back from where the curve starts to the newel.
  EXPECT_NEAR(length, (48 + 2) * kIn + length_mm({arc_span({0, 0}, 9 * kIn, 13.5 * kIn, 0, kPi)}), 1e-6);
  EXPECT_NEAR(length / around.mm(), 1, 0.05); // three published lengths against the fourth
  // What is covered is no larger than the least bounding piece.
  double high = -1e9, low = 1e9, far = 0;
  for (const auto& p : facets(solved.front->edge, 0.05)) {
    high = std::max(high, p.at.y), low = std::min(low, p.at.y), far = std::max(far, p.at.x);
  }
  EXPECT_NEAR(high - low, widest.mm(), 0.1);
  EXPECT_NEAR(far, point.mm(), 0.1);
  EXPECT_LE(far, around.mm());

  // The same edge by offsets from the second riser's line, read to 1/8 in every 15° of the round.
  FrontReadings by_offsets;
  by_offsets.offsets = {offset(inches(0), inches(11), 0), offset(inches(24), inches(11), 1),
                        offset(inches(48), inches(11), 2)};
  for (int i = 1; i <= 12; ++i) {
    const double t = -kPi / 2 + kPi * i / 12;
    const auto eighth = [](double in) { return inches(0, std::lround(in * 8), 8); };
    by_offsets.offsets.push_back(
        offset(eighth(48 + 9 * std::cos(t)), eighth(11 - 13.5 - 13.5 * std::sin(t)), i));
  }
  by_offsets.offsets.push_back(offset(newel, inches(-16), 13));
  const auto fitted = solve_front(by_offsets, place);
  ASSERT_TRUE(fitted.front) << sentence(fitted.problems[0]);
  EXPECT_EQ(fitted.front->right, EdgeStop::stringer);
  EXPECT_NEAR(length_mm(fitted.front->edge), length, kIn / 4);
  EXPECT_NEAR(length_mm(fitted.front->edge) / around.mm(), 1, 0.05);
}

} // namespace treadfold
