// A runner's strip to scale, with its folds measured from the foot end; and where its edges lie on a step.
#pragma once

#include "sheets/page.h"

#include "plan.h"

namespace treadfold {

/// Draws the marks `first` … `last` of the strip, highest on top, into `box`: nosings at the left, crotches
/// and ends at the right, each as far from the strip's foot end as a tape laid along it reads. Returns the y
/// below.
double draw_strip(Drawing& page, const Box& box, const Piece& piece, std::size_t first, std::size_t last,
                  const Reader& reader);

/// One step from above: its wood, the runner's band, and the bare wood at each side of it.
void draw_band(Drawing& page, const Box& box, const Step& step, const RunnerMark& mark, const Reader& reader);

} // namespace treadfold
