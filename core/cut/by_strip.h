// The strip's search (cut/pack) at work for a stretch of plain goods, after the rows have done what they can.
#pragma once

#include "cut/bound.h"
#include "cut/search.h"

namespace treadfold::rows {

/// Less to buy than `found`, cut by straight strokes too; or a bound that shows how near it is. Both stay as
/// they are where neither is found. Pieces that must keep a pattern are not looked at.
void search_strip(const std::vector<Rect>& rects, const Strip& strip, const Goal& goal, Found& found,
                  Bound& bound);

} // namespace treadfold::rows
