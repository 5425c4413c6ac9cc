// Points of a flat piece's seams, and where they lie in space.
#pragma once

#include "cover/placed_face.h"

namespace treadfold {

/// On the nearest of the faces to which it may belong, and how far outside that face it is in the flat.
struct FoldedPoint {
  const PlacedFace* face = nullptr;
  Point3 at{};
  double outside = 1e300;
};
/// REQUIRES: some faces.
FoldedPoint fold_point(const std::vector<PlacedFace>& placed, const std::vector<int>& faces, FlatPoint p);

/// `count` + 1 points at equal steps of the path's own length.
FlatPath walk(const FlatPath& path, int count);

} // namespace treadfold
