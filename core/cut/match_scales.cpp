#include "cut/match_scales.h"

#include "cut/match_axis.h"

#include <algorithm>
#include <numeric>

namespace treadfold::rows {
namespace {

using Weights = std::vector<std::int64_t>; // by class
using Shares = std::vector<double>;        // by class

constexpr std::int64_t kOne = std::int64_t{1} << 20;
constexpr int kMostGroups = 3;
constexpr Ticks kMostColumns = 100;       // across; of a finer pattern nothing is found
constexpr Ticks kMostRepeats = 500;       // along
constexpr std::size_t kMostKept = 16;     // values, of each axis
constexpr std::int64_t kWorkOfAWay = 100; // to find it, in places looked at
constexpr int kMostRounds = 4, kMostPivots = 500;
constexpr std::size_t kMostFillings = 60;
constexpr double kEnough = 1 + 1e-9;

/// Maximises weights · x where no filling comes to more than 1, x >= 0. By the simplex method, from x = 0;
/// Bland's rule. REQUIRES: every class is in some filling.
Shares most_by_fillings(const std::vector<Counts>& fillings, const Shares& weights) {
  const std::size_t n = weights.size(), m = fillings.size();
  constexpr double kEps = 1e-9;
  std::vector<std::vector<double>> t(m + 1, std::vector<double>(n + m + 1));
  std::vector<std::size_t> basis(m);
  for (std::size_t i = 0; i < m; ++i) {
    std::copy(fillings[i].begin(), fillings[i].end(), t[i].begin());
    t[i][n + i] = 1, t[i][n + m] = 1, basis[i] = n + i;
  }
  for (std::size_t j = 0; j < n; ++j)
    t[m][j] = -weights[j];
  for (int pivots = 0; pivots < kMostPivots; ++pivots) {
    std::size_t in = 0;
    while (in < n + m && t[m][in] > -kEps)
      ++in;
    std::size_t out = m;
    for (std::size_t i = 0; i < m && in < n + m; ++i) {
      if (t[i][in] < kEps) continue;
      const double ratio = t[i][n + m] / t[i][in];
      const double least = out < m ? t[out][n + m] / t[out][in] : 0;
      if (out == m || ratio < least - kEps || (ratio < least + kEps && basis[i] < basis[out])) out = i;
    }
    if (out == m) break;
    const double pivot = t[out][in];
    for (auto& x : t[out])
      x /= pivot;
    for (std::size_t i = 0; i <= m; ++i) {
      const double by = t[i][in];
      if (i == out || by == 0) continue;
      for (std::size_t j = 0; j <= n + m; ++j)
        t[i][j] -= by * t[out][j];
    }
    basis[out] = in;
  }
  Shares x(n);
  for (std::size_t i = 0; i < m; ++i)
    if (basis[i] < n) x[basis[i]] = t[i][n + m];
  return x;
}

Weights whole_numbers(const Shares& x) {
  Weights all;
  for (const double value : x)
    all.push_back(std::max<std::int64_t>(0, static_cast<std::int64_t>(value * static_cast<double>(kOne))));
  return all;
}

/// Values that hold on a line: what lies on it comes to no more than `whole`.
struct Values {
  Weights of;
  std::int64_t whole = 1;
};

/// The values that hold on a line and come to most with `weights`, where `heaviest` finds what lies on the
/// line at most weight. By fillings of the line that are added while one comes to too much.
template <class Heaviest>
Values best_values(const Shares& weights, const Heaviest& heaviest) {
  std::vector<Counts> fillings;
  for (std::size_t k = 0; k < weights.size(); ++k) {
    Weights alone(weights.size(), 0);
    alone[k] = 1;
    fillings.push_back(heaviest(alone).first);
  }
  for (;;) {
    const auto of = whole_numbers(most_by_fillings(fillings, weights));
    const auto [filling, whole] = heaviest(of);
    if (whole <= kOne + kOne / 1000 || fillings.size() > kMostFillings)
      return {of, std::max<std::int64_t>(1, whole)};
    fillings.push_back(filling);
  }
}

std::pair<Counts, std::int64_t> heaviest_of(const std::vector<Counts>& fillings, const Weights& weights) {
  std::pair<const Counts*, std::int64_t> best{&fillings.front(), -1};
  for (const auto& f : fillings)
    if (const auto w = std::inner_product(f.begin(), f.end(), weights.begin(), std::int64_t{0});
        w > best.second)
      best = {&f, w};
  return {*best.first, best.second};
}

class MatchScales {
public:
  MatchScales(const std::vector<Rect>& rects, const Strip& strip, int groups, std::size_t most_classes,
              std::int64_t most_work)
      : groups_(groups), step_(std::gcd(strip.repeat->repeat_v, strip.repeat->drop)), most_work_(most_work) {
    const Ticks step_u = strip.repeat->repeat_u;
    // With three groups finer classes across take long, and were not seen to help.
    const auto across =
        classes_on_axis(rects, groups, false, step_u, groups < kMostGroups ? most_classes : 1);
    const auto along = classes_on_axis(rects, groups, true, step_, most_classes);
    along_ = along.classes;
    number_.assign(across.classes.size(), std::vector<std::int64_t>(along_.size()));
    for (std::size_t i = 0; i < rects.size(); ++i)
      if (across.of[i] >= 0 && along.of[i] >= 0)
        ++number_[static_cast<std::size_t>(across.of[i])][static_cast<std::size_t>(along.of[i])];
    fillings_ = line_fillings(across.classes, groups, step_u, strip.width, most_work / 4);
    std::erase_if(fillings_, [](const std::vector<Counts>& way) { // no room for some class: no layout is so
      for (std::size_t c = 0; c < way.front().size(); ++c)
        if (std::none_of(way.begin(), way.end(), [&](const Counts& f) { return f[c] > 0; })) return true;
      return false;
    });
    across_.resize(fillings_.size());
    find_starts();
  }

