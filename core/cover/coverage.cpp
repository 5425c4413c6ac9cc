#include "cover/coverage.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace treadfold {

namespace {

/// Layers of carpet that a ray from bare wood meets where carpet should lie.
int layers(const std::vector<const PlacedFace*>& candidates, Point3 from, Point3 direction, double nearest,
           double farthest) {
  int count = 0;
  const auto hit = [&](const PlacedFace& p, double along, double ahead, double at) {
    if (at >= nearest && at <= farthest && inside(p.face->outline, p.flat(along, ahead))) ++count;
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
      const double turned =
          p->radius > 0 ? std::atan2(x + at * dx, y + at * dy) : std::atan2(-(x + at * dx), -(y + at * dy));
      hit(*p, dot(rel + at * direction, p->e1), turned * p->radius, at);
    }
  }
  return count;
}

/// Faces that a ray from the bare face could meet.
std::vector<const PlacedFace*> within_reach(const BareFace& face, const std::vector<PlacedFace>& placed) {
  Point3 low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  const double reach = face.farthest + face.arc_radius + 1;
  for (const double i : {0.0, 1.0})
    for (const double j : {0.0, 1.0}) {
      const auto corner = face.origin + i * face.a + j * face.b;
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

/// Not wood, or left open on purpose. a and b in mm from the face's origin.
bool is_exempt(const BareFace& face, double a, double b) {
  if (const auto& o = face.opening; o && a >= o->a0 && a <= o->a1 && b >= o->b0 && b <= o->b1) return true;
  const double x = face.front_round - (norm(face.a) - a),
               y = face.front_round - std::min(b, norm(face.b) - b);
  return x > 0 && y > 0 && std::hypot(x, y) > face.front_round;
}

} // namespace

std::optional<Coverage> coverage(const BareFace& face, const std::vector<PlacedFace>& placed) {
  constexpr int kSide = 24;
  // Unlike, so that no row of samples runs along a mitre at 45°.
  constexpr double kInset_a_mm = 0.2, kInset_b_mm = 0.2371;
  const auto candidates = within_reach(face, placed);
  const double long_a = norm(face.a), long_b = norm(face.b);
  const auto station = [&](int i, double length, double most) {
    const double inset = std::min(most, length / 4);
    return inset + (length - 2 * inset) * i / (kSide - 1);
  };
  int once = 0, more = 0, none = 0;
  for (int i = 0; i < kSide; ++i) {
    for (int j = 0; j < kSide; ++j) {
      const double a = station(i, long_a, kInset_a_mm), b = station(j, long_b, kInset_b_mm);
      if (is_exempt(face, a, b)) continue;
      auto from = face.origin + (a / long_a) * face.a, direction = face.outward;
      if (face.arc_radius > 0) {
        const double angle =
            station(j, face.arc_radius * std::numbers::pi / 2, kInset_b_mm) / face.arc_radius;
        direction = std::cos(angle) * face.outward + (std::sin(angle) / long_b) * face.b;
        from = from + face.arc_radius * direction;
      } else {
        from = from + (b / long_b) * face.b;
      }
      const int count = layers(candidates, from, direction, face.nearest, face.farthest);
      ++(count == 1 ? once : count == 0 ? none : more);
    }
  }
  const double all = once + more + none;
  if (all == 0) return std::nullopt;
  return Coverage{face.name, once / all, more / all, none / all};
}

} // namespace treadfold
