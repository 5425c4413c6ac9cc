// Where the motifs of several groups lie decides what fits on a line. What fits stays so while they are moved
// until something touches: a piece an edge of the strip, or two pieces each other. So of all ways only those
// need be looked at in which every group is held by such a touch, directly or by others.
#include "cut/line_fill.h"

#include <algorithm>
#include <numeric>
#include <set>

namespace treadfold::rows {
namespace {

using Counts = std::vector<int>;   // by class
using Motifs = std::vector<Ticks>; // by group, modulo the step

constexpr double kMostChoices = 50'000;

bool within(const Counts& a, const Counts& b) {
  for (std::size_t i = 0; i < a.size(); ++i)
    if (a[i] > b[i]) return false;
  return true;
}

/// Adds `counts` unless some of `all` hold as much; takes out what it holds itself.
void keep_largest(std::vector<Counts>& all, const Counts& counts) {
  for (const auto& other : all)
    if (within(counts, other)) return;
  std::erase_if(all, [&](const Counts& other) { return within(other, counts); });
  all.push_back(counts);
}

/// The largest fillings of a line, where the groups' motifs lie at `motifs`.
std::vector<Counts> fillings(const std::vector<LineClass>& classes, const Motifs& motifs, Ticks step,
                             Ticks width) {
  struct Place {
    Ticks from, to;
    std::size_t of_class;
  };
  std::vector<Place> places;
  for (std::size_t c = 0; c < classes.size(); ++c) {
    const auto& k = classes[c];
    for (Ticks from = mod(motifs[static_cast<std::size_t>(k.group)] - k.before, step);
         from + k.before + k.after <= width; from += step)
      places.push_back({from, from + k.before + k.after, c});
  }
  std::stable_sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.to < b.to; });
  std::vector<std::vector<Counts>> best{{Counts(classes.size())}}; // by number of places looked at
  for (const auto& place : places) {
    const auto before = std::upper_bound(places.begin(), places.end(), place.from,
                                         [](Ticks at, const Place& p) { return at < p.to; });
    // Those that end no later than this one begins come before it.
    auto now = best.back();
    for (auto counts : best[static_cast<std::size_t>(before - places.begin())]) {
      ++counts[place.of_class];
      keep_largest(now, counts);
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
    for (const auto& mine : classes) {
      if (static_cast<std::size_t>(mine.group) != g) continue;
      try_at(mine.before), try_at(width - mine.after);
      for (const auto& other : classes) {
        const auto h = static_cast<std::size_t>(other.group);
        if (!held[h]) continue;
        try_at(motifs[h] + other.after + mine.before), try_at(motifs[h] - other.before - mine.after);
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

std::vector<std::vector<LineWeights>> line_weights(const std::vector<LineClass>& classes, int groups,
                                                   Ticks step, Ticks width) {
  if (classes.empty()) return {{}};
  std::vector<bool> held(static_cast<std::size_t>(groups), true); // a group without a class may lie anywhere
  for (const auto& c : classes)
    held[static_cast<std::size_t>(c.group)] = false;
  std::set<Motifs> ways;
  hold_the_rest(classes, step, width, held, Motifs(held.size()), ways);
  std::set<std::vector<Counts>> all;
  for (const auto& motifs : ways) {
    auto filled = fillings(classes, motifs, step, width);
    std::stable_sort(filled.begin(), filled.end());
    all.insert(std::move(filled));
  }
  // A way whose fillings all fit into another's is never the best.
  const auto holds = [](const std::vector<Counts>& more, const std::vector<Counts>& less) {
    return std::all_of(less.begin(), less.end(), [&](const Counts& f) {
      return std::any_of(more.begin(), more.end(), [&](const Counts& g) { return within(f, g); });
    });
  };
  std::vector<std::vector<LineWeights>> weights;
  for (const auto& some : all) {
    const bool beaten = std::any_of(all.begin(), all.end(),
                                    [&](const auto& other) { return &other != &some && holds(other, some); });
    if (!beaten) weights.push_back(corners(some));
  }
  return weights;
}

} // namespace treadfold::rows
