#include "plan.h"

#include "cover/handling.h"
#include "measure/runner_band.h"

#include <algorithm>
#include <cassert>
#include <deque>

namespace treadfold {

namespace {

const Carpet& carpet_of(const Job& job, const Piece& piece) {
  const auto found = std::find_if(job.carpets.begin(), job.carpets.end(),
                                  [&](const auto& c) { return c.id == piece.carpet; });
  return found != job.carpets.end() ? *found : job.carpets.front();
}

const Flight& flight_of(const Job& job, const Piece& piece) {
  return job.stairs[static_cast<std::size_t>(piece.stair_index)]
      .flights[static_cast<std::size_t>(piece.flight_index)];
}

/// Pieces that are judged together: of one flight, or one floor.
bool together(const Piece& a, const Piece& b) {
  return a.stair_index == b.stair_index && a.flight_index == b.flight_index && a.floor_index == b.floor_index;
}

} // namespace

std::vector<StairCertainty> certainty_of(const Plan& plan) {
  const auto& job = plan.job;
  std::vector<std::vector<PieceCertainty>> of_stairs(job.stairs.size());
  for (std::size_t i = 0; i < plan.pieces.size();) {
    const auto& first = plan.pieces[i].piece;
    std::vector<CoveredPiece> pieces;
    std::deque<std::vector<Step>> bands; // of a runner; stay where they are
    for (; i < plan.pieces.size() && together(plan.pieces[i].piece, first); ++i) {
      const auto& [piece, steps, proof] = plan.pieces[i];
      if (!proof.passed) continue;
      if (piece.runner && folds_round(flight_of(job, piece))) {
        pieces.push_back({piece, steps, &*flight_of(job, piece).runner});
        continue;
      }
      if (piece.runner) bands.push_back(runner_bands(flight_of(job, piece), piece.steps));
      pieces.push_back({piece, piece.runner ? bands.back() : steps});
    }
    const auto stair = static_cast<std::size_t>(first.stair_index);
    const auto style = first.flight_index < 0 ? CoverStyle::waterfall : flight_of(job, first).style;
    const auto allowances = allowances_for(job.allowances, carpet_of(job, first), job.strip);
    const CoverInput input{carpet_of(job, first), job.cushion.thickness, allowances, job.unit};
    for (auto& piece : certainty(pieces, style, input, job.tolerances))
      of_stairs[stair].push_back(std::move(piece));
  }
  std::vector<StairCertainty> all;
  for (std::size_t i = 0; i < of_stairs.size(); ++i)
    all.push_back(of_stair(job.stairs[i].name, std::move(of_stairs[i]), job.unit));
  return all;
}

} // namespace treadfold
