#include "cut/search.h"

#include "cut/knife.h"

#include <algorithm>
#include <array>
#include <functional>
#include <numeric>
#include <tuple>

namespace treadfold::rows {
namespace {

using Fit = Rule::Fit;
using Order = std::vector<int>;

/// Spaces looked at for each unit of work. Small jobs never come near it; large ones stop there.
constexpr std::int64_t kStepsPerWork = 4000;

/// Where the motifs of several match groups lie beside one another is as much to find as the order.
constexpr int kMoreForSeveralGroups = 4;

/// splitmix64 (Steele, Lea, Flood 2014), so that a seed means the same everywhere.
struct Random {
  std::uint64_t state;
  std::uint64_t next() {
    std::uint64_t z = state += 0x9e3779b97f4a7c15u;
    z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9u;
    z = (z ^ (z >> 27)) * 0x94d049bb133111ebu;
    return z ^ (z >> 31);
  }
  int below(std::size_t n) { return static_cast<int>(next() % n); }
};

struct Score {
  Ticks to_buy, offcut; // offcut: minus the area of the largest
  std::size_t strokes;
  Ticks used;
  bool operator<(const Score& o) const {
    return std::tie(to_buy, offcut, strokes, used) < std::tie(o.to_buy, o.offcut, o.strokes, o.used);
  }
};

/// The orders of the fixed set. Several, because no one of them is best for every job.
std::vector<Order> fixed_orders(const std::vector<Rect>& rects) {
  Order given(rects.size());
  std::iota(given.begin(), given.end(), 0);
  using Key = std::tuple<int, Ticks, Ticks>;
  const auto by = [&](const std::function<Key(const Rect&)>& key) {
    Order order = given;
    std::stable_sort(order.begin(), order.end(), [&](int a, int b) { return key(rects[a]) > key(rects[b]); });
    return order;
  };
  Ticks widest = 0;
  for (const auto& r : rects)
    widest = std::max(widest, r.w);
  return {by([](const Rect& r) {
            return Key{0, r.l, r.w};
          }),
          by([](const Rect& r) {
            return Key{0, r.w, r.l};
          }),
          by([](const Rect& r) {
            return Key{0, r.w * r.l, r.l};
          }),
          by([&](const Rect& r) {
            return Key{2 * r.w > widest, r.l, r.w};
          }),
          by([](const Rect& r) {
            return Key{-r.match, r.l, r.w};
          }),
          given};
}

class Search {
public:
  Search(const std::vector<Rect>& rects, const Strip& strip, const Goal& goal)
      : rects_(rects), strip_(strip), goal_(goal), target_(goal.to_buy(goal.good_enough)) {}

  Found run() {
    const auto orders = fixed_orders(rects_);
    consider(orders.back(), {Fit::next, 100, 0});
    const Ticks by_hand = best_packing_.length - strip_.begin;
    try_fixed_set(orders);
    if (best_score_.to_buy > target_ && !plain()) improve();
    return {std::move(best_packing_.at), best_packing_.length - strip_.begin, by_hand};
  }

private:
  /// For those search_strip() does more.
  bool plain() const {
    return strip_.loose.empty() && (!strip_.repeat || std::all_of(rects_.begin(), rects_.end(),
                                                                  [](const Rect& r) { return r.match < 0; }));
  }

  Score score(const Packing& p) {
    std::vector<knife::GoodsBox> boxes; // in rows
    for (std::size_t i = 0; i < rects_.size(); ++i)
      if (p.at[i].v >= strip_.begin)
        boxes.push_back({p.at[i].u + goal_.selvage, p.at[i].v - strip_.begin, rects_[i].w, rects_[i].l});
    const Ticks to_buy = goal_.to_buy(p.length - strip_.begin);
    const auto plan = knife::cut_plan(boxes, {goal_.roll_width, goal_.selvage, to_buy});
    steps_ += static_cast<std::int64_t>(8 * rects_.size());
    const auto offcut = plan.offcuts.empty() ? 0 : plan.offcuts.front().w * plan.offcuts.front().l;
    return {to_buy, -offcut, plan.cuts.size(), p.length - strip_.begin};
  }

