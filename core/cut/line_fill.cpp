// Where the motifs of several groups lie decides what fits on a line. What fits stays so while all of them
// are moved to the left until something touches on its left: the edge of the strip, or a piece of a group
// that is held already. So of all ways only those need be looked at in which every group is held by such a
// touch.
#include "cut/line_fill.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <set>

namespace treadfold::rows {
namespace {

constexpr double kMostChoices = 50'000;

bool within(const Counts& a, const Counts& b) {
  for (std::size_t i = 0; i < a.size(); ++i)
    if (a[i] > b[i]) return false;
  return true;
}

/// Adds `counts` unless some of `all` hold as much; takes out what it holds itself. Adds to `work`.
void keep_largest(std::vector<Counts>& all, const Counts& counts, std::int64_t& work) {
  work += static_cast<std::int64_t>(all.size()) + 1;
  for (const auto& other : all)
    if (within(counts, other)) return;
  std::erase_if(all, [&](const Counts& other) { return within(other, counts); });
  all.push_back(counts);
}

/// The largest fillings of a line, where the groups' motifs lie at `motifs`. Adds to `work`, and gives up at
/// `most_work`.
std::vector<Counts> fillings(const std::vector<LineClass>& classes, const Motifs& motifs, Ticks step,
                             Ticks width, std::int64_t most_work, std::int64_t& work) {
  struct Place {
    Ticks from, to;
    std::size_t of_class;
  };
  std::vector<Place> places;
  for (std::size_t c = 0; c < classes.size(); ++c) {
    const auto& k = classes[c];
    if (k.group < 0) continue;
    for (Ticks from = mod(motifs[static_cast<std::size_t>(k.group)] - k.before, step);
         from + k.before + k.after <= width; from += step)
      places.push_back({from, from + k.before + k.after, c});
  }
  // A piece that may lie anywhere can be pushed to the left until it touches.
  for (std::size_t c = 0; c < classes.size(); ++c) {
    if (classes[c].group >= 0) continue;
    const Ticks w = classes[c].before + classes[c].after;
    std::set<Ticks> touches{0};
    for (const auto& place : places)
      touches.insert(place.to);
    for (const Ticks from : touches)
      if (from + w <= width) places.push_back({from, from + w, c});
  }
  std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.to < b.to; });
  std::vector<std::vector<Counts>> best{{Counts(classes.size())}}; // by number of places looked at
  for (const auto& place : places) {
    const auto before = std::upper_bound(places.begin(), places.end(), place.from,
                                         [](Ticks at, const Place& p) { return at < p.to; });
    // Those that end no later than this one begins come before it.
    auto now = best.back();
    for (auto counts : best[static_cast<std::size_t>(before - places.begin())]) {
      if (classes[place.of_class].single && counts[place.of_class] > 0) continue;
      ++counts[place.of_class];
      keep_largest(now, counts, work);
      if (work > most_work) return {};
    }
    best.push_back(std::move(now));
  }
  return best.back();
}

void hold_the_rest(const std::vector<LineClass>& classes, Ticks step, Ticks width, std::vector<bool> held,
                   Motifs motifs, std::set<Motifs>& all) {
  bool done = true;
  for (std::size_t g = 0; g < held.size(); ++g) {
    if (held[g]) continue;
    done = false;
    const auto try_at = [&](Ticks motif) {
      auto with = held;
      with[g] = true;
      auto at = motifs;
      at[g] = mod(motif, step);
      hold_the_rest(classes, step, width, std::move(with), std::move(at), all);
    };
    std::vector<Ticks> between{0}; // what may lie between the two that would touch
    for (const auto& k : classes)
      if (k.group < 0) between.push_back(k.before + k.after);
    for (const auto& mine : classes) {
      if (mine.group != static_cast<int>(g)) continue;
      for (const Ticks b : between) {
        try_at(b + mine.before);
        for (const auto& other : classes)
          if (other.group >= 0 && held[static_cast<std::size_t>(other.group)])
            try_at(motifs[static_cast<std::size_t>(other.group)] + other.after + b + mine.before);
      }
    }
  }
  if (done) all.insert(std::move(motifs));
}

std::int64_t determinant(std::vector<std::vector<std::int64_t>> m) { // by Bareiss; small whole numbers
  std::int64_t last = 1, sign = 1;
  for (std::size_t k = 0; k + 1 < m.size(); ++k) {
    std::size_t pivot = k;
    while (pivot < m.size() && m[pivot][k] == 0)
      ++pivot;
    if (pivot == m.size()) return 0;
    if (pivot != k) std::swap(m[pivot], m[k]), sign = -sign;
    for (std::size_t i = k + 1; i < m.size(); ++i)
      for (std::size_t j = k + 1; j < m.size(); ++j)
        m[i][j] = (m[i][j] * m[k][k] - m[i][k] * m[k][j]) / last;
    last = m[k][k];
  }
  return sign * m.back().back();
}

