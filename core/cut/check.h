// The checker: does a layout keep its promises? Shares nothing with the search.
#pragma once

#include "cut/layout.h"

namespace treadfold {

/// Empty when the layout keeps guarantees 1–6, 8 and 9 of cut/layout.h and places every piece once; else one
/// sentence for each breach.
/// The knife order is replayed on the goods: each stroke must go straight through one part from edge to edge,
/// or around one piece of a part where the carpet is not laid straight, and at the end every placement must
/// be a part of its own.
std::vector<std::string> check_layout(const std::vector<CutPiece>& pieces, const Carpet& carpet,
                                      const Layout& layout);

/// Do two pieces on one stretch of goods overlap? Outlines count, where pieces are laid by them.
bool overlap(const Placement& a, const Placement& b);

} // namespace treadfold
