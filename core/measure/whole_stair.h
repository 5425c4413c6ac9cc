// The stair as a whole: places that two steps' carpets would both cover, or neither.
#pragma once

#include "measure/stair.h"
#include "units/problem.h"

namespace treadfold {

/// Warnings, each with its size: a tread's return that reaches into the step above; winders whose turns do
/// not add up to a quarter; two flights that arrive at the same place of a landing. (A back that stands free
/// beside a narrower riser is covered: Step::free_back_left.)
Problems check_whole_stair(const Stair& stair, LengthUnit unit);

} // namespace treadfold
