#include "cut/pack/greedy.h"

#include <algorithm>

namespace treadfold::pack {
Niche niche_at(const Skyline& sky, std::size_t step, Ticks top) {
  const auto& s = sky.steps[step];
  return {step,     s.u, s.v, sky.end(step) - s.u, sky.left_wall(step, top), sky.right_wall(step, top),
          top - s.v};
}

Spot lay(Skyline& sky, const Niche& n, Ticks w, Ticks l) {
  const bool against_left = w == n.width || l == n.left || (l != n.right && n.left >= n.right);
  const Ticks u = against_left ? n.u : n.u + n.width - w;
  sky.cover(n.step, u, u + w, n.v + l);
  return {u, n.v};
}

Ticks give_up(Skyline& sky, const Niche& n) {
  const Ticks rise = std::min({n.left, n.right, n.room});
  sky.cover(n.step, n.u, n.u + n.width, n.v + rise);
  return rise * n.width;
}

Ticks Greedy::complete(const Sheet& sheet, const Skyline& from, const std::vector<int>& left,
                       const Order& order, Ticks top, Ticks free, Ticks limit, std::int64_t& work) {
  placed_.clear();
  waiting_.gather(sheet, left, order);
  // Area that can be lost before more than `limit` is left over.
  Ticks spare = limit == kNoLimit ? kNoLimit : limit + free - waiting_.area();
  sky_ = from;
  std::size_t low = sky_.lowest();
  while (waiting_.boxes() > 0) {
    const Niche niche = niche_at(sky_, low, top);
    if (niche.room <= 0) break;
    const int best = waiting_.best(niche.width, niche.left, niche.right, niche.room, work);
    if (best < 0) {
      spare -= give_up(sky_, niche);
      if (spare < 0) return kNoLimit;
      low = sky_.lowest();
      continue;
    }
    int kind = 0;
    const Kind piece = waiting_.take(best, kind);
    const Spot at = lay(sky_, niche, piece.w, piece.l);
    placed_.push_back({kind, at.u, at.v});
    if (piece.w == niche.width)
      low = sky_.lowest();
    else if (sky_.steps[low].v > niche.v) // what is left of the niche is still the lowest
      ++low;
  }
  return waiting_.area();
}

} // namespace treadfold::pack
