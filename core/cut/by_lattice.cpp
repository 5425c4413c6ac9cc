#include "cut/by_lattice.h"

#include "cut/knife.h"
#include "cut/motif_layout.h"
#include "cut/pack/dice.h"

#include <algorithm>
#include <limits>
#include <numeric>

namespace treadfold::rows {
namespace {

/// For each unit of work: pieces looked at beside a place for another.
constexpr std::int64_t kStepsPerWork = 16'000;
/// Likewise, columns looked at where a strip is swept with the motifs where a layout has them.
constexpr std::int64_t kSweepStepsPerWork = 5'000;
constexpr std::int64_t kStepsOfAPiece = 16, kStepsOfAKnifeOrder = 64; // for each piece, besides
constexpr int kWaysForFirst = 8;
constexpr std::size_t kLeastMemory = 25, kMostMemory = 400, kPatience = 40;

/// What decides a layout: pieces are laid one after the other, each where it ends soonest.
struct Genes {
  std::vector<int> order;
  std::vector<std::size_t> way; // by match group: its first piece takes not the best place, but the n-th best
  bool by_begin = false;        // each where it begins soonest
  bool from_right = false;      // of places as good, the rightmost
};

struct Place {
  Ticks key = 0, u = 0, v = 0;
};

/// REQUIRES: strip.repeat.
class Laying {
public:
  Laying(const std::vector<Rect>& rects, const Strip& strip)
      : rects_(rects), strip_(strip), lattices_(strip.motif_places.size()), at_(rects.size()) {}

  /// The length, or none if it would be over `limit`, or take more than `most_steps`.
  std::optional<Ticks> lay(const Genes& genes, Ticks limit, std::int64_t most_steps, std::int64_t& steps) {
    steps_ = &steps;
    laid_.clear();
    std::fill(lattices_.begin(), lattices_.end(), std::nullopt);
    Ticks length = 0;
    for (const int i : genes.order) {
      steps += kStepsOfAPiece;
      const auto& r = rects_[static_cast<std::size_t>(i)];
      const auto place = r.match >= 0 ? on_lattice(r, genes) : anywhere(r, genes);
      if (!place || place->v + r.l > limit || steps > most_steps) return {};
      length = std::max(length, place->v + r.l);
      at_[static_cast<std::size_t>(i)] = {place->u, place->v};
      const LoosePart laid{place->u, place->v, r.w, r.l};
      laid_.insert(std::upper_bound(laid_.begin(), laid_.end(), laid,
                                    [](const LoosePart& a, const LoosePart& b) { return a.v < b.v; }),
                   laid);
    }
    return length;
  }

  const std::vector<Spot>& at() const { return at_; }

private:
  struct Motif {
    Ticks u = 0, v = 0;
  };

  Place place_at(const Rect& r, Ticks u, Ticks first, Ticks step, const Genes& genes) const {
    const Ticks v = soonest(r, u, first, step);
    return {genes.by_begin ? v : v + r.l, u, v};
  }

  /// The least v = first + k·step, k >= 0, at which it lies free.
  Ticks soonest(const Rect& r, Ticks u, Ticks first, Ticks step) const {
    Ticks v = first;
    for (const auto& other : laid_) { // by where they begin, so none that was passed is in the way later
      ++*steps_;
      if (other.v >= v + r.l) break;
      if (other.u >= u + r.w || other.u + other.w <= u || other.v + other.l <= v) continue;
      v = first + (other.v + other.l - first + step - 1) / step * step;
    }
    return v;
  }

  bool better(const Place& a, const Place& b, const Genes& genes) const {
    return a.key != b.key ? a.key < b.key : genes.from_right ? a.u > b.u : a.u < b.u;
  }

