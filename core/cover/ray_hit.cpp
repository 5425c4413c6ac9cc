#include "cover/ray_hit.h"

#include "units/steady.h"

#include <cmath>

namespace treadfold {

int times_met(const PlacedFace& p, Point3 from, Point3 direction, double nearest, double farthest) {
  const auto hit = [&](double along, double ahead, double at) {
    return at >= nearest && at <= farthest && p.holds(p.flat(along, ahead)) ? 1 : 0;
  };
  const auto rel = from - p.origin;
  if (p.radius == 0) {
    const double slope = dot(direction, p.n);
    if (std::abs(slope) < 1e-9) return 0;
    const double at = -dot(rel, p.n) / slope;
    const auto q = rel + at * direction;
    return hit(dot(q, p.e1), dot(q, p.e2), at);
  }
  // Cylinder about the line origin - radius·n + s·e1.
  const double x = dot(rel, p.e2), y = dot(rel, p.n) + p.radius;
  const double dx = dot(direction, p.e2), dy = dot(direction, p.n);
  const double a = dx * dx + dy * dy, b = x * dx + y * dy, c = x * x + y * y - p.radius * p.radius;
  const double root = b * b - a * c;
  if (a < 1e-12 || root < 0) return 0;
  int count = 0;
  for (const double sign : {-1.0, 1.0}) {
    const double at = (-b + sign * std::sqrt(root)) / a;
    if (at < nearest || at > farthest) continue;
    const double turned = p.radius > 0 ? steady::atan2(x + at * dx, y + at * dy)
                                       : steady::atan2(-(x + at * dx), -(y + at * dy));
    count += hit(dot(rel + at * direction, p.e1), turned * p.radius, at);
  }
  return count;
}

} // namespace treadfold
