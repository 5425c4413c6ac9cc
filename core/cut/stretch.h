// One stretch of goods, roll or remnant, and the pieces to be cut from it.
#pragma once

#include "cut/layout.h"
#include "cut/search.h"

#include <optional>
#include <string>
#include <vector>

namespace treadfold {

/// Indices into the pieces of the job.
using Chosen = std::vector<int>;

/// Goods of one width; length: the longest piece that can be cut from it. in_hand: as in Carpet.
struct Goods {
  Length width, selvage, length;
  std::optional<Length> in_hand{};
  Length usable() const { return width - selvage * 2; }
};

/// The chosen pieces as the packer wants them; or why they cannot be cut from these goods.
struct Task {
  std::vector<rows::Rect> rects;
  rows::Strip strip;
  std::string why_not; // empty: they can
};
Task make_task(const std::vector<CutPiece>& pieces, const Chosen& chosen, const Goods& goods,
               const std::optional<Pattern>& pattern, LengthUnit unit);

/// The layout as it is shown: placements from the roll's end on, knife order, offcuts. `length` is what is in
/// hand to cut from.
RollLayout show(const std::vector<CutPiece>& pieces, const Chosen& chosen, const std::vector<rows::Spot>& at,
                const Goods& goods, Length length);

} // namespace treadfold
