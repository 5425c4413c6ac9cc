// What of a piece's rectangle is needed, for those who cut slanted pieces to templates.
#pragma once

#include "cover/piece.h"

namespace treadfold {

using RoughRing = std::vector<std::pair<Length, Length>>;

struct RoughOutline {
  RoughRing ring;
  std::vector<RoughRing> holes{}; // clockwise
};

/// A polygon, counter-clockwise (u to the right, v up), with corners on multiples of `step` from the
/// rectangle's own corner. It touches all four sides and holds the net outline with, everywhere, the
/// allowances of the rectangle's sides. Convex, unless `hollows` are to stay where the allowances leave room
/// in them. A floor's openings stay, as holes, where the widest of the allowances from every side leaves
/// room. Nothing where that is nearly the whole rectangle, and for runners. REQUIRES: cut_width and
/// cut_length are multiples of `step`.
RoughOutline rough_outline(const Piece& piece, Length step, bool hollows);

} // namespace treadfold
