#include "cover/drop.h"

#include "cover/space.h"
#include "units/steady.h"

#include <cmath>

namespace treadfold {

namespace {

/// The waterfall's corners in space, in the step's frame, by side: at the nosing, and in the crotch.
struct Corners {
  Point3 nose[2], foot[2];
};

Corners corners_of(const StepPart& part) {
  const auto& s = part.section;
  const double leave_y = y_at(s, s.v_leave), leave_z = s.low_z - s.low_radius * steady::sin(s.turn);
  // The section is that of the deeper end.
  const double length = s.v_foot - s.v_leave, back = leave_y + s.half_backing;
  const double fall = part.step.fall_right.mm(),
               deep_z = leave_z - std::sqrt(std::max(0.0, length * length - back * back));
  Corners c;
  for (const bool right : {false, true}) {
    const auto& side = right ? part.right : part.left;
    const bool deep = right == (fall > 0);
    const auto x = [&](double v) {
      const double out = side_point(side, s, v).u;
      return side.frame.riser_end_u + (right ? out : -out);
    };
    c.nose[right] = {x(s.v_leave), leave_y, leave_z};
    c.foot[right] = {x(s.v_foot), -s.half_backing, deep_z + (deep ? 0 : std::abs(fall))};
  }
  return c;
}

/// The point at distance `to_a` from `a` and `to_b` from `b`, on the side of greater v.
FlatPoint third_corner(FlatPoint a, double to_a, FlatPoint b, double to_b) {
  const double d = distance_mm(a, b), along = (to_a * to_a - to_b * to_b + d * d) / (2 * d);
  const double off = std::sqrt(std::max(0.0, to_a * to_a - along * along));
  const double du = (b.u - a.u) / d, dv = (b.v - a.v) / d, sign = du > 0 ? 1 : -1;
  return {a.u + along * du - sign * off * dv, a.v + along * dv + sign * off * du};
}

} // namespace

FlatPoint side_point(const StepSide& side, const Section& s, double v) {
  if (side.wrap || side.plan.straight()) return {0, v};
  return {side.plan.x(y_at(s, v)), v};
}

void set_foot(StepPart& part) {
  const auto& s = part.section;
  for (auto* side : {&part.left, &part.right})
    side->foot = side_point(*side, s, s.v_foot);
  const double fall = part.step.fall_right.mm();
  if (fall == 0) return;
  auto &deep = fall > 0 ? part.right : part.left, &shallow = fall > 0 ? part.left : part.right;
  if (s.under) {
    shallow.foot.v -= std::abs(fall);
    return;
  }
  const auto c = corners_of(part);
  const bool right = fall > 0; // the deep side
  const auto nose = shallow.frame.at({side_point(shallow, s, s.v_leave)})[0],
             foot = deep.frame.at({deep.foot})[0];
  const auto third =
      third_corner(nose, norm(c.foot[!right] - c.nose[!right]), foot, norm(c.foot[!right] - c.foot[right]));
  shallow.foot = {shallow.frame.right ? third.u - shallow.frame.riser_end_u
                                      : shallow.frame.riser_end_u - third.u,
                  third.v - shallow.frame.v0};
}

int add_drop(PieceBuilder& builder, const StepPart& part, const char* name, double from, int parent,
             Turn turn) {
  const auto& s = part.section;
  const int number = part.step.number;
  const auto at = [](const StepSide& side, FlatPoint p) { return side.frame.at({p})[0]; };
  const auto left = at(part.left, side_point(part.left, s, from)),
             right = at(part.right, side_point(part.right, s, from));
  const auto foot_left = at(part.left, part.left.foot), foot_right = at(part.right, part.right.foot);
  const double fall = part.step.fall_right.mm();
  if (fall == 0 || s.under)
    return builder.face(name, number, {right, foot_right, foot_left, left}, parent, left, right, turn);

  const auto c = corners_of(part);
  const bool deep = fall > 0; // right
  const auto normal = [](Point3 a, Point3 b, Point3 p) {
    const auto n = cross(b - a, p - a);
    return (n[1] < 0 ? 1 : -1) / norm(n) * n; // the pile's side is forward
  };
  const auto first = normal(c.nose[0], c.nose[1], c.foot[deep]),
             second = normal(c.nose[!deep], c.foot[!deep], c.foot[deep]);
  const double back = dot(c.foot[!deep] - c.nose[!deep], first);
  const double angle = steady::atan2(norm(cross(first, second)), dot(first, second));
  const auto shallow_nose = deep ? left : right, deep_foot = deep ? foot_right : foot_left,
             shallow_foot = deep ? foot_left : foot_right;
  const int main = builder.face(name, number, {right, deep_foot, left}, parent, left, right, turn);
  FlatPath rest{shallow_nose, deep_foot, shallow_foot};
  if (const auto& shallow = deep ? part.left : part.right; shallow.wrap) // down to the hem slit square
    rest.push_back(at(shallow, {0, s.v_inner}));
  builder.face(name, number, rest, main, shallow_nose, deep_foot, crease(back < 0 ? angle : -angle));
  return main;
}

} // namespace treadfold
