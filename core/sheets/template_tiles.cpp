#include "sheets/template_tiles.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <utility>

namespace treadfold {
namespace {

/// The part of a → b inside `box`, as two shares of the way; empty if the first is the greater.
std::array<double, 2> inside(PagePoint a, PagePoint b, const Box& box) {
  double enter = 0, leave = 1;
  const auto edge = [&](double from, double to, double least, double most) {
    if (from == to) {
      if (from < least || from > most) enter = 2;
      return;
    }
    const double s = (least - from) / (to - from), t = (most - from) / (to - from);
    enter = std::max(enter, std::min(s, t));
    leave = std::min(leave, std::max(s, t));
  };
  edge(a.x, b.x, box.left, box.right);
  edge(a.y, b.y, box.top, box.bottom);
  return {enter, leave};
}

/// The tiles of the part that holds (column, row), as their places in `used`.
std::vector<int> part_of(const TileGrid& grid, int first) {
  std::vector<char> seen(grid.used.size());
  std::vector<int> out{first};
  seen[static_cast<std::size_t>(first)] = 1;
  for (std::size_t i = 0; i < out.size(); ++i) {
    const int column = out[i] % grid.columns, row = out[i] / grid.columns;
    for (const auto& [dc, dr] : std::array<std::array<int, 2>, 4>{{{1, 0}, {-1, 0}, {0, 1}, {0, -1}}}) {
      if (!grid.has(column + dc, row + dr)) continue;
      const int next = (row + dr) * grid.columns + column + dc;
      if (std::exchange(seen[static_cast<std::size_t>(next)], 1) == 0) out.push_back(next);
    }
  }
  return out;
}

/// Prints blank tiles too where a part would lie apart from the rest: a hole in the middle of a floor.
void join_parts(TileGrid& grid) {
  while (true) {
    const auto at = std::find(grid.used.begin(), grid.used.end(), 1);
    if (at == grid.used.end()) return;
    const auto part = part_of(grid, static_cast<int>(at - grid.used.begin()));
    if (static_cast<int>(part.size()) == grid.count()) return;
    const auto distance = [&](int a, int b) {
      return std::abs(a % grid.columns - b % grid.columns) + std::abs(a / grid.columns - b / grid.columns);
    };
    int from = 0, to = 0, least = grid.columns + grid.rows;
    for (int other = 0; other < static_cast<int>(grid.used.size()); ++other) {
      if (grid.used[static_cast<std::size_t>(other)] == 0) continue;
      if (std::find(part.begin(), part.end(), other) != part.end()) continue;
      for (const int own : part)
        if (distance(own, other) < least) least = distance(own, other), from = own, to = other;
    }
    int column = from % grid.columns, row = from / grid.columns;
    while (column != to % grid.columns || row != to / grid.columns) {
      if (column != to % grid.columns)
        column += to % grid.columns > column ? 1 : -1;
      else
        row += to / grid.columns > row ? 1 : -1;
      grid.used[grid.index(column, row)] = 1;
    }
  }
}

int tiles_along(double length, double window) {
  return std::max(1, static_cast<int>(std::ceil((length - kTileOverlap) / (window - kTileOverlap) - 1e-9)));
}

} // namespace

std::vector<const TemplateLine*> all_lines(const TemplateShape& shape) {
  std::vector<const TemplateLine*> out{&shape.outline};
  for (const auto& l : shape.rest)
    out.push_back(&l);
  for (const auto& l : shape.lines)
    out.push_back(&l);
  return out;
}

int TileGrid::count() const { return static_cast<int>(std::count(used.begin(), used.end(), 1)); }

Box TileGrid::shown(int column, int row) const {
  const double x = start.x + column * (window.width() - kTileOverlap),
               y = start.y + row * (window.height() - kTileOverlap);
  return {x, y, x + window.width(), y + window.height()};
}

Box TileGrid::own(int column, int row) const {
  Box box = shown(column, row);
  if (column + 1 < columns) box.right -= kTileOverlap;
  if (row + 1 < rows) box.bottom -= kTileOverlap;
  return box;
}

TileGrid tile_grid(double page_width, double page_height, const Box& window, const TemplateShape& shape) {
  TileGrid grid{page_width, page_height, window, 1, 1, {}, {}};
  grid.columns = tiles_along(shape.width_mm + 2 * kAroundShape, window.width());
  grid.rows = tiles_along(shape.height_mm + 2 * kAroundShape, window.height());
  const double all_x = grid.columns * (window.width() - kTileOverlap) + kTileOverlap,
               all_y = grid.rows * (window.height() - kTileOverlap) + kTileOverlap;
  grid.start = {(shape.width_mm - all_x) / 2, (shape.height_mm - all_y) / 2};
  const auto lines = all_lines(shape);
  for (int row = 0; row < grid.rows; ++row)
    for (int column = 0; column < grid.columns; ++column) {
      const Box box = grid.own(column, row);
      grid.used.push_back(std::any_of(lines.begin(), lines.end(),
                                      [&](const TemplateLine* l) { return !clipped(*l, box).empty(); }));
    }
  join_parts(grid);
  return grid;
}

std::string column_name(int column) {
  std::string out;
  for (int n = column; n >= 0; n = n / 26 - 1)
    out.insert(out.begin(), static_cast<char>('A' + n % 26));
  return out;
}

std::string tile_name(int column, int row) { return column_name(column) + std::to_string(row + 1); }

std::vector<std::vector<PagePoint>> clipped(const TemplateLine& line, const Box& box) {
  std::vector<std::vector<PagePoint>> out;
  bool going = false;
  const std::size_t n = line.points.size();
  for (std::size_t i = 0; i + (line.closed ? 0 : 1) < n; ++i) {
    const PagePoint a = line.points[i], b = line.points[(i + 1) % n];
    const auto [enter, leave] = inside(a, b, box);
    if (enter >= leave) {
      going = false;
      continue;
    }
    const auto at = [&](double t) { return PagePoint{a.x + t * (b.x - a.x), a.y + t * (b.y - a.y)}; };
    if (!going || enter > 0) out.push_back({enter > 0 ? at(enter) : a});
    out.back().push_back(leave < 1 ? at(leave) : b);
    going = leave >= 1;
  }
  return out;
}

} // namespace treadfold
