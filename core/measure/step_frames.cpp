#include "measure/step_frames.h"

#include "measure/tread_plan.h"
#include "units/steady.h"

#include <cmath>

namespace treadfold {

namespace {

constexpr double kNothing_mm = 25.4 / 32; // within what a tape reads

double back_length(const Step& step) {
  const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
  return steady::hypot(right.x - left.x, right.y - left.y);
}

} // namespace

BackGaps back_gaps(const Step& lower, const Step& upper) {
  const double spare = back_length(lower) - upper.width.mm();
  if (lower.left.closed() && upper.left.closed()) return {0, spare};
  if (lower.right.closed() && upper.right.closed()) return {spare, 0};
  return {spare / 2, spare / 2};
}

void set_free_backs(Flight& flight) {
  for (std::size_t i = 0; i + 1 < flight.steps.size(); ++i) {
    auto& step = flight.steps[i];
    const auto& above = flight.steps[i + 1];
    if (above.landing_edge || step.open_riser || step.starter) continue;
    const auto gaps = back_gaps(step, above);
    if (!step.left.closed() && gaps.left > kNothing_mm) step.free_back_left = from_mm(gaps.left);
    if (!step.right.closed() && gaps.right > kNothing_mm) step.free_back_right = from_mm(gaps.right);
  }
}

PlanPoint StepFrame::at(PlanPoint p) const {
  const double c = steady::cos(turn_rad), s = steady::sin(turn_rad);
  return {x + c * p.x - s * p.y, y + s * p.x + c * p.y};
}

std::vector<StepFrame> step_frames(const Flight& flight) {
  std::vector<StepFrame> frames;
  StepFrame frame;
  for (std::size_t i = 0; i < flight.steps.size(); ++i) {
    frames.push_back(frame);
    if (i + 1 == flight.steps.size()) break;
    const auto& step = flight.steps[i];
    const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
    const double dx = right.x - left.x, dy = right.y - left.y, back = steady::hypot(dx, dy);
    const double from = back_gaps(step, flight.steps[i + 1]).left / back;
    const auto start = frame.at({left.x + from * dx, left.y + from * dy});
    frame = {start.x, start.y, frame.z + step.rise.mm(), frame.turn_rad + steady::atan2(dy, dx)};
  }
  return frames;
}

} // namespace treadfold
