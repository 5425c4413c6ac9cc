// How a packing is cut with a straightedge, if it can be. Shares nothing with the search that made it.
#pragma once

#include "cut/pack/sheet.h"

namespace treadfold::pack {

struct StraightCuts {
  bool possible = false;     // every box can be freed by strokes from edge to edge of what is in hand
  int strokes = 0;           // cross-cuts, rips and trims; the cut from the roll is one, a selvage none
  int stages = 0;            // turns of the knife: cross-cuts first, then rips, then trims across, …
  Ticks longest_in_hand = 0; // along the strip, of what the first cross-cuts free
};

/// Cuts across wherever that is possible, then along, and so on in turn. REQUIRES: boxes lie inside the strip
/// and do not overlap.
StraightCuts straight_cuts(const std::vector<Box>& boxes, const std::vector<Spot>& at, Ticks width);

} // namespace treadfold::pack
