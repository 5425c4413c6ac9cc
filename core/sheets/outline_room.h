// Room for words within an outline on the goods.
#pragma once

#include "cut/layout.h"

#include <optional>

namespace treadfold {

/// Does a corner of its ring go in, or has it a hole?
bool goes_in(const GoodsOutline& outline);

struct OutlineRoom {
  GoodsPoint low, high;
};

/// The largest upright rectangle within the outline between `from` and `to` along the goods, of those whose
/// sides lie on lines through its corners.
std::optional<OutlineRoom> largest_rectangle(const GoodsOutline& outline, Length from, Length to);

} // namespace treadfold
