#include "cut/motif_layout.h"

#include <algorithm>

namespace treadfold::rows {
namespace {

constexpr int kRounds = 12;

MotifBox motifs_of(const std::vector<Rect>& rects, const std::vector<Spot>& at, std::size_t groups) {
  const Motifs none(groups, 0);
  MotifBox box{none, none, none, none};
  for (std::size_t i = 0; i < rects.size(); ++i)
    if (rects[i].match >= 0) {
      const auto g = static_cast<std::size_t>(rects[i].match);
      box.u[g] = at[i].u + rects[i].phase_u, box.v[g] = at[i].v + rects[i].phase_v;
    }
  return box;
}

/// Beside or behind what is laid, or none.
std::optional<Spot> place_beside(const Rect& r, const std::vector<LoosePart>& laid, Ticks width,
                                 Ticks limit) {
  std::vector<Ticks> us{0, width - r.w}, vs{0};
  for (const auto& part : laid)
    us.push_back(part.u + part.w), us.push_back(part.u - r.w), vs.push_back(part.v + part.l);
  for (const Ticks v : vs)
    for (const Ticks u : us)
      if (u >= 0 && u + r.w <= width && v + r.l <= limit &&
          std::none_of(laid.begin(), laid.end(), [&](const LoosePart& part) {
            return part.u < u + r.w && u < part.u + part.w && part.v < v + r.l && v < part.v + part.l;
          }))
        return Spot{u, v};
  return {};
}

/// As many of each kind as there are, and beside them the pieces that may lie anywhere.
std::optional<std::vector<Spot>> layout_of(const std::vector<Rect>& rects,
                                           const std::vector<MotifKind>& kinds,
                                           const std::vector<MotifSweep::Lying>& lying, Ticks width,
                                           Ticks limit) {
  std::vector<Spot> at(rects.size());
  std::vector<LoosePart> laid;
  std::vector<std::size_t> used(kinds.size());
  for (const auto& one : lying) {
    const auto& kind = kinds[one.kind];
    if (kind.group < 0 || used[one.kind] == kind.pieces.size()) continue;
    at[kind.pieces[used[one.kind]++]] = {one.u, one.v};
    laid.push_back({one.u, one.v, kind.w(), kind.l()});
  }
  for (std::size_t i = 0; i < rects.size(); ++i) {
    if (rects[i].match >= 0) continue;
    const auto place = place_beside(rects[i], laid, width, limit);
    if (!place) return {};
    at[i] = *place;
    laid.push_back({place->u, place->v, rects[i].w, rects[i].l});
  }
  return at;
}

} // namespace

std::optional<std::vector<Spot>> lay_on_motifs(const std::vector<Rect>& rects, const Strip& strip,
                                               const std::vector<Spot>& at, Ticks limit,
                                               MotifSweep::Effort& effort) {
  if (rects.size() > kMostPiecesOnMotifs) return {};
  const auto kinds = motif_kinds(rects, *strip.repeat);
  if (MotifSweep::places(kinds, strip.width, *strip.repeat, limit) > MotifSweep::kMostPlaces) return {};
  const MotifSweep sweep(kinds, strip.width, *strip.repeat, motifs_of(rects, at, strip.motif_places.size()),
                         limit);
  auto weights = by_area(kinds);
  const std::int64_t enough = sweep.steps_of_a_state() * static_cast<std::int64_t>(effort.most_states);
  for (int round = 0; round < kRounds && effort.steps + enough <= effort.most_steps; ++round) {
    const auto shortest = sweep.shortest(weights, in_all(kinds, weights), effort);
    if (!shortest) return {};
    const auto wanting = missing(kinds, shortest->at);
    if (std::all_of(wanting.begin(), wanting.end(), [](int number) { return number <= 0; }))
      return layout_of(rects, kinds, shortest->at, strip.width, limit);
    move_towards(wanting, kinds, round, weights);
  }
  return {};
}

} // namespace treadfold::rows
