// Pages of a runner's strip: the folds on its back, the marks on the stair, and the order of work.
#pragma once

#include "sheets/step_page.h"

namespace treadfold {

/// Whether the piece is a runner's straight strip; a winder's piece is drawn as any other.
bool is_strip(const Piece& piece);

/// A page to cut and mark the strip by, more if it goes over more than sixteen steps, and one for the stair.
void draw_runner(Pages& out, const Plan& plan, const PlannedPiece& planned);

} // namespace treadfold
