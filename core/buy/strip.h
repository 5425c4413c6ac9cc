// Cutting stock in one dimension: the fewest stock lengths from which all cuts come.
//
// Guarantees
//  1. Every cut appears exactly once; one longer than the stock is whole stocks and a rest.
//  2. No stock is cut beyond its length; left_over is what remains of it.
//  3. stock.size() >= lower_bound, and no plan whatever has fewer stocks than lower_bound.
#pragma once

#include "units/length.h"

#include <vector>

namespace treadfold {

/// One stock length and the cuts that come from it, longest first.
struct StripStock {
  std::vector<Length> cuts;
  Length left_over;
};

struct StripPlan {
  std::vector<StripStock> stock; // fewest possible when its size is lower_bound
  int lower_bound = 0;
};

/// Best-fit decreasing; where that does not meet the bound, an exact search for a while counted in work, so
/// that the answer is always the same. Cuts of no length are left out. REQUIRES: stock_length > 0.
///
/// Example: 30, 30, 18 and 18 in from 48 in stocks: 2 stocks, nothing left over.
StripPlan cut_strip(const std::vector<Length>& cuts, Length stock_length);

} // namespace treadfold
