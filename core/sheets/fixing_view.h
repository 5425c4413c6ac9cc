// Where strip and pad go on one step: the tread from above, and below it the riser from the front.
#pragma once

#include "plan.h"
#include "sheets/page.h"

namespace treadfold {

/// `tread_strip_width`: of the tack strip in use. Every size drawn is from `fixings`.
void draw_fixings(Drawing& page, const Box& box, const Step& step, const Fixings& fixings,
                  const TackStrip& strip, LengthUnit unit);

/// A strip's outline in the step's plan, mm: x along the step, y from its edge nearest the riser (tread) or
/// the floor (riser). A mitred end is shorter at y = 0.
std::vector<PlanPoint> strip_outline(const StripPiece& piece, double width_mm);

} // namespace treadfold
