#include "cover/triangulate.h"

#include <algorithm>

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

/// Does some side of the closed path come between a and b or touch what joins them? Those that end in either
/// do not.
bool parted(const FlatPath& path, FlatPoint a, FlatPoint b) {
  const auto apart = [](double a0, double a1, double b0, double b1) {
    return std::max(a0, a1) < std::min(b0, b1) || std::max(b0, b1) < std::min(a0, a1);
  };
  for (std::size_t i = 0; i < path.size(); ++i) {
    const auto &p = path[i], &q = path[(i + 1) % path.size()];
    if (same(p, a) || same(p, b) || same(q, a) || same(q, b)) continue;
    if (apart(a.u, b.u, p.u, q.u) || apart(a.v, b.v, p.v, q.v)) continue;
    if (turn(a, b, p) * turn(a, b, q) <= 0 && turn(p, q, a) * turn(p, q, b) <= 0) return true;
  }
  return false;
}

/// Does the way from corner i of the closed path to `to` begin on the path's inner side? `sign` as in Rest.
/// J. O'Rourke, Computational Geometry in C (1998), 1.6.3. (From memory.)
bool begins_inside(const FlatPath& path, std::size_t i, FlatPoint to, double sign) {
  const auto at = path[i], before = path[(i + path.size() - 1) % path.size()],
             after = path[(i + 1) % path.size()];
  if (sign * turn(before, at, after) >= 0)
    return sign * turn(at, to, before) > 0 && sign * turn(to, at, after) > 0;
  return sign * turn(at, to, after) < 0 || sign * turn(to, at, before) < 0;
}

} // namespace

FlatPath joined_to_holes(FlatPath outline, std::vector<FlatPath> holes) {
  for (auto& hole : holes)
    if ((twice_area(hole) > 0) == (twice_area(outline) > 0)) std::reverse(hole.begin(), hole.end());
  const double sign = twice_area(outline) < 0 ? -1.0 : 1.0;
  while (!holes.empty()) {
    struct Way {
      double far_mm = 1e300;
      std::size_t from = 0, hole = 0, to = 0;
    } best;
    for (std::size_t h = 0; h < holes.size(); ++h)
      for (std::size_t i = 0; i < outline.size(); ++i)
        for (std::size_t k = 0; k < holes[h].size(); ++k)
          if (const double far = distance_mm(outline[i], holes[h][k]);
              far < best.far_mm && begins_inside(outline, i, holes[h][k], sign) &&
              !parted(outline, outline[i], holes[h][k]) &&
              std::none_of(holes.begin(), holes.end(),
                           [&](const auto& other) { return parted(other, outline[i], holes[h][k]); }))
            best = {far, i, h, k};
    auto hole = std::move(holes[best.hole]);
    holes.erase(holes.begin() + static_cast<std::ptrdiff_t>(best.hole));
    std::rotate(hole.begin(), hole.begin() + static_cast<std::ptrdiff_t>(best.to), hole.end());
    hole.push_back(hole.front());
    hole.push_back(outline[best.from]);
    outline.insert(outline.begin() + static_cast<std::ptrdiff_t>(best.from) + 1, hole.begin(), hole.end());
  }
  return outline;
}

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
