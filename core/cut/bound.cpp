// The functions are those of dual_feasible.h, here across and along.
#include "cut/bound.h"

#include "cut/dual_feasible.h"
#include "cut/layout.h"
#include "cut/line_bound.h"

#include <algorithm>
#include <cassert>
#include <fmt/format.h>
#include <map>
#include <numeric>

namespace treadfold::rows {
namespace {

constexpr Ticks ceil_div(Ticks a, Ticks b) { return (a + b - 1) / b; }

/// The best bound so far. In a shortest layout pushed together towards the end, some pieces behind one
/// another make up its length: each bound is raised to the next length that can come about so.
class Best {
public:
  Best(const std::map<Ticks, int>& lengths, Ticks all) : sums_(sums_of(lengths, all)) {}

  void offer(Ticks length, const std::string& name) {
    auto i = ceil_div(length, sums_.unit);
    if (!sums_.reached.empty())
      while (!sums_.reached[static_cast<std::size_t>(i)])
        ++i;
    const Ticks raised = i * sums_.unit;
    if (raised > bound.length)
      bound = {raised, raised > length ? name + ", next sum of piece lengths" : name};
  }

  Bound bound;

private:
  Sums sums_;
};

/// Pieces of which no two can lie side by side: all longer than half the width from the widest down, and one
/// more that is too wide to lie beside the narrowest of them.
Ticks no_two_side_by_side(std::vector<Rect> rects, Ticks width) {
  std::stable_sort(rects.begin(), rects.end(), [](const Rect& a, const Rect& b) { return a.w > b.w; });
  Ticks best = 0, sum = 0;
  std::size_t too_wide = rects.size();
  for (std::size_t i = 0; i < rects.size() && 2 * rects[i].w > width; ++i) {
    sum += rects[i].l;
    while (too_wide > 0 && rects[too_wide - 1].w + rects[i].w <= width)
      --too_wide;
    Ticks more = 0;
    for (std::size_t j = i + 1; j < too_wide && j <= i + 64; ++j)
      more = std::max(more, rects[j].l);
    best = std::max(best, sum + more);
  }
  return best;
}

/// Values of a few dual feasible functions, as whole kOne-ths rounded down: a smaller value is as valid.
constexpr Ticks kOne = Ticks{1} << 25;
std::vector<std::vector<Ticks>> values(const std::vector<Ticks>& sizes, Ticks full) {
  const auto part = [](Ticks a, Ticks b) { return a / b * kOne + a % b * kOne / b; };
  std::vector<std::vector<Ticks>> all;
  const auto add = [&](auto f) {
    auto& v = all.emplace_back();
    for (Ticks x : sizes)
      v.push_back(f(x));
  };
  add([&](Ticks x) { return part(x, full); });
  for (Ticks k = 1; k <= 6; ++k)
    add([&](Ticks x) { return (k + 1) * x % full == 0 ? part(x, full) : part((k + 1) * x / full, k); });
  auto thresholds = sizes;
  std::sort(thresholds.begin(), thresholds.end());
  thresholds.erase(std::unique(thresholds.begin(), thresholds.end()), thresholds.end());
  int taken = 0;
  for (Ticks e : thresholds) {
    if (2 * e > full || ++taken > 8) break;
    add([&](Ticks x) { return x > full - e ? kOne : x < e ? 0 : part(x, full); });
    const Ticks q = full / e;
    add([&](Ticks x) { return 2 * x > full ? part(q - (full - x) / e, q) : x >= e ? part(1, q) : 0; });
  }
  return all;
}

/// Both axes: pieces fit a rectangle W×L only if the sum of f(w/W)·g(l/L) is no more than 1. The greatest L
/// shown impossible by bisection; any L shown so is valid, whatever the bisection took it for.
Ticks length_by_both_axes(const std::vector<Rect>& rects, Ticks width, Ticks low, Ticks high) {
  std::map<std::pair<Ticks, Ticks>, Ticks> kinds;
  for (const auto& r : rects)
    ++kinds[{r.w, r.l}];
  if (kinds.size() > 48 || rects.size() > 1000) return low;
  std::vector<Ticks> widths, lengths, counts;
  for (const auto& [size, count] : kinds)
    widths.push_back(size.first), lengths.push_back(size.second), counts.push_back(count);
  const auto across = values(widths, width);
  const auto impossible = [&](Ticks length) {
    for (const auto& g : values(lengths, length))
      for (const auto& f : across) {
        Ticks sum = 0; // at most 1000·2^50
        for (std::size_t i = 0; i < f.size(); ++i)
          sum += counts[i] * f[i] * g[i];
        if (sum > kOne * kOne) return true;
      }
    return false;
  };
  while (low < high) {
    const Ticks middle = low + (high - low) / 2;
    if (impossible(middle))
      low = middle + 1;
    else
      high = middle;
  }
  return low;
}

} // namespace

Bound bound_without_pattern(const std::vector<Rect>& rects, Ticks full_width) {
  if (rects.empty()) return {};
  std::map<Ticks, int> widths, lengths;
  ByWidth pieces;
  Ticks all = 0;
  for (const auto& r : rects) {
    assert(r.w > 0 && r.l > 0 && r.w <= full_width);
    ++widths[r.w], ++lengths[r.l];
    pieces[r.w] += r.l;
    all += r.l;
  }
  const Ticks width = width_of_use(widths, full_width);

  Best best(lengths, all);
  best.offer(lengths.rbegin()->first, "longest piece");
  best.offer(length_by_k(pieces, full_width, 0, 0), "area");
  best.offer(length_by_k(pieces, width, 0, 0), "area of the width that can be used");
  best.offer(no_two_side_by_side(rects, width), "pieces that cannot lie side by side");
  std::vector<Ticks> thresholds{0};
  const std::size_t most = pieces.size() > 100 ? 8 : 48;
  for (const auto& [w, l] : pieces)
    if (2 * w <= width && thresholds.size() < most) thresholds.push_back(w);
  for (Ticks e : thresholds) {
    for (Ticks k = 0; k <= 24; ++k)
      best.offer(length_by_k(pieces, width, k, e), fmt::format("dual feasible function k = {}", k));
    if (e > 0) best.offer(length_by_phi(pieces, width, e), "dual feasible function phi");
  }
  if (best.bound.length < all)
    best.offer(length_by_both_axes(rects, width, best.bound.length, all),
               "dual feasible functions across and along");
  return best.bound;
}

namespace {

constexpr std::size_t kMostShares = 4;

Ticks floor_div(Ticks a, Ticks b) { return (a - mod(a, b)) / b; }

/// How the pieces of one match group keep apart along one axis. All motifs lie whole steps from each other,
/// so two pieces, one beginning `before` its motif and the other ending `after` its own, are apart by no less
/// than ceil((after + before) / step) >= ceil(after / step - s) + floor(before / step + s) steps, whatever
/// the share s of a step: what is apart stays so when every piece is stretched to those. `share` of 0 … step
/// - 1; none: left as it is.
struct Spacing {
  Ticks step = 0;
  std::optional<Ticks> share;

