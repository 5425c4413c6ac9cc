// An outline cut into convex parts, exactly: between its own corners, on whole numbers.
#pragma once

#include "cut/pack/outline.h"

namespace treadfold::pack {

/// Convex rings, counter-clockwise, that fill the outline once; no three corners of one on a line. Ears are
/// cut off, then parts joined again while they stay convex: at most four times as many as need be.
/// S. Hertel, K. Mehlhorn: "Fast triangulation of the plane with respect to simple polygons", Information and
/// Control 64 (1985) 52-76. (From memory.)
/// REQUIRES: coordinates below 2^29 in size.
std::vector<Ring> convex_parts(const Outline& outline);

/// The outline with its shallowest dents filled while it has more than `most`, but by no more than `share` of
/// its area. What keeps clear of it keeps clear of the outline itself.
Outline without_dents(const Outline& outline, int most, double share);

} // namespace treadfold::pack
