// Points and directions of a plan, mm: of a step in the step's frame; of a floor x right, y away from the
// viewer.
#pragma once

namespace treadfold {

struct PlanPoint {
  double x = 0, y = 0;
  bool operator==(const PlanPoint&) const = default;
};

inline PlanPoint operator+(PlanPoint a, PlanPoint b) { return {a.x + b.x, a.y + b.y}; }
inline PlanPoint operator-(PlanPoint a, PlanPoint b) { return {a.x - b.x, a.y - b.y}; }
inline PlanPoint operator*(double k, PlanPoint a) { return {k * a.x, k * a.y}; }
inline double dot(PlanPoint a, PlanPoint b) { return a.x * b.x + a.y * b.y; }
/// Positive where b points to the left of a.
inline double cross(PlanPoint a, PlanPoint b) { return a.x * b.y - a.y * b.x; }

} // namespace treadfold