  /// Before the motif, and after it.
  std::pair<Ticks, Ticks> stretched(Ticks before, Ticks after) const {
    if (!share) return {before, after};
    return {floor_div(before + *share, step) * step, -floor_div(*share - after, step) * step};
  }
};

/// None, and those that make some piece whole steps long where its motif stands.
std::vector<Spacing> spacings(Ticks step, const std::vector<Rect>& rects, Ticks Rect::*phase) {
  std::vector<Spacing> all{{step, {}}};
  std::map<Ticks, int> shares;
  for (const auto& r : rects)
    ++shares[mod(-(r.*phase), step)];
  std::vector<std::pair<int, Ticks>> commonest;
  for (const auto& [share, count] : shares)
    commonest.emplace_back(-count, share);
  std::stable_sort(commonest.begin(), commonest.end());
  for (std::size_t i = 0; i < std::min(commonest.size(), kMostShares); ++i)
    all.push_back({step, commonest[i].second});
  return all;
}

/// Of one match group. The last pieces across and along may stick out by what they were stretched.
Bound bound_at_spacing(const std::vector<Rect>& rects, const Repeat& repeat, Ticks width) {
  Bound best;
  for (const auto& across : spacings(repeat.repeat_u, rects, &Rect::phase_u))
    for (const auto& along : spacings(std::gcd(repeat.repeat_v, repeat.drop), rects, &Rect::phase_v)) {
      std::vector<Rect> stretched;
      Ticks left = 0, right = 0, behind = 0, beyond = 0; // that they stick out
      for (const auto& r : rects) {
        const auto [u, w] = across.stretched(r.phase_u, r.w - r.phase_u);
        const auto [v, l] = along.stretched(r.phase_v, r.l - r.phase_v);
        left = std::max(left, u - r.phase_u), right = std::max(right, w - (r.w - r.phase_u));
        behind = std::max(behind, v - r.phase_v), beyond = std::max(beyond, l - (r.l - r.phase_v));
        if (u + w > 0 && v + l > 0) stretched.push_back({u + w, v + l});
      }
      auto found = bound_without_pattern(stretched, width + left + right);
      found.length -= behind + beyond;
      if (found.length > best.length) best = std::move(found);
    }
  best.name += ", at the pattern's spacing";
  return best;
}

} // namespace

Bound bound(const std::vector<Rect>& rects, const Strip& strip) {
  Bound best = bound_without_pattern(rects, strip.width);
  if (!strip.repeat || rects.empty()) return best;
  std::map<int, std::vector<Rect>> groups;
  for (const auto& r : rects)
    if (r.match >= 0) groups[r.match].push_back(r);
  // A strip that holds all pieces holds those of one group.
  for (const auto& [group, members] : groups) {
    auto alone = bound_at_spacing(members, *strip.repeat, strip.width);
    if (alone.length > best.length) best = std::move(alone);
  }
  if (auto all = bound_by_lines(rects, strip); all.length > best.length) best = std::move(all);
  return best;
}

} // namespace treadfold::rows

namespace treadfold {

LowerBound lower_bound(const std::vector<CutPiece>& pieces, Length usable_width) {
  std::vector<rows::Rect> rects;
  rects.reserve(pieces.size());
  for (const auto& p : pieces)
    rects.push_back({p.width.ticks, p.length.ticks});
  auto b = rows::bound_without_pattern(rects, usable_width.ticks);
  return {{b.length}, std::move(b.name)};
}

} // namespace treadfold
