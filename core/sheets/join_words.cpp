#include "sheets/join_words.h"

#include "buy/quantity.h"
#include "units/words.h"

#include <algorithm>

#include <fmt/format.h>

namespace treadfold {

namespace {

/// "3, 3, 2" from the top down; several flights by name: "lower 3, 2; upper 2".
std::string sizes_in_words(const Plan& plan, const std::string& carpet) {
  std::vector<std::string> flights;
  for (const auto& stair : plan.job.stairs)
    for (const auto& flight : stair.flights) {
      if (!flight.join_at_most || flight.carpet != carpet) continue;
      std::vector<std::string> sizes{};
      for (const auto& planned : plan.pieces)
        if (planned.piece.flight == flight.name && planned.piece.flight_index >= 0 && planned.piece.part < 0)
          sizes.push_back(fmt::format("{}", planned.steps.size()));
      flights.push_back(joined(sizes));
      if (plan.job.stairs.size() > 1 || stair.flights.size() > 1) flights.back().insert(0, flight.name + " ");
    }
  return joined(flights, "; ");
}

} // namespace

std::string joins_in_words(const Plan& plan, const Layout& layout) {
  const auto singly = std::find_if(plan.singly.begin(), plan.singly.end(),
                                   [&](const StepsSingly& s) { return s.carpet == layout.carpet; });
  if (singly == plan.singly.end()) return {};
  const auto unit = plan.job.unit;
  Length width = singly->width, to_buy;
  for (const auto& roll : layout.rolls)
    if (!roll.remnant) width = roll.width, to_buy += roll.length_to_buy;
  const bool same_width = width == singly->width;
  std::string saved = "as much to order as with every step on its own";
  if (same_width && to_buy < singly->to_buy)
    saved = fmt::format("{} less to order than with every step on its own",
                        show_length(singly->to_buy - to_buy, unit, true));
  else if (!same_width)
    saved = fmt::format("with every step on its own, the order would be {} of the roll {} = {}",
                        show_length(singly->to_buy, unit, true), show_length(singly->width, unit, true),
                        show_area(area(singly->width, singly->to_buy), unit));
  const bool joins = std::any_of(plan.pieces.begin(), plan.pieces.end(), [&](const PlannedPiece& p) {
    return p.steps.size() > 1 && p.piece.carpet == layout.carpet && !p.piece.runner;
  });
  if (!joins) return " Every step is on its own: no way of joining them that was tried orders less.";
  return fmt::format(" Steps joined {}: {}.", sizes_in_words(plan, layout.carpet), saved);
}

} // namespace treadfold
