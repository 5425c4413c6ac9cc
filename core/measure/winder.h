// How deep a winder is where people walk.
#pragma once

#include "measure/stair.h"

namespace treadfold {

/// The next riser is turned by more than 5°: a winder, and no tread merely out of square.
bool winds(const Step& step);

/// Between this nosing and the next, each met at `from_narrow` along it from its narrow end (of the two, the
/// side on which the tread is shorter). `next_projection`: of the nosing above. REQUIRES: winds(step).
///
/// The IRC takes winders "at the intersections with the walkline", 12 in from the inside edge (R311.7.4,
/// R311.7.5.2.1); Approved Document K at mid-width, or 270 mm from either side (from memory).
Length winder_depth(const Step& step, Length next_projection, Length from_narrow);

/// Of this nosing, between the tread's sides.
Length nosing_length(const Step& step);

/// The least depth of a tread that is no rectangle and does not wind, riser to riser.
Length shallowest(const Step& step);

} // namespace treadfold
