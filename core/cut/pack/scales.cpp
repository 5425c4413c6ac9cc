#include "cut/pack/scales.h"

#include <algorithm>
#include <cassert>
#include <numeric>

namespace treadfold::pack {
namespace {

constexpr Ticks kMostCells = 6000;
constexpr double kSlack = 1e-9;
constexpr double kNearly = 5e-4;     // the last steps of column generation gain little and cost most
constexpr double kEnough = 1 + 1e-6; // of weights that sum to more than 1 where something is proved

/// Rows of the basis' inverse and the solution, of: least number of bars that cover the weights.
class Basis {
public:
  explicit Basis(const std::vector<double>& weights) : size_(weights.size()), solution_(size_) {}

  /// Row i begins as `copies` of piece i alone.
  void begin(std::size_t i, int copies, double weight) {
    if (inverse_.empty()) inverse_.assign(size_, std::vector<double>(size_, 0)), cost_.assign(size_, 1);
    inverse_[i][i] = 1.0 / copies;
    solution_[i] = weight / copies;
  }

  std::vector<double> duals() const {
    std::vector<double> duals(size_, 0);
    for (std::size_t i = 0; i < size_; ++i)
      if (cost_[i] > 0)
        for (std::size_t j = 0; j < size_; ++j)
          duals[j] += inverse_[i][j];
    return duals;
  }

