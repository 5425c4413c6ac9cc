// Cushion cut from its rolls in whole rows: pieces for steps side by side, breadths for floors.
#pragma once

#include "units/length.h"

#include <vector>

namespace treadfold {

/// One piece of cushion; `length` lies along the roll unless it had to be turned to fit.
struct CushionCut {
  Length width, length;
};

struct CushionPlan {
  Length length_used; // of all rolls together
  int rolls = 0;
};

/// Rows as long as their longest piece; rows never run over a roll's end unless they are longer than a roll.
/// Cushion has no pile: a piece wider than the roll is turned, or made of breadths when it is wider both
/// ways. REQUIRES: sizes of the roll above nothing.
///
/// Example: 14 pieces 34 by 19 in from a roll of 6 ft: 2 side by side, 7 rows, 133 in.
CushionPlan cut_cushion(const std::vector<CushionCut>& cuts, Length roll_width, Length roll_length);

} // namespace treadfold
