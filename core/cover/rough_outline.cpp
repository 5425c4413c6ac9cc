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
  const auto ring = hull(std::move(points));
  double twice = 0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    twice += static_cast<double>(turn({}, ring[i], ring[(i + 1) % ring.size()]));
  if (twice > 2 * kNearlyWhole * static_cast<double>(end.u * end.v)) return {};
  std::vector<std::pair<Length, Length>> outline;
  for (const auto& c : ring)
    outline.emplace_back(step * c.u, step * c.v);
  return outline;
}

} // namespace treadfold
