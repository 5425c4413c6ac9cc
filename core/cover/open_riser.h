// A tread without risers, wrapped all round: over its front, under, and up its back to a seam underneath.
#pragma once

#include "cover/cover.h"

namespace treadfold {

/// The tread's board runs from its nosing to the line of the next riser, `going + projection` deep, with the
/// nosing's profile at front and back alike; the pad lies on top and over both edges. At an open end the
/// carpet is folded down over the end and seamed round it; the underside is covered out to the end.
/// REQUIRES: step.open_riser, a rectangle, no landing edge.
Piece cover_open_riser(const Step& step, const Flight& flight, const CoverInput& input,
                       const std::string& prefix);

/// y of the seam underneath, in the step's frame: near the back, where it is least seen.
double underneath_seam_y(const Step& step);

} // namespace treadfold
