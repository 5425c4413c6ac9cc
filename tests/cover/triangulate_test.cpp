// Polygons as triangles.
#include "steps.h"

#include "cover/triangulate.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;

namespace {

double twice(const FlatPath& p, const std::array<int, 3>& t) {
  const auto at = [&](std::size_t k) { return p[static_cast<std::size_t>(t[k])]; };
  return (at(1).u - at(0).u) * (at(2).v - at(0).v) - (at(1).v - at(0).v) * (at(2).u - at(0).u);
}

/// Every triangle turns the polygon's way and together they have its area, so they cover it once.
void expect_filled(const FlatPath& path) {
  double whole = 0, signed_area = 0;
  for (std::size_t i = 0; i < path.size(); ++i) {
    const auto &a = path[i], &b = path[(i + 1) % path.size()];
    signed_area += (a.u * b.v - b.u * a.v) / 2;
  }
  for (const auto& t : triangulate(path)) {
    RC_ASSERT(twice(path, t) * signed_area > 0);
    whole += twice(path, t) / 2;
  }
  RC_ASSERT(std::abs(whole - signed_area) < 1e-9 * std::abs(signed_area));
}

} // namespace

TEST(Triangulate, ASquareIsTwo) { EXPECT_EQ(triangulate({{0, 0}, {1, 0}, {1, 1}, {0, 1}}).size(), 2u); }

TEST(Triangulate, PointsAlongAnEdgeAreUsedWhereTheyCanBe) {
  const FlatPath path{{0, 0}, {1, 0}, {2, 0}, {3, 0}, {3, 3}, {0, 3}, {0, 2}};
  EXPECT_EQ(triangulate(path).size(), path.size() - 2);
  expect_filled(path);
}

TEST(Triangulate, APolygonWithoutAreaIsNone) { EXPECT_TRUE(triangulate({{0, 0}, {1, 0}, {2, 0}}).empty()); }

TEST(Triangulate, ASlitThatTouchesItselfIsFilled) {
  expect_filled({{0, 0}, {2, 0}, {2, 1}, {1, 1}, {2, 1}, {2, 2}, {0, 2}});
}

// A star about the origin: any radius at rising angles never crosses itself.
RC_GTEST_PROP(Triangulate, AnyStarIsFilledOnceEitherWayRound, ()) {
  const int n = *rc::gen::inRange(3, 40);
  FlatPath path;
  for (int i = 0; i < n; ++i) {
    const double r = *rc::gen::inRange(1, 1000), angle = 2 * std::numbers::pi * i / n;
    path.push_back({r * std::cos(angle), r * std::sin(angle)});
  }
  expect_filled(path);
  std::reverse(path.begin(), path.end());
  expect_filled(path);
}
