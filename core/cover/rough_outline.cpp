#include "cover/rough_outline.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr double kNearlyWhole = 0.95;

/// In steps.
struct Corner {
  std::int64_t u = 0, v = 0;
  auto operator<=>(const Corner&) const = default;
};

std::int64_t turn(Corner a, Corner b, Corner c) {
  return (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u);
}

/// A. M. Andrew: "Another efficient algorithm for convex hulls in two dimensions", Information Processing
/// Letters 9 (1979) 216-219. (From memory.)
std::vector<Corner> hull(std::vector<Corner> points) {
  std::sort(points.begin(), points.end());
  points.erase(std::unique(points.begin(), points.end()), points.end());
  std::vector<Corner> ring;
  for (const bool back : {false, true}) {
    const auto least = ring.size() + 2;
    for (const auto& p : points) {
      while (ring.size() >= least && turn(ring[ring.size() - 2], ring.back(), p) <= 0)
        ring.pop_back();
      ring.push_back(p);
    }
    if (!back) std::reverse(points.begin(), points.end());
    ring.pop_back();
  }
  return ring;
}

double area_twice(const std::vector<Corner>& ring) {
  double twice = 0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    twice += static_cast<double>(turn(ring[0], ring[i], ring[(i + 1) % ring.size()]));
  return twice;
}

/// Do the sides cross or touch each other but for neighbours in their corner?
bool simple(const std::vector<Corner>& ring) {
  const std::size_t n = ring.size();
  const auto sign = [](std::int64_t x) { return x > 0 ? 1 : x < 0 ? -1 : 0; };
  const auto between = [](Corner a, Corner b, Corner c) {
    return std::min(a.u, b.u) <= c.u && c.u <= std::max(a.u, b.u) && std::min(a.v, b.v) <= c.v &&
           c.v <= std::max(a.v, b.v);
  };
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 2; j < n; ++j) {
      if ((j + 1) % n == i) continue;
      const Corner a = ring[i], b = ring[i + 1], c = ring[j], d = ring[(j + 1) % n];
      const int s1 = sign(turn(a, b, c)), s2 = sign(turn(a, b, d)), s3 = sign(turn(c, d, a)),
                s4 = sign(turn(c, d, b));
      if ((s1 != s2 && s3 != s4) || (s1 == 0 && between(a, b, c)) || (s2 == 0 && between(a, b, d)) ||
          (s3 == 0 && between(c, d, a)) || (s4 == 0 && between(c, d, b)))
        return false;
    }
  return true;
}

struct Point {
  double u = 0, v = 0;
};
Point operator-(Point a, Point b) { return {a.u - b.u, a.v - b.v}; }
Point operator+(Point a, Point b) { return {a.u + b.u, a.v + b.v}; }
double cross(Point a, Point b) { return a.u * b.v - a.v * b.u; }

/// The sides moved out by as much of `low` … `high` as they face: a corner that sticks out takes the corners
/// of that rectangle between its sides along, at one that goes in the moved sides meet. Where the hollow is
/// too narrow for that they cross; nothing where one of them would run backwards.
std::vector<Point> moved_out(const std::vector<Point>& net, Point low, Point high) {
  const std::size_t n = net.size();
  // Corners of the rectangle, counter-clockwise; the one that a side with this direction takes.
  const Point of_box[] = {low, {high.u, low.v}, high, {low.u, high.v}};
  const auto taken = [](Point d) { return d.u > 0 ? (d.v > 0 ? 1 : 0) : (d.v > 0 ? 2 : 3); };
  std::vector<Point> out;
  std::vector<std::size_t> first_of(n), last_of(n); // in `out`, by corner
  for (std::size_t i = 0; i < n; ++i) {
    first_of[i] = out.size();
    const Point before = net[i] - net[(i + n - 1) % n], after = net[(i + 1) % n] - net[i];
    const int first = taken(before), last = taken(after);
    const double bend = cross(before, after);
    if (bend < 0 && first != last) {
      const Point a = net[i] + of_box[first], b = net[i] + of_box[last];
      const double along = cross(b - a, after) / bend;
      out.push_back({a.u + along * before.u, a.v + along * before.v});
    } else {
      for (int k = first;; k = (k + 1) % 4) {
        out.push_back(net[i] + of_box[k]);
        if (k == last || bend <= 0) break;
      }
      if (bend <= 0 && first != last) out.push_back(net[i] + of_box[last]);
    }
    last_of[i] = out.size() - 1;
  }
  for (std::size_t i = 0; i < n; ++i) {
    const std::size_t next = (i + 1) % n;
    const Point was = net[next] - net[i], is = out[first_of[next]] - out[last_of[i]];
    if (was.u * is.u + was.v * is.v < 0) return {};
  }
  return out;
}

