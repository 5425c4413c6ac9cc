// The account of a piece: what its net and cut sizes are made of.
#pragma once

#include "cover/step_part.h"

namespace treadfold {

/// Sets net and cut size from outline and trims, and itemises them. Sizes are only ever rounded up: net to
/// the tick, cut to 1/16 in or 1 mm. REQUIRES: parts not empty.
void account(Piece& piece, const std::vector<StepPart>& parts, const CoverInput& input);
/// Of a floor, or a part of one.
void account_floor(Piece& piece, LengthUnit unit);

/// The parts of account(), for pieces that itemise themselves: net and cut size from outline and trims; then,
/// after the items, the trims, in these words for back and foot.
void size_piece(Piece& piece, LengthUnit unit);
void account_trims(Piece& piece, const char* back, const char* foot);

/// Least v of the outline: the back corner's tabs stand this far above the crotch (0 on a closed step).
double highest(const FlatPath& outline);

} // namespace treadfold
