// The order in which one person cuts a stretch of goods, worked out from where the pieces lie and nothing
// else.
#pragma once

#include "cut/layout.h"

#include <cstdint>
#include <string>
#include <vector>

namespace treadfold::knife {

using Ticks = std::int64_t;

/// A rectangle on the goods; u from the left edge, v from the roll's end.
struct GoodsBox {
  Ticks u = 0, v = 0, w = 0, l = 0;
};

/// A stretch of goods in hand.
struct Stretch {
  Ticks width = 0, selvage = 0, length = 0;
};

struct Cut {
  Stroke::Kind kind = Stroke::Kind::cross_cut;
  Ticks at = 0, from = 0, to = 0;
  /// What comes loose on the near side: a row by its number, pieces by their index, or what is left over.
  enum class Frees { row, piece, strip, offcut, waste, selvage } frees = Frees::waste;
  int row = 0;
  std::vector<int> pieces;
  int last = -1; // a piece that this stroke frees on its far side too
};

struct CutPlan {
  std::vector<Cut> cuts;
  std::vector<GoodsBox> offcuts; // at least an inch both ways, clear of the selvage; largest first
  std::vector<Ticks> rows;       // where each row begins
  bool straight = true;          // false: straight strokes do not free every piece, some are cut out around
};

/// Cross-cuts a row, rips it, trims it, then goes on to the next row. No stroke follows an edge that is one
/// already.
CutPlan cut_plan(const std::vector<GoodsBox>& pieces, const Stretch& goods);

} // namespace treadfold::knife
