// Where a waterfall's drop must hang, from the bare step and not from the piece.
#pragma once

#include "cover/bare_step.h"

namespace treadfold {

/// A drop's backing: round the nosing's lower arris and taut from there to the crotch, half a backing before
/// the riser and at `foot_z`.
class BareDrop {
public:
  BareDrop(const BareStep& s, double foot_z);
  /// y at height z.
  double y(double z) const;
  /// Length along the backing from the level of the arris' axis, where the front ends, down to height z.
  double run(double z) const;

private:
  double foot_y_, foot_z_, axis_y_, axis_z_, radius_;
  double to_y_ = 0, to_z_ = 1, touch_z_ = 0; // from the foot toward the touching point, a unit vector
};

} // namespace treadfold
