#include "measure/runner_band.h"

#include "measure/step_frames.h"
#include "measure/tread_plan.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace treadfold {

namespace {

constexpr Length kCreaseTakesUp = inches(0, 1, 16);

/// How much further in the next riser's right end lies than its left, a millimetre across.
double slope(const Step& step) {
  const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
  return (right.y - left.y) / (right.x - left.x);
}

/// The point of the step's back `x` along it from its left end.
PlanPoint on_back(const Step& step, double x) {
  const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
  const double far = steady::hypot(right.x - left.x, right.y - left.y);
  return {left.x + x / far * (right.x - left.x), left.y + x / far * (right.y - left.y)};
}

using Line = std::vector<PlanPoint>;

StepBand part(const Step& step, Length from, Length to, const Line& left, const Line& right) {
  StepBand band{step, from};
  band.step.left_side.clear();
  band.step.right_side.clear();
  band.step.width = to - from;
  // A foot that falls by no more than a crease takes up is taken at the middle.
  band.step.rise += from_mm(step.fall_right.mm() * (from + to).mm() / 2 / step.width.mm());
  band.step.fall_right = band.step.free_back_left = band.step.free_back_right = Length{};
  band.step.uprights.clear();
  if (to <= from || (left.back().x == left.front().x && right.back().x == right.front().x &&
                     left.back().y == right.back().y && left.size() == 2 && right.size() == 2)) {
    band.step.going = from_mm(left.back().y);
    return band;
  }
  const auto moved = [&](Line line) {
    for (auto& p : line)
      p.x -= from.mm();
    return line;
  };
  set_plan(band.step, moved(left), moved(right));
  return band;
}

/// `behind`: where the runner lies on the step's back, from its left end.
RunnerStep runner_step(const Step& step, const Runner& runner, Length left, Length behind) {
  const auto right = left + runner.width;
  RunnerStep r;
  r.turns = turns(step, runner.width);
  r.narrow_left = r.turns && slope(step) > 0;
  r.left_behind = r.turns ? behind : left - from_mm(side_line(step, Hand::left).back().x);
  Line left_edge{{left.mm(), 0}}, right_edge{{right.mm(), 0}};
  if (r.turns) {
    left_edge.push_back(on_back(step, behind.mm()));
    right_edge.push_back(on_back(step, (behind + runner.width).mm()));
  } else {
    const auto end = side_line(step, Hand::left).back();
    const double middle = (left.mm() + right.mm()) / 2, y = end.y + slope(step) * (middle - end.x);
    left_edge.push_back({left.mm(), y});
    right_edge.push_back({right.mm(), y});
  }
  r.under = part(step, left, right, left_edge, right_edge);
  r.under.step.left = r.under.step.right = Side{};
  r.bare_left = part(step, {}, left, side_line(step, Hand::left), left_edge);
  r.bare_left.step.right = Side{};
  r.bare_right = part(step, right, step.width, right_edge, side_line(step, Hand::right));
  r.bare_right.step.left = Side{};
  return r;
}

} // namespace

bool turns(const Step& step, Length runner_width) {
  return std::abs(slope(step)) * runner_width.mm() > kCreaseTakesUp.mm();
}

bool folds_round(const Flight& flight) {
  return flight.runner && flight.runner->turn == RunnerTurn::fold &&
         std::any_of(flight.steps.begin(), flight.steps.end(),
                     [&](const Step& s) { return turns(s, flight.runner->width); });
}

Length narrowest_straight(const Flight& flight, Length runner_width) {
  std::optional<Length> straight, any;
  for (const auto& step : flight.steps) {
    any = std::min(any.value_or(step.width), step.width);
    if (!turns(step, runner_width)) straight = std::min(straight.value_or(step.width), step.width);
  }
  return straight.value_or(any.value_or(Length{}));
}

std::vector<RunnerStep> runner_steps(const Flight& flight) {
  assert(flight.runner);
  const auto& runner = *flight.runner;
  const auto exposed_right = narrowest_straight(flight, runner.width) - runner.width - runner.exposed_left;
  std::vector<RunnerStep> steps(flight.steps.size());
  Length behind = runner.exposed_left;
  for (std::size_t i = steps.size(); i-- > 0;) {
    const auto& step = flight.steps[i];
    const bool top = i + 1 == steps.size(), turning = turns(step, runner.width);
    if (!top) behind = steps[i + 1].under.left + from_mm(back_gaps(step, flight.steps[i + 1]).left);
    Length left = runner.exposed_left;
    if (turning && slope(step) < 0)
      left = step.width - exposed_right - runner.width;
    else if (!turning && !top && !steps[i + 1].turns)
      left = behind + from_mm(side_line(step, Hand::left).back().x);
    steps[i] = runner_step(step, runner, left, behind);
  }
  return steps;
}

bool lies_on(const Step& step, const RunnerStep& runner) {
  // Nearer than that an edge that leans might as well be on the wall.
  const double least = step.rectangular() ? -1e-6 : kLeastBare.mm(), by = runner.under.left.mm();
  // Over the nosing the carpet stands out by the pad besides, 1 1/2 in at most with its backing.
  for (const double y : {0.0, -(step.nosing.projection + inches(1, 1, 2)).mm()}) {
    const auto x = [&](const Step& of, Hand hand) { return side_x(side_line(of, hand), y); };
    if (by + x(runner.under.step, Hand::left) - x(step, Hand::left) < least ||
        x(step, Hand::right) - by - x(runner.under.step, Hand::right) < least)
      return false;
  }
  const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
  const double behind = runner.left_behind.mm(), far = steady::hypot(right.x - left.x, right.y - left.y),
               runner_width = runner.under.step.width.mm();
  return behind >= least && far - behind - runner_width >= least;
}

std::vector<Step> runner_bands(const Flight& flight, const std::vector<int>& numbers) {
  const auto all = runner_steps(flight);
  std::vector<Step> bands;
  for (const int number : numbers)
    bands.push_back(all[static_cast<std::size_t>(number - 1)].under.step);
  return bands;
}

} // namespace treadfold
