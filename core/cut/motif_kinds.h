// Pieces of patterned goods by how they lie about their motif.
#pragma once

#include "cut/line_fill.h"
#include "cut/rows.h"

#include <cstddef>
#include <cstdint>
#include <vector>

namespace treadfold::rows {

/// Pieces of one match group that are as one: each reaches no less than so far to the four sides of a motif.
/// Or, of no group (-1), one piece that may lie anywhere.
struct MotifKind {
  int group = 0;
  Ticks before_u = 0, after_u = 0, before_v = 0, after_v = 0;
  std::vector<std::size_t> pieces; // by index of Rect

  Ticks w() const { return before_u + after_u; }
  Ticks l() const { return before_v + after_v; }
};

/// Of more nothing is looked for: to tell them apart takes long.
constexpr std::size_t kMostPiecesOnMotifs = 500;

/// The kinds of the match groups, and the largest piece of those that may lie anywhere.
std::vector<MotifKind> motif_kinds(const std::vector<Rect>& rects, const Repeat& repeat);

/// No more than `most` of each group: those two by which least area is lost are made one, again and again.
std::vector<MotifKind> fewer_kinds(std::vector<MotifKind> kinds, int groups, std::size_t most);

/// What a kind is worth beside the others.
using Weights = std::vector<std::int64_t>; // by kind
Weights by_area(const std::vector<MotifKind>& kinds);
/// Of all pieces.
std::int64_t in_all(const std::vector<MotifKind>& kinds, const Weights& weights);

/// Moves the weights towards the pieces that are missing, as the `round`-th step of subgradients. missing: by
/// kind; below 0 where more lie on the strip than there are.
void move_towards(const std::vector<int>& missing, const std::vector<MotifKind>& kinds, int round,
                  Weights& weights);

} // namespace treadfold::rows
