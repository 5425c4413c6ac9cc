// What fits on a line of a strip of patterned goods: across, or along it.
#pragma once

#include "cut/rows.h"

#include <cstdint>
#include <set>
#include <vector>

namespace treadfold::rows {

/// Pieces of one match group that are as one on the line's axis: each reaches no less than `before` to one
/// side of its motif and `after` to the other. At most one class is of no group: of a single piece, which may
/// lie anywhere.
struct LineClass {
  int group = 0; // of `groups`, or -1
  Ticks before = 0, after = 0;
  bool single = false; // of one piece; else counted as if there were any number of them
};

using Counts = std::vector<int>;   // by class: what lies on a line
using Motifs = std::vector<Ticks>; // by group: where its motifs lie, modulo the step

/// How the motifs of the groups may lie: whatever fits on a line fits on it in one of these ways too.
std::set<Motifs> ways_of_motifs(const std::vector<LineClass>& classes, int groups, Ticks step, Ticks width);

/// For each way that can be best, the largest fillings of a line. None if more than `most_work` fillings
/// would be compared.
std::vector<std::vector<Counts>> line_fillings(const std::vector<LineClass>& classes, int groups, Ticks step,
                                               Ticks width, std::int64_t most_work);

/// Weights of the classes, as shares of `whole`: whatever fits on a line weighs no more than `whole`.
struct LineWeights {
  std::vector<std::int64_t> of_class;
  std::int64_t whole = 1;
};

/// The motifs of `groups` match groups lie in one way across the strip, which is not known. For each way that
/// can be best: weights, each of which holds. REQUIRES: every class is of a group.
std::vector<std::vector<LineWeights>> line_weights(const std::vector<LineClass>& classes, int groups,
                                                   Ticks step, Ticks width);

} // namespace treadfold::rows
