// The plan of a tread, rectangle or not, as lines of its two sides.
#pragma once

#include "measure/stair.h"

namespace treadfold {

enum class Hand { left, right };

/// From the riser's end to the next riser's end, as measured or the rectangle's. At least two points.
std::vector<PlanPoint> side_line(const Step& step, Hand hand);

/// x at `y` of a side up to its first corner; before the riser it runs on straight. Not for a landing, whose
/// sides run square to the riser in front of it.
double side_x(const std::vector<PlanPoint>& line, double y);

/// The step whose plan has these corners: its width, going (the deepest, up to the tick) and sides.
void set_plan(Step& step, std::vector<PlanPoint> left_side, std::vector<PlanPoint> right_side);

} // namespace treadfold
