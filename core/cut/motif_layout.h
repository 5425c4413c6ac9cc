// A layout of patterned goods whose motifs are settled.
#pragma once

#include "cut/motif_sweep.h"

namespace treadfold::rows {

/// A layout no longer than `limit` whose motifs lie where they do in the layout `at`; none if none was found.
/// The strip is swept (motif_sweep.h) again and again, what was missing weighing more. Stops where `effort`
/// has no steps left for a sweep. REQUIRES: `at` is a layout; the strip begins at 0 and has no loose parts.
std::optional<std::vector<Spot>> lay_on_motifs(const std::vector<Rect>& rects, const Strip& strip,
                                               const std::vector<Spot>& at, Ticks limit,
                                               MotifSweep::Effort& effort);

} // namespace treadfold::rows
