// What strips and pads of all kinds of steps have in common.
#pragma once

#include "cover/fixings.h"

#include <vector>

namespace treadfold {

/// Round a closed outline, mm.
double perimeter(const std::vector<PlanPoint>& outline);

/// From end to end of the riser; it stops short of an open end so that the hem lies flat (common practice,
/// no source).
StripPiece strip_across(const Step& step, StripPlace place, Length set_off, Length stop,
                        double open_angle_deg);

/// The pad from the line of the nosing's front, measured along the tread, to its edge at the underside, mm.
double over_the_nosing(const Nosing& nosing, double pad);

} // namespace treadfold