/// A net ring with the goods on its left and their allowances, hollows and all; empty where they leave a
/// hollow none. In steps. Moved out a step further than need be, so that nothing is lost by rounding.
std::vector<Corner> with_hollows(const std::vector<Point>& net, Point low, Point high, Corner end) {
  std::vector<Corner> ring;
  for (const auto& p : moved_out(net, low - Point{1, 1}, high + Point{1, 1})) {
    const Corner c{std::clamp<std::int64_t>(std::llround(p.u), 0, end.u),
                   std::clamp<std::int64_t>(std::llround(p.v), 0, end.v)};
    if (!ring.empty() && c == ring.back()) continue;
    if (ring.size() > 1 && turn(ring[ring.size() - 2], ring.back(), c) == 0) ring.pop_back();
    ring.push_back(c);
  }
  while (ring.size() > 2 &&
         (ring.back() == ring.front() || turn(ring[ring.size() - 2], ring.back(), ring[0]) == 0))
    ring.pop_back();
  while (ring.size() > 2 && turn(ring.back(), ring[0], ring[1]) == 0)
    ring.erase(ring.begin());
  return ring.size() > 2 && simple(ring) ? ring : std::vector<Corner>{};
}

/// In steps from the rectangle's corner, counter-clockwise or not.
std::vector<Point> in_steps(const FlatPath& path, FlatPoint corner, Length step, bool counter_clockwise) {
  std::vector<Point> ring;
  double twice = 0;
  for (const auto& p : path) {
    ring.push_back({(p.u - corner.u) / step.mm(), (p.v - corner.v) / step.mm()});
    if (ring.size() > 1) twice += cross(ring[ring.size() - 2] - ring[0], ring.back() - ring[0]);
  }
  if ((twice > 0) != counter_clockwise) std::reverse(ring.begin(), ring.end());
  return ring;
}

/// What is left of the openings when as much goods as the widest trim lies over each of their sides.
std::vector<std::vector<Corner>> holes_of(const Piece& piece, Length step, Corner end) {
  const double trim =
      std::max({piece.trim_left, piece.trim_right, piece.trim_back, piece.trim_foot}).mm() / step.mm();
  const FlatPoint corner{piece.net_origin.u - piece.trim_left.mm(),
                         piece.net_origin.v - piece.trim_back.mm()};
  std::vector<std::vector<Corner>> holes;
  for (const auto& opening : piece.openings) {
    if (opening.step > 0) continue;
    auto hole = with_hollows(in_steps(opening.hole, corner, step, false), {-trim, -trim}, {trim, trim}, end);
    if (!hole.empty() && area_twice(hole) < 0) holes.push_back(std::move(hole));
  }
  return holes;
}

} // namespace

RoughOutline rough_outline(const Piece& piece, Length step, bool hollows) {
  if (piece.runner || piece.outline.empty()) return {};
  FlatPoint most = piece.net_origin;
  for (const auto& p : piece.outline)
    most = {std::max(most.u, p.u), std::max(most.v, p.v)};
  // What the rectangle has beyond the net on both sides together, every point of the net is to have too.
  const double more_u = piece.cut_width.mm() - (most.u - piece.net_origin.u),
               more_v = piece.cut_length.mm() - (most.v - piece.net_origin.v);
  const Corner end{piece.cut_width.ticks / step.ticks, piece.cut_length.ticks / step.ticks};
  std::vector<Corner> points;
  // To the steps on either side, so that nothing is lost by rounding.
  const auto add = [&](double u_mm, double v_mm) {
    const double u = u_mm / step.mm(), v = v_mm / step.mm();
    for (const double at_u : {std::floor(u), std::ceil(u)})
      for (const double at_v : {std::floor(v), std::ceil(v)})
        points.push_back({std::clamp<std::int64_t>(std::llround(at_u), 0, end.u),
                          std::clamp<std::int64_t>(std::llround(at_v), 0, end.v)});
  };
  for (const auto& p : piece.outline)
    for (const double u : {0.0, more_u})
      for (const double v : {0.0, more_v})
        add(p.u - piece.net_origin.u + u, p.v - piece.net_origin.v + v);
  auto ring = hull(std::move(points));
  if (hollows) {
    auto hollow = with_hollows(in_steps(piece.outline, piece.net_origin, step, true), {},
                               {more_u / step.mm(), more_v / step.mm()}, end);
    if (!hollow.empty() && area_twice(hollow) > 0 && area_twice(hollow) < kNearlyWhole * area_twice(ring))
      ring = std::move(hollow);
  }
  const auto holes = holes_of(piece, step, end);
  if (area_twice(ring) > 2 * kNearlyWhole * static_cast<double>(end.u * end.v)) {
    if (holes.empty()) return {};
    ring = {{0, 0}, {end.u, 0}, end, {0, end.v}};
  }
  const auto lengths = [&](const std::vector<Corner>& corners) {
    RoughRing outline;
    for (const auto& c : corners)
      outline.emplace_back(step * c.u, step * c.v);
    return outline;
  };
  RoughOutline rough{lengths(ring)};
  for (const auto& hole : holes)
    rough.holes.push_back(lengths(hole));
  return rough;
}

} // namespace treadfold
