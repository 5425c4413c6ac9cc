// A step with a curved front, from what was read of it.
#pragma once

#include "measure/stair.h"

namespace treadfold {

/// Gives `step`, whose sizes, nosing and sides are known, the front that `starter.readings` tell of, in place
/// of starter.front. Where that stops at a wall, the side stays as it is, and must be closed; elsewhere it
/// becomes an open one that reaches past the riser as far as the front does. Problems, the step unchanged if
/// there are errors: as solve_front(), for steps of which only straight
/// fronts are covered, and for a projection under 1/4 in.
Problems set_front(Step& step, Starter starter);

} // namespace treadfold
