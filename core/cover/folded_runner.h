// A runner folded round its winders: one straight strip over all its steps, as long as roll and hand allow.
//
// Guarantees
//  1. The strip's edges are straight and parallel; nothing is cut out of it but a snip where a pleat would
//     show (RunnerPleat::snip_mm). Joints fall in crotches.
//  2. Its wide edge is unbroken where it turns: each pleat is a wedge from a point of that edge.
#pragma once

#include "cover/cover.h"

namespace treadfold {

/// As cover_flight. REQUIRES: folds_round(flight) (measure/runner_band.h), and that check_course() has no
/// error.
std::vector<Piece> cover_folded(const Flight& flight, const CoverInput& input, const std::string& prefix);

} // namespace treadfold
