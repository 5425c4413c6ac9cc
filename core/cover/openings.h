// Holes for what stands on the treads, and the slits by which the carpet comes round it.
//
// A hole is net: the upright's own section and no more, so that the carpet is pressed against it and its pile
// closes round it (common practice, no source). Each slit runs to the nearest hidden edge: the back that is
// tucked behind the tread's strip, a closed side that is trimmed, the inner edge of an end's under-lip. (CRI
// 105, older edition, §17.2: seams split toward balusters.) Slits keep clear of each other and of other
// holes.
#pragma once

#include "cover/slits.h"
#include "cover/step_part.h"

namespace treadfold {

/// Adds the piece's openings and their lines. REQUIRES: outline, trims and sizes are set; the flight passed
/// check_uprights(). An upright that no slit can reach is left without one, and the proof will say so.
void cut_openings(Piece& piece, const std::vector<StepPart>& parts, LengthUnit unit);

/// The same for a tread whose own ways out are given: `riser_v`, the v of y = 0. REQUIRES: none is let into
/// an end.
void cut_openings(Piece& piece, const Step& step, double riser_v, const std::vector<WayOut>& ways,
                  LengthUnit unit);

/// The hole for an upright let into an open end, in (ξ, t) of the end: `foot`, its footprint there, as the
/// carpet meets it over the end and under the lip. Convex in, closed by its first point.
FlatPath let_in_hole(const FlatPath& foot, const EndWrap& wrap);

} // namespace treadfold
