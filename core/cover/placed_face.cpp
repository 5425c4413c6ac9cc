#include "cover/placed_face.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>

namespace treadfold {

namespace {

PlacedFace place(const Face& face, Point3 origin, Point3 along, Point3 normal) {
  PlacedFace p;
  p.face = &face;
  p.hinge = face.hinge_a;
  const double length = distance_mm(face.hinge_a, face.hinge_b);
  p.h = {(face.hinge_b.u - face.hinge_a.u) / length, (face.hinge_b.v - face.hinge_a.v) / length};
  p.c = {-p.h.v, p.h.u};
  p.origin = origin;
  p.e1 = along;
  // The pile's side is up when u runs right and v toward the viewer: along × ahead = -normal, so ahead =
  // along × normal.
  const auto ahead = cross(along, normal);
  const double turn = face.crease_rad;
  p.e2 = steady::cos(turn) * ahead - steady::sin(turn) * normal;
  p.n = steady::cos(turn) * normal + steady::sin(turn) * ahead;
  p.radius = face.bend_rad == 0 ? 0 : face.bend_width_mm / face.bend_rad;
  p.low = {1e300, 1e300, 1e300};
  p.high = {-1e300, -1e300, -1e300};
  const double bulge = p.radius == 0 ? 0 : std::abs(p.radius);
  for (const auto& point : face.outline) {
    const auto q = p.at(point);
    for (std::size_t k = 0; k < 3; ++k) {
      p.low[k] = std::min(p.low[k], q[k] - bulge);
      p.high[k] = std::max(p.high[k], q[k] + bulge);
    }
  }
  return p;
}

} // namespace

bool inside(const FlatPath& outline, FlatPoint p) {
  bool in = false;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const auto &a = outline[j], &b = outline[i];
    if ((a.v > p.v) != (b.v > p.v) && p.u < (b.u - a.u) * (p.v - a.v) / (b.v - a.v) + a.u) in = !in;
  }
  return in;
}

namespace {

double distance_to(const FlatPath& outline, FlatPoint p) {
  double nearest = 1e300;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const auto a = outline[j], b = outline[i];
    const double du = b.u - a.u, dv = b.v - a.v, squared = du * du + dv * dv;
    const double t = squared == 0 ? 0 : std::clamp(((p.u - a.u) * du + (p.v - a.v) * dv) / squared, 0.0, 1.0);
    nearest = std::min(nearest, steady::hypot(p.u - a.u - t * du, p.v - a.v - t * dv));
  }
  return nearest;
}

} // namespace

double distance_outside(const FlatPath& outline, FlatPoint p) {
  return inside(outline, p) ? 0 : distance_to(outline, p);
}

double distance_inside(const FlatPath& outline, FlatPoint p) {
  return inside(outline, p) ? distance_to(outline, p) : 0;
}

bool PlacedFace::holds(FlatPoint p) const {
  return inside(face->outline, p) &&
         std::none_of(holes.begin(), holes.end(), [&](const FlatPath* hole) { return inside(*hole, p); });
}

bool crosses_itself(const FlatPath& outline) {
  constexpr double kTouching_mm = 1e-6;
  struct Edge {
    FlatPoint a, b;
    double low_u, high_u;
  };
  std::vector<Edge> edges;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++)
    edges.push_back(
        {outline[j], outline[i], std::min(outline[j].u, outline[i].u), std::max(outline[j].u, outline[i].u)});
  std::stable_sort(edges.begin(), edges.end(),
                   [](const Edge& p, const Edge& q) { return p.low_u < q.low_u; });
  // Off the line of `e`, to the left: mm.
  const auto off = [](const Edge& e, FlatPoint p) {
    return ((e.b.u - e.a.u) * (p.v - e.a.v) - (e.b.v - e.a.v) * (p.u - e.a.u)) / distance_mm(e.a, e.b);
  };
  const auto apart = [&](const Edge& e, const Edge& f) {
    const double p = off(e, f.a), q = off(e, f.b);
    return std::min(std::abs(p), std::abs(q)) < kTouching_mm || (p < 0) == (q < 0);
  };
  for (std::size_t i = 0; i < edges.size(); ++i)
    for (std::size_t j = i + 1; j < edges.size() && edges[j].low_u < edges[i].high_u; ++j)
      if (std::max(edges[i].a.v, edges[i].b.v) > std::min(edges[j].a.v, edges[j].b.v) &&
          std::max(edges[j].a.v, edges[j].b.v) > std::min(edges[i].a.v, edges[i].b.v) &&
          !apart(edges[i], edges[j]) && !apart(edges[j], edges[i]))
        return true;
  return false;
}

namespace {

/// A point of the flat turned as the piece lies on its highest step.
FlatPoint in_step(const Piece& piece, FlatPoint p) {
  const double lean = piece.runner ? piece.runner->lean_rad : 0;
  if (lean == 0) return p;
  const double c = steady::cos(lean), s = steady::sin(lean);
  return {c * p.u + s * p.v, c * p.v - s * p.u};
}

} // namespace

std::vector<PlacedFace> place_faces(const Piece& piece, double back_y, double tread_z) {
  std::vector<PlacedFace> placed;
  for (const auto& face : piece.faces) {
    if (face.parent < 0 && piece.hanging) {
      const auto& h = *piece.hanging;
      placed.push_back(place(face, {h.at.x, h.at.y, h.z},
                             {steady::cos(h.heading_rad), steady::sin(h.heading_rad), 0}, {0, 0, 1}));
      continue;
    }
    if (face.parent < 0) {
      const auto a = in_step(piece, face.hinge_a), b = in_step(piece, face.hinge_b);
      const double length = distance_mm(a, b);
      const Point3 along{(b.u - a.u) / length, (a.v - b.v) / length, 0};
      placed.push_back(place(face, {a.u, back_y - a.v, tread_z}, along, {0, 0, 1}));
      continue;
    }
    assert(face.parent < static_cast<int>(placed.size()));
    const auto& parent = placed[static_cast<std::size_t>(face.parent)];
    const auto from = parent.at(face.hinge_a), to = parent.at(face.hinge_b);
    placed.push_back(place(face, from, (1 / norm(to - from)) * (to - from), parent.normal_at(face.hinge_a)));
  }
  for (auto& p : placed)
    for (const auto& opening : piece.openings)
      if (opening.step == p.face->step) p.holes.push_back(&opening.hole);
  return placed;
}

} // namespace treadfold