/// The corners of all weights under which no filling weighs more than 1; none if that were too much work.
std::vector<LineWeights> corners(const std::vector<Counts>& fillings) {
  const std::size_t n = fillings.front().size();
  double choices = 1; // of n planes
  for (std::size_t i = 0; i < n; ++i)
    choices *= static_cast<double>(fillings.size() + n - i) / static_cast<double>(i + 1);
  if (choices > kMostChoices) return {};
  std::vector<std::vector<std::int64_t>> rows; // of planes: row · y = 1 for a filling, 0 for an axis
  for (const auto& f : fillings)
    rows.emplace_back(f.begin(), f.end());
  for (std::size_t i = 0; i < n; ++i)
    rows.emplace_back(n, 0), rows.back()[i] = 1;
  std::vector<LineWeights> all;
  std::vector<std::size_t> chosen(n);
  std::iota(chosen.begin(), chosen.end(), std::size_t{0});
  for (;;) {
    std::vector<std::vector<std::int64_t>> m;
    for (std::size_t c : chosen)
      m.push_back(rows[c]);
    std::int64_t whole = determinant(m);
    if (whole != 0) { // Cramer's rule
      LineWeights w{{}, std::abs(whole)};
      for (std::size_t j = 0; j < n; ++j) {
        auto with = m;
        for (std::size_t i = 0; i < n; ++i)
          with[i][j] = chosen[i] < fillings.size() ? 1 : 0;
        w.of_class.push_back(determinant(with) * (whole < 0 ? -1 : 1));
      }
      bool holds = std::all_of(w.of_class.begin(), w.of_class.end(), [](auto y) { return y >= 0; });
      for (const auto& f : fillings)
        holds =
            holds && std::inner_product(f.begin(), f.end(), w.of_class.begin(), std::int64_t{0}) <= w.whole;
      if (holds) all.push_back(std::move(w));
    }
    std::size_t i = n;
    while (i > 0 && chosen[i - 1] == rows.size() - n + i - 1)
      --i;
    if (i == 0) return all;
    ++chosen[i - 1];
    for (; i < n; ++i)
      chosen[i] = chosen[i - 1] + 1;
  }
}

} // namespace

std::set<Motifs> ways_of_motifs(const std::vector<LineClass>& classes, int groups, Ticks step, Ticks width) {
  std::vector<bool> held(static_cast<std::size_t>(groups), true); // a group without a class may lie anywhere
  for (const auto& c : classes)
    if (c.group >= 0) held[static_cast<std::size_t>(c.group)] = false;
  std::set<Motifs> ways;
  hold_the_rest(classes, step, width, held, Motifs(held.size()), ways);
  return ways;
}

std::vector<std::vector<Counts>> line_fillings(const std::vector<LineClass>& classes, int groups, Ticks step,
                                               Ticks width, std::int64_t most_work) {
  std::set<std::vector<Counts>> all;
  std::int64_t work = 0;
  for (const auto& motifs : ways_of_motifs(classes, groups, step, width)) {
    auto filled = fillings(classes, motifs, step, width, most_work, work);
    if (work > most_work) return {};
    std::stable_sort(filled.begin(), filled.end());
    all.insert(std::move(filled));
  }
  // A way whose fillings all fit into another's is never the best.
  const auto holds = [](const std::vector<Counts>& more, const std::vector<Counts>& less) {
    return std::all_of(less.begin(), less.end(), [&](const Counts& f) {
      return std::any_of(more.begin(), more.end(), [&](const Counts& g) { return within(f, g); });
    });
  };
  std::vector<std::vector<Counts>> best;
  for (const auto& some : all) {
    const bool beaten = std::any_of(all.begin(), all.end(),
                                    [&](const auto& other) { return &other != &some && holds(other, some); });
    if (!beaten) best.push_back(some);
  }
  return best;
}

std::vector<std::vector<LineWeights>> line_weights(const std::vector<LineClass>& classes, int groups,
                                                   Ticks step, Ticks width) {
  if (classes.empty()) return {{}};
  std::vector<std::vector<LineWeights>> weights;
  for (const auto& fillings :
       line_fillings(classes, groups, step, width, std::numeric_limits<std::int64_t>::max()))
    weights.push_back(corners(fillings));
  return weights;
}

} // namespace treadfold::rows
