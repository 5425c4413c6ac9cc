// The search of true outlines (cut/pack/outlines.h) at work for a stretch of plain goods.
#pragma once

#include "cut/bound.h"
#include "cut/search.h"

namespace treadfold::rows {

/// By rect: a polygon from the rect's corner that touches all its sides, or nothing, which is the
/// whole rect.
using RectOutlines = std::vector<std::vector<Spot>>;

/// Less to buy than `found`, rects overlapping where outlines do not; and a bound that holds for outlines
/// too. Left as they are where nothing is slanted, where a pattern must be kept and where it would be too
/// much work.
void search_outlines(const std::vector<Rect>& rects, const RectOutlines& outlines, const Strip& strip,
                     const Goal& goal, Found& found, Bound& bound);

} // namespace treadfold::rows