  std::optional<Place> on_lattice(const Rect& r, const Genes& genes) {
    auto& motif = lattices_[static_cast<std::size_t>(r.match)];
    if (!motif) {
      const auto first = anywhere(r, genes);
      if (first) motif = {first->u + r.phase_u, first->v + r.phase_v};
      return first;
    }
    const auto& [repeat_u, repeat_v, drop] = *strip_.repeat;
    std::optional<Place> best;
    for (Ticks u = mod(motif->u - r.phase_u, repeat_u); u + r.w <= strip_.width; u += repeat_u) {
      const Ticks columns = (u + r.phase_u - motif->u) / repeat_u; // without rest
      const auto place =
          place_at(r, u, mod(motif->v + columns * drop - r.phase_v, repeat_v), repeat_v, genes);
      if (!best || better(place, *best, genes)) best = place;
    }
    return best;
  }

  /// Beside an edge of the strip or another piece; the first of a group where all of it can follow.
  std::optional<Place> anywhere(const Rect& r, const Genes& genes) {
    places_.clear();
    const auto offer = [&](Ticks u) {
      if (u < 0 || u + r.w > strip_.width || !may_begin(r, u)) return;
      places_.push_back(place_at(r, u, 0, 1, genes));
    };
    offer(0), offer(strip_.width - r.w);
    for (const auto& other : laid_)
      offer(other.u + other.w), offer(other.u - r.w);
    if (places_.empty()) { // then the group's motifs have little room: where that begins and ends
      for (const auto& room : strip_.motif_places[static_cast<std::size_t>(r.match)])
        for (const Ticks motif : {room.begin, room.begin + room.room})
          for (Ticks u = mod(motif - r.phase_u, strip_.repeat->repeat_u); u + r.w <= strip_.width;
               u += strip_.repeat->repeat_u)
            offer(u);
    }
    if (places_.empty()) return {};
    const auto sooner = [&](const Place& a, const Place& b) { return better(a, b, genes); };
    if (r.match < 0) return *std::min_element(places_.begin(), places_.end(), sooner);
    std::stable_sort(places_.begin(), places_.end(), sooner);
    return places_[genes.way[static_cast<std::size_t>(r.match)] % places_.size()];
  }

  bool may_begin(const Rect& r, Ticks u) const {
    if (r.match < 0) return true;
    const auto& rooms = strip_.motif_places[static_cast<std::size_t>(r.match)];
    return std::any_of(rooms.begin(), rooms.end(), [&](const MotifPlaces& room) {
      return mod(u + r.phase_u - room.begin, strip_.repeat->repeat_u) <= room.room;
    });
  }

