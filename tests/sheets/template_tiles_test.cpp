// The promises of sheets/template_tiles.h, for random shapes.
#include "sheets/template_tiles.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>
#include <set>

namespace treadfold {
namespace {

TemplateShape any_shape() {
  const auto mm = [](int low, int high) { return static_cast<double>(*rc::gen::inRange(low, high)); };
  TemplateShape shape;
  shape.width_mm = mm(50, 3000);
  shape.height_mm = mm(50, 3000);
  shape.outline = {{{0, 0}, {shape.width_mm, 0}, {shape.width_mm, shape.height_mm}, {0, shape.height_mm}},
                   true,
                   Pen::outline,
                   "",
                   ""};
  for (int n = *rc::gen::inRange(0, 4); n > 0; --n) { // holes
    const double x = mm(0, static_cast<int>(shape.width_mm) - 30),
                 y = mm(0, static_cast<int>(shape.height_mm) - 30);
    shape.lines.push_back({{{x, y}, {x + 30, y}, {x + 15, y + 30}}, true, Pen::cut, "", ""});
  }
  return shape;
}

RC_GTEST_PROP(TileGrid, ShowsEveryPointOnATileAndItsNeighboursShareTheOverlap, ()) {
  const auto shape = any_shape();
  const Box window{16, 16, 204, 248};
  const auto grid = tile_grid(216, 279, window, shape);
  for (const TemplateLine* l : all_lines(shape))
    for (std::size_t i = 0; i < l->points.size(); ++i) {
      const PagePoint a = l->points[i], b = l->points[(i + 1) % l->points.size()];
      for (double t = 0; t < 1; t += 0.01) {
        const PagePoint p{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)};
        bool shown = false;
        for (int row = 0; row < grid.rows; ++row)
          for (int column = 0; column < grid.columns; ++column) {
            const Box box = grid.shown(column, row);
            shown = shown || (grid.has(column, row) && p.x >= box.left && p.x <= box.right &&
                              p.y >= box.top && p.y <= box.bottom);
          }
        RC_ASSERT(shown);
      }
    }
  if (grid.columns > 1)
    RC_ASSERT(std::abs(grid.shown(0, 0).right - grid.shown(1, 0).left - kTileOverlap) < 1e-9);
  if (grid.rows > 1)
    RC_ASSERT(std::abs(grid.shown(0, 0).bottom - grid.shown(0, 1).top - kTileOverlap) < 1e-9);
}

RC_GTEST_PROP(TileGrid, HangsTogetherEdgeByEdge, ()) {
  const auto grid = tile_grid(216, 279, {16, 16, 204, 248}, any_shape());
  std::set<std::pair<int, int>> reached;
  std::vector<std::pair<int, int>> todo;
  for (int row = 0; row < grid.rows && todo.empty(); ++row)
    for (int column = 0; column < grid.columns && todo.empty(); ++column)
      if (grid.has(column, row)) todo.emplace_back(column, row);
  while (!todo.empty()) {
    const auto [column, row] = todo.back();
    todo.pop_back();
    if (!grid.has(column, row) || !reached.emplace(column, row).second) continue;
    for (const auto& next : {std::pair{column + 1, row}, std::pair{column - 1, row},
                             std::pair{column, row + 1}, std::pair{column, row - 1}})
      todo.push_back(next);
  }
  RC_ASSERT(static_cast<int>(reached.size()) == grid.count());
}

TEST(TileGrid, LeavesOutTilesOnWhichNothingIs) {
  TemplateShape shape;
  shape.width_mm = shape.height_mm = 1000;
  shape.outline = {{{0, 0}, {1000, 0}, {1000, 1000}, {0, 1000}}, true, Pen::outline, "", ""};
  const auto grid = tile_grid(216, 279, {16, 16, 204, 248}, shape);
  EXPECT_EQ(grid.columns, 6);
  EXPECT_EQ(grid.rows, 5);
  EXPECT_EQ(grid.count(), 2 * 6 + 2 * 3); // the rim
  EXPECT_FALSE(grid.has(1, 1));
}

TEST(Tiles, AreNamedByColumnAndRow) {
  EXPECT_EQ(tile_name(0, 0), "A1");
  EXPECT_EQ(tile_name(25, 9), "Z10");
  EXPECT_EQ(tile_name(26, 0), "AA1");
  EXPECT_EQ(tile_name(52, 0), "BA1");
}

/// The parts of a line in tiles side by side add up to it.
RC_GTEST_PROP(Clipped, PartsAddUpToTheLine, ()) {
  const auto mm = [] { return static_cast<double>(*rc::gen::inRange(0, 1000)); };
  TemplateLine line;
  for (int n = *rc::gen::inRange(2, 8); n > 0; --n)
    line.points.push_back({mm() + 0.5, mm() + 0.5});
  line.closed = *rc::gen::arbitrary<bool>();
  const auto length = [](const std::vector<PagePoint>& points, bool closed) {
    double sum = 0;
    for (std::size_t i = 0; i + (closed ? 0 : 1) < points.size(); ++i)
      sum += std::hypot(points[(i + 1) % points.size()].x - points[i].x,
                        points[(i + 1) % points.size()].y - points[i].y);
    return sum;
  };
  double sum = 0;
  for (int column = 0; column <= 5; ++column)
    for (int row = 0; row <= 5; ++row)
      for (const auto& part :
           clipped(line, {column * 200.0, row * 200.0, column * 200.0 + 200, row * 200.0 + 200}))
        sum += length(part, false);
  RC_ASSERT(std::abs(sum - length(line.points, line.closed)) < 1e-6);
}

} // namespace
} // namespace treadfold
