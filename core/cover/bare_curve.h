// The bare wood of a curved starter, as points from which the carpet is looked for.
#pragma once

#include "cover/coverage.h"
#include "measure/stair.h"

#include <string>
#include <vector>

namespace treadfold {

/// A point of bare wood, the way out of it and the way of the edge there, and how far off the backing's
/// middle must lie, mm.
struct BarePoint {
  Point3 at{}, out{}, along{};
  double nearest = 0, farthest = 0;
};

/// All that is drawn along the edge's curve: "nosing", "front", "lower arris", "under nosing", "riser".
struct BareCurve {
  std::string name;
  std::vector<BarePoint> points;
};

struct BareCurveInput {
  const Step& step;
  double pad = 0, backing = 0;
};
/// In the step's frame. Where the nosing has no projection, or nothing underneath, the carpet hangs plumb
/// from its front.
std::vector<BareCurve> bare_curves(const BareCurveInput& input);

/// The level wood of the tread, up to where the nosing rounds.
BareFace bare_curved_tread(const BareCurveInput& input);

} // namespace treadfold
