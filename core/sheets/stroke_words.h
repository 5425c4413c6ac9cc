// A stroke of the knife in words.
#pragma once

#include "cut/layout.h"

namespace treadfold {

/// "Cross-cut at 7' 2\" from the roll's end, edge to edge. Frees row 2." `end`: from which v is measured.
std::string stroke_in_words(const Stroke& s, const RollLayout& roll, const std::string& end, LengthUnit unit);

} // namespace treadfold
