#include "cover/coverage.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

/// Layers of carpet that a ray from bare wood meets where carpet should lie.
int layers(const std::vector<const PlacedFace*>& candidates, Point3 from, Point3 direction, double nearest,
           double farthest) {
  int count = 0;
  const auto hit = [&](const PlacedFace& p, double along, double ahead, double at) {
    if (at >= nearest && at <= farthest && p.holds(p.flat(along, ahead))) ++count;
  };
  for (const auto* p : candidates) {
    const auto rel = from - p->origin;
    if (p->radius == 0) {
      const double slope = dot(direction, p->n);
      if (std::abs(slope) < 1e-9) continue;
      const double at = -dot(rel, p->n) / slope;
      const auto q = rel + at * direction;
      hit(*p, dot(q, p->e1), dot(q, p->e2), at);
      continue;
    }
    // Cylinder about the line origin - radius·n + s·e1.
    const double x = dot(rel, p->e2), y = dot(rel, p->n) + p->radius;
    const double dx = dot(direction, p->e2), dy = dot(direction, p->n);
    const double a = dx * dx + dy * dy, b = x * dx + y * dy, c = x * x + y * y - p->radius * p->radius;
    const double root = b * b - a * c;
    if (a < 1e-12 || root < 0) continue;
    for (const double sign : {-1.0, 1.0}) {
      const double at = (-b + sign * std::sqrt(root)) / a;
      const double turned = p->radius > 0 ? steady::atan2(x + at * dx, y + at * dy)
                                          : steady::atan2(-(x + at * dx), -(y + at * dy));
      hit(*p, dot(rel + at * direction, p->e1), turned * p->radius, at);
    }
  }
  return count;
}

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
  const auto layers_at = [&](RegionPoint p) {
    auto from = face.origin + p.a * face.a, direction = face.outward;
    if (face.arc_radius > 0) {
      const double angle = p.b / face.arc_radius;
      direction = steady::cos(angle) * face.outward + steady::sin(angle) * face.b;
      from = from + face.arc_radius * direction;
    } else {
      from = from + p.b * face.b;
    }
    return layers(candidates, from, direction, face.nearest, face.farthest);
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
