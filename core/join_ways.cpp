#include "join_ways.h"

#include <algorithm>
#include <set>
#include <utility>

namespace treadfold {

namespace {

constexpr int kFew = 20; // 282 sets of sizes up to 6 add up to it

/// `so_far` and on with sizes no larger than its last.
void all_sets(int rest, int most, PieceSizes& so_far, std::vector<PieceSizes>& sets) {
  if (rest == 0) return sets.push_back(so_far);
  for (int size = std::min(rest, most); size > 0; --size) {
    so_far.push_back(size);
    all_sets(rest - size, size, so_far, sets);
    so_far.pop_back();
  }
}

/// Some of one size, some of a smaller one, and one piece of what is left over.
void sets_of_two_sizes(int steps, int most, std::vector<PieceSizes>& sets) {
  for (int large = most; large > 0; --large)
    for (int small = large - 1; small >= (large > 1 ? 1 : 0); --small)
      for (int rest = steps; rest >= 0; rest -= small) {
        PieceSizes sizes(static_cast<std::size_t>(rest / large), large);
        if (small > 0) sizes.insert(sizes.end(), static_cast<std::size_t>((steps - rest) / small), small);
        if (rest % large > 0) sizes.push_back(rest % large);
        std::sort(sizes.rbegin(), sizes.rend());
        sets.push_back(std::move(sizes));
        if (small == 0) break;
      }
}

} // namespace

PieceSizes even_sizes(int steps, int most) {
  PieceSizes sizes(static_cast<std::size_t>(steps / most), most);
  if (steps % most > 0) sizes.push_back(steps % most);
  return sizes;
}

std::vector<PieceSizes> ways_to_divide(int steps, int most) {
  std::vector<PieceSizes> sets;
  PieceSizes none;
  if (steps <= kFew)
    all_sets(steps, most, none, sets);
  else
    sets_of_two_sizes(steps, most, sets);
  const auto key = [](const PieceSizes& sizes) {
    return std::pair(std::set<int>(sizes.begin(), sizes.end()).size(), sizes.size());
  };
  std::stable_sort(sets.begin(), sets.end(),
                   [&](const PieceSizes& a, const PieceSizes& b) { return key(a) < key(b); });
  std::vector<PieceSizes> ways;
  std::set<PieceSizes> known;
  for (const auto& sizes : sets)
    for (const auto& way : {sizes, PieceSizes(sizes.rbegin(), sizes.rend())})
      if (known.insert(way).second) ways.push_back(way);
  return ways;
}

} // namespace treadfold
