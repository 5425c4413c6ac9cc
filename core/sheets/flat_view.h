// The flat piece to scale, as seen from the pile side, with what the knife needs.
//
// Guarantees
//  1. Every corner, cut and fold end of the piece has a running dimension on both edges: in this view, or in
//     the detail of the small corner in which it lies.
//  2. Running dimensions never touch: where the points are close, the words stand apart and a kinked line
//     leads to each.
#pragma once

#include "sheets/corner_view.h"

namespace treadfold {

struct FlatLayout {
  Viewport view;
  Box edges; // of the cut rectangle
  double bottom = 0;
  bool level_numbers = false; // the numbers on top stand level, not turned
};

/// Where everything goes when drawn into the top of `box`.
FlatLayout flat_layout(const Box& box, const Piece& piece, const std::vector<CornerDetail>& details,
                       const Reader& reader);

/// Labels of lines along the piece that the view names by letters, those of the details first.
Keys flat_keys(const Piece& piece, const std::vector<CornerDetail>& details);

void draw_flat(Drawing& page, const Box& box, const Piece& piece, const std::vector<CornerDetail>& details,
               const Keys& keys, const Reader& reader);
/// In the warning style, with nothing to cut by.
void draw_flat_warning(Drawing& page, const Box& box, const Piece& piece, const Reader& reader);

} // namespace treadfold
