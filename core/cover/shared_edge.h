// How much carpet must give where its faces stay together in the flat and part, or press on each other, when
// folded.
#pragma once

#include "cover/placed_face.h"

#include <string>
#include <utility>
#include <vector>

namespace treadfold {

/// An edge that two faces have in common in the flat.
struct SharedEdge {
  std::size_t face_a = 0, face_b = 0;
  FlatPoint p, q;
};
std::vector<SharedEdge> shared_edges(const Piece& piece);

/// The worst over a piece, as a share of the carpet's own length.
struct Strain {
  double share = 0;
  std::string where; // names of the two faces
};

/// Across the fold a face gives over its own width, along it over the whole depth of what hangs on it. A
/// piece that is developable has none.
Strain worst_strain(const Piece& piece, const std::vector<PlacedFace>& placed);

} // namespace treadfold
