// The checker: does a layout keep its promises? Shares nothing with the search.
#pragma once

#include "cut/layout.h"

namespace treadfold {

/// Empty when the layout keeps guarantees 1–6 of cut/layout.h; else one sentence for each breach.
std::vector<std::string> check_layout(const std::vector<CutPiece>& pieces, const Carpet& carpet,
                                      const Layout& layout);

} // namespace treadfold
