// Why more carpet is ordered than the stair shows: every square tick of it accounted for.
#pragma once

#include "buy/quantity.h"
#include "cut/layout.h"

#include <string>
#include <vector>

namespace treadfold {

/// ordered + from_remnants = net + allowances + pattern + left_over + rounding, exactly.
struct AreaAccount {
  Area ordered;       // roll width times length to buy
  Area from_remnants; // of remnants, used
  Area net;           // of the pieces, before allowances
  Area allowances;    // trims, tucks, and what is cut away round pieces that are no rectangles
  Area pattern;       // length that matching the pattern adds
  Area left_over;     // beside and between the pieces
  Area rounding;      // up to the length in which the goods are sold
};
AreaAccount account_areas(const std::vector<Layout>& layouts, Area net);

/// A few plain sentences whose figures, in sq yd or m², add up as printed. Parts that are nothing are left
/// out; no layout, no words.
std::string in_words(const AreaAccount& account, LengthUnit unit);

} // namespace treadfold
