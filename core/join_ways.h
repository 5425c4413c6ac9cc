// The ways in which a row of steps that can all be joined is divided into pieces.
#pragma once

#include <vector>

namespace treadfold {

/// Steps in each piece, from the top down.
using PieceSizes = std::vector<int>;

/// As a limit given in the job divides them: `most` in each piece, what is left over in the lowest. 5 steps,
/// at most 2: {2, 2, 1}. REQUIRES: steps, most > 0.
PieceSizes even_sizes(int steps, int most);

/// Up to 20 steps every set of sizes from 1 to `most` that adds up to them; more steps: those of two sizes
/// and what is left over. Each with the largest pieces highest, and turned round; those of fewest sizes come
/// first, and of these those of fewest pieces. 3 steps, at most 2: {1, 1, 1}, {2, 1}, {1, 2}. None twice.
/// REQUIRES: steps, most > 0.
std::vector<PieceSizes> ways_to_divide(int steps, int most);

} // namespace treadfold
