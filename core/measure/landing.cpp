#include "measure/landing.h"

#include "measure/tread_plan.h"
#include "units/steady.h"

namespace treadfold {

namespace {

constexpr double kSame_mm = 0.05;

bool same(PlanPoint a, PlanPoint b) { return steady::hypot(a.x - b.x, a.y - b.y) < kSame_mm; }

void add(std::vector<PlanPoint>& path, PlanPoint p) {
  if (path.empty() || !same(path.back(), p)) path.push_back(p);
}

} // namespace

Step landing_step(const Step& edge, const Floor& floor, const Arrival& arrival) {
  const auto& corners = floor.corners;
  const std::size_t n = corners.size();
  std::size_t back = 2; // the edge opposite, from corner `back` to the next: the deepest
  const auto depth = [&](std::size_t i) { return corners[i].y + corners[i + 1].y; };
  for (std::size_t i = 2; i + 1 < n; ++i)
    if (depth(i) > depth(back)) back = i;

  const double at = arrival.from_left.mm();
  const auto moved = [&](std::size_t i) { return PlanPoint{corners[i].x - at, corners[i].y}; };
  std::vector<PlanPoint> right{{edge.width.mm(), 0}}, left{{0, 0}};
  for (std::size_t i = 1; i <= back; ++i)
    add(right, moved(i));
  add(left, moved(0));
  for (std::size_t i = n - 1; i > back; --i)
    add(left, moved(i));
  Step step = edge;
  set_plan(step, std::move(left), std::move(right));
  return step;
}

Floor without_edge(const Floor& floor, const Step& edge, const Arrival& arrival) {
  const double from = arrival.from_left.mm(), to = (arrival.from_left + edge.width).mm(),
               depth = edge.going.mm();
  const auto& corners = floor.corners;
  Floor rest = floor;
  rest.corners.clear();
  if (!same(corners[0], {from, 0})) rest.corners = {corners[0], {from, 0}};
  rest.corners.push_back({from, depth});
  rest.corners.push_back({to, depth});
  if (!same(corners[1], {to, 0})) rest.corners.insert(rest.corners.end(), {{to, 0}, corners[1]});
  rest.corners.insert(rest.corners.end(), corners.begin() + 2, corners.end());
  return rest;
}

} // namespace treadfold
