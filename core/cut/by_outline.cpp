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

} // namespace

void search_outlines(const std::vector<Rect>& rects, const RectOutlines& outlines, const Strip& strip,
                     const Goal& goal, Found& found, Bound& bound) {
  if (strip.repeat || !strip.loose.empty() || rects.size() > kMostPieces ||
      std::all_of(outlines.begin(), outlines.end(), [](const auto& o) { return o.empty(); }))
    return;
  Ticks unit = 0, all = 0;
  std::vector<pack::OutlinePiece> pieces;
  for (std::size_t i = 0; i < rects.size(); ++i) {
    const auto& r = rects[i];
    auto& ring = pieces.emplace_back().ways.emplace_back().ring;
    for (const auto& c : outlines[i])
      ring.push_back({c.u, c.v});
    if (ring.empty()) ring = {{0, 0}, {r.w, 0}, {r.w, r.l}, {0, r.l}};
    for (const auto& c : ring)
      unit = std::gcd(std::gcd(unit, c.u), c.v);
    all += r.l;
  }
  if (unit == 0 || strip.width / unit + all / unit > kLongest) return;
  for (auto& piece : pieces)
    for (auto& c : piece.ways.front().ring)
      c = {c.u / unit, c.v / unit};
  pack::OutlineOptions options;
  options.work = goal.work * kStepsPerWork, options.seed = goal.seed;
  const auto answer = pack::pack_outlines(pieces, strip.width / unit, options);
  bound = {answer.bound * unit, answer.bound_name};
  if (goal.to_buy(answer.length * unit) >= goal.to_buy(found.used)) return;
  found.used = answer.length * unit;
  for (std::size_t i = 0; i < rects.size(); ++i)
    found.at[i] = {answer.at[i].by.u * unit, answer.at[i].by.v * unit};
}

} // namespace treadfold::rows
