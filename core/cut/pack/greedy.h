// One packing, at once: the lowest step of the skyline takes the piece that fits it best.
#pragma once

#include "cut/pack/waiting.h"

namespace treadfold::pack {

/// What a step of the skyline offers.
struct Niche {
  std::size_t step = 0;
  Ticks u = 0, v = 0, width = 0, left = 0, right = 0, room = 0; // walls' heights; room up to the top
};
Niche niche_at(const Skyline& sky, std::size_t step, Ticks top);

/// How well a piece of w by l fits, 0 … 6: its width fills the niche, its end lies level with walls.
/// S. C. H. Leung, D. Zhang, K. M. Sim: "A two-stage intelligent search algorithm for the two-dimensional
/// strip packing problem", European Journal of Operational Research 215 (2011) 57-69, and L. Wei, Q. Hu, S.
/// C. H. Leung, N. Zhang: "An improved skyline based heuristic for the 2D strip packing problem and its
/// efficient implementation", Computers & Operations Research 80 (2017) 113-127. (From memory; the scores are
/// ours.)
inline int fit(Ticks w, Ticks l, const Niche& n) {
  return (w == n.width ? 4 : 0) + (l == n.left ? 1 : 0) + (l == n.right ? 1 : 0);
}

/// Lays the piece into the niche, against the wall that it is level with, else the higher one. Its corner.
Spot lay(Skyline& sky, const Niche& n, Ticks w, Ticks l);

/// Nothing fits the niche: it is given up to its lower wall. The area lost.
Ticks give_up(Skyline& sky, const Niche& n);

/// Packs what is left of the kinds on the skyline, up to `top`. Scratch memory is kept between calls.
class Greedy {
public:
  /// Area of the pieces that did not fit below `top`: 0 if all did. Stops early, with a value > `limit`, when
  /// more than that is sure to be left. Adds the candidates looked at to `work`.
  /// REQUIRES: `order` holds each kind once. `free` is the area above the skyline and below `top`.
  Ticks complete(const Sheet& sheet, const Skyline& from, const std::vector<int>& left, const Order& order,
                 Ticks top, Ticks free, Ticks limit, std::int64_t& work);

  const std::vector<Placed>& placed() const { return placed_; }

private:
  Waiting waiting_;
  Skyline sky_;
  std::vector<Placed> placed_;
};

} // namespace treadfold::pack
