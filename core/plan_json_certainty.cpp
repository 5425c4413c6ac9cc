// How sure the cut is, for plan.json.
#include "plan_json_parts.h"

#include <cmath>

namespace treadfold::in_json {
namespace {

Json demand(const Demand& d) {
  return {{"need_mm", rounded(d.need)}, {"cut_mm", rounded(d.cut)}, {"deviation_mm", rounded(d.deviation)}};
}

double chance(double x) { return std::round(x * 1e9) / 1e9; }

Json piece_certainty(const PieceCertainty& c) {
  return {{"piece", c.piece},
          {"chance_short", chance(c.chance)},
          {"across", list(c.across, demand)},
          {"along", list(c.along, demand)}};
}

Json stair_certainty(const StairCertainty& c) {
  return {{"stair", c.stair},
          {"chance_any_short", chance(c.chance)},
          {"least_across_mm", mm(c.least_across)},
          {"least_along_mm", mm(c.least_along)},
          {"pieces", list(c.pieces, piece_certainty)}};
}

} // namespace

Json certainty(const Plan& plan) {
  const auto& t = plan.job.tolerances;
  return {{"tape_mm", mm(t.tape)},
          {"knife_mm", mm(t.knife)},
          {"spread_mm", mm(t.spread)},
          {"target", kShortChance},
          {"stairs", list(plan.certainty, stair_certainty)}};
}

} // namespace treadfold::in_json
