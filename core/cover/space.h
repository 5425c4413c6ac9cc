// Points and directions in space, mm.
#pragma once

#include <array>
#include <cmath>

namespace treadfold {

using Point3 = std::array<double, 3>;

inline Point3 operator+(Point3 a, Point3 b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
inline Point3 operator-(Point3 a, Point3 b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
inline Point3 operator*(double k, Point3 a) { return {k * a[0], k * a[1], k * a[2]}; }
inline double dot(Point3 a, Point3 b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
inline Point3 cross(Point3 a, Point3 b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
inline double norm(Point3 a) { return std::sqrt(dot(a, a)); }

} // namespace treadfold