  /// Packs, keeps the packing if it is the best yet, and says how long it is. A longer packing is not looked
  /// at more closely, though its largest offcut might be better by a side strip: that would cost most of the
  /// time.
  Ticks consider(const Order& order, const Rule& rule) {
    Packing p = pack(rects_, order, rule, strip_, steps_);
    const Ticks length = p.length;
    if (best_packing_.at.empty() || length <= best_packing_.length) {
      const Score s = score(p);
      if (best_packing_.at.empty() || s < best_score_) {
        best_score_ = s, best_packing_ = std::move(p);
        best_order_ = order, best_rule_ = rule;
      }
    }
    return length;
  }

  void try_fixed_set(const std::vector<Order>& orders) {
    std::size_t places = 1;
    for (const auto& m : strip_.motif_places)
      places = std::max(places, m.size());
    for (int place = -1; place < static_cast<int>(places); ++place)
      for (const auto& order : orders)
        for (int stretch : {0, 100, 50, 1000})
          for (Fit fit : {Fit::first, Fit::across, Fit::along})
            for (bool rip_loose : {false, true}) {
              if (rip_loose && strip_.loose.empty()) continue;
              if (steps_ > goal_.fixed_steps) return;
              if (goal_.stop_at_good_enough && best_score_.to_buy <= target_) return;
              consider(order, {fit, stretch, place, rip_loose});
            }
  }

  /// Late acceptance (Burke, Bykov 2017): a change is kept if it is no longer than the present order or than
  /// the one of some changes ago. Needs no temperature, so no floating point.
  void improve() {
    const std::size_t n = rects_.size();
    if (n < 2) return;
    Random random{goal_.seed};
    std::array<Ticks, 32> late;
    Order now = best_order_;
    Rule rule = best_rule_;
    Ticks length = best_packing_.length;
    late.fill(length);
    const int work = goal_.work * (strip_.motif_places.size() > 1 ? kMoreForSeveralGroups : 1);
    const std::int64_t stop = steps_ + work * kStepsPerWork;
    for (int i = 0; i < work && steps_ < stop && best_score_.to_buy > target_; ++i) {
      Order changed = now;
      Rule changed_rule = rule;
      const int a = random.below(n), b = random.below(n), dice = random.below(16);
      if (dice == 0) {
        changed_rule.fit = std::array{Fit::first, Fit::across, Fit::along}[random.below(3)];
        changed_rule.stretch_percent = std::array{0, 50, 100, 1000}[random.below(4)];
        changed_rule.motif_place = random.below(5) - 1;
        if (!strip_.loose.empty()) changed_rule.rip_loose = random.below(2) == 0;
      } else if (dice < 8) {
        std::swap(changed[a], changed[b]);
      } else if (a < b) {
        std::rotate(changed.begin() + a, changed.begin() + a + 1, changed.begin() + b + 1);
      } else {
        std::rotate(changed.begin() + b, changed.begin() + a, changed.begin() + a + 1);
      }
      const Ticks changed_length = consider(changed, changed_rule);
      auto& past = late[static_cast<std::size_t>(i) % late.size()];
      if (changed_length <= length || changed_length <= past)
        now = std::move(changed), rule = changed_rule, length = changed_length;
      past = std::min(past, length);
    }
  }

  const std::vector<Rect>& rects_;
  const Strip& strip_;
  const Goal& goal_;
  const Ticks target_;
  std::int64_t steps_ = 0;
  Packing best_packing_;
  Score best_score_{};
  Order best_order_;
  Rule best_rule_;
};

} // namespace

Ticks Goal::to_buy(Ticks used) const {
  const Ticks step = std::max<Ticks>(1, sold_in);
  return (std::max(used, least_order) + step - 1) / step * step;
}

Ticks Goal::longest_cheaper(Ticks used) const {
  const Ticks cheaper = to_buy(used) - std::max<Ticks>(1, sold_in);
  return cheaper >= least_order ? cheaper : 0;
}

Found search(const std::vector<Rect>& rects, const Strip& strip, const Goal& goal) {
  return Search(rects, strip, goal).run();
}

} // namespace treadfold::rows
