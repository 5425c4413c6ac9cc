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
/// too narrow for that they cross.
std::vector<Point> moved_out(const std::vector<Point>& net, Point low, Point high) {
  const std::size_t n = net.size();
  // Corners of the rectangle, counter-clockwise; the one that a side with this direction takes.
  const Point of_box[] = {low, {high.u, low.v}, high, {low.u, high.v}};
  const auto taken = [](Point d) { return d.u > 0 ? (d.v > 0 ? 1 : 0) : (d.v > 0 ? 2 : 3); };
  std::vector<Point> out;
  for (std::size_t i = 0; i < n; ++i) {
    const Point before = net[i] - net[(i + n - 1) % n], after = net[(i + 1) % n] - net[i];
    const int first = taken(before), last = taken(after);
    const double bend = cross(before, after);
    if (bend < 0 && first != last) {
      const Point a = net[i] + of_box[first], b = net[i] + of_box[last];
      const double along = cross(b - a, after) / bend;
      out.push_back({a.u + along * before.u, a.v + along * before.v});
      continue;
    }
    for (int k = first;; k = (k + 1) % 4) {
      out.push_back(net[i] + of_box[k]);
      if (k == last || bend <= 0) break;
    }
    if (bend <= 0 && first != last) out.push_back(net[i] + of_box[last]);
  }
  return out;
}

/// The net outline with its allowances, hollows and all; empty where they leave a hollow none. In steps.
/// Moved out a step further than need be, so that nothing is lost by rounding.
std::vector<Corner> with_hollows(std::vector<Point> net, Point more, Corner end) {
  double twice = 0;
  for (std::size_t i = 0; i < net.size(); ++i)
    twice += cross(net[i] - net[0], net[(i + 1) % net.size()] - net[0]);
  if (twice < 0) std::reverse(net.begin(), net.end());
  std::vector<Corner> ring;
  for (const auto& p : moved_out(net, {-1, -1}, more + Point{1, 1})) {
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
  return ring.size() > 2 && simple(ring) && area_twice(ring) > 0 ? ring : std::vector<Corner>{};
}

} // namespace

std::vector<std::pair<Length, Length>> rough_outline(const Piece& piece, Length step) {
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
  if (piece.steps.empty()) { // a floor: its hollows hold whole steps
    std::vector<Point> net;
    for (const auto& p : piece.outline)
      net.push_back({(p.u - piece.net_origin.u) / step.mm(), (p.v - piece.net_origin.v) / step.mm()});
    auto hollow = with_hollows(std::move(net), {more_u / step.mm(), more_v / step.mm()}, end);
    if (!hollow.empty() && area_twice(hollow) < kNearlyWhole * area_twice(ring)) ring = std::move(hollow);
  }
  if (area_twice(ring) > 2 * kNearlyWhole * static_cast<double>(end.u * end.v)) return {};
  std::vector<std::pair<Length, Length>> outline;
  for (const auto& c : ring)
    outline.emplace_back(step * c.u, step * c.v);
  return outline;
}

} // namespace treadfold
