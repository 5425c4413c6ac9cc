#include "cut/pack/bottom_left.h"

namespace treadfold::pack {
namespace {

constexpr std::size_t kMostLines = 32;

/// Lines across the strip on which a piece may touch the sides or those that lie: where no-fit polygons end,
/// spread evenly if they are many.
std::vector<Ticks> lines(NoFits& no_fits, const std::vector<Lying>& lies, int shape, Ticks room) {
  std::vector<Ticks> all{0, room};
  for (const auto& l : lies) {
    const NoFit& no_fit = no_fits.beside(l.shape, shape);
    for (std::size_t k = 0; k < no_fit.polygons(); ++k)
      for (const Ticks u : {no_fit.low(k, Axis::across) + l.at.u, no_fit.high(k, Axis::across) + l.at.u})
        if (u > 0 && u < room) all.push_back(u);
  }
  std::sort(all.begin(), all.end());
  all.erase(std::unique(all.begin(), all.end()), all.end());
  if (all.size() <= kMostLines) return all;
  std::vector<Ticks> some;
  for (std::size_t i = 0; i < kMostLines; ++i)
    some.push_back(all[i * (all.size() - 1) / (kMostLines - 1)]);
  return some;
}

} // namespace

std::vector<Lying> bottom_left(NoFits& no_fits, const Bundle& bundle, const std::vector<std::size_t>& order) {
  std::vector<Lying> by_piece(bundle.ways.size()), lies;
  Ticks end = 0;
  Line line;
  const auto slide = [&](Lying& l, Axis axis) { // as near to 0 as there is room
    const Shape& s = no_fits.shape(l.shape);
    line.start(axis, on(other(axis), l.at), 0, axis == Axis::across ? bundle.width - s.w : end);
    for (const auto& o : lies)
      line.add(no_fits, o, l.shape, 1);
    line.first_gap(on(axis, l.at));
  };
  for (const std::size_t i : order) {
    Lying best;
    Ticks least = kNoLimit;
    for (const int way : bundle.ways[i]) {
      const Shape& s = no_fits.shape(way);
      for (const Ticks u : lines(no_fits, lies, way, bundle.width - s.w)) {
        Lying here{way, {u, 0}};
        slide(here, Axis::along);
        if (here.at.v + s.l < least) least = here.at.v + s.l, best = here;
      }
    }
    for (Corner last{-1, -1}; best.at != last;) { // into the corner
      last = best.at;
      slide(best, Axis::across);
      slide(best, Axis::along);
    }
    lies.push_back(best);
    by_piece[i] = best;
    end = std::max(end, best.at.v + no_fits.shape(best.shape).l);
  }
  return by_piece;
}

} // namespace treadfold::pack
