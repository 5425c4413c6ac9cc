// Where each step of a flight stands, seen from the first: the whole stair from its single steps.
#pragma once

#include "measure/stair.h"

#include <vector>

namespace treadfold {

/// Of a step in the frame of the flight's first: where its riser's left end stands at the height of the tread
/// below, and how far it is turned, anticlockwise from above.
struct StepFrame {
  double x = 0, y = 0, z = 0; // mm
  double turn_rad = 0;
  PlanPoint at(PlanPoint p) const;
};

/// How much longer the back of `lower` is than the riser of `upper`, at its left and its right end; negative
/// where the riser stands out.
struct BackGaps {
  double left = 0, right = 0; // mm
};
BackGaps back_gaps(const Step& lower, const Step& upper);

/// Sets every step's free_back_left and _right: at open ends, but not below a landing's edge, which runs on.
void set_free_backs(Flight& flight);

/// One frame a step. A riser begins at the end of the tread below on a side that is closed on both steps;
/// where neither side is, it stands in the middle of that tread's back.
std::vector<StepFrame> step_frames(const Flight& flight);

} // namespace treadfold
