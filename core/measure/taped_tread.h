// A tread as a tape finds it, seen from above, and the step's plan that comes of it.
#pragma once

#include "measure/tread_plan.h"
#include "units/problem.h"

#include <optional>

namespace treadfold {

/// The tread's outline as far as it is walked on, mm. Its front is the edge of the nosing, on y = 0, the
/// front left corner at the origin; y runs to the back, which is the face of the next riser, drawn on to the
/// tread's ends. Each side runs from its front corner to its back corner, over a corner of the walls if it
/// has one. An open side is the tread's end, overhang and all.
struct TapedTread {
  std::vector<PlanPoint> left, right;
};

/// Gives `step`, whose nosing and sides are known, the plan of `taped`: seen from the riser instead of the
/// nosing, and from the stringer's outer face instead of an open end. What comes out as a rectangle, to two
/// ticks, is stored as one. A problem, and the step unchanged, if no step has that shape: a corner that turns
/// inward, an open side that bends, a side that does not run back from the nosing, an end under 1/4 in deep
/// behind the riser, a riser or back under 6 in or over 12 ft, a tread under 3 in or over 60 in deep.
///
/// Worked: 36 in wide, the left end 6 in and the right 20 in deep from a nosing of 1 in, both square to it:
/// the sides are (0, 0)–(0, 5 in) and (36 in, 0)–(36 in, 19 in), the going 19 in.
std::optional<Problem> set_taped_tread(Step& step, const TapedTread& taped, LengthUnit unit);

} // namespace treadfold
