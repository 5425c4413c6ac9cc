#include "measure/step_frames.h"

#include "measure/tread_plan.h"

#include <cmath>

namespace treadfold {

namespace {

/// How far from the left end of the lower tread's back the upper riser begins.
double offset(const Step& lower, const Step& upper, double back) {
  const double spare = back - upper.width.mm();
  if (lower.left.closed() && upper.left.closed()) return 0;
  if (lower.right.closed() && upper.right.closed()) return spare;
  return spare / 2;
}

} // namespace

PlanPoint StepFrame::at(PlanPoint p) const {
  const double c = std::cos(turn_rad), s = std::sin(turn_rad);
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
    const double dx = right.x - left.x, dy = right.y - left.y, back = std::hypot(dx, dy);
    const double from = offset(step, flight.steps[i + 1], back) / back;
    const auto start = frame.at({left.x + from * dx, left.y + from * dy});
    frame = {start.x, start.y, frame.z + step.rise.mm(), frame.turn_rad + std::atan2(dy, dx)};
  }
  return frames;
}

} // namespace treadfold
