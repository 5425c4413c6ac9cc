// The flat piece folding onto its step, as triangles for a viewer.
//
// Guarantees
//  1. At fraction 0 the piece lies flat, level with the tread it folds from; at 1 it is fold() of refold.h.
//  2. At every fraction each face keeps its lengths: each crease and bend is turned by that share of its
//     angle, a bend over its whole width, so that only its radius changes. A triangle in a bend is inscribed.
//  3. Neighbouring faces stay together along their hinge.
#pragma once

#include "cover/piece.h"
#include "cover/space.h"

#include <array>

namespace treadfold {

struct MeshVertex {
  FlatPoint flat;
  int face = 0; // index into Piece::faces: which face carries it along
};

/// Indices of vertices. Seen from the pile's side triangles turn counter-clockwise.
using MeshTriangle = std::array<int, 3>;

/// From and to which index, the latter not included.
struct MeshRange {
  int from = 0, to = 0;
};

/// A line of the piece, face by face, as pairs of vertices.
struct MeshLine {
  int line = 0; // index into Piece::lines
  std::vector<std::array<int, 2>> segments;
};

/// A box step has 38 triangles on 48 vertices in 5 faces, and a few vertices more for its lines. Faces share
/// no vertex: along a hinge two lie at one place.
struct FoldMesh {
  std::vector<MeshVertex> vertices;
  std::vector<MeshTriangle> triangles;
  std::vector<MeshRange> faces; // triangles of each of Piece::faces
  std::vector<MeshLine> lines;  // one each of Piece::lines
};
FoldMesh fold_mesh(const Piece& piece);

/// Each vertex at `fraction` 0…1 of the way from flat to folded, mm, in the frame of the piece's highest
/// step; the root, its tread, stays where it will lie. `steps`: those the piece covers, highest first; none
/// for a floor. REQUIRES: `mesh` is fold_mesh(piece).
std::vector<Point3> positions(const FoldMesh& mesh, const Piece& piece, const std::vector<Step>& steps,
                              double fraction);

} // namespace treadfold
