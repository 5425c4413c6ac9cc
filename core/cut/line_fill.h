// What fits on a line across a strip of patterned goods.
#pragma once

#include "cut/rows.h"

#include <cstdint>
#include <vector>

namespace treadfold::rows {

/// Pieces of one match group that are as one across: each reaches no less than `before` to the left of its
/// motif and `after` to the right.
struct LineClass {
  int group = 0; // of `groups`
  Ticks before = 0, after = 0;
};

/// Weights of the classes, as shares of `whole`: whatever fits on a line weighs no more than `whole`.
struct LineWeights {
  std::vector<std::int64_t> of_class;
  std::int64_t whole = 1;
};

/// The motifs of `groups` match groups lie in one way across the strip, which is not known. For each way that
/// can be best: weights, each of which holds.
std::vector<std::vector<LineWeights>> line_weights(const std::vector<LineClass>& classes, int groups,
                                                   Ticks step, Ticks width);

} // namespace treadfold::rows
