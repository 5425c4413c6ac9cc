// Where a straight look from bare wood meets carpet.
#pragma once

#include "cover/placed_face.h"

namespace treadfold {

/// How often a ray meets the face between `nearest` and `farthest` from its start. `direction`: a unit
/// vector.
int times_met(const PlacedFace& face, Point3 from, Point3 direction, double nearest, double farthest);

} // namespace treadfold
