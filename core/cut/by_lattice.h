// Patterned goods laid close.
#pragma once

#include "cut/bound.h"
#include "cut/search.h"

namespace treadfold::rows {

/// Looks for layouts of patterned goods that do not lie in rows, so that some pieces may have to be cut out
/// around: a shorter one is taken for `close`, and if straight strokes free it, for `found`. Does nothing
/// where no piece keeps a pattern, or there are loose parts. REQUIRES: close is no longer than found;
/// the strip begins at 0, and no group's place along is settled.
void search_lattice(const std::vector<Rect>& rects, const Strip& strip, const Goal& goal, const Bound& bound,
                    Found& found, Found& close);

} // namespace treadfold::rows
