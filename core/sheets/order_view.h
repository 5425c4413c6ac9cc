// The working order set in two columns.
#pragma once

#include "sheets/step_page.h"
#include "sheets/working_order.h"

namespace treadfold {

/// Height it takes, its heading included, in type of this size.
double order_height(const std::vector<Instruction>& order, double width, double size_mm);
/// On the rest of the page, or on the next one if that is too short, in the largest type from kBodyType down
/// to kSmallType that fits; what is longer than a page goes on overleaf.
void draw_order(Pages& out, std::vector<Instruction> order, const Reader& reader);

} // namespace treadfold
