// From a measured floor or landing to its flat pieces.
#pragma once

#include "cover/cover.h"

namespace treadfold {

/// Left at each side of a new seam, to trim it in place (common practice, no source).
constexpr Length kSeamTrim = inches(0, 1, 2);

/// Pile along +v = toward the viewer (down the stair below). One piece, `id`; where the widest roll on offer
/// is not as wide as the floor with its trims, breadths, `id`-1, `id`-2 … from the left.
std::vector<Piece> cover_floor(const Floor& floor, const CoverInput& input, const std::string& id);

} // namespace treadfold
