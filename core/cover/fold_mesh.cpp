#include "cover/fold_mesh.h"

#include "cover/face_bands.h"
#include "cover/piece_builder.h"
#include "cover/placed_face.h"
#include "cover/triangulate.h"

#include <algorithm>
#include <cassert>

namespace treadfold {

namespace {

constexpr double kOn_mm = 1e-3;   // a line on a face's edge is on the face
constexpr double kSame_mm = 1e-7; // as without_repeats

/// A flat polygon of a face, clockwise in (u, v): counter-clockwise from above the pile, as v runs to the
/// viewer.
struct Band {
  int face;
  FlatPath outline;
};

bool same(FlatPoint a, FlatPoint b) {
  return std::abs(a.u - b.u) < kSame_mm && std::abs(a.v - b.v) < kSame_mm;
}

FlatPoint between(FlatPoint a, FlatPoint b, double t) {
  return {a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)};
}

FlatPath clockwise(FlatPath path) {
  double twice = 0;
  for (std::size_t i = 0; i < path.size(); ++i) {
    const auto &a = path[i], &b = path[(i + 1) % path.size()];
    twice += a.u * b.v - b.u * a.v;
  }
  if (twice > 0) std::reverse(path.begin(), path.end());
  return path;
}

class MeshBuilder {
public:
  explicit MeshBuilder(const Piece& piece) : piece_(piece), placed_(place_faces(piece, 0, 0)) {}

  FoldMesh mesh() {
    for (std::size_t i = 0; i < placed_.size(); ++i)
      add_face(static_cast<int>(i));
    for (std::size_t i = 0; i < piece_.lines.size(); ++i)
      add_line(static_cast<int>(i));
    return std::move(mesh_);
  }

private:
  /// The vertex of this face at `p`, looked for from index `first` on.
  int vertex(int face, FlatPoint p, std::size_t first) {
    for (std::size_t i = first; i < mesh_.vertices.size(); ++i)
      if (mesh_.vertices[i].face == face && same(mesh_.vertices[i].flat, p)) return static_cast<int>(i);
    mesh_.vertices.push_back({p, face});
    return static_cast<int>(mesh_.vertices.size()) - 1;
  }

  std::vector<FlatPath> floor_openings() const {
    std::vector<FlatPath> holes;
    for (const auto& opening : piece_.openings)
      if (opening.step == 0) holes.push_back(opening.hole);
    return holes;
  }

  void add_face(int face) {
    const auto first = mesh_.vertices.size();
    const int from = static_cast<int>(mesh_.triangles.size());
    for (const auto& band : face_bands(placed_[static_cast<std::size_t>(face)])) {
      bands_.push_back({face, clockwise(joined_to_holes(without_repeats(band), floor_openings()))});
      const auto& path = bands_.back().outline;
      std::vector<int> at;
      for (const auto& p : path)
        at.push_back(vertex(face, p, first));
      for (const auto& t : triangulate(path)) {
        const auto corner = [&](std::size_t k) { return at[static_cast<std::size_t>(t[k])]; };
        mesh_.triangles.push_back({corner(0), corner(1), corner(2)});
      }
    }
    mesh_.faces.push_back({from, static_cast<int>(mesh_.triangles.size())});
  }

  /// Where on a…b it crosses an outline, ends included, ascending, no two closer than kOn_mm.
  std::vector<double> crossings(FlatPoint a, FlatPoint b) const {
    const double length = distance_mm(a, b), least = kOn_mm / std::max(kOn_mm, length),
                 touch = kSame_mm * length;
    const auto side = [](FlatPoint p, FlatPoint q, FlatPoint x) {
      return (q.u - p.u) * (x.v - p.v) - (q.v - p.v) * (x.u - p.u);
    };
    std::vector<double> at{0};
    for (const auto& band : bands_)
      for (std::size_t i = 0; i < band.outline.size(); ++i) {
        const auto p = band.outline[i], q = band.outline[(i + 1) % band.outline.size()];
        const double from = side(p, q, a), to = side(p, q, b), p_off = side(a, b, p), q_off = side(a, b, q);
        if ((from > 0) == (to > 0)) continue;
        if ((p_off > 0) == (q_off > 0) && std::min(std::abs(p_off), std::abs(q_off)) > touch) continue;
        const double t = from / (from - to);
        if (t > least && t < 1 - least) at.push_back(t);
      }
    std::sort(at.begin(), at.end());
    at.erase(std::unique(at.begin(), at.end(), [&](double s, double t) { return t - s < least; }), at.end());
    at.push_back(1);
    return at;
  }

  /// The face on which `p` lies, `last` if it may be; -1 if none.
  int face_at(FlatPoint p, int last) const {
    const auto on = [&](int face) {
      return distance_outside(piece_.faces[static_cast<std::size_t>(face)].outline, p) < kOn_mm;
    };
    if (last >= 0 && on(last)) return last;
    for (int face = 0; face < static_cast<int>(piece_.faces.size()); ++face)
      if (on(face)) return face;
    return -1;
  }

  void add_line(int index) {
    const auto& points = piece_.lines[static_cast<std::size_t>(index)].points;
    const auto first = mesh_.vertices.size();
    MeshLine line{index, {}};
    int face = -1;
    for (std::size_t i = 1; i < points.size(); ++i) {
      const auto a = points[i - 1], b = points[i];
      const auto at = crossings(a, b);
      for (std::size_t k = 1; k < at.size(); ++k) {
        const auto from = between(a, b, at[k - 1]), to = between(a, b, at[k]);
        face = face_at(between(from, to, 0.5), face);
        if (face >= 0) line.segments.push_back({vertex(face, from, first), vertex(face, to, first)});
      }
    }
    mesh_.lines.push_back(std::move(line));
  }

  const Piece& piece_;
  std::vector<PlacedFace> placed_;
  std::vector<Band> bands_;
  FoldMesh mesh_;
};

} // namespace

FoldMesh fold_mesh(const Piece& piece) { return MeshBuilder(piece).mesh(); }

std::vector<Point3> positions(const FoldMesh& mesh, const Piece& piece, const std::vector<Step>& steps,
                              double fraction) {
  Piece turned;
  turned.faces = piece.faces;
  turned.hanging = piece.hanging;
  turned.runner = piece.runner;
  for (auto& face : turned.faces) {
    face.crease_rad *= fraction;
    face.bend_rad *= fraction;
  }
  const bool floor = steps.empty();
  const auto placed = place_faces(turned, floor ? 0 : steps.front().going.mm(),
                                  floor ? 0 : steps.front().rise.mm() + piece.root_height_mm);
  std::vector<Point3> at;
  at.reserve(mesh.vertices.size());
  for (const auto& vertex : mesh.vertices)
    at.push_back(placed[static_cast<std::size_t>(vertex.face)].at(vertex.flat));
  return at;
}

} // namespace treadfold
