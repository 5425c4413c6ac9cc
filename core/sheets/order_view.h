// The working order set in two columns.
#pragma once

#include "sheets/page.h"
#include "sheets/working_order.h"

namespace treadfold {

/// Height it takes, its heading included, in type of this size.
double order_height(const std::vector<Instruction>& order, double width, double size_mm);
/// In the largest type from kBodyType down to kSmallType that fits the box. Returns the y below it.
/// REQUIRES: order_height(order, box.width(), kSmallType) <= box.height().
double draw_order(Drawing& page, const Box& box, const std::vector<Instruction>& order, const Reader& reader);

} // namespace treadfold
