// The strip's search (cut/pack) at work for a stretch of plain goods, after the rows have done what they can.
#pragma once

#include "cut/bound.h"
#include "cut/search.h"

namespace treadfold::rows {

/// Less to buy than `found`, cut by straight strokes too, in any way (`close`); or a bound that shows how
/// near it is. Where none is found, `found` and the bound stay as they are and `close` is `found`. Pieces
/// that must keep a pattern are not looked at.
void search_strip(const std::vector<Rect>& rects, const Strip& strip, const Goal& goal, Found& found,
                  Found& close, Bound& bound);

} // namespace treadfold::rows
