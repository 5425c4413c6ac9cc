// Where flights meet landings, and whether one piece covers both.

#include "job/read_parts.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

std::optional<Arrival> read_arrival(ObjectReader& flight) {
  const Node* node = flight.find("landing");
  if (!node) return {};
  Context& context = flight.context();
  ObjectReader o(context, *node, flight.at("landing"));
  Arrival a;
  a.where = o.where();
  a.floor = o.name("floor");
  const auto from_left = o.length("from_left", {Length{}, kFoot * 60});
  a.joined = o.boolean_or("joined", false);
  if (a.floor.empty() || !from_left) return {};
  a.from_left = *from_left;
  return a;
}

namespace {

/// Judged by the rectangle around it.
bool reaches_into_edge(const FloorOpening& opening, const Arrival& arrival, const Step& top) {
  const auto& corners = opening.corners;
  const auto [left, right] =
      std::minmax_element(corners.begin(), corners.end(), [](auto a, auto b) { return a.x < b.x; });
  const auto front =
      std::min_element(corners.begin(), corners.end(), [](auto a, auto b) { return a.y < b.y; });
  return left->x < (arrival.from_left + top.width).mm() && right->x > arrival.from_left.mm() &&
         front->y < (top.going + kInch).mm();
}

void check_arrival(Context& context, const Stair& stair, const Flight& flight) {
  const auto& arrival = *flight.arrival;
  const auto& top = flight.steps.back();
  const auto refuse = [&](const char* key, std::string found, std::string expected) {
    context.findings.error(pointer_to(arrival.where, key), std::move(found), std::move(expected));
  };
  const auto show = [&](Length x) { return show_length(x, context.unit); };
  const auto floor = std::find_if(stair.floors.begin(), stair.floors.end(),
                                  [&](const auto& f) { return f.name == arrival.floor; });
  if (floor == stair.floors.end())
    return refuse("floor", in_quotes(arrival.floor), "the name of a floor of this stair");
  if (floor->corners.size() < 4) return; // said where it was read
  const Length front = from_mm(floor->corners[1].x);
  if (arrival.from_left + top.width > front + inches(0, 1, 16))
    refuse("from_left",
           fmt::format("a riser {} wide, {} from the floor's left end", show(top.width),
                       show(arrival.from_left)),
           fmt::format("one that ends within the floor's front, {}", show(front)));
  if (floor->carpet != flight.carpet && arrival.joined)
    refuse(
        "joined",
        fmt::format("a flight of {} and a floor of {}", in_quotes(flight.carpet), in_quotes(floor->carpet)),
        "one carpet on both, or a seam");
  if (arrival.joined && (!top.left.closed() || !top.right.closed()))
    refuse("joined", "an open side at the top step",
           "walls or skirts at its sides; beside an open end the landing is seamed");
  if (arrival.joined && !floor->openings.empty())
    refuse("joined", fmt::format("a floor with an opening, {}", in_quotes(floor->openings.front().name)),
           "a floor without, or a seam");
  for (const auto& opening : floor->openings)
    if (!arrival.joined && reaches_into_edge(opening, arrival, top))
      refuse(
          "floor",
          fmt::format("{} reaches into the landing edge, {} deep", in_quotes(opening.name), show(top.going)),
          "openings behind it");
  double least_depth = 1e300; // where the landing edge is cut out
  for (std::size_t i = 2; i < floor->corners.size(); ++i)
    least_depth = std::min(least_depth, floor->corners[i].y);
  if (!arrival.joined && from_mm(least_depth) <= top.going + inches(1))
    refuse("floor",
           fmt::format("a landing {} deep behind an edge of {}", show(from_mm(least_depth)), show(top.going)),
           "a deeper one, or 'joined': true");
}

} // namespace

void check_arrivals(Context& context, const Stair& stair) {
  std::vector<std::string> joined;
  for (const auto& flight : stair.flights) {
    if (!flight.arrival || flight.steps.empty()) continue;
    check_arrival(context, stair, flight);
    if (!flight.arrival->joined) continue;
    if (std::find(joined.begin(), joined.end(), flight.arrival->floor) != joined.end())
      context.findings.error(pointer_to(flight.arrival->where, "joined"),
                             fmt::format("a second flight joined to {}", in_quotes(flight.arrival->floor)),
                             "one; the others are seamed");
    joined.push_back(flight.arrival->floor);
  }
}

} // namespace treadfold
