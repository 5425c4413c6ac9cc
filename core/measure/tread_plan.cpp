#include "measure/tread_plan.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace treadfold {

std::vector<PlanPoint> side_line(const Step& step, Hand hand) {
  if (!step.rectangular()) return hand == Hand::left ? step.left_side : step.right_side;
  const double x = hand == Hand::left ? 0 : step.width.mm();
  return {{x, 0}, {x, step.going.mm()}};
}

double side_x(const std::vector<PlanPoint>& line, double y) {
  assert(line.size() >= 2);
  const auto &a = line[0], &b = line[1];
  return a.x + (b.x - a.x) * (y - a.y) / (b.y - a.y);
}

void set_plan(Step& step, std::vector<PlanPoint> left_side, std::vector<PlanPoint> right_side) {
  assert(left_side.size() >= 2 && right_side.size() >= 2);
  double deepest = 0;
  for (const auto* side : {&left_side, &right_side})
    for (const auto& p : *side)
      deepest = std::max(deepest, p.y);
  step.width = from_mm(right_side.front().x - left_side.front().x);
  step.going = from_mm_up(deepest);
  step.left_side = std::move(left_side);
  step.right_side = std::move(right_side);
}

} // namespace treadfold
