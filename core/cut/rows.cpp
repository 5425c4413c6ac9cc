#include "cut/rows.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <numeric>
#include <set>
#include <tuple>

namespace treadfold::rows {
namespace {

constexpr Ticks kEndless = std::numeric_limits<Ticks>::max() / 4;
constexpr std::size_t kMostSpaces = 512; // older spaces are forgotten in halves, so that work stays bounded
constexpr Ticks kMostDrops = 16;         // places tried sideways for a better fall of the drop

/// A free rectangle. `rip` says which cuts come next in it: rips of its full length, or trims of its full
/// width.
struct Space {
  Ticks u = 0, v = 0, w = 0, l = 0;
  bool rip = true;
  Ticks end() const { return v + l; }
};

class Packer {
public:
  Packer(const std::vector<Rect>& rects, const Rule& rule, const Strip& strip)
      : rects_(rects), rule_(rule), strip_(strip), group_v_(strip.motif_along), row_begin_(strip.begin),
        row_end_(strip.begin) {
    group_v_.resize(strip.motif_places.size());
    for (std::size_t g = 0; g < strip.motif_places.size(); ++g) {
      const auto& places = strip.motif_places[g];
      const auto place = static_cast<std::size_t>(std::max(0, rule.motif_place)) % places.size();
      if (group_v_[g] || rule.motif_place >= 0)
        group_u_.emplace_back(places[place].begin);
      else
        group_u_.emplace_back();
    }
    for (const auto& part : strip.loose)
      spaces_.push_back({part.u, part.v, part.w, part.l, rule.rip_loose});
    packing_.at.resize(rects.size());
    packing_.length = strip.begin;
    least_w_ = least_l_ = kEndless;
    for (const auto& r : rects) {
      least_w_ = std::min(least_w_, r.w);
      least_l_ = std::min(least_l_, r.l);
    }
    if (strip.repeat)
      drops_ =
          std::min(kMostDrops, strip.repeat->repeat_v / std::gcd(strip.repeat->repeat_v, strip.repeat->drop));
  }

  void put(int id) {
    if (put_in_space(id) || put_by_stretching(id)) return;
    open_row(id);
  }

  std::int64_t steps = 0;
  Packing take() { return std::move(packing_); }

private:
  /// Where `r` would lie in the space if that ended at `end`: as far back as the pattern lets it, then as far
  /// left.
  std::optional<Spot> seat(const Rect& r, const Space& s, Ticks end) const {
    if (r.w > s.w || r.l > end - s.v) return std::nullopt;
    if (r.match < 0 || !strip_.repeat) return Spot{s.u, s.v};
    const auto& [repeat_u, repeat_v, drop] = *strip_.repeat;
    const auto& motif_v = group_v_[r.match];
    if (!group_u_[r.match]) {
      const Ticks u = s.u + to_place(r.match, s.u + r.phase_u);
      return u + r.w <= s.u + s.w ? std::optional(Spot{u, s.v}) : std::nullopt;
    }
    const Ticks motif_u = *group_u_[r.match];
    std::optional<Spot> best;
    Ticks u = s.u + mod(motif_u - r.phase_u - s.u, repeat_u);
    for (Ticks i = 0; i < drops_ && u + r.w <= s.u + s.w; ++i, u += repeat_u) {
      if (!motif_v) return Spot{u, s.v};
      const Ticks columns = (u + r.phase_u - motif_u) / repeat_u;
      const Ticks v = s.v + mod(*motif_v + mod(columns, drops_total()) * drop - r.phase_v - s.v, repeat_v);
      if (v + r.l <= end && (!best || v < best->v)) best = Spot{u, v};
    }
    return best;
  }

  /// How far to the right of `motif` the nearest place is where the group's motifs may lie.
  Ticks to_place(int group, Ticks motif) const {
    Ticks least = kEndless;
    for (const auto& place : strip_.motif_places[group]) {
      const Ticks past = mod(motif - place.begin, strip_.repeat->repeat_u);
      least = std::min(least, past <= place.room ? 0 : strip_.repeat->repeat_u - past);
    }
    return least;
  }

  Ticks drops_total() const {
    return strip_.repeat->repeat_v / std::gcd(strip_.repeat->repeat_v, strip_.repeat->drop);
  }

  bool put_in_space(int id) {
    if (rule_.fit == Rule::Fit::next) return false;
    const Rect& r = rects_[id];
    std::optional<Spot> best;
    std::size_t best_space = 0;
    Ticks best_first = 0, best_second = 0;
    for (std::size_t i = 0; i < spaces_.size(); ++i) {
      ++steps;
      const Space& s = spaces_[i];
      const auto spot = seat(r, s, s.end());
      if (!spot) continue;
      Ticks first = s.u + s.w - spot->u - r.w, second = s.end() - spot->v - r.l;
      if (rule_.fit == Rule::Fit::along) std::swap(first, second);
      if (!best || first < best_first || (first == best_first && second < best_second)) {
        best = spot, best_space = i, best_first = first, best_second = second;
        if (rule_.fit == Rule::Fit::first) break;
      }
    }
    if (!best) return false;
    place(best_space, id, *best);
    return true;
  }

  /// Lengthens the last row if that is cheap enough. The spaces that reach its end grow with it: they lie
  /// side by side there, so they stay apart.
  bool put_by_stretching(int id) {
    if (rule_.stretch_percent == 0 || row_end_ == row_begin_) return false;
    const Rect& r = rects_[id];
    std::optional<Spot> best;
    std::size_t best_space = 0;
    for (std::size_t i = 0; i < spaces_.size(); ++i) {
      ++steps;
      const Space& s = spaces_[i];
      if (s.end() != row_end_) continue;
      const auto spot = seat(r, s, row_begin_ + strip_.longest_row);
      if (spot && (!best || spot->v < best->v)) best = spot, best_space = i;
    }
    if (!best) return false;
    const Ticks end = std::max(row_end_, best->v + r.l);
    if (rule_.fit != Rule::Fit::next && (end - row_end_) * 100 > r.l * rule_.stretch_percent) return false;
    for (auto& s : spaces_)
      if (s.end() == row_end_) s.l += end - row_end_;
    row_end_ = packing_.length = end;
    place(best_space, id, *best);
    return true;
  }

