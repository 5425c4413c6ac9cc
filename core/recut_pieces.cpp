#include "recut_pieces.h"

#include "cover/floor.h"
#include "cover/section.h"

#include <algorithm>

#include <fmt/format.h>

namespace treadfold {

namespace {

const PlannedPiece& planned_piece(const Plan& plan, const std::string& id) {
  return *std::find_if(plan.pieces.begin(), plan.pieces.end(),
                       [&](const PlannedPiece& p) { return p.piece.id == id; });
}

const Flight& flight_of(const Plan& plan, const Piece& piece) {
  return plan.job.stairs[static_cast<std::size_t>(piece.stair_index)]
      .flights[static_cast<std::size_t>(piece.flight_index)];
}

/// The job with every step a piece of its own.
Job step_by_step(Job job) {
  for (auto& stair : job.stairs)
    for (auto& flight : stair.flights)
      flight.join = 1;
  return job;
}

bool can_be_seamed(const PlannedPiece& planned, const Flight& flight) {
  const auto& piece = planned.piece;
  if (planned.steps.size() != 1 || piece.runner || !piece.openings.empty()) return false;
  const auto& step = planned.steps.front();
  return flight.style == CoverStyle::wrapped && step.rectangular() && !step.landing_edge && !step.starter &&
         !step.open_riser && step.left.kind != SideKind::open && step.right.kind != SideKind::open &&
         step.nosing.projection > Length{};
}

} // namespace

std::vector<Replaced> without_joins(const Plan& plan, const Carpet& carpet,
                                    const std::vector<std::string>& pieces) {
  std::vector<std::string> joined;
  for (const auto& id : pieces) {
    const auto& planned = planned_piece(plan, id);
    if (planned.steps.size() > 1 && !planned.piece.runner) joined.push_back(id);
  }
  if (joined.empty()) return {};
  const auto single = covered({step_by_step(plan.job), {}});
  const auto all = cut_pieces(single, carpet);
  std::vector<Replaced> replaced;
  for (const auto& id : joined) {
    const auto& whole = planned_piece(plan, id).piece;
    Replaced r{id, {}};
    for (const auto& planned : single.pieces) {
      const auto& part = planned.piece;
      const bool within =
          part.stair_index == whole.stair_index && part.flight_index == whole.flight_index &&
          part.steps.size() == 1 &&
          std::find(whole.steps.begin(), whole.steps.end(), part.steps.front()) != whole.steps.end();
      const auto cut =
          std::find_if(all.begin(), all.end(), [&](const CutPiece& c) { return c.id == part.id; });
      if (within && cut != all.end()) r.by.push_back(*cut);
    }
    if (r.by.size() == whole.steps.size()) replaced.push_back(std::move(r));
  }
  return replaced;
}

std::vector<Replaced> seamed_under_nosings(const Plan& plan, const std::vector<CutPiece>& pieces) {
  std::vector<Replaced> replaced;
  const auto grid = cut_step(plan.job.unit);
  for (const auto& piece : pieces) {
    const auto& planned = planned_piece(plan, piece.id);
    if (planned.steps.empty()) continue;
    const auto& flight = flight_of(plan, planned.piece);
    if (!can_be_seamed(planned, flight)) continue;
    const auto carpet = std::find_if(plan.job.carpets.begin(), plan.job.carpets.end(),
                                     [&](const Carpet& c) { return c.id == planned.piece.carpet; });
    const auto section = section_of(
        {planned.steps.front(), flight.style, plan.job.cushion.thickness.mm(), carpet->backing.mm()});
    if (!section.under) continue;
    const Length seam = planned.piece.trim_back + from_mm_up(section.v_inner - planned.piece.net_origin.v);
    auto tread = piece, riser = piece;
    tread.id += " tread", riser.id += " riser";
    tread.length = ceil_to(seam + kSeamTrim, grid);
    const Length cut_at = floor_to(seam - kSeamTrim, grid); // where the riser's begins in the whole piece
    riser.length = piece.length - cut_at;
    riser.phase_v = piece.phase_v - cut_at;
    replaced.push_back({piece.id, {tread, riser}});
  }
  return replaced;
}

} // namespace treadfold
