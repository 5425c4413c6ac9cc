// S. P. Fekete, J. Schepers: "New classes of fast lower bounds for bin packing problems", Mathematical
// Programming 91 (2001) 11-31, and "A general framework for bounds for higher-dimensional orthogonal packing
// problems", Mathematical Methods of Operations Research 60 (2004) 311-329.
//
// f: [0, 1] -> [0, 1] is dual feasible if numbers that sum to no more than 1 have values that do not either.
// Every line across a strip of width W meets pieces whose widths sum to no more than W. Summed over all
// lines: length >= sum of f(w/W)·l, for each dual feasible f. f(x) = x gives the area.
#pragma once

#include "cut/rows.h"

#include <map>
#include <vector>

namespace treadfold::rows {

/// Whether each multiple i·unit up to a top is the sum of some sizes. Empty if that were too much work.
struct Sums {
  Ticks unit = 1;
  std::vector<char> reached;
};
Sums sums_of(const std::map<Ticks, int>& sizes, Ticks top);

/// Pieces lie side by side, so no line across needs more width than some of them sum to.
Ticks width_of_use(const std::map<Ticks, int>& widths, Ticks width);

/// Total length of the pieces of each width.
using ByWidth = std::map<Ticks, Ticks>;

/// u(k): x if (k+1)·x is whole, else floor((k+1)·x)/k, on widths that `cut_off` has first been applied to:
/// U(e) makes x > 1-e full and x < e nothing. Their composition is dual feasible too. k = 0 stands for u =
/// id.
Ticks length_by_k(const ByWidth& pieces, Ticks width, Ticks k, Ticks e);

/// phi(e): 1 - floor((1-x)/e)/floor(1/e) for x > 1/2, 1/floor(1/e) for e <= x <= 1/2, else 0.
Ticks length_by_phi(const ByWidth& pieces, Ticks width, Ticks e);

/// The best of a few of them: how many lines across are needed, where each width is met so often.
Ticks lines_by_dual_feasible(const ByWidth& pieces, Ticks width);

} // namespace treadfold::rows
