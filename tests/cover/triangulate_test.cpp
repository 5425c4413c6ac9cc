// Polygons as triangles.
#include "steps.h"

#include "cover/triangulate.h"

#include <algorithm>
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

RC_GTEST_PROP(Triangulate, APolygonWithHolesIsFilledButForThem, ()) {
  const FlatPath outline{{0, 0}, {1000, 0}, {1000, 1000}, {0, 1000}};
  std::vector<FlatPath> holes; // in a grid, so that many corners lie in line
  double holes_area = 0;
  for (int i = 0; i < 5; ++i)
    for (int k = 0; k < 5; ++k) {
      if (*rc::gen::inRange(0, 3) == 0) continue;
      const double u = 200 * i + 20, v = 200 * k + 20, w = *rc::gen::inRange(1, 5) * 40,
                   l = *rc::gen::inRange(1, 5) * 40;
      holes.push_back({{u, v}, {u + w, v}, {u + w, v + l}, {u, v + l}});
      holes_area += w * l;
      if (*rc::gen::inRange(0, 2)) std::reverse(holes.back().begin(), holes.back().end());
    }
  const auto path = joined_to_holes(outline, holes);
  double filled = 0;
  for (const auto& t : triangulate(path)) {
    RC_ASSERT(twice(path, t) > 0);
    filled += twice(path, t) / 2;
    // Its middle lies in no hole.
    FlatPoint corner[3];
    for (std::size_t k = 0; k < 3; ++k)
      corner[k] = path[static_cast<std::size_t>(t[k])];
    const FlatPoint middle{(corner[0].u + corner[1].u + corner[2].u) / 3,
                           (corner[0].v + corner[1].v + corner[2].v) / 3};
    for (const auto& hole : holes) {
      const auto [u0, u1] = std::minmax({hole[0].u, hole[1].u, hole[2].u});
      const auto [v0, v1] = std::minmax({hole[0].v, hole[1].v, hole[2].v});
      RC_ASSERT(!(u0 < middle.u && middle.u < u1 && v0 < middle.v && middle.v < v1));
    }
  }
  RC_ASSERT(std::abs(filled - (1e6 - holes_area)) < 1e-3);
}
