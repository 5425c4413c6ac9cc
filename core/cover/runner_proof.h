// Fold a runner's piece back onto its steps: it covers its band of each step, no more and no less.
#pragma once

#include "cover/refold.h"

namespace treadfold {

/// As prove(), for a piece of `flight`'s runner, which must cover its band once everywhere; what lies beside
/// the band, at 24 × 24 points a face, no layer at all. Turned edges must be clear of the strips.
/// REQUIRES: flight.runner; piece.steps are steps of the flight.
Proof prove_runner(const Piece& piece, const Flight& flight, Length pad, const Carpet& carpet,
                   const Allowances& allowances);

} // namespace treadfold
