// A bend drawn as flat bands.
#pragma once

#include "cover/placed_face.h"

namespace treadfold {

/// The face's outline cut across its bend into bands of equal width, each flat enough to draw: one polygon
/// for a plane, up to 8 for a bend, from the hinge outward. Flat coordinates.
std::vector<FlatPath> face_bands(const PlacedFace& face);

} // namespace treadfold
