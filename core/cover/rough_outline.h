// What of a piece's rectangle is needed, for those who cut slanted pieces to templates.
#pragma once

#include "cover/piece.h"

namespace treadfold {

/// A polygon, counter-clockwise (u to the right, v up), with corners on multiples of `step` from the
/// rectangle's own corner. It touches all four sides and holds the net outline with, everywhere, the
/// allowances of the rectangle's sides. Convex, but for floors, whose hollows stay where the allowances leave
/// room in them. Empty where that is nearly the whole rectangle, and for runners. REQUIRES: cut_width and
/// cut_length are multiples of `step`.
std::vector<std::pair<Length, Length>> rough_outline(const Piece& piece, Length step);

} // namespace treadfold
