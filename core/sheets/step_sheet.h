// One sheet a piece: enough to cut it and lay it without being told more.
#pragma once

#include "sheets/page.h"

#include "plan.h"

namespace treadfold {

/// "Step 7 of 14", "Steps 5 to 7 of 14", or the floor's name.
std::string place_of(const Plan& plan, const Piece& piece);

/// In the plan's order of pieces. A piece on whose ends small corners must be cut takes a page for the bench
/// and one for the stair; any other fits on one page if it is not joined. A piece that failed its proof gets
/// no sizes to cut by, only its picture in the warning style, the reason and the words DO NOT CUT.
std::vector<Sheet> step_sheets(const Plan& plan);

} // namespace treadfold
