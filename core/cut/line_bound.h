// A lower bound on the length of a strip of patterned goods, of all match groups together.
#pragma once

#include "cut/bound.h"

namespace treadfold::rows {

/// Lines across, one pattern step apart, meet each piece of a match group as often as its place beside the
/// group's motifs says, wherever it lies. So many lines are needed that all they meet fits side by side on
/// them. How the motifs of the groups lie beside one another is not known; the bound holds for every way.
/// REQUIRES: strip.repeat.
Bound bound_by_lines(const std::vector<Rect>& rects, const Strip& strip);

} // namespace treadfold::rows
