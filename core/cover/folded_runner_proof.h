// Fold a strip back round its winders, in the true plan of the steps: it covers its band of each, no more and
// no less, and its pleats do not show.
#pragma once

#include "cover/refold.h"

namespace treadfold {

/// As prove_runner, for a strip that is folded round winders. Shares nothing with its unfolding but the
/// Piece; the band is that between its marks, straight over the bare wood unrolled. Besides: every mark, once
/// folded, stands where its bare wood says; every layer of a pleat lies behind the riser's carpet and nowhere
/// beyond it. REQUIRES: folds_round(flight).
Proof prove_folded(const Piece& piece, const Flight& flight, Length pad, const Carpet& carpet,
                   const Allowances& allowances);

} // namespace treadfold