  bool too_much_work(Ticks length) {
    return fillings_.empty() || kWorkOfAWay * static_cast<std::int64_t>(ways(length).size()) > most_work_ / 8;
  }

  /// True: no layout is so short. False says nothing.
  bool too_short(Ticks length) {
    if (work_ >= most_work_) return false;
    const auto all = ways(length);
    return std::all_of(all.begin(), all.end(), [&](const Motifs& motifs) {
      const MatchLine line(along_, motifs, step_, length);
      work_ += static_cast<std::int64_t>(line.places());
      return work_ < most_work_ && (!line.holds_every_class() || too_short_at(line));
    });
  }

private:
  /// How the motifs of the groups may lie along a strip of that length.
  std::set<Motifs> ways(Ticks length) {
    auto all = ways_of_motifs(along_, groups_, step_, length);
    work_ += kWorkOfAWay * static_cast<std::int64_t>(all.size());
    return all;
  }

  bool too_short_at(const MatchLine& line) {
    std::vector<Values> along;
    for (const auto& of : along_tried_)
      along.push_back({of, heaviest(line, of).second});
    for (std::size_t u = 0; u < fillings_.size(); ++u)
      if (!too_short_at(u, line, along)) return false;
    return true;
  }

  bool too_short_at(std::size_t u, const MatchLine& line, std::vector<Values>& along) {
    for (const auto& a : across_[u])
      for (const auto& b : along)
        if (sum(a, b) > kEnough) return true;
    return std::any_of(starts_.begin(), starts_.end(),
                       [&](const Weights& start) { return too_short_from(start, u, line, along); });
  }

