#include "breadth_choice.h"

#include <algorithm>
#include <tuple>

namespace treadfold {
namespace {

bool has_breadths(const Plan& covered, const Carpet& carpet) {
  return std::any_of(covered.pieces.begin(), covered.pieces.end(),
                     [&](const PlannedPiece& p) { return p.piece.carpet == carpet.id && p.piece.breadth; });
}

} // namespace

Job choose_breadths(Job job, const LayoutOptions& options) {
  const auto several = [](const Carpet& c) { return c.roll_widths.size() > 1; };
  if (std::none_of(job.carpets.begin(), job.carpets.end(), several)) return job;
  const auto widest = covered({job, {}});
  for (auto& carpet : job.carpets) {
    if (!several(carpet) || !has_breadths(widest, carpet)) continue;
    std::optional<Length> best;
    std::tuple<bool, double, std::size_t> least;
    for (const Length width : carpet.roll_widths) {
      carpet.breadths_for = width;
      const auto divided = covered({job, {}});
      const auto pieces = cut_pieces(divided, carpet);
      Problems problems;
      const auto layout = lay_out(pieces, carpet, options, problems);
      const std::tuple worth(has_errors(problems), layout.offers.empty() ? 0 : layout.offers.front().area_m2,
                             pieces.size());
      if (!best || worth < least) best = width, least = worth;
    }
    carpet.breadths_for = best;
  }
  return job;
}

} // namespace treadfold
