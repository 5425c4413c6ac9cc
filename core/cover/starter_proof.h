// Fold the pieces of a curved starter back onto the step that was measured. Shares nothing with their
// unfolding but the pieces and the measured curve.
#pragma once

#include "cover/refold.h"
#include "cover/starter.h"

namespace treadfold {

/// One proof a piece: of its own cuts, of the seams at which it meets another, of the bare wood that is its
/// to cover (by all pieces together), and of how much it must give. Wood is looked at from the true curve,
/// not from facets. Teeth between relief cuts lie straight here; on the step they follow the curve, so that
/// on the nosing they may stand off it by what the limit allows.
std::vector<Proof> prove_starter(const StarterCover& cover, const Step& step, Length pad,
                                 const Carpet& carpet);

} // namespace treadfold
