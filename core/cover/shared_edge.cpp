#include "cover/shared_edge.h"

#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

constexpr double kSame_mm = 1e-6;

struct Edge {
  std::size_t face;
  FlatPoint p, q; // p before q, by u and then v
};

bool same(double a, double b) { return std::abs(a - b) < kSame_mm; }
bool same(FlatPoint a, FlatPoint b) { return same(a.u, b.u) && same(a.v, b.v); }
bool before(FlatPoint a, FlatPoint b) { return same(a.u, b.u) ? a.v < b.v - kSame_mm : a.u < b.u; }

/// How far outlines reach from the line p → q.
double reach(const FlatPath& outline, FlatPoint p, FlatPoint q) {
  const double du = q.u - p.u, dv = q.v - p.v, length = steady::hypot(du, dv);
  double most = 0;
  for (const auto& r : outline)
    most = std::max(most, std::abs(du * (r.v - p.v) - dv * (r.u - p.u)) / length);
  return most;
}

/// Which faces hang on each.
using Hangers = std::vector<std::vector<std::size_t>>;
Hangers hanging_on(const Piece& piece) {
  Hangers on(piece.faces.size());
  for (std::size_t f = 0; f < piece.faces.size(); ++f)
    if (const int parent = piece.faces[f].parent; parent >= 0)
      on[static_cast<std::size_t>(parent)].push_back(f);
  return on;
}

/// Of a face and all that hangs on it.
double depth(const Piece& piece, const Hangers& hanging, std::size_t face, FlatPoint p, FlatPoint q) {
  double most = 0;
  std::vector<std::size_t> open{face};
  while (!open.empty()) {
    const auto f = open.back();
    open.pop_back();
    most = std::max(most, reach(piece.faces[f].outline, p, q));
    open.insert(open.end(), hanging[f].begin(), hanging[f].end());
  }
  return most;
}

bool along_fold(const Face& face, FlatPoint p, FlatPoint q) {
  const double hu = face.hinge_b.u - face.hinge_a.u, hv = face.hinge_b.v - face.hinge_a.v;
  const double du = q.u - p.u, dv = q.v - p.v;
  return std::abs(hu * du + hv * dv) > std::abs(hu * dv - hv * du); // nearer to it than 45°
}

} // namespace

std::vector<SharedEdge> shared_edges(const Piece& piece) {
  std::vector<Edge> edges;
  for (std::size_t f = 0; f < piece.faces.size(); ++f) {
    const auto& outline = piece.faces[f].outline;
    for (std::size_t i = 0; i < outline.size(); ++i) {
      auto p = outline[i], q = outline[(i + 1) % outline.size()];
      if (same(p, q)) continue;
      if (before(q, p)) std::swap(p, q);
      edges.push_back({f, p, q});
    }
  }
  std::stable_sort(edges.begin(), edges.end(), [](const Edge& a, const Edge& b) { return a.p.u < b.p.u; });
  std::vector<SharedEdge> shared;
  for (std::size_t i = 0; i < edges.size(); ++i)
    for (std::size_t j = i + 1; j < edges.size() && edges[j].p.u < edges[i].p.u + kSame_mm; ++j) {
      const auto &a = edges[i], &b = edges[j];
      if (a.face != b.face && same(a.p, b.p) && same(a.q, b.q)) shared.push_back({a.face, b.face, a.p, a.q});
    }
  return shared;
}

Strain worst_strain(const Piece& piece, const std::vector<PlacedFace>& placed) {
  const auto hanging = hanging_on(piece);
  Strain worst;
  for (const auto& edge : shared_edges(piece)) {
    const auto &a = piece.faces[edge.face_a], &b = piece.faces[edge.face_b];
    double apart = 0;
    for (const auto point : {edge.p, edge.q})
      apart = std::max(apart, norm(placed[edge.face_a].at(point) - placed[edge.face_b].at(point)));
    if (apart < kSame_mm) continue; // a hinge, or developable
    const bool along = along_fold(a, edge.p, edge.q) && along_fold(b, edge.p, edge.q);
    const double over = along ? std::max(depth(piece, hanging, edge.face_a, edge.p, edge.q),
                                         depth(piece, hanging, edge.face_b, edge.p, edge.q))
                              : std::min(reach(a.outline, edge.p, edge.q), reach(b.outline, edge.p, edge.q));
    if (apart / over > worst.share)
      worst = {apart / over, a.name == b.name ? a.name : a.name + " and " + b.name};
  }
  return worst;
}

} // namespace treadfold
