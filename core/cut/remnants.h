// Which pieces could come from which remnants.
#pragma once

#include "cut/stretch.h"

namespace treadfold {

/// A way to share the pieces out. Every remnant's pieces fit it.
struct Share {
  std::vector<Chosen> remnants; // by index into Carpet::remnants
  Chosen roll;
  bool operator==(const Share&) const = default;
};

/// The first takes all from the roll. Whole groups only, unless the remnant is known to be of the roll's dye
/// lot; match groups are never divided between stretches of goods.
std::vector<Share> ways_to_share(const std::vector<CutPiece>& pieces, const Carpet& carpet,
                                 const LayoutOptions& options);

} // namespace treadfold
