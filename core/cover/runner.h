// Pieces of a runner: on each step what covers its band of the step, with no trim at either side.
//
// Guarantees
//  1. Straight steps in a row are one piece as long as the roll and `longest` allow; joints only in a crotch.
//  2. A runner's edges stay where its marks say; the wood beside them stays bare (cover/runner_proof.h).
//  3. Cut across: the finished width and what its two edges take, rounded up.
#pragma once

#include "cover/cover.h"
#include "cover/fixings.h"

namespace treadfold {

/// As cover_flight. REQUIRES: flight.runner, and that it fits every step.
std::vector<Piece> cover_runner(const Flight& flight, const CoverInput& input, const std::string& prefix);

/// As fixings(): strip and pad stop `strip_stop` inside each edge, glue and latex run along the edges.
/// `pleat`: what is folded behind the step's riser, if anything; it has staples there instead of a strip.
Fixings runner_fixings(const Flight& flight, int step, const Cushion& cushion, const TackStrip& strip,
                       const Carpet& carpet, const Allowances& allowances,
                       const RunnerPleat* pleat = nullptr);

} // namespace treadfold
