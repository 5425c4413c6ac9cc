// The kinds of sheet that show the whole job. (One sheet a piece: step_sheet.h.)
#pragma once

#include "plan.h"
#include "sheets/drawing.h"

namespace treadfold {

/// One sheet for each goods: every stretch of it to scale, seen from the pile, with pieces, strokes of the
/// knife in their order, offcuts, and what to order at which width. CSV: the strokes.
std::vector<Sheet> roll_sheets(const Plan& plan);

/// Every piece: net size, what is added, cut size, place on the roll. CSV: the same with its numbers apart.
Sheet cutting_list(const Plan& plan);

/// What to buy, each line with its rule; which strip comes from which stock length; cushion cuts. CSV: the
/// lines.
Sheet shopping_list(const Plan& plan);

/// What the customer signs. CSV: the lines and the sums.
Sheet quote_sheet(const Plan& plan);

/// What the crew reads before it sets out: the place, the steps as found, warnings, pieces, cautions.
Sheet work_order(const Plan& plan);

} // namespace treadfold
