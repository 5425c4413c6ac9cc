#include "cover/triangulate.h"

namespace treadfold {

namespace {

constexpr double kFlat_mm2 = 1e-9; // twice the area below which three points are on a line

double turn(FlatPoint a, FlatPoint b, FlatPoint c) {
  return (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u);
}

double twice_area(const FlatPath& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto& a = outline[i];
    const auto& b = outline[(i + 1) % outline.size()];
    twice += a.u * b.v - b.u * a.v;
  }
  return twice;
}

bool same(FlatPoint a, FlatPoint b) { return a.u == b.u && a.v == b.v; }

/// What is left of the outline while ears are cut off; `sign` makes left turns of its own turns.
struct Rest {
  const FlatPath& outline;
  double sign;
  std::vector<int> left;

  FlatPoint at(std::size_t i) const { return outline[static_cast<std::size_t>(left[i % left.size()])]; }

  /// No other corner lies in the triangle at corner i or on its edges.
  bool is_ear(std::size_t i) const {
    const std::size_t n = left.size();
    const auto a = at(i + n - 1), b = at(i), c = at(i + 1);
    if (sign * turn(a, b, c) <= kFlat_mm2) return false;
    for (std::size_t k = 2; k + 1 < n; ++k) {
      const auto p = at(i + k);
      if (same(p, a) || same(p, b) || same(p, c)) continue;
      if (sign * turn(a, b, p) >= -kFlat_mm2 && sign * turn(b, c, p) >= -kFlat_mm2 &&
          sign * turn(c, a, p) >= -kFlat_mm2)
        return false;
    }
    return true;
  }
  /// The next ear; where rounding leaves none, a corner on a line, or any.
  std::size_t next() const {
    for (std::size_t i = 0; i < left.size(); ++i)
      if (is_ear(i)) return i;
    for (std::size_t i = 0; i < left.size(); ++i)
      if (sign * turn(at(i + left.size() - 1), at(i), at(i + 1)) <= kFlat_mm2 &&
          sign * turn(at(i + left.size() - 1), at(i), at(i + 1)) >= -kFlat_mm2)
        return i;
    return 0;
  }
};

} // namespace

std::vector<std::array<int, 3>> triangulate(const FlatPath& outline) {
  Rest rest{outline, twice_area(outline) < 0 ? -1.0 : 1.0, {}};
  for (std::size_t i = 0; i < outline.size(); ++i)
    rest.left.push_back(static_cast<int>(i));
  std::vector<std::array<int, 3>> triangles;
  while (rest.left.size() >= 3) {
    const std::size_t n = rest.left.size(), i = rest.next();
    if (rest.sign * turn(rest.at(i + n - 1), rest.at(i), rest.at(i + 1)) > kFlat_mm2)
      triangles.push_back({rest.left[(i + n - 1) % n], rest.left[i], rest.left[(i + 1) % n]});
    rest.left.erase(rest.left.begin() + static_cast<std::ptrdiff_t>(i));
  }
  return triangles;
}

} // namespace treadfold
