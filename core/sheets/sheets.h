// Every sheet of a plan.
#pragma once

#include "plan.h"
#include "sheets/drawing.h"

namespace treadfold {

/// In the order in which the job is done: roll layouts, cutting list, one sheet a step, shopping list, quote,
/// work order. A piece whose proof failed is drawn in the warning style with the reason.
std::vector<Sheet> draw_sheets(const Plan& plan);

/// A name that any file system takes: lower-case letters, digits and single hyphens.
std::string file_stem(const std::string& name);

} // namespace treadfold
