// A polygon as triangles.
#pragma once

#include "cover/piece.h"

#include <array>

namespace treadfold {

/// Triangles of a simple polygon by its points' indices, by cutting off ears; they fill it once and turn the
/// way it turns. Points may lie on a straight line. n - 2 triangles, fewer by those that would have no area.
/// REQUIRES: the outline does not cross itself.
std::vector<std::array<int, 3>> triangulate(const FlatPath& outline);

/// One outline that runs out to each hole, around it and back: what triangulate() takes for a polygon with
/// holes. REQUIRES: outline and holes neither cross themselves nor touch each other.
FlatPath joined_to_holes(FlatPath outline, std::vector<FlatPath> holes);

} // namespace treadfold
