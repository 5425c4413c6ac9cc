#include "measure/step_front.h"

#include <fmt/format.h>

#include <utility>

namespace treadfold {

namespace {

constexpr Length kLeastProjection = inches(0, 1, 4); // about a backing: less cannot be turned under

Problems unfit(const Step& step, const FrontReadings& readings) {
  Problems problems;
  const auto refuse = [&](bool there, const std::string& found, const std::string& expected) {
    if (there) problems.push_back({Severity::error, readings.where, found, expected});
  };
  const auto projection = step.nosing.projection;
  refuse(projection > Length{} && projection < kLeastProjection,
         "a curved front with a projection of " + show_length(projection, readings.unit),
         "none, or " + show_length(kLeastProjection, readings.unit) +
             " or more, so that carpet can be turned under it");
  refuse(!step.rectangular(), "a curved front on a tread that is no rectangle",
         "going and width: the next riser square to its sides");
  refuse(step.nosing.bevel > Length{}, "a curved front with a bevelled nosing",
         "a square or a half-round nosing");
  refuse(step.fall_right != Length{}, "a curved front over a floor that is out of level",
         "one rise from end to end");
  refuse(step.open_riser, "a curved front without a riser", "a riser below it");
  refuse(step.landing_edge, "a curved front on the topmost step", "a step with a tread");
  return problems;
}

} // namespace

Problems set_front(Step& step, Starter starter) {
  const auto& where = starter.readings.where;
  auto problems = unfit(step, starter.readings);
  if (has_errors(problems)) return problems;
  auto solved =
      solve_front(starter.readings, {step.width, step.going, step.nosing.projection, step.nosing.radius});
  if (!solved.front) return solved.problems;
  starter.front = std::move(*solved.front);
  const auto reach = reach_of(starter.front, step.width.mm());
  const auto set_side = [&](Side& side, EdgeStop stop, double past, const char* hand) {
    if (stop != EdgeStop::wall)
      side = {SideKind::open, from_mm(past), {}};
    else if (!side.closed())
      solved.problems.push_back({Severity::error, where,
                                 fmt::format("a front that runs to a wall at the {}, which is open", hand),
                                 "a round there, or a wall or skirt at that side"});
  };
  auto left = step.left, right = step.right;
  set_side(left, starter.front.left, reach.left, "left");
  set_side(right, starter.front.right, reach.right, "right");
  if (has_errors(solved.problems)) return solved.problems;
  step.left = left;
  step.right = right;
  step.starter = std::move(starter);
  return solved.problems;
}

} // namespace treadfold
