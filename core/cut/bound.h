// Lower bounds on the length of a strip, in whole ticks. The public one is in layout.h.
#pragma once

#include "cut/rows.h"

#include <string>

namespace treadfold::rows {

struct Bound {
  Ticks length = 0;
  std::string name;
};

/// Valid for every layout, guillotine or not. Pattern and match are not looked at: they only make it longer.
Bound bound_without_pattern(const std::vector<Rect>& rects, Ticks width);

/// The best of that and, for each match group alone, the same bound for pieces rounded up to the spacing at
/// which they can lie; and bound_by_lines().
Bound bound(const std::vector<Rect>& rects, const Strip& strip);

} // namespace treadfold::rows
