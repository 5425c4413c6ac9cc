#include "sheets/outline_room.h"

#include <algorithm>

namespace treadfold {
namespace {

/// The part of the side from `at` on by `by` that lies between two lines.
struct Share {
  double from = 0, to = 1;
  void clip(double at, double by, double least, double most) {
    if (by == 0) {
      if (at <= least || at >= most) to = -1;
      return;
    }
    const double a = (least - at) / by, b = (most - at) / by;
    from = std::max(from, std::min(a, b)), to = std::min(to, std::max(a, b));
  }
};

/// Ring and holes.
std::vector<const GoodsRing*> rings_of(const GoodsOutline& outline) {
  std::vector<const GoodsRing*> rings{&outline.ring};
  for (const auto& hole : outline.holes)
    rings.push_back(&hole);
  return rings;
}

/// A rectangle lies within an outline if its middle does and no side of that passes through it.
bool within(const OutlineRoom& box, const std::vector<const GoodsRing*>& rings) {
  const double left = box.low.u.mm(), right = box.high.u.mm(), top = box.low.v.mm(), foot = box.high.v.mm();
  const double u = (left + right) / 2, v = (top + foot) / 2;
  bool inside = false;
  for (const auto* ring : rings)
    for (std::size_t i = 0; i < ring->size(); ++i) {
      const GoodsPoint a = (*ring)[i], b = (*ring)[(i + 1) % ring->size()];
      const double a_u = a.u.mm(), a_v = a.v.mm(), by_u = (b.u - a.u).mm(), by_v = (b.v - a.v).mm();
      if ((a_v > v) != (b.v.mm() > v) && u < a_u + (v - a_v) / by_v * by_u) inside = !inside;
      Share through;
      through.clip(a_u, by_u, left, right);
      through.clip(a_v, by_v, top, foot);
      if (through.to - through.from > 1e-9) return false;
    }
  return inside;
}

} // namespace

bool goes_in(const GoodsOutline& outline) {
  const auto& ring = outline.ring;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const GoodsPoint a = ring[i], b = ring[(i + 1) % ring.size()], c = ring[(i + 2) % ring.size()];
    if ((b.u - a.u).mm() * (c.v - b.v).mm() < (b.v - a.v).mm() * (c.u - b.u).mm()) return true;
  }
  return !outline.holes.empty();
}

std::optional<OutlineRoom> largest_rectangle(const GoodsOutline& outline, Length from, Length to) {
  const auto rings = rings_of(outline);
  std::vector<Length> across, along{from, to};
  for (const auto* ring : rings)
    for (const auto& c : *ring)
      across.push_back(c.u), along.push_back(std::clamp(c.v, from, to));
  for (auto* lines : {&across, &along}) {
    std::stable_sort(lines->begin(), lines->end());
    lines->erase(std::unique(lines->begin(), lines->end()), lines->end());
  }
  std::optional<OutlineRoom> best;
  double most = 0; // mm²
  for (std::size_t i = 0; i < across.size(); ++i)
    for (std::size_t j = i + 1; j < across.size(); ++j)
      for (std::size_t k = 0; k < along.size(); ++k)
        for (std::size_t l = k + 1; l < along.size(); ++l) {
          const OutlineRoom box{{across[i], along[k]}, {across[j], along[l]}};
          const double area = (across[j] - across[i]).mm() * (along[l] - along[k]).mm();
          if (area > most && within(box, rings)) most = area, best = box;
        }
  return best;
}

} // namespace treadfold
