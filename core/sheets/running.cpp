#include "sheets/running.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr double kOnRelief_mm = 0.01;

constexpr double kCorner_rad = 0.2;            // a curve's points turn less than this, corners more
constexpr double kKnife_mm = 25.4 / 16 + 1e-6; // corners nearer than this are one

double turn_at(FlatPoint a, FlatPoint b, FlatPoint c) {
  const double x1 = b.u - a.u, y1 = b.v - a.v, x2 = c.u - b.u, y2 = c.v - b.v;
  return std::abs(steady::atan2(x1 * y2 - y1 * x2, x1 * x2 + y1 * y2));
}

void add_corners(const FlatPath& path, bool closed, std::vector<FlatPoint>& out) {
  const std::size_t n = path.size();
  for (std::size_t i = 0; i < n; ++i) {
    const bool end = !closed && (i == 0 || i + 1 == n);
    if (!end && turn_at(path[(i + n - 1) % n], path[i], path[(i + 1) % n]) <= kCorner_rad) continue;
    const bool there = std::any_of(out.begin(), out.end(), [&](FlatPoint p) {
      return std::abs(p.u - path[i].u) <= kKnife_mm && std::abs(p.v - path[i].v) <= kKnife_mm;
    });
    if (!there) out.push_back(path[i]);
  }
}

} // namespace

namespace {

/// The hole of an upright is marked by its corners; a round one by its four sides.
void add_hole(FlatPath ring, std::vector<FlatPoint>& out) {
  ring.pop_back();
  add_corners(ring, true, out);
  const auto across = std::minmax_element(ring.begin(), ring.end(), [](auto a, auto b) { return a.u < b.u; });
  const auto along = std::minmax_element(ring.begin(), ring.end(), [](auto a, auto b) { return a.v < b.v; });
  for (const auto& side : {across.first, across.second, along.first, along.second})
    add_corners({*side}, false, out);
}

} // namespace

bool is_hole(const FlatLine& line) {
  return line.role == LineRole::cut && line.points.size() > 3 &&
         distance_mm(line.points.front(), line.points.back()) < 1e-6;
}

FlatPath without_repeats(const FlatPath& path, bool closed) {
  const auto same = [](FlatPoint a, FlatPoint b) { return steady::hypot(a.u - b.u, a.v - b.v) < 1e-6; };
  FlatPath out;
  for (const auto& p : path)
    if (out.empty() || !same(out.back(), p)) out.push_back(p);
  while (closed && out.size() > 1 && same(out.front(), out.back()))
    out.pop_back();
  return out;
}

FlatPoint cut_corner(const Piece& piece) {
  return {piece.net_origin.u - piece.trim_left.mm(), piece.net_origin.v - piece.trim_back.mm()};
}

std::vector<FlatPoint> cut_rectangle(const Piece& piece) {
  const FlatPoint c = cut_corner(piece);
  const double u = c.u + piece.cut_width.mm(), v = c.v + piece.cut_length.mm();
  return {c, {u, c.v}, {u, v}, {c.u, v}};
}

std::vector<FlatPoint> outline_corners(const Piece& piece) {
  std::vector<FlatPoint> out;
  add_corners(without_repeats(piece.outline, true), true, out);
  return out;
}

std::vector<FlatPoint> corner_points(const Piece& piece) {
  auto out = outline_corners(piece);
  for (const auto& l : piece.lines)
    if (is_hole(l))
      add_hole(l.points, out);
    else if (l.role != LineRole::strip && l.role != LineRole::glue)
      add_corners(without_repeats(l.points, false), false, out);
  // Relief cuts are many and alike: the template has them.
  FlatPath relief;
  for (const auto& seam : piece.seams)
    if (seam.pressed)
      for (const auto* path : {&seam.a, &seam.b})
        relief.insert(relief.end(), path->begin(), path->end());
  std::erase_if(out, [&](FlatPoint p) {
    return std::any_of(relief.begin(), relief.end(),
                       [&](FlatPoint q) { return distance_mm(p, q) < kOnRelief_mm; });
  });
  return out;
}

std::vector<RunningDimension> running_dimensions(const Piece& piece, const std::vector<FlatPoint>& points,
                                                 bool across, LengthUnit unit) {
  const FlatPoint origin = cut_corner(piece);
  std::vector<RunningDimension> all;
  for (const auto& p : points) {
    const double u = p.u - origin.u, v = p.v - origin.v;
    all.push_back({across ? u : v, across ? v : u, ""});
  }
  std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.at_mm < b.at_mm; });
  std::vector<RunningDimension> out;
  for (auto& r : all) {
    r.text = show_length(from_mm(std::abs(r.at_mm) < 1e-6 ? 0 : r.at_mm), unit);
    if (!out.empty() && out.back().text == r.text)
      out.back().reach_mm = std::min(out.back().reach_mm, r.reach_mm);
    else
      out.push_back(r);
  }
  return out;
}

} // namespace treadfold
