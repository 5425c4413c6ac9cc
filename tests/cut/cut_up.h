// Strips of patterned goods that are known, for the pieces are cut from them.
#pragma once

#include "cut/rows.h"

#include <algorithm>
#include <random>
#include <vector>

namespace treadfold::rows {

class Dice {
public:
  explicit Dice(unsigned seed) : random_(seed) {}
  Ticks between(Ticks least, Ticks most) {
    return least + static_cast<Ticks>(random_() % static_cast<std::uint64_t>(most - least + 1));
  }

private:
  std::mt19937_64 random_;
};

/// A strip of patterned goods without waste, cut up at random; motifs of each group where its lattice has
/// them.
struct CutUp {
  std::vector<Rect> rects;
  Strip strip;
  Ticks length = 0;

  CutUp(Dice& dice, Ticks size) {
    strip.width = dice.between(size, 4 * size), length = dice.between(size, 8 * size);
    strip.repeat = Repeat{dice.between(1, 2 * size), dice.between(1, 2 * size), 0};
    const Ticks part = dice.between(1, 4); // set match, half-drop, a third, a quarter
    if (part > 1) strip.repeat->drop = strip.repeat->repeat_v / part;
    const int groups = static_cast<int>(std::max<Ticks>(1, dice.between(-3, 5)));
    for (int g = 0; g < groups; ++g)
      motifs_.push_back({dice.between(0, 5 * size), dice.between(0, 5 * size)});
    divide(dice, {0, 0}, strip.width, length, size);
  }

private:
  void divide(Dice& dice, Spot at, Ticks w, Ticks l, Ticks size) {
    const bool may_rip = w > 1 && 2 * w > size, may_cross = l > 1 && l > size;
    if (may_rip && (!may_cross || dice.between(0, 1))) {
      const Ticks cut = dice.between(1, w - 1);
      divide(dice, at, cut, l, size), divide(dice, {at.u + cut, at.v}, w - cut, l, size);
    } else if (may_cross) {
      const Ticks cut = dice.between(1, l - 1);
      divide(dice, at, w, cut, size), divide(dice, {at.u, at.v + cut}, w, l - cut, size);
    } else {
      rects.push_back(piece(dice, at, w, l));
    }
  }

  Rect piece(Dice& dice, Spot at, Ticks w, Ticks l) {
    Rect r{w, l, static_cast<int>(dice.between(dice.between(-1, 0), static_cast<Ticks>(motifs_.size()) - 1))};
    if (r.match < 0) return r;
    const auto& [repeat_u, repeat_v, drop] = *strip.repeat;
    const Spot motif = motifs_[static_cast<std::size_t>(r.match)];
    const Ticks i = dice.between(-3, 3), j = dice.between(-3, 3); // one of its motifs
    r.phase_u = motif.u + i * repeat_u - at.u, r.phase_v = motif.v + i * drop + j * repeat_v - at.v;
    if (dice.between(0, 3) > 0) // by its own middle, as on a tread, whatever motif is there
      r.phase_u -= (r.phase_u - w / 2) / repeat_u * repeat_u * (drop == 0);
    return r;
  }

  std::vector<Spot> motifs_;
};

} // namespace treadfold::rows
