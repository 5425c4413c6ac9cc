// A smooth curve in plan: the edge of a tread whose front is no straight line.
//
// Guarantees
//  1. A curve has no corners: where two spans meet they point the same way.
//  2. No facet stands further off the curve than the chord error asked for, and every joint of spans is one's
//     end.
//  3. Moved outward by d, a curve of length L that turns by φ is L + d·φ long, as long as it has no bend
//     tighter than -d. So a circle's quarter of radius 100 moved by 10 is 172.8 and not 157.1 long.
//
// A tread's edge runs from left to right with the tread on its left hand, so a convex front turns to the
// left.
#pragma once

#include "measure/plan_point.h"

#include <array>
#include <vector>

namespace treadfold {

/// k0 + k1·t + k2·t² + k3·t³; or an arc of an ellipse, k0 + k1·cos t + k2·sin t. mm.
struct CurveSpan {
  bool arc = false;
  std::array<PlanPoint, 4> k{};
  double from = 0, to = 1; // of t
  bool operator==(const CurveSpan&) const = default;

  PlanPoint at(double t) const;
  PlanPoint slope(double t) const; // first derivative
  PlanPoint bend(double t) const;  // second derivative
};

using Curve = std::vector<CurveSpan>; // end to end

CurveSpan line_span(PlanPoint from, PlanPoint to);
/// Half-axes `along` x and `across` y. `from` < `to` turns to the left; 0 is the right, -π/2 the front.
CurveSpan arc_span(PlanPoint centre, double along, double across, double from, double to);

/// mm along the curve.
double length_mm(const Curve& curve);
/// How far its direction turns to the left from its begin to its end, radians.
double turn_rad(const Curve& curve);

struct CurvePoint {
  PlanPoint at;
  PlanPoint along;   // unit direction
  double radius = 0; // of the bend to the left; negative in a dent; infinite where straight
};

/// The tightest bend to the left; radius infinite where the curve is straight.
CurvePoint tightest(const Curve& curve);

/// Ends of facets in order, the curve's own ends among them, at most `most` a span.
std::vector<CurvePoint> facets(const Curve& curve, double chord_error_mm, int most = 400);

} // namespace treadfold
