// Random steps whose tread is no rectangle: winders, kites, flared, out of square.
#pragma once

#include "steps.h"

#include "measure/tread_plan.h"

#include <cmath>
#include <numbers>

namespace treadfold::test {

/// In mm, in 64ths of an inch.
inline double any_mm(int low_in, int high_in) { return (*sixty_fourths(low_in * 64, high_in * 64)).mm(); }
/// In radians, in tenths of a degree.
inline double any_angle(int low_deg, int high_deg) {
  return *rc::gen::inRange(10 * low_deg, 10 * high_deg + 1) * std::numbers::pi / 1800;
}

/// From `foot`, at `lean` to the right of straight into the stair, `depth` deep.
inline std::vector<PlanPoint> leaning(double foot_x, double lean, double depth) {
  return {{foot_x, 0}, {foot_x + depth * std::tan(lean), depth}};
}

/// A closed side's corner of the walls, then along the other wall toward the next riser's far end.
inline void add_corner(std::vector<PlanPoint>& side, PlanPoint far) {
  const auto corner = side.back();
  const double run = (far.x - corner.x) * *rc::gen::inRange(5, 46) / 100;
  side.push_back({corner.x + run, corner.y + std::abs(run) * std::tan(any_angle(-30, 30))});
}

/// The nosing's bend lies in front of the side's first corner and of an open end's back corner; an open end
/// runs past the riser's end in front too,
/// and as far back as the bend.
inline bool can_be_built(const Step& step, Hand hand) {
  const auto line = side_line(step, hand),
             other = side_line(step, hand == Hand::left ? Hand::right : Hand::left);
  const auto& side = hand == Hand::left ? step.left : step.right;
  const double sign = hand == Hand::left ? -1 : 1, bend = (step.nosing.radius - step.nosing.projection).mm();
  const double room = inches(0, 1, 4).mm(), lean = sign * std::atan2(line[1].x - line[0].x, line[1].y);
  for (std::size_t i = 1; i < line.size(); ++i)
    if (line[i].y < std::max(0.0, bend) + room) return false;
  if (side.closed()) return true;
  const double front =
      step.nosing.projection.mm() + inches(1, 1, 2).mm(); // with the thickest pad and backing
  const double past = side.overhang.mm() / std::cos(lean);
  if (past < front * std::tan(lean) + room || past < -std::max(0.0, bend) * std::tan(lean) + room)
    return false;
  // Outward along the next riser's line to the end.
  const double back_x = sign * (line.back().x - other.back().x), back_y = line.back().y - other.back().y,
               slope = std::atan2(back_y, back_x);
  const double out = std::cos(lean) * std::cos(slope) - std::sin(lean) * std::sin(slope);
  if (out < 0.2) return false;
  const double q = side.return_past.mm(), e = side.overhang.mm();
  const double along = (e - q * (std::cos(lean) * -std::sin(slope) - std::sin(lean) * std::cos(slope))) / out;
  const double corner_y = line.back().y + q * std::cos(slope) + along * std::sin(slope);
  return corner_y > std::max(0.0, bend) + room;
}

/// A step like any other but for its plan: sides at up to 40° to the pile, the next riser at up to about 50°
/// to the riser, a closed side perhaps with a corner; less so where that could not be built.
inline Step any_plan_step(int number) {
  auto step = any_step(number);
  step.landing_edge = false;
  // A drop that is steep enough to be hung out of level.
  if (step.rise > step.nosing.thickness + step.nosing.projection + inches(1))
    step.fall_right = *sixty_fourths(-16, 16);
  const double width = any_mm(18, 60), left = any_angle(-40, 40), right = any_angle(-40, 40);
  const double one = any_mm(3, 40), other = any_mm(3, 40);
  const bool left_corner = *rc::gen::arbitrary<bool>(), right_corner = *rc::gen::arbitrary<bool>();
  for (const double share : {1.0, 0.6, 0.3, 0.1, 0.0}) {
    auto left_side = leaning(0, share * left, one),
         right_side = leaning(width, share * right, one + share * (other - one));
    const auto back = left_side.back(), far = right_side.back();
    // The sides do not meet in front of the nosing, nor the ends behind the next riser.
    const double reach = step.nosing.projection.mm() + inches(4).mm(), narrow = inches(4).mm(),
                 past = step.left.return_past.mm() + step.right.return_past.mm();
    const bool apart = width + reach * (std::tan(share * left) - std::tan(share * right)) > narrow &&
                       far.x - back.x + inches(6).mm() * (std::tan(share * right) - std::tan(share * left)) >
                           narrow + past &&
                       std::abs(far.y - back.y) < 1.2 * (far.x - back.x);
    if (!apart) continue;
    if (step.left.closed() && left_corner) add_corner(left_side, far);
    if (step.right.closed() && right_corner) add_corner(right_side, back);
    set_plan(step, left_side, right_side);
    if (can_be_built(step, Hand::left) && can_be_built(step, Hand::right)) return step;
  }
  RC_DISCARD("no plan");
}

} // namespace treadfold::test
