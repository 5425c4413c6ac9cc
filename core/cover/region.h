// A part of a plane, with holes, and the points at which it is looked at.
#pragma once

#include <vector>

namespace treadfold {

/// mm, in the plane's own two directions.
struct RegionPoint {
  double a = 0, b = 0;
};
using RegionOutline = std::vector<RegionPoint>; // closed by its first point, either way round

/// Inside the outline and in none of the holes. Holes may overlap one another and reach over the outline.
struct Region {
  RegionOutline outline;
  std::vector<RegionOutline> holes;
};

struct RegionBox {
  RegionPoint low, high;
};
RegionBox box_of(const RegionOutline& outline);

bool holds(const RegionOutline& outline, RegionPoint p);
bool holds(const Region& region, RegionPoint p);

/// What lies on the side of the line through `on` to which `inward` points.
RegionOutline clipped(const RegionOutline& outline, RegionPoint on, RegionPoint inward);

/// `count` lines of about as many points along b, evenly from edge to edge; of as many lines along a the
/// ends; and the corners. Outermost points and lines stand `inset` from the edge (`inset.a` from one crossed
/// along a), a quarter of the way across where it is narrower than four of them.
std::vector<RegionPoint> samples(const Region& region, int count, RegionPoint inset);

/// Points along a convex outline, `out` outside of it (inside where negative), at most `apart` from each
/// other and not at its corners.
std::vector<RegionPoint> beside(const RegionOutline& convex, double out, double apart);

} // namespace treadfold
