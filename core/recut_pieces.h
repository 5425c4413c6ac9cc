// Smaller pieces for larger ones, when what is left of the goods has no room for those.
#pragma once

#include "recut.h"

namespace treadfold {

/// For each joined piece of these that is cut to cover whole steps: a piece a step.
std::vector<Replaced> without_joins(const Plan& plan, const Carpet& carpet,
                                    const std::vector<std::string>& pieces);

/// For each of these that covers one straight step of a wrapped flight, closed at both ends and with nothing
/// standing on it: its tread and nosing, and its riser, seamed where the carpet under the nosing meets the
/// riser.
std::vector<Replaced> seamed_under_nosings(const Plan& plan, const std::vector<CutPiece>& pieces);

} // namespace treadfold
