// The checker of outlines on a strip. Exact, and shares nothing with the search but the outlines.
#pragma once

#include "cut/pack/outlines.h"

namespace treadfold::pack {

/// Do the insides of a and b have a point in common? They may touch.
///
/// If no two edges cross, the rings meet in corners only or run along each other. Then the insides meet if
/// and only if some stretch of one ring between such corners lies inside the other, or on it with the inside
/// on the same hand. The middle of each stretch tells; its coordinates are halves of whole numbers.
bool insides_meet(const Outline& a, const Outline& b);

/// What is wrong with the answer; empty if nothing.
std::string breach(const std::vector<OutlinePiece>& pieces, Ticks width, const OutlineAnswer& answer);

} // namespace treadfold::pack