  /// False: the column cannot enter.
  bool enter(const std::vector<double>& column, double cost) {
    std::vector<double> change(size_, 0);
    for (std::size_t i = 0; i < size_; ++i)
      change[i] = std::inner_product(column.begin(), column.end(), inverse_[i].begin(), 0.0);
    std::size_t leaves = size_;
    for (std::size_t i = 0; i < size_; ++i)
      if (change[i] > kSlack &&
          (leaves == size_ || solution_[i] * change[leaves] < solution_[leaves] * change[i]))
        leaves = i;
    if (leaves == size_) return false;
    auto& row = inverse_[leaves];
    const double pivot = change[leaves];
    for (double& x : row)
      x /= pivot;
    solution_[leaves] /= pivot;
    for (std::size_t i = 0; i < size_; ++i) {
      if (i == leaves || change[i] == 0) continue;
      for (std::size_t j = 0; j < size_; ++j)
        inverse_[i][j] -= change[i] * row[j];
      solution_[i] = std::max(0.0, solution_[i] - change[i] * solution_[leaves]);
    }
    cost_[leaves] = cost;
    return true;
  }

private:
  std::size_t size_;
  std::vector<std::vector<double>> inverse_;
  std::vector<double> cost_, solution_;
};

std::vector<double> weights(const std::vector<Kind>& kinds, const std::vector<Ticks>& values) {
  std::vector<double> result;
  for (std::size_t i = 0; i < kinds.size(); ++i)
    result.push_back(kinds[i].count * static_cast<double>(values[i]) / static_cast<double>(Scale::kOne));
  return result;
}

} // namespace

Scale::Scale(std::vector<Ticks> sizes, std::vector<int> counts, Ticks full)
    : sizes_(std::move(sizes)), counts_(std::move(counts)), full_(full) {
  Ticks unit = 0;
  for (Ticks s : sizes_) {
    assert(s > 0 && s <= full);
    unit = std::gcd(unit, s);
  }
  unit = std::max(unit, full / kMostCells + 1);
  for (auto& s : sizes_)
    s /= unit;
  full_ /= unit;
  for (std::size_t i = 0; i < sizes_.size(); ++i)
    if (sizes_[i] > 0) counts_[i] = static_cast<int>(std::min<Ticks>(counts_[i], full_ / sizes_[i]));
}

/// The bar of the greatest value: a knapsack, each kind taken in ones, twos, fours … up to its count.
Scale::Bar Scale::dearest(const std::vector<double>& values, std::int64_t& work) {
  struct Lot {
    std::size_t kind;
    int count;
  };
  std::vector<Lot> lots;
  for (std::size_t i = 0; i < sizes_.size(); ++i)
    if (values[i] > 0)
      for (int left = counts_[i], lot = 1; left > 0; left -= lot, lot *= 2)
        lots.push_back({i, lot = std::min(lot, left)});
  const auto cells = static_cast<std::size_t>(full_) + 1;
  reached_.assign(cells, 0);
  before_.resize(cells);
  if (taken_.size() < lots.size()) taken_.resize(lots.size());
  for (std::size_t k = 0; k < lots.size(); ++k) {
    const auto size = static_cast<std::size_t>(sizes_[lots[k].kind] * lots[k].count);
    const double value = values[lots[k].kind] * lots[k].count;
    taken_[k].assign(cells, 0);
    before_ = reached_;
    for (std::size_t c = size; c < cells; ++c) {
      const double with = before_[c - size] + value;
      taken_[k][c] = with > before_[c];
      reached_[c] = std::max(with, before_[c]);
    }
  }
  work += static_cast<std::int64_t>(lots.size() * cells);
  Bar bar{std::vector<int>(sizes_.size()), reached_.back()};
  std::size_t c = cells - 1;
  for (std::size_t k = lots.size(); k-- > 0;)
    if (taken_[k][c]) {
      bar.of[lots[k].kind] += lots[k].count;
      c -= static_cast<std::size_t>(sizes_[lots[k].kind] * lots[k].count);
    }
  return bar;
}

Scale::Bar Scale::dearest_met(const std::vector<double>& values, std::int64_t& work) const {
  Bar best;
  const std::vector<int>* of = nullptr;
  for (const auto& bar : bars_) {
    double value = 0;
    for (std::size_t i = 0; i < bar.size(); ++i)
      value += bar[i] * values[i];
    if (value > best.value) best.value = value, of = &bar;
  }
  work += static_cast<std::int64_t>(bars_.size() * sizes_.size());
  if (of) best.of = *of;
  return best;
}

/// Divided by what the dearest bar comes to, with all that rounding can have added.
std::vector<Ticks> Scale::rounded(const std::vector<double>& values, std::int64_t& work) {
  const double most = dearest(values, work).value * (1 + 1e-9) + 1e-12;
  std::vector<Ticks> result;
  for (double v : values)
    result.push_back(v > 0 ? static_cast<Ticks>(v / most * static_cast<double>(kOne)) : 0);
  return result;
}

std::vector<Ticks> Scale::best(const std::vector<double>& weights, std::int64_t most_work,
                               std::int64_t& work) {
  const std::size_t n = sizes_.size();
  Basis basis(weights);
  for (std::size_t i = 0; i < n; ++i)
    basis.begin(i, std::max(1, counts_[i]), weights[i]);
  // Of all the values met on the way, made conservative, the best.
  std::vector<double> best(n, 0);
  double best_sum = -1;
  const std::int64_t stop = work + most_work;
  for (;;) {
    auto values = basis.duals();
    const auto least = std::min_element(values.begin(), values.end()) - values.begin();
    if (values[static_cast<std::size_t>(least)] < -kSlack) {
      std::vector<double> surplus(n, 0);
      surplus[static_cast<std::size_t>(least)] = -1;
      work += static_cast<std::int64_t>(n * n);
      if (!basis.enter(surplus, 0) || work >= stop) break;
      continue;
    }
    work += static_cast<std::int64_t>(n * n);
    if (const Bar met = dearest_met(values, work); met.value > 1 + kSlack) {
      if (work >= stop || !basis.enter({met.of.begin(), met.of.end()}, 1)) break;
      continue;
    }
    const Bar bar = dearest(values, work);
    bars_.push_back(bar.of);
    const double sum = std::inner_product(values.begin(), values.end(), weights.begin(), 0.0) / bar.value;
    if (sum > best_sum) best_sum = sum, best = std::move(values);
    if (bar.value <= 1 + kNearly || best_sum > kEnough || work >= stop) break;
    if (!basis.enter({bar.of.begin(), bar.of.end()}, 1)) break;
  }
  return rounded(best, work);
}

namespace {

template <class T, class Get>
std::vector<T> of_kinds(const Sheet& sheet, Get get) {
  std::vector<T> result;
  for (const auto& k : sheet.kinds)
    result.push_back(get(k));
  return result;
}

} // namespace

Scales::Scales(const Sheet& sheet)
    : sheet_(sheet), lengths_(of_kinds<Ticks>(sheet, [](const Kind& k) { return k.l; })),
      counts_(of_kinds<int>(sheet, [](const Kind& k) { return k.count; })),
      across_(of_kinds<Ticks>(sheet, [](const Kind& k) { return k.w; }), counts_, sheet.width) {}

bool Scales::too_short(Ticks length, std::int64_t most_work, std::int64_t& work) {
  if (length < *std::max_element(lengths_.begin(), lengths_.end())) return true;
  const auto& kinds = sheet_.kinds;
  std::vector<Ticks> by_width, by_length; // of the whole
  for (const auto& k : kinds)
    by_width.push_back(k.w * Scale::kOne / sheet_.width), by_length.push_back(k.l * Scale::kOne / length);
  Scale along(lengths_, counts_, length);
  const std::int64_t stop = work + most_work;
  // From the sizes themselves, the one axis first or the other; then each in turn for the other.
  for (const bool across_first : {false, true}) {
    std::vector<Ticks> f = by_width, g = by_length;
    Ticks sum = 0;
    bool turn_across = across_first;
    for (int idle = 0; idle < 2; turn_across = !turn_across) {
      if (work >= stop) return false;
      auto& values = turn_across ? f : g;
      auto better = turn_across ? across_.best(weights(kinds, g), stop - work, work)
                                : along.best(weights(kinds, f), stop - work, work);
      std::swap(values, better);
      Ticks now = 0; // at most 1000 · 2^50
      for (std::size_t i = 0; i < kinds.size(); ++i)
        now += kinds[i].count * f[i] * g[i];
      if (now > Scale::kOne * Scale::kOne) return true;
      idle = now > sum + sum / 10'000 ? 0 : idle + 1;
      if (now < sum) std::swap(values, better);
      sum = std::max(sum, now);
    }
  }
  return false;
}

} // namespace treadfold::pack
