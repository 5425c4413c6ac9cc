// The stair as a whole: places that two steps' carpets would both cover, or neither.
#pragma once

#include "measure/stair.h"
#include "units/problem.h"

namespace treadfold {

/// Warnings, each with its size: a tread's return that reaches into the step above; a tread's back edge that
/// stands free beside the riser above and is covered by neither; winders whose turns do not add up to a
/// quarter; two flights that arrive at the same place of a landing.
Problems check_whole_stair(const Stair& stair, LengthUnit unit);

} // namespace treadfold
