#include "cut/pack/straight_cuts.h"

#include <algorithm>
#include <numeric>

namespace treadfold::pack {
namespace {

struct Region {
  Ticks u, v, w, l;
};

class Knife {
public:
  Knife(const std::vector<Box>& boxes, const std::vector<Spot>& at) : boxes_(boxes), at_(at) {}
  StraightCuts cuts;

  /// `barren`: the other direction has just failed to free anything.
  void part(const Region& r, std::vector<int> in, bool across, int stage, bool barren);

private:
  Ticks from(int i, bool across) const { return across ? at(i).v : at(i).u; }
  Ticks to(int i, bool across) const { return from(i, across) + (across ? box(i).l : box(i).w); }
  const Spot& at(int i) const { return at_[static_cast<std::size_t>(i)]; }
  const Box& box(int i) const { return boxes_[static_cast<std::size_t>(i)]; }

  const std::vector<Box>& boxes_;
  const std::vector<Spot>& at_;
};

void Knife::part(const Region& r, std::vector<int> in, bool across, int stage, bool barren) {
  std::stable_sort(in.begin(), in.end(), [&](int a, int b) { return from(a, across) < from(b, across); });
  const Ticks low = across ? r.v : r.u, high = low + (across ? r.l : r.w);
  int strokes = 0;
  Ticks done = low; // cut, or the edge
  std::vector<std::pair<Region, std::vector<int>>> parts;
  for (std::size_t i = 0; i < in.size();) {
    const Ticks start = from(in[i], across);
    Ticks end = start;
    std::vector<int> group;
    for (; i < in.size() && (group.empty() || from(in[i], across) < end); ++i)
      end = std::max(end, to(in[i], across)), group.push_back(in[i]);
    strokes += (start > done ? 1 : 0) + (end < high ? 1 : 0);
    done = end;
    const Region part = across ? Region{r.u, start, r.w, end - start} : Region{start, r.v, end - start, r.l};
    if (stage == 0) cuts.longest_in_hand = std::max(cuts.longest_in_hand, part.l);
    parts.emplace_back(part, std::move(group));
  }
  cuts.strokes += strokes;
  if (strokes > 0) cuts.stages = std::max(cuts.stages, stage + 1);
  for (auto& [part, group] : parts) {
    const auto& b = box(group[0]);
    if (group.size() == 1 && part.w == b.w && part.l == b.l) continue; // it is free
    if (strokes == 0 && barren && group.size() > 1) {
      cuts.possible = false;
      return;
    }
    this->part(part, std::move(group), !across, stage + 1, strokes == 0);
  }
}

} // namespace

StraightCuts straight_cuts(const std::vector<Box>& boxes, const std::vector<Spot>& at, Ticks width) {
  Knife knife(boxes, at);
  knife.cuts.possible = true;
  if (boxes.empty()) return knife.cuts;
  Ticks length = 0;
  for (std::size_t i = 0; i < boxes.size(); ++i)
    length = std::max(length, at[i].v + boxes[i].l);
  std::vector<int> all(boxes.size());
  std::iota(all.begin(), all.end(), 0);
  knife.cuts.strokes = 1; // from the roll
  knife.part({0, 0, width, length}, std::move(all), true, 0, false);
  return knife.cuts;
}

} // namespace treadfold::pack
