// How much larger than the net outline a piece is cut.
#pragma once

#include "cover/step_part.h"

namespace treadfold {

/// Sets the piece's four trims from its net outline. Along a wall or a back that is not square to the pile
/// the allowance is measured square to that edge, so a corner may need more than the allowance. `parts`:
/// highest first.
void set_trims(Piece& piece, const std::vector<StepPart>& parts, const Allowances& allowances);

} // namespace treadfold
