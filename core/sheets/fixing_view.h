// Where strip and pad go on one step: the tread from above, and below it the riser from the front.
#pragma once

#include "plan.h"
#include "sheets/page.h"

namespace treadfold {

/// `tread_strip_width`: of the tack strip in use. Every size drawn is from `fixings`.
void draw_fixings(Drawing& page, const Box& box, const Step& step, const Fixings& fixings,
                  const TackStrip& strip, const Reader& reader);

/// A strip's outline, mm: x along it, y from its edge nearest the riser (tread) or the floor (riser). A
/// mitred end is shorter at y = 0 where its angle is less than 90°, longer where it is more.
std::vector<PlanPoint> strip_outline(const StripPiece& piece, double width_mm);

/// An end's cut in words, "55°" or "60° (long behind)": its longer edge toward the riser; "" where it is
/// square.
std::string end_cut(const Reader& reader, double angle_deg);

} // namespace treadfold
