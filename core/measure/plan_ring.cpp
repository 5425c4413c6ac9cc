#include "measure/plan_ring.h"

namespace treadfold {
namespace {

/// On which side of the line from a to b: 1 left, -1 right, 0 on it.
int side(PlanPoint a, PlanPoint b, PlanPoint c) {
  const double turn = cross(b - a, c - b);
  return turn > 0 ? 1 : turn < 0 ? -1 : 0;
}

/// c, on the line through a and b, lies between them.
bool between(PlanPoint a, PlanPoint b, PlanPoint c) { return dot(c - a, c - b) <= 0; }

} // namespace

double area_mm2(const PlanRing& ring) {
  double twice = 0;
  for (std::size_t i = 0; i < ring.size(); ++i)
    twice += cross(ring[i] - ring[0], ring[(i + 1) % ring.size()] - ring[0]);
  return twice / 2;
}

bool holds(const PlanRing& ring, PlanPoint at) {
  bool in = false;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const auto &a = ring[i], &b = ring[(i + 1) % ring.size()];
    if ((a.y > at.y) != (b.y > at.y) && at.x < a.x + (at.y - a.y) / (b.y - a.y) * (b.x - a.x)) in = !in;
  }
  return in;
}

bool edges_meet(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d) {
  const int of_c = side(a, b, c), of_d = side(a, b, d), of_a = side(c, d, a), of_b = side(c, d, b);
  return (of_c * of_d < 0 && of_a * of_b < 0) || (of_c == 0 && between(a, b, c)) ||
         (of_d == 0 && between(a, b, d)) || (of_a == 0 && between(c, d, a)) ||
         (of_b == 0 && between(c, d, b));
}

} // namespace treadfold
