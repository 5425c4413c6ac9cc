#include "cut/by_outline.h"

#include "cut/pack/outlines.h"

#include <algorithm>
#include <numeric>

namespace treadfold::rows {
namespace {

/// Steps of the outlines' search for each unit of work.
constexpr std::int64_t kStepsPerWork = 8000;
constexpr std::size_t kMostPieces = 200;
constexpr Ticks kLongest = Ticks{1} << 27; // in the coarsest whole units, all pieces behind one another

/// Of its ring and holes.
template <class Take>
void each_corner(pack::Outline& outline, Take take) {
  for (auto& c : outline.ring)
    take(c);
  for (auto& hole : outline.holes)
    for (auto& c : hole)
      take(c);
}

} // namespace

void search_outlines(const std::vector<Rect>& rects, const RectOutlines& outlines, bool may_turn,
                     const Strip& strip, const Goal& goal, Found& found, Bound& bound) {
  if (strip.repeat || !strip.loose.empty() || rects.size() > kMostPieces ||
      std::all_of(outlines.begin(), outlines.end(), [](const auto& o) { return o.ring.empty(); }))
    return;
  Ticks unit = 0, all = 0;
  std::vector<pack::OutlinePiece> pieces;
  for (std::size_t i = 0; i < rects.size(); ++i) {
    const auto& r = rects[i];
    auto& way = pieces.emplace_back().ways.emplace_back(outlines[i]);
    if (way.ring.empty()) way.ring = {{0, 0}, {r.w, 0}, {r.w, r.l}, {0, r.l}};
    each_corner(way, [&](const pack::Corner& c) { unit = std::gcd(std::gcd(unit, c.u), c.v); });
    all += r.l;
  }
  if (unit == 0 || strip.width / unit + all / unit > kLongest) return;
  for (std::size_t i = 0; i < rects.size(); ++i) {
    auto& ways = pieces[i].ways;
    each_corner(ways.front(), [&](pack::Corner& c) { c = {c.u / unit, c.v / unit}; });
    if (!may_turn || outlines[i].ring.empty()) continue;
    auto turned = ways.front();
    each_corner(turned, [&](pack::Corner& c) { c = {rects[i].w / unit - c.u, rects[i].l / unit - c.v}; });
    ways.push_back(std::move(turned));
  }
  pack::OutlineOptions options;
  options.work = goal.work * kStepsPerWork, options.seed = goal.seed;
  const auto answer = pack::pack_outlines(pieces, strip.width / unit, options);
  bound = {answer.bound * unit, answer.bound_name};
  if (goal.to_buy(answer.length * unit) >= goal.to_buy(found.used)) return;
  found.used = answer.length * unit;
  for (std::size_t i = 0; i < rects.size(); ++i) {
    const auto& spot = answer.at[i];
    found.at[i] = {spot.by.u * unit, spot.by.v * unit, spot.way > 0};
  }
}

} // namespace treadfold::rows
