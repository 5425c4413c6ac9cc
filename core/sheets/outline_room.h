// Room for words within an outline on the goods.
#pragma once

#include "cut/layout.h"

#include <optional>

namespace treadfold {

/// Does a corner of the ring go in? The ring is counter-clockwise, u to the right and v up.
bool goes_in(const std::vector<GoodsPoint>& ring);

struct OutlineRoom {
  GoodsPoint low, high;
};

/// The largest upright rectangle within the ring between `from` and `to` along the goods, of those whose
/// sides lie on lines through the ring's corners.
std::optional<OutlineRoom> largest_rectangle(const std::vector<GoodsPoint>& ring, Length from, Length to);

} // namespace treadfold
