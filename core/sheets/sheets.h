// Every sheet of a plan.
#pragma once

#include "plan.h"
#include "sheets/drawing.h"

namespace treadfold {

/// In the order in which the job is done: roll layouts, cutting list, one sheet a step, shopping list, quote,
/// work order. A piece whose proof failed is drawn in the warning style with the reason.
std::vector<Sheet> draw_sheets(const Plan& plan);

} // namespace treadfold
