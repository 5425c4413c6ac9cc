#include "cut/motif_kinds.h"

#include <algorithm>
#include <limits>
#include <numeric>
#include <optional>

namespace treadfold::rows {
namespace {

constexpr double kWhole = 1e12; // what all pieces weigh at first
constexpr double kFirstStep = 0.3;

double size(const MotifKind& k) { return static_cast<double>(k.w()) * static_cast<double>(k.l()); }
double area(const MotifKind& k) { return size(k) * static_cast<double>(k.pieces.size()); }

/// What both cover, of no pieces.
MotifKind shared(const MotifKind& a, const MotifKind& b) {
  return {a.group,
          std::min(a.before_u, b.before_u),
          std::min(a.after_u, b.after_u),
          std::min(a.before_v, b.before_v),
          std::min(a.after_v, b.after_v),
          {}};
}

/// One kind less of the group; false where no two are alike enough to be one.
bool unite_two(std::vector<MotifKind>& kinds, int group) {
  std::size_t first = 0, second = 0;
  double least = std::numeric_limits<double>::max();
  for (std::size_t a = 0; a < kinds.size(); ++a)
    for (std::size_t b = a + 1; b < kinds.size(); ++b) {
      if (kinds[a].group != group || kinds[b].group != group) continue;
      const auto both = shared(kinds[a], kinds[b]);
      const auto pieces = static_cast<double>(kinds[a].pieces.size() + kinds[b].pieces.size());
      const double lost = area(kinds[a]) + area(kinds[b]) - size(both) * pieces;
      if (both.w() > 0 && both.l() > 0 && lost < least) least = lost, first = a, second = b;
    }
  if (second == 0) return false;
  auto both = shared(kinds[first], kinds[second]);
  both.pieces = std::move(kinds[first].pieces);
  both.pieces.insert(both.pieces.end(), kinds[second].pieces.begin(), kinds[second].pieces.end());
  kinds[first] = std::move(both);
  kinds.erase(kinds.begin() + static_cast<std::ptrdiff_t>(second));
  return true;
}

} // namespace

std::vector<MotifKind> motif_kinds(const std::vector<Rect>& rects, const Repeat& repeat) {
  std::vector<MotifKind> kinds;
  std::optional<std::size_t> free;
  for (std::size_t i = 0; i < rects.size(); ++i) {
    const auto& r = rects[i];
    if (r.match < 0) {
      if (!free || r.w * r.l > rects[*free].w * rects[*free].l) free = i;
      continue;
    }
    // By the motif next to its near left corner, so many columns from the one that its phase tells.
    const Ticks before_u = mod(r.phase_u, repeat.repeat_u);
    const Ticks columns = (r.phase_u - before_u) / repeat.repeat_u;
    const Ticks before_v = mod(r.phase_v - columns * repeat.drop, repeat.repeat_v);
    const auto same = std::find_if(kinds.begin(), kinds.end(), [&](const MotifKind& k) {
      return k.group == r.match && k.before_u == before_u && k.w() == r.w && k.before_v == before_v &&
             k.l() == r.l;
    });
    if (same != kinds.end())
      same->pieces.push_back(i);
    else
      kinds.push_back({r.match, before_u, r.w - before_u, before_v, r.l - before_v, {i}});
  }
  if (free) kinds.push_back({-1, 0, rects[*free].w, 0, rects[*free].l, {*free}});
  return kinds;
}

std::vector<MotifKind> fewer_kinds(std::vector<MotifKind> kinds, int groups, std::size_t most) {
  const auto number = [&](int g) {
    return static_cast<std::size_t>(
        std::count_if(kinds.begin(), kinds.end(), [&](const MotifKind& k) { return k.group == g; }));
  };
  for (int g = 0; g < groups; ++g)
    while (number(g) > most && unite_two(kinds, g)) {
    }
  return kinds;
}

Weights by_area(const std::vector<MotifKind>& kinds) {
  double whole = 0;
  for (const auto& k : kinds)
    whole += area(k);
  Weights weights;
  for (const auto& k : kinds)
    weights.push_back(
        static_cast<std::int64_t>(kWhole * area(k) / (whole * static_cast<double>(k.pieces.size()))));
  return weights;
}

std::int64_t in_all(const std::vector<MotifKind>& kinds, const Weights& weights) {
  std::int64_t sum = 0;
  for (std::size_t k = 0; k < kinds.size(); ++k)
    sum += weights[k] * static_cast<std::int64_t>(kinds[k].pieces.size());
  return sum;
}

void move_towards(const std::vector<int>& missing, const std::vector<MotifKind>& kinds, int round,
                  Weights& weights) {
  const double square = std::inner_product(missing.begin(), missing.end(), missing.begin(), 0.0);
  const double step = kFirstStep * static_cast<double>(in_all(kinds, weights)) / (1 + round) / square;
  for (std::size_t k = 0; k < weights.size(); ++k)
    weights[k] = std::max<std::int64_t>(0, weights[k] + static_cast<std::int64_t>(step * missing[k]));
}

} // namespace treadfold::rows
