#include "cover/coverage.h"

#include "cover/ray_hit.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

/// Faces that a ray from the bare face could meet.
std::vector<const PlacedFace*> within_reach(const BareFace& face, const std::vector<PlacedFace>& placed) {
  Point3 low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  const double reach = face.farthest + face.arc_radius + 1;
  const auto box = box_of(face.region.outline);
  for (const double a : {box.low.a, box.high.a})
    for (const double b : {box.low.b, box.high.b}) {
      const auto corner = face.origin + a * face.a + (face.arc_radius > 0 ? 0 : b) * face.b;
      for (std::size_t k = 0; k < 3; ++k) {
        low[k] = std::min(low[k], corner[k] - reach);
        high[k] = std::max(high[k], corner[k] + reach);
      }
    }
  std::vector<const PlacedFace*> faces;
  for (const auto& p : placed) {
    bool apart = p.face->hidden;
    for (std::size_t k = 0; k < 3; ++k)
      apart = apart || p.low[k] > high[k] || p.high[k] < low[k];
    if (!apart) faces.push_back(&p);
  }
  return faces;
}

} // namespace

std::optional<Coverage> coverage(const BareFace& face, const std::vector<PlacedFace>& placed) {
  constexpr int kSide = 24;
  // Unlike, so that no row of samples runs along a mitre at 45°.
  constexpr RegionPoint kInset_mm{0.2, 0.2371};
  constexpr double kRim_mm = 0.2, kRimApart_mm = 1;
  const auto candidates = within_reach(face, placed);
  int once = 0, more = 0, none = 0, open = 0, filled = 0;
  const auto layers_at = [&](RegionPoint point) {
    auto from = face.origin + point.a * face.a, direction = face.outward;
    if (face.arc_radius > 0) {
      const double angle = point.b / face.arc_radius;
      direction = steady::cos(angle) * face.outward + steady::sin(angle) * face.b;
      from = from + face.arc_radius * direction;
    } else {
      from = from + point.b * face.b;
    }
    int count = 0;
    for (const auto* face_near : candidates)
      count += times_met(*face_near, from, direction, face.nearest, face.farthest);
    return count;
  };
  const auto look = [&](RegionPoint p) {
    const int count = layers_at(p);
    ++(count == 1 ? once : count == 0 ? none : more);
  };
  for (const auto& p : samples(face.region, kSide, kInset_mm))
    look(p);
  for (const auto& upright : face.uprights) {
    for (const auto& p : beside(upright, kRim_mm, kRimApart_mm))
      if (holds(face.region, p)) look(p);
    for (const auto& p : beside(upright, -kRim_mm, kRimApart_mm))
      if (holds(upright, p) && holds(face.region.outline, p)) ++(layers_at(p) == 0 ? open : filled);
  }
  const double all = once + more + none;
  if (all == 0) return std::nullopt;
  const double stood_on = open + filled;
  return Coverage{face.name, once / all, more / all, none / all, stood_on > 0 ? filled / stood_on : 0};
}

} // namespace treadfold
