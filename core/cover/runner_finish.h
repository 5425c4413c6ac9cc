// What any piece of a runner becomes by its edges and its top end.
#pragma once

#include "cover/piece.h"

namespace treadfold {

/// What the hand adds: at the edges what they take; at a top end on the landing what becomes of it.
Allowances runner_allowances(const Runner& runner, bool landing, Allowances allowances);

/// Its account in a runner's words, its edges' length, and the lines along edges and top end. REQUIRES: a
/// piece of one step has its two edges as trim lines; piece.runner has its marks.
void finish_runner(Piece& piece, const Runner& runner, bool landing);

} // namespace treadfold
