// The search of true outlines (cut/pack/outlines.h) at work for a stretch of plain goods.
#pragma once

#include "cut/bound.h"
#include "cut/pack/outline.h"
#include "cut/search.h"

namespace treadfold::rows {

/// By rect: an outline from the rect's corner that touches all its sides, or an empty ring, which is the
/// whole rect.
using RectOutlines = std::vector<pack::Outline>;

/// Less to buy than `found`, rects overlapping where outlines do not, turned half round if they may be; and a
/// bound that holds for outlines too. Left as they are where no rect has an outline, where a pattern must be
/// kept and where it would be too much work.
void search_outlines(const std::vector<Rect>& rects, const RectOutlines& outlines, bool may_turn,
                     const Strip& strip, const Goal& goal, Found& found, Bound& bound);

} // namespace treadfold::rows
