// One side of a step in plan, seen from the step's middle so that left and right are derived once: x runs
// outward from the riser's end, y into the stair. Figure and derivation: docs/geometry.md.
#pragma once

#include "cover/piece_builder.h"
#include "measure/tread_plan.h"

namespace treadfold {

/// mm. An end's own coordinates are (ξ, t): outward from the stringer's face, and back along it. Those of the
/// back line are (η, β): outward along the next riser from its end, and back from it.
struct SidePlan {
  std::vector<PlanPoint> line;       // from the riser's end, (0, 0), to the next riser's end
  PlanPoint out{1, 0}, in{0, 1};     // unit ξ and t
  PlanPoint along{1, 0}, back{0, 1}; // unit η and β
  double back_y = 0;                 // y of v = 0
  bool square_front = false;         // a landing's sides run square to the riser in front of it

  /// Square to the riser and to the next one.
  bool straight() const { return line.size() == 2 && line[0].x == line[1].x && along.y == 0; }
  double x(double y) const { return square_front ? 0 : side_x(line, y); }
  PlanPoint next_riser() const { return line.back(); }
  double xi(PlanPoint p) const { return dot(out, p); }
  double t(PlanPoint p) const { return dot(in, p); }
  PlanPoint from_end(double xi, double t) const { return xi * out + t * in; }
  PlanPoint from_back(double eta, double beta) const { return next_riser() + eta * along + beta * back; }
  /// η at which the line β crosses the line ξ.
  double eta_at(double xi, double beta) const;
  /// Where the front's line y crosses the line ξ.
  PlanPoint at_front(double xi, double y) const;
  /// Where the piece begins at this side: the next riser's end; inside a joined piece, the line v = 0.
  FlatPoint begin() const { return straight() ? FlatPoint{0, 0} : flat(next_riser()); }
  /// On the flat of the level tread, local to the side: (x, v).
  FlatPoint flat(PlanPoint p) const { return {p.x, back_y - p.y}; }
};

SidePlan side_plan(const Step& step, Hand hand, double back_y);

} // namespace treadfold
