// Closed outlines in plan.
#pragma once

#include "measure/plan_point.h"

#include <vector>

namespace treadfold {

/// Closed by its first point.
using PlanRing = std::vector<PlanPoint>;

/// Negative where it runs clockwise.
double area_mm2(const PlanRing& ring);

/// Does it lie within? On the ring itself either.
bool holds(const PlanRing& ring, PlanPoint at);

/// Do two edges cross or touch?
bool edges_meet(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d);

} // namespace treadfold
