#include "measure/winder.h"

#include "measure/tread_plan.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

constexpr double kTangent5 = 0.087488663525924; // of 5°

double length_of(const std::vector<PlanPoint>& line) {
  double length = 0;
  for (std::size_t i = 1; i < line.size(); ++i)
    length += steady::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
  return length;
}

PlanPoint nosing_end(const Step& step, Hand hand) {
  const double y = -step.nosing.projection.mm();
  return {side_x(side_line(step, hand), y), y};
}

PlanPoint toward(PlanPoint from, PlanPoint to, double distance) {
  const double length = steady::hypot(to.x - from.x, to.y - from.y);
  return {from.x + distance / length * (to.x - from.x), from.y + distance / length * (to.y - from.y)};
}

} // namespace

bool winds(const Step& step) {
  if (step.rectangular() || step.landing_edge) return false;
  const auto &left = step.left_side.back(), &right = step.right_side.back();
  return std::abs(right.y - left.y) > kTangent5 * (right.x - left.x);
}

Length winder_depth(const Step& step, Length next_projection, Length from_narrow) {
  const bool left_narrow = length_of(step.left_side) < length_of(step.right_side);
  const auto narrow = left_narrow ? Hand::left : Hand::right, wide = left_narrow ? Hand::right : Hand::left;
  const auto on_this = toward(nosing_end(step, narrow), nosing_end(step, wide), from_narrow.mm());
  // The next nosing lies before its riser.
  const auto left = step.left_side.back(), right = step.right_side.back();
  const double back = steady::hypot(right.x - left.x, right.y - left.y), o = next_projection.mm();
  const PlanPoint before{o * (right.y - left.y) / back, -o * (right.x - left.x) / back};
  const auto from = left_narrow ? left : right, to = left_narrow ? right : left;
  const auto on_riser = toward(from, to, from_narrow.mm());
  return from_mm(steady::hypot(on_riser.x + before.x - on_this.x, on_riser.y + before.y - on_this.y));
}

Length nosing_length(const Step& step) {
  return from_mm(nosing_end(step, Hand::right).x - nosing_end(step, Hand::left).x);
}

Length shallowest(const Step& step) {
  return from_mm(std::min(step.left_side.back().y, step.right_side.back().y));
}

} // namespace treadfold
