// What is left to be cut, and from what: for the knife, once a piece is spoiled or the roll has a fault.
#pragma once

#include "recut.h"
#include "sheets/drawing.h"

namespace treadfold {

/// Of each carpet the best way: what to buy, where each piece comes from, every part of the goods drawn with
/// its strokes; then the other ways. CSV: the pieces. REQUIRES: recuts without errors, of this plan.
Sheet recut_sheet(const Plan& plan, const Recuts& recuts);

/// "it fits, nothing to buy"; "2' 3\" more to buy".
std::string outcome_in_words(const Way& way, const Reader& reader);

/// Where a part was: "11' 2\" from the end of roll 12', 38\" from its left edge".
std::string place_in_words(const PartLayout& part, const Reader& reader);

} // namespace treadfold