  void open_row(int id) {
    const Rect& r = rects_[id];
    row_begin_ = row_end_;
    if (rule_.fit == Rule::Fit::next) spaces_.clear();
    std::erase_if(spaces_, [&](const Space& s) { return s.l < least_l_; });
    Space row{0, row_begin_, strip_.width, kEndless, true};
    const auto spot = seat(r, row, row.v + row.l);
    assert(spot);
    // Where the pattern keeps it far from the row before, what lies between is not of its row.
    row.v = row_begin_ = std::max(row_begin_, spot->v + r.l - strip_.longest_row);
    row.l = spot->v + r.l - row_begin_;
    row_end_ = packing_.length = row.end();
    spaces_.push_back(row);
    place(spaces_.size() - 1, id, *spot);
  }

  void place(std::size_t space, int id, Spot at) {
    const Rect& r = rects_[id];
    packing_.at[id] = at;
    if (r.match >= 0 && strip_.repeat && !group_v_[r.match]) {
      const auto& [repeat_u, repeat_v, drop] = *strip_.repeat;
      if (!group_u_[r.match]) group_u_[r.match] = mod(at.u + r.phase_u, repeat_u);
      const Ticks columns = (at.u + r.phase_u - *group_u_[r.match]) / repeat_u;
      group_v_[r.match] = mod(at.v + r.phase_v - mod(columns, drops_total()) * drop, repeat_v);
    }
    const Space s = spaces_[space];
    const Ticks right = at.u + r.w, below = at.v + r.l;
    spaces_.erase(spaces_.begin() + static_cast<std::ptrdiff_t>(space));
    kept_ = space;
    if (rule_.fit == Rule::Fit::next) {
      keep({right, s.v, s.u + s.w - right, s.l, true});
    } else if (s.rip) {
      keep({right, s.v, s.u + s.w - right, s.l, true});
      keep({s.u, s.v, at.u - s.u, s.l, true});
      keep({at.u, s.v, r.w, at.v - s.v, false});
      keep({at.u, below, r.w, s.end() - below, false});
    } else {
      bool beside = keep({right, at.v, s.u + s.w - right, r.l, true});
      beside |= keep({s.u, at.v, at.u - s.u, r.l, true});
      keep({s.u, s.v, s.w, at.v - s.v, false});
      // Only one of the two may reach the row's end, else both would grow into the same goods.
      if (!beside || below < s.end()) keep({s.u, below, s.w, s.end() - below, false});
    }
    if (spaces_.size() > kMostSpaces)
      spaces_.erase(spaces_.begin(), spaces_.begin() + static_cast<std::ptrdiff_t>(kMostSpaces / 2));
  }

  bool keep(const Space& s) {
    const bool may_grow = rule_.stretch_percent > 0 && s.end() == row_end_;
    if (s.w < least_w_ || (s.l < least_l_ && !may_grow)) return false;
    // The first of them takes its parent's turn, so that first fit goes on looking in the order of the rows.
    spaces_.insert(spaces_.begin() + static_cast<std::ptrdiff_t>(kept_++), s);
    return true;
  }

  const std::vector<Rect>& rects_;
  const Rule rule_;
  const Strip& strip_;
  Packing packing_;
  std::vector<Space> spaces_;
  std::vector<std::optional<Ticks>> group_u_, group_v_; // a motif of each match group, once it is fixed
  Ticks row_begin_, row_end_;                           // equal: there is no row yet
  Ticks least_w_ = 0, least_l_ = 0, drops_ = 1;
  std::size_t kept_ = 0;
};

} // namespace

int find_motif_places(const std::vector<Rect>& rects, int groups, Strip& strip) {
  strip.motif_places.assign(static_cast<std::size_t>(groups), {});
  if (!strip.repeat) return -1;
  const Ticks repeat = strip.repeat->repeat_u;
  // A piece of phase p and play s = strip.width - w between the edges lets its motif lie in [p, p + s] mod
  // the repeat. Arcs that all meet, meet at the beginning of one of them.
  struct Arc {
    Ticks begin, play;
    bool operator<(const Arc& o) const { return std::tie(begin, play) < std::tie(o.begin, o.play); }
  };
  for (int g = 0; g < groups; ++g) {
    std::set<Arc> arcs;
    for (const auto& r : rects)
      if (r.match == g) arcs.insert({mod(r.phase_u, repeat), strip.width - r.w});
    auto& places = strip.motif_places[static_cast<std::size_t>(g)];
    for (const auto& a : arcs) {
      Ticks room = repeat - 1;
      for (const auto& b : arcs)
        room = std::min(room, b.play - mod(a.begin - b.begin, repeat));
      if (room >= 0 && (places.empty() || places.back().begin != a.begin)) places.push_back({a.begin, room});
    }
    if (!arcs.empty() && places.empty()) return g;
    if (arcs.empty()) places.push_back({});
  }
  return -1;
}

Packing pack(const std::vector<Rect>& rects, const std::vector<int>& order, const Rule& rule,
             const Strip& strip, std::int64_t& steps) {
  Packer packer(rects, rule, strip);
  for (int id : order)
    packer.put(id);
  steps += packer.steps + static_cast<std::int64_t>(order.size());
  return packer.take();
}

} // namespace treadfold::rows
