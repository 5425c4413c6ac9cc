// A first layout: one piece after the other, each as far down the strip as it goes beside those that lie.
#pragma once

#include "cut/pack/lying.h"

namespace treadfold::pack {

/// The pieces to pack: the shapes that each may take, and the strip.
struct Bundle {
  std::vector<std::vector<int>> ways; // by piece
  Ticks width = 0;
};

/// All pieces, laid in this order, none overlapping. Always succeeds: each finds room behind all others.
std::vector<Lying> bottom_left(NoFits& no_fits, const Bundle& bundle, const std::vector<std::size_t>& order);

} // namespace treadfold::pack
