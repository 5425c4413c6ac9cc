// A smooth curve through points that a tape gave.
#pragma once

#include "measure/curve.h"

#include <cstddef>

namespace treadfold {

/// A point that lies inside the line between its neighbours, or between which and the next the curve does.
struct Dent {
  std::size_t point = 0;
  double depth_mm = 0;
};

struct CurveFit {
  Curve curve;
  std::vector<Dent> dents; // deeper than the slack
};

/// A cubic spline along the chords, its ends bent as its next spans are, so that a round end stays round.
/// Convex: a point that lies inside its neighbours' line by no more than `slack_mm`, or at which the curve
/// would wave, is passed by, as near as that; three or more in a line, to half the slack, are joined by that
/// line and the curve leaves it smoothly. REQUIRES: 2 points at least, neighbours apart; the convex side on
/// the right of the way.
CurveFit fit_curve(const std::vector<PlanPoint>& points, double slack_mm);

} // namespace treadfold
