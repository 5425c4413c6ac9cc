#include "cut/match_axis.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>

namespace treadfold::rows {
namespace {

constexpr std::size_t kMostSingles = 3;   // besides the piece that may lie anywhere
constexpr std::size_t kMostClusters = 40; // of a group, before the first are made one

/// Some pieces of a group, and what they share.
struct Cluster {
  Ticks before = 0, after = 0;
  Ticks beside = 0; // their sizes on the other axis, in all
  std::vector<std::size_t> members;

  Cluster with(const Cluster& o) const {
    Cluster c{std::min(before, o.before), std::min(after, o.after), beside + o.beside, members};
    c.members.insert(c.members.end(), o.members.begin(), o.members.end());
    return c;
  }
  Ticks area() const { return std::max<Ticks>(0, before + after) * beside; }
};

/// Makes one of two that lose least by it, until no more than `most` are left.
void unite(std::vector<Cluster>& all, std::size_t most) {
  while (all.size() > most) {
    std::size_t a = 0, b = 1;
    Ticks least = std::numeric_limits<Ticks>::max();
    for (std::size_t i = 0; i < all.size(); ++i)
      for (std::size_t j = i + 1; j < all.size(); ++j)
        if (const Ticks lost = all[i].area() + all[j].area() - all[i].with(all[j]).area(); lost < least)
          least = lost, a = i, b = j;
    all[a] = all[a].with(all[b]);
    all.erase(all.begin() + static_cast<std::ptrdiff_t>(b));
  }
}

} // namespace

AxisClasses classes_on_axis(const std::vector<Rect>& rects, int groups, bool along, Ticks step,
                            std::size_t most) {
  AxisClasses result{{}, std::vector<int>(rects.size(), -1)};
  std::optional<std::size_t> free;
  std::vector<std::vector<Cluster>> of_group(static_cast<std::size_t>(groups));
  for (std::size_t i = 0; i < rects.size(); ++i) {
    const auto& r = rects[i];
    if (r.match < 0) {
      if (!free || r.w * r.l > rects[*free].w * rects[*free].l) free = i;
      continue;
    }
    const Ticks size = along ? r.l : r.w, before = mod(along ? r.phase_v : r.phase_u, step);
    auto& all = of_group[static_cast<std::size_t>(r.match)];
    const auto same = std::find_if(all.begin(), all.end(), [&](const Cluster& c) {
      return c.before == before && c.after == size - before;
    });
    const Cluster one{before, size - before, along ? r.w : r.l, {i}};
    if (same == all.end())
      all.push_back(one), unite(all, kMostClusters);
    else
      *same = same->with(one);
  }
  const auto add = [&](const LineClass& c, const std::vector<std::size_t>& members) {
    if (c.before + c.after <= 0) return;
    for (const auto i : members)
      result.of[i] = static_cast<int>(result.classes.size());
    result.classes.push_back(c);
  };
  for (int g = 0; g < groups; ++g) {
    auto& all = of_group[static_cast<std::size_t>(g)];
    unite(all, most);
    for (const auto& c : all)
      add({g, c.before, c.after, c.members.size() == 1}, c.members);
  }
  if (free) add({-1, 0, along ? rects[*free].l : rects[*free].w, true}, {*free});
  // What is short fits beside others most often, so it matters most that it is not counted twice.
  std::vector<LineClass*> singles;
  for (auto& c : result.classes)
    if (c.single && c.group >= 0) singles.push_back(&c);
  std::stable_sort(singles.begin(), singles.end(), [](const LineClass* a, const LineClass* b) {
    return a->before + a->after < b->before + b->after;
  });
  for (std::size_t i = kMostSingles; i < singles.size(); ++i)
    singles[i]->single = false;
  return result;
}

MatchLine::MatchLine(const std::vector<LineClass>& classes, const Motifs& motifs, Ticks step, Ticks size)
    : bit_of_(classes.size(), 0) {
  for (std::size_t c = 0; c < classes.size(); ++c) {
    const auto& k = classes[c];
    if (k.single) bit_of_[c] = std::size_t{1} << singles_++;
    if (k.group < 0) {
      free_ = static_cast<int>(c);
      continue;
    }
    const Ticks first = mod(motifs[static_cast<std::size_t>(k.group)] - k.before, step);
    for (Ticks from = first; from + k.before + k.after <= size; from += step)
      places_.push_back({from, from + k.before + k.after, c});
    holds_every_class_ = holds_every_class_ && first + k.before + k.after <= size;
  }
  std::stable_sort(places_.begin(), places_.end(),
                   [](const Place& a, const Place& b) { return a.to < b.to; });
  const auto free = free_ < 0 ? LineClass{} : classes[static_cast<std::size_t>(free_)];
  const Ticks free_size = free.before + free.after;
  for (auto& place : places_) {
    place.behind = ending_by(place.from);
    if (free_ >= 0 && place.from >= free_size) place.behind_free = ending_by(place.from - free_size);
  }
  if (free_ >= 0 && size >= free_size) last_free_ = ending_by(size - free_size);
}

int MatchLine::ending_by(Ticks at) const {
  return static_cast<int>(
      std::upper_bound(places_.begin(), places_.end(), at, [](Ticks x, const Place& p) { return x < p.to; }) -
      places_.begin());
}

std::pair<Counts, std::int64_t> MatchLine::heaviest(const std::vector<std::int64_t>& weights) const {
  // By the single pieces that may be used, and of the first places only: the most.
  const std::size_t n = places_.size(), sets = std::size_t{1} << singles_;
  std::vector<std::int64_t> most(sets * (n + 1), 0);
  const auto at = [&](std::size_t set, std::size_t first) { return most[set * (n + 1) + first]; };
  const std::size_t free_bit = free_ < 0 ? 0 : bit_of_[static_cast<std::size_t>(free_)];
  const std::int64_t free = free_ < 0 ? 0 : weights[static_cast<std::size_t>(free_)];
  // The most where the free piece comes last, after the first `behind` places; -1: it cannot.
  const auto then_free = [&](std::size_t set, int behind) {
    return behind < 0 || (set & free_bit) == 0 ? std::int64_t{-1}
                                               : free + at(set ^ free_bit, static_cast<std::size_t>(behind));
  };
  const auto before = [&](std::size_t set, const Place& p) {
    return std::max(at(set, static_cast<std::size_t>(p.behind)), then_free(set, p.behind_free));
  };
  for (std::size_t set = 0; set < sets; ++set) // its subsets come before it
    for (std::size_t i = 0; i < n; ++i) {
      const auto& p = places_[i];
      const std::size_t bit = bit_of_[p.of_class];
      auto& best = most[set * (n + 1) + i + 1];
      best = at(set, i);
      if ((set & bit) == bit) best = std::max(best, weights[p.of_class] + before(set ^ bit, p));
    }
  std::pair<Counts, std::int64_t> best{Counts(bit_of_.size()), 0};
  std::size_t set = sets - 1, i = n;
  const auto take_free = [&](int behind) {
    ++best.first[static_cast<std::size_t>(free_)];
    set ^= free_bit, i = static_cast<std::size_t>(behind);
  };
  best.second = std::max(at(set, n), then_free(set, last_free_));
  if (best.second > at(set, n)) take_free(last_free_);
  while (i > 0) {
    if (at(set, i) == at(set, i - 1)) {
      --i;
      continue;
    }
    const auto& p = places_[i - 1];
    ++best.first[p.of_class];
    set ^= bit_of_[p.of_class];
    if (before(set, p) > at(set, static_cast<std::size_t>(p.behind)))
      take_free(p.behind_free);
    else
      i = static_cast<std::size_t>(p.behind);
  }
  return best;
}

} // namespace treadfold::rows