  /// Best values of the one axis for given values of the other, in turn. That ends at one of several optima.
  bool too_short_from(const Weights& start, std::size_t u, const MatchLine& line,
                      std::vector<Values>& along) {
    double before = 0;
    Values b{start, 1};
    for (int round = 0; round < kMostRounds; ++round) {
      auto a = best_values(weights(b, false), [&](const Weights& of) {
        work_ += static_cast<std::int64_t>(fillings_[u].size());
        return heaviest_of(fillings_[u], of);
      });
      b = best_values(weights(a, true), [&](const Weights& of) { return heaviest(line, of); });
      const double s = sum(a, b);
      if (s > kEnough) {
        auto& kept = across_[u];
        if (kept.size() == kMostKept) kept.pop_back();
        kept.insert(kept.begin(), std::move(a));
        if (along.size() < kMostKept) along.push_back(b), along_tried_.push_back(b.of);
        return true;
      }
      if (s < before + 1e-6) return false;
      before = s;
    }
    return false;
  }

  /// The products of the values, as a share of what they may come to.
  double sum(const Values& u, const Values& v) {
    std::int64_t sum = 0;
    for (std::size_t c = 0; c < u.of.size(); ++c)
      for (std::size_t k = 0; k < v.of.size(); ++k)
        sum += number_[c][k] * u.of[c] * v.of[k];
    work_ += static_cast<std::int64_t>(u.of.size());
    return static_cast<double>(sum) / (static_cast<double>(u.whole) * static_cast<double>(v.whole));
  }

  std::pair<Counts, std::int64_t> heaviest(const MatchLine& line, const Weights& of) {
    work_ += static_cast<std::int64_t>(line.places());
    auto best = line.heaviest(of);
    best.second = std::max<std::int64_t>(1, best.second);
    return best;
  }

  /// Of one axis, where the values of the other are given.
  Shares weights(const Values& values, bool along) const {
    Shares w(along ? along_.size() : number_.size());
    for (std::size_t c = 0; c < number_.size(); ++c)
      for (std::size_t k = 0; k < along_.size(); ++k)
        w[along ? k : c] +=
            static_cast<double>(number_[c][k]) * static_cast<double>(values.of[along ? c : k]);
    const double whole = std::accumulate(w.begin(), w.end(), 1e-9);
    for (auto& x : w)
      x /= whole;
    return w;
  }

  /// By length, and with one group at more, or less, than that.
  void find_starts() {
    const auto add = [&](int group, std::int64_t times, std::int64_t others) {
      auto& start = starts_.emplace_back();
      for (const auto& k : along_)
        start.push_back((k.before + k.after) * (k.group == group ? times : others));
    };
    add(-1, 1, 1);
    for (int g = -1; g < groups_; ++g)
      add(g, 3, 1), add(g, 1, 3);
  }

  int groups_;
  Ticks step_;
  std::int64_t work_ = 0, most_work_; // places looked at
  std::vector<LineClass> along_;
  std::vector<std::vector<std::int64_t>> number_; // of pieces, by class across and class along
  std::vector<std::vector<Counts>> fillings_;     // by way across
  std::vector<std::vector<Values>> across_;       // met so far, by way across
  std::vector<Weights> along_tried_, starts_;
};

} // namespace

void raise_by_match_scales(const std::vector<Rect>& rects, const Strip& strip, std::int64_t most_work,
                           Bound& bound) {
  if (!strip.repeat || strip.width / strip.repeat->repeat_u > kMostColumns ||
      bound.length / std::gcd(strip.repeat->repeat_v, strip.repeat->drop) > kMostRepeats)
    return;
  int groups = 0;
  for (const auto& r : rects)
    groups = std::max(groups, r.match + 1);
  if (groups == 0 || groups > kMostGroups) return;
  for (std::size_t most_classes = 4; most_classes > 0; --most_classes) {
    MatchScales scales(rects, strip, groups, most_classes, most_work);
    if (scales.too_much_work(bound.length)) continue;
    Ticks low = bound.length, high = 0;
    for (Ticks more = std::max<Ticks>(1, low / 64); high == 0; more *= 2)
      (scales.too_short(low + more) ? low : high) = low + more;
    while (high - low > high / 2000 + 1) {
      const Ticks middle = low + (high - low) / 2;
      (scales.too_short(middle) ? low : high) = middle;
    }
    if (low > bound.length) bound = {low + 1, "conservative scales, at the pattern's spacing"};
    return;
  }
}

} // namespace treadfold::rows
