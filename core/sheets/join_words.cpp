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
  const Reader reader = plan.job.reader();
  const bool joins = std::any_of(plan.pieces.begin(), plan.pieces.end(), [&](const PlannedPiece& p) {
    return p.steps.size() > 1 && p.piece.carpet == layout.carpet && !p.piece.runner;
  });
  if (!joins) return reader.say("Every step is on its own: no joining of them that was tried orders less.");
  const auto shown = [&](Length x) { return show_length(x, reader, true); };
  const auto sizes = sizes_in_words(plan, layout.carpet);
  Length width = singly->width, to_buy;
  for (const auto& roll : layout.rolls)
    if (!roll.remnant) width = roll.width, to_buy += roll.length_to_buy;
  if (width != singly->width)
    return reader.say("Steps joined {}: on their own, the order would be {} of the roll {} = {}.", sizes,
                      shown(singly->to_buy), shown(singly->width),
                      reader.said(show_area(area(singly->width, singly->to_buy), reader)));
  if (to_buy < singly->to_buy)
    return reader.say("Steps joined {}: {} less to order than every step on its own.", sizes,
                      shown(singly->to_buy - to_buy));
  return reader.say("Steps joined {}: as much to order as every step on its own.", sizes);
}

} // namespace treadfold