  const std::vector<Rect>& rects_;
  const Strip& strip_;
  std::vector<LoosePart> laid_; // by where they begin
  std::vector<std::optional<Motif>> lattices_;
  std::vector<Spot> at_;
  std::vector<Place> places_;
  std::int64_t* steps_ = nullptr;
};

Genes changed(Genes genes, pack::Dice& dice) {
  auto& order = genes.order;
  const auto any = [&](const auto& list) { return dice.below(static_cast<int>(list.size())); };
  const int a = any(order), b = any(order), kind = dice.below(20);
  const auto begin = order.begin();
  if (kind == 0) {
    genes.way[static_cast<std::size_t>(any(genes.way))] = static_cast<std::size_t>(dice.below(kWaysForFirst));
  } else if (kind == 1) {
    genes.by_begin = dice.below(2) == 0, genes.from_right = dice.below(2) == 0;
  } else if (kind < 11) {
    std::iter_swap(begin + a, begin + b);
  } else if (a < b) {
    std::rotate(begin + a, begin + a + 1, begin + b + 1);
  } else {
    std::rotate(begin + b, begin + a, begin + a + 1);
  }
  return genes;
}

Ticks length_of(const std::vector<Rect>& rects, const std::vector<Spot>& at) {
  Ticks length = 0;
  for (std::size_t i = 0; i < rects.size(); ++i)
    length = std::max(length, at[i].v + rects[i].l);
  return length;
}

bool straight(const std::vector<Rect>& rects, const std::vector<Spot>& at, const Strip& strip,
              const Goal& goal, Ticks length) {
  std::vector<knife::GoodsBox> boxes;
  for (std::size_t i = 0; i < rects.size(); ++i)
    boxes.push_back({at[i].u + goal.selvage, at[i].v, rects[i].w, rects[i].l});
  const auto plan = knife::cut_plan(boxes, {goal.roll_width, goal.selvage, length});
  bool in_hand = true;
  for (std::size_t i = 0; i < plan.rows.size(); ++i)
    in_hand =
        in_hand && (i + 1 < plan.rows.size() ? plan.rows[i + 1] : length) - plan.rows[i] <= strip.longest_row;
  return plan.straight && in_hand;
}

} // namespace

void search_lattice(const std::vector<Rect>& rects, const Strip& strip, const Goal& goal, const Bound& bound,
                    Found& found, Found& close) {
  const Ticks least = goal.to_buy(bound.length);
  const bool patterned =
      strip.repeat && std::any_of(rects.begin(), rects.end(), [](const Rect& r) { return r.match >= 0; });
  if (!patterned || !strip.loose.empty() || goal.to_buy(found.used) <= least) return;

  Genes first;
  first.order.resize(rects.size());
  std::iota(first.order.begin(), first.order.end(), 0);
  std::stable_sort(first.order.begin(), first.order.end(), [&](int a, int b) {
    return rects[static_cast<std::size_t>(a)].l > rects[static_cast<std::size_t>(b)].l;
  });
  first.way.resize(strip.motif_places.size());

  // Late acceptance (Burke, Bykov 2017), as in search.cpp: from the beginning again, with a longer memory,
  // where it makes no headway.
  Laying laying(rects, strip);
  pack::Dice dice(goal.seed);
  constexpr Ticks kAny = std::numeric_limits<Ticks>::max();
  std::int64_t steps = 0;
  const std::int64_t most_steps = goal.work * kStepsPerWork;
  const auto go_on = [&] { return steps < most_steps && goal.to_buy(close.used) > least; };
  Ticks looked_at = kAny;
  const auto take = [&](const std::vector<Spot>& at, Ticks length) {
    if (length < close.used) close.at = at, close.used = length;
    if (length == looked_at || length > strip.longest_cut || goal.to_buy(length) >= goal.to_buy(found.used))
      return;
    looked_at = length; // one of those as long is enough, for to look takes time
    steps += kStepsOfAKnifeOrder * static_cast<std::int64_t>(rects.size());
    if (straight(rects, at, strip, goal, length)) found.at = at, found.used = length;
  };
  MotifSweep::Effort effort;
  effort.most_steps = goal.work * kSweepStepsPerWork;
  for (std::size_t memory = kLeastMemory; go_on(); memory = std::min(2 * memory, kMostMemory)) {
    Genes now = first;
    std::vector<Ticks> late(memory, kAny);
    Ticks length = kAny, shortest = kAny;
    std::vector<Spot> shortest_at;
    std::size_t idle = 0;
    looked_at = kAny;
    for (std::size_t i = 0; idle < kPatience * memory && go_on(); ++i, ++idle) {
      auto genes = i == 0 ? now : changed(now, dice);
      auto& past = late[i % memory];
      const auto laid = laying.lay(genes, std::max(length, past), most_steps, steps);
      if (laid) now = std::move(genes), length = *laid;
      past = std::min(past, length);
      if (length < shortest) shortest = length, shortest_at = laying.at(), idle = 0;
      if (laid) take(laying.at(), length);
    }
    effort.most_states = memory;
    while (!shortest_at.empty() && goal.to_buy(close.used) > least) {
      const auto shorter = lay_on_motifs(rects, strip, shortest_at, goal.longest_cheaper(close.used), effort);
      if (!shorter) break;
      shortest_at = *shorter;
      take(shortest_at, length_of(rects, shortest_at));
    }
    for (std::size_t i = first.order.size(); i > 1; --i)
      std::swap(first.order[i - 1], first.order[static_cast<std::size_t>(dice.below(static_cast<int>(i)))]);
    for (auto& way : first.way)
      way = static_cast<std::size_t>(dice.below(kWaysForFirst));
  }
  if (goal.to_buy(found.used) <= goal.to_buy(close.used)) close = found;
}

} // namespace treadfold::rows
