// A strip folded round winders, to scale: its folds lie askew, so each is told at both edges.
#pragma once

#include "sheets/line_roles.h"
#include "sheets/page.h"

#include "plan.h"

namespace treadfold {

/// Draws the marks `first` … `last` of the strip, highest on top, into `box`, with the fold below the last:
/// beside either edge where each line meets it, as far from the strip's foot end as a tape laid along that
/// edge reads. At its wide edge a pleat has but one mark. Returns the y below.
double draw_folded_strip(Drawing& page, const Box& box, const Piece& piece, std::size_t first,
                         std::size_t last, const Reader& reader);

std::vector<LegendEntry> folded_legend(const Piece& piece, const Reader& reader);

/// Bare wood beside it on each step, at the riser's foot, over the nosing and at the tread's back; below it,
/// what is folded behind which riser. Returns the y below.
double draw_folded_tables(Drawing& page, const Box& box, const Piece& piece, const Reader& reader);

} // namespace treadfold
