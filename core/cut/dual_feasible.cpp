#include "cut/dual_feasible.h"

#include <algorithm>
#include <cassert>
#include <numeric>

namespace treadfold::rows {
namespace {

constexpr Ticks ceil_div(Ticks a, Ticks b) { return (a + b - 1) / b; }

} // namespace

Sums sums_of(const std::map<Ticks, int>& sizes, Ticks top) {
  assert(!sizes.empty());
  Sums sums;
  sums.unit = sizes.begin()->first;
  for (const auto& [size, count] : sizes)
    sums.unit = std::gcd(sums.unit, size);
  const Ticks cells = top / sums.unit + 1;
  if (cells * static_cast<Ticks>(sizes.size()) > 2'000'000) return sums;
  sums.reached.assign(static_cast<std::size_t>(cells), 0);
  sums.reached[0] = 1;
  std::vector<int> spent(sums.reached.size());
  for (const auto& [size, count] : sizes) {
    std::fill(spent.begin(), spent.end(), 0);
    const auto step = static_cast<std::size_t>(size / sums.unit);
    for (std::size_t i = step; i < sums.reached.size(); ++i)
      if (!sums.reached[i] && sums.reached[i - step] && spent[i - step] < count)
        sums.reached[i] = 1, spent[i] = spent[i - step] + 1;
  }
  return sums;
}

Ticks width_of_use(const std::map<Ticks, int>& widths, Ticks width) {
  const auto sums = sums_of(widths, width);
  if (sums.reached.empty()) return width / sums.unit * sums.unit;
  auto i = sums.reached.size() - 1;
  while (!sums.reached[i])
    --i;
  return static_cast<Ticks>(i) * sums.unit;
}

Ticks length_by_k(const ByWidth& pieces, Ticks width, Ticks k, Ticks e) {
  // Sums of w·l/W and of floor(…)·l/k, each as whole part and rest, so that nothing is rounded and nothing
  // overflows.
  Ticks whole = 0, rest_w = 0, rest_k = 0;
  for (auto [w, l] : pieces) {
    if (w < e) continue;
    if (w > width - e) {
      whole += l;
    } else if (k == 0 || (k + 1) * w % width == 0) {
      whole += w * (l / width), rest_w += w * (l % width);
      whole += rest_w / width, rest_w %= width;
    } else {
      rest_k += (k + 1) * w / width * l;
      whole += rest_k / k, rest_k %= k;
    }
  }
  return whole + ceil_div(rest_w * std::max<Ticks>(1, k) + rest_k * width, width * std::max<Ticks>(1, k));
}

Ticks length_by_phi(const ByWidth& pieces, Ticks width, Ticks e) {
  const Ticks q = width / e;
  Ticks sum = 0;
  for (auto [w, l] : pieces)
    sum += 2 * w > width ? (q - (width - w) / e) * l : w >= e ? l : 0;
  return ceil_div(sum, q);
}

Ticks lines_by_dual_feasible(const ByWidth& pieces, Ticks full_width) {
  if (pieces.empty()) return 0;
  std::map<Ticks, int> widths;
  for (const auto& [w, l] : pieces)
    widths[w] = static_cast<int>(std::min<Ticks>(l, full_width / w));
  const Ticks width = width_of_use(widths, full_width);
  std::vector<Ticks> thresholds{0};
  for (const auto& [w, l] : pieces)
    if (2 * w <= width && thresholds.size() < 6) thresholds.push_back(w);
  Ticks best = 0;
  for (Ticks e : thresholds)
    for (Ticks k = 0; k <= 24; ++k)
      best = std::max(best, length_by_k(pieces, width, k, e));
  return best;
}

} // namespace treadfold::rows
