// Beam search over partial packings, each judged by packing what is left.
//
// After N placed boxes those packings are kept whose completion by the greedy rule leaves the least area
// unplaced: S. Voss, A. Fink, C. Duin: "Looking ahead with the pilot method", Annals of Operations Research
// 136 (2005) 285-302, here in a beam. (From memory.)
//
// `Floor` says where pieces may go. It has
//   State                     what is packed so far, without the pieces left
//   start()                   nothing packed
//   key(state)                equal for states from which the same can be packed
//   settle(state, left)       gives up what no piece left can fill; the area lost
//   choices(state, left)      what may be done next; the greedy rule's own choice first
//   apply(state, choice)      does it; the piece placed
//   complete(state, left, free, limit)   packs what is left greedily; the area that does not fit. More than
//                             `limit` is as good as any; `free` is the state's free area. placed() tells what
//                             was packed
#pragma once

#include "cut/pack/sheet.h"

#include <algorithm>
#include <functional>
#include <optional>
#include <unordered_set>
#include <utility>

namespace treadfold::pack {

inline std::uint64_t mixed(std::uint64_t x) { // the finaliser of splitmix64
  x += 0x9e3779b97f4a7c15ULL;
  x = (x ^ (x >> 30)) * 0xbf58476d1ce4e5b9ULL;
  x = (x ^ (x >> 27)) * 0x94d049bb133111ebULL;
  return x ^ (x >> 31);
}

template <class Floor>
class Beam {
public:
  /// `width` packings are kept at every depth. `stop` may be null.
  Beam(const Sheet& sheet, Floor& floor, int width, const std::function<bool()>* stop)
      : sheet_(sheet), floor_(floor), width_(static_cast<std::size_t>(width)), stop_(stop) {}

  /// All boxes packed, if found before `until` work is done.
  std::optional<std::vector<Placed>> run(Ticks free_area, const std::int64_t& work, std::int64_t until);

private:
  struct Packing {
    typename Floor::State state;
    std::vector<int> left;
    Ticks area_left = 0, free = 0, unplaced = 0;
    int last = -1; // its last placed box
  };
  /// Placed boxes as a tree: packings share their beginnings.
  struct Link {
    Placed placed;
    int before = -1;
  };

  void judge(Packing& p) {
    p.unplaced = floor_.complete(p.state, p.left, p.free, std::min(limit(), worst_kept_));
  }
  Ticks limit() const { return best_.size() < width_ ? kNoLimit : best_.front(); }
  bool keep(const Packing& p);
  void cull();
  std::vector<Placed> whole(const Packing& p) const;
  bool settled(Packing& p);

  const Sheet& sheet_;
  Floor& floor_;
  std::size_t width_;
  const std::function<bool()>* stop_;
  std::vector<Link> links_;
  std::vector<Packing> kept_, next_;
  Ticks worst_kept_ = kNoLimit; // of as many as there may be: each has a child as good, the greedy rule's own
  std::vector<Ticks> best_;     // a heap of the best judgements of next_, the worst on top
  std::unordered_set<std::uint64_t> seen_;
};

/// Whether it is among the best so far.
template <class Floor>
bool Beam<Floor>::keep(const Packing& p) {
  if (p.unplaced >= limit()) return false;
  if (best_.size() >= width_) {
    std::pop_heap(best_.begin(), best_.end());
    best_.pop_back();
  }
  best_.push_back(p.unplaced);
  std::push_heap(best_.begin(), best_.end());
  return true;
}

/// The best `width` of next_ are kept, ties in order of birth.
template <class Floor>
void Beam<Floor>::cull() {
  std::stable_sort(next_.begin(), next_.end(),
                   [](const Packing& a, const Packing& b) { return a.unplaced < b.unplaced; });
  if (next_.size() > width_) next_.resize(width_);
  std::swap(kept_, next_);
  worst_kept_ = kept_.size() < width_ ? kNoLimit : kept_.back().unplaced;
  next_.clear(), seen_.clear(), best_.clear();
}

template <class Floor>
std::vector<Placed> Beam<Floor>::whole(const Packing& p) const {
  std::vector<Placed> all = floor_.placed();
  for (int i = p.last; i >= 0; i = links_[static_cast<std::size_t>(i)].before)
    all.push_back(links_[static_cast<std::size_t>(i)].placed);
  return all;
}

/// False if the pieces left cannot fit any more, or if the same was reached before.
template <class Floor>
bool Beam<Floor>::settled(Packing& p) {
  p.free -= floor_.settle(p.state, p.left);
  if (p.free < p.area_left) return false;
  std::uint64_t key = floor_.key(p.state);
  for (const int count : p.left)
    key = key * 31 + static_cast<std::uint64_t>(count);
  return seen_.insert(mixed(key)).second;
}

template <class Floor>
std::optional<std::vector<Placed>> Beam<Floor>::run(Ticks free_area, const std::int64_t& work,
                                                    std::int64_t until) {
  Packing start;
  start.state = floor_.start();
  start.free = free_area, start.area_left = sheet_.area;
  for (const auto& k : sheet_.kinds)
    start.left.push_back(k.count);
  judge(start);
  if (start.unplaced == 0) return whole(start);
  kept_.assign(1, start);
  while (!kept_.empty()) {
    for (const auto& p : kept_) {
      const auto choices = floor_.choices(p.state, p.left);
      for (std::size_t i = 0; i < choices.size(); ++i) {
        if (work > until || (stop_ && (*stop_)())) return std::nullopt;
        Packing child = p;
        const Placed placed = floor_.apply(child.state, choices[i]);
        const auto& kind = sheet_.kinds[static_cast<std::size_t>(placed.kind)];
        --child.left[static_cast<std::size_t>(placed.kind)];
        child.free -= kind.w * kind.l, child.area_left -= kind.w * kind.l;
        if (!settled(child)) continue;
        if (i > 0) judge(child); // the first is the greedy rule's own: its judgement is known
        if (!keep(child)) continue;
        child.last = static_cast<int>(links_.size());
        links_.push_back({placed, p.last});
        if (child.unplaced == 0) return whole(child);
        next_.push_back(std::move(child));
      }
    }
    cull();
  }
  return std::nullopt;
}

} // namespace treadfold::pack
