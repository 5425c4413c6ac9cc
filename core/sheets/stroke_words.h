// A stroke of the knife in words.
#pragma once

#include "cut/layout.h"
#include "text/reader.h"

namespace treadfold {

/// "Cross-cut at 7' 2\" from the roll's end, edge to edge. Frees row 2." `loose`: v is measured from the end
/// of a part that is no roll.
std::string stroke_in_words(const Stroke& s, const RollLayout& roll, bool loose, const Reader& reader);

} // namespace treadfold
