#include "cut/pack/outlines.h"

#include "cut/pack/shortening.h"

#include <cassert>

namespace treadfold::pack {
namespace {

/// Equal outlines counted together, each moved to begin at (0, 0).
struct Outlines {
  std::vector<Outline> all;
  int id(Outline o) {
    const auto at = std::find(all.begin(), all.end(), o);
    const auto i = static_cast<int>(at - all.begin());
    if (at == all.end()) all.push_back(std::move(o));
    return i;
  }
};

} // namespace

OutlineAnswer pack_outlines(const std::vector<OutlinePiece>& pieces, Ticks width,
                            const OutlineOptions& options) {
  OutlineAnswer answer;
  if (pieces.empty()) return answer;
  Outlines outlines;
  Bundle bundle{{}, width};
  std::vector<std::vector<int>> caller; // by piece and its ways in the bundle
  Ticks area = 0, longest = 0;
  for (const auto& piece : pieces) {
    auto& ways = bundle.ways.emplace_back();
    auto& callers = caller.emplace_back();
    Ticks shortest = kNoLimit;
    for (std::size_t w = 0; w < piece.ways.size(); ++w) {
      const Extent e = extent(piece.ways[w].ring);
      if (e.w() > width) continue;
      const int id = outlines.id(moved(piece.ways[w], Corner{} - e.low));
      if (std::find(ways.begin(), ways.end(), id) != ways.end()) continue;
      ways.push_back(id), callers.push_back(static_cast<int>(w));
      shortest = std::min(shortest, e.l());
    }
    assert(!ways.empty());
    area += area_twice(piece.ways[0]), longest = std::max(longest, shortest);
  }
  answer.bound = (area + 2 * width - 1) / (2 * width), answer.bound_name = "area";
  if (longest > answer.bound) answer.bound = longest, answer.bound_name = "longest piece";
  Dice dice(options.seed);
  Effort effort;
  effort.most = options.work, effort.should_stop = options.should_stop;
  Detail detail(std::move(outlines.all), effort.done);
  Shortening search(detail, bundle, answer.bound, dice, effort);
  search.run();
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const auto& l = search.best()[i];
    const auto at = std::find(bundle.ways[i].begin(), bundle.ways[i].end(), l.shape) - bundle.ways[i].begin();
    const int way = caller[i][static_cast<std::size_t>(at)];
    answer.at.push_back({way, l.at - extent(pieces[i].ways[static_cast<std::size_t>(way)].ring).low});
  }
  answer.length = search.length();
  answer.work = effort.done;
  return answer;
}

} // namespace treadfold::pack
