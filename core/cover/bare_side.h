// One side of a bare step in plan, for the faces that end at it. The unfolding has its own.
#pragma once

#include "cover/region.h"
#include "measure/tread_plan.h"

#include <algorithm>

namespace treadfold {

/// Plan points of a step's frame as points of a region: (x, y), mm.
struct BareSide {
  bool closed = true;
  double sign = 1;      // +1: to the right is outward
  double foot_x = 0;    // the riser's end
  RegionOutline line;   // of the wall, or of the stringer's outer face; from the riser to the next one
  RegionPoint in, out;  // unit vectors: of the line's first segment into the stair, square to it outward
  RegionPoint back_out; // unit vector outward along the next riser
  RegionPoint behind;   // unit vector from the next riser into the stair
  double free_back = 0; // open: of the back edge, inward from the line
  double overhang = 0;  // open: of the tread's end past the line
  RegionPoint back_in;  // open: where the tread's back edge meets the stringer …
  RegionPoint back_end; // … and the tread's end

  /// x of the line, and of the tread's end, at y; in front of the riser they run on straight.
  double x(double y) const { return line[0].a + in.a / in.b * (y - line[0].b); }
  double end_x(double y) const { return x(y) + sign * overhang / in.b; }
  /// Of two x, the one nearer to the step's middle, and the other.
  double inner(double p, double q) const { return sign > 0 ? std::min(p, q) : std::max(p, q); }
  double outer(double p, double q) const { return sign > 0 ? std::max(p, q) : std::min(p, q); }
  /// The point `off` outside the stringer's line and `past` behind the tread's back edge.
  RegionPoint back_corner(double off, double past) const;
};

BareSide bare_side(const Step& step, Hand hand);

inline double dot(RegionPoint p, RegionPoint q) { return p.a * q.a + p.b * q.b; }
inline RegionPoint operator-(RegionPoint p, RegionPoint q) { return {p.a - q.a, p.b - q.b}; }

} // namespace treadfold
