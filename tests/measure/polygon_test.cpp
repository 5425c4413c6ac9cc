// Five-sided treads from sides and diagonals. Four-sided ones: quad_test.cpp, by the same solver.
#include "measure/polygon.h"
#include "measure/taped_tread.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace treadfold {
namespace {

using Corners = std::vector<PlanPoint>;

double distance(PlanPoint a, PlanPoint b) { return std::hypot(b.x - a.x, b.y - a.y); }

/// A kite of 3 … 8 hundred millimetres, its third corner square.
rc::Gen<Corners> kites() {
  return rc::gen::map(rc::gen::container<std::array<int, 4>>(rc::gen::inRange(0, 101)), [](const auto& k) {
    const double turn = 0.3 + 0.004 * k[0], to = 300 + k[1], from = 300 + k[2], width = 700 + k[3];
    const PlanPoint along{std::sin(turn), std::cos(turn)};
    const PlanPoint corner{width + to * along.x, to * along.y};
    return Corners{
        {0, 0}, {width, 0}, corner, {corner.x - from * along.y, corner.y + from * along.x}, {-10, 90}};
  });
}

/// All ten readings, to the tick.
PolygonReadings measured(const Corners& c) {
  PolygonReadings r{5, {}, {2}, inches(0, 1, 8), "/tread", LengthUnit::inch};
  for (int a = 0; a < 5; ++a)
    for (int b = a + 1; b < 5; ++b)
      r.spans.push_back({a, b, from_mm(distance(c[std::size_t(a)], c[std::size_t(b)])),
                         "reading " + std::to_string(a) + std::to_string(b)});
  return r;
}

RC_GTEST_PROP(Polygon, AllSidesAndAnyTwoDiagonalsOrMoreGiveTheShapeBack, ()) {
  const auto c = *kites();
  auto r = measured(c);
  for (int out = *rc::gen::inRange(0, 4); out > 0; --out) {
    const auto side = [](const Span& s) { return s.to == s.from + 1 || s.to == s.from + 4; };
    std::vector<std::size_t> diagonals;
    for (std::size_t i = 0; i < r.spans.size(); ++i)
      if (!side(r.spans[i])) diagonals.push_back(i);
    r.spans.erase(r.spans.begin() + static_cast<std::ptrdiff_t>(*rc::gen::elementOf(diagonals)));
  }
  const auto s = solve_polygon(r);
  RC_ASSERT(s.problems.empty());
  RC_ASSERT(s.worst == -1);
  RC_ASSERT(s.corners.size() == 5u);
  for (std::size_t i = 0; i < 5; ++i)
    RC_ASSERT(distance(s.corners[i], c[i]) < 5e-3);
  for (const double x : s.residuals)
    RC_ASSERT(std::abs(x) < 1e-3);
}

RC_GTEST_PROP(Polygon, NoShapeNearbyFitsBetter, ()) {
  auto r = measured(*kites());
  r.spans[*rc::gen::inRange<std::size_t>(0, 10)].length += inches(1);
  const auto s = solve_polygon(r);
  RC_PRE(!has_errors(s.problems));
  const auto cost = [&](const Corners& c) {
    double sum = 0;
    for (const auto& span : r.spans)
      sum += std::pow(distance(c[std::size_t(span.from)], c[std::size_t(span.to)]) - span.length.mm(), 2);
    return sum;
  };
  const double least = cost(s.corners);
  for (std::size_t i = 1; i < 5; ++i)
    for (const double d : {-0.05, 0.05}) {
      auto c = s.corners;
      c[i].x += d;
      RC_ASSERT(cost(c) > least);
      c = s.corners;
      c[i].y += d;
      RC_ASSERT(cost(c) > least);
    }
}

RC_GTEST_PROP(Polygon, OneWrongReadingOfTenIsNamedWithWhatItShouldBe, ()) {
  auto r = measured(*kites());
  r.tolerance = millimetres(1);
  const auto bad = *rc::gen::inRange<std::size_t>(0, 10);
  const Length truth = r.spans[bad].length;
  r.spans[bad].length += inches(*rc::gen::arbitrary<bool>() ? 1 : -1);
  const auto s = solve_polygon(r);
  RC_PRE(!has_errors(s.problems));
  RC_ASSERT(s.worst == static_cast<int>(bad));
  RC_ASSERT(s.problems[0].expected ==
            "about " + show_length(truth, LengthUnit::inch) + " there, if the other nine are right");
}

TEST(Polygon, ATriangleThatCannotCloseIsNamed) {
  auto r = measured({{0, 0}, {700, 0}, {900, 300}, {600, 500}, {-10, 90}});
  r.spans.erase(r.spans.begin() + 4, r.spans.end());
  r.spans.push_back({1, 2, inches(10), "right to the corner"});
  r.spans.push_back({2, 3, inches(10), "right from the corner"});
  r.spans.push_back({3, 4, inches(60), "back"});
  const auto s = solve_polygon(r);
  ASSERT_EQ(s.problems.size(), 1u);
  EXPECT_EQ(s.problems[0].found, "back of 60\"");
  EXPECT_NE(s.problems[0].expected.find("less than reading"), std::string::npos) << s.problems[0].expected;
  EXPECT_TRUE(s.corners.empty());
}

TEST(Polygon, ACornerThatTurnsInwardIsAnError) {
  const auto s = solve_polygon(measured({{0, 0}, {700, 0}, {500, 200}, {600, 500}, {-10, 90}}));
  ASSERT_TRUE(has_errors(s.problems));
  EXPECT_NE(s.problems[0].expected.find("point outward"), std::string::npos);
}

} // namespace
} // namespace treadfold
