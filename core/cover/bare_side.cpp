#include "cover/bare_side.h"
#include "units/steady.h"

namespace treadfold {

namespace {

RegionPoint unit(RegionPoint p) {
  const double length = steady::hypot(p.a, p.b);
  return {p.a / length, p.b / length};
}

/// Where the line dot(p, m) = a crosses the line dot(p, n) = b.
RegionPoint crossing(RegionPoint m, double a, RegionPoint n, double b) {
  const double d = m.a * n.b - m.b * n.a;
  return {(a * n.b - b * m.b) / d, (m.a * b - n.a * a) / d};
}

RegionOutline as_outline(const std::vector<PlanPoint>& line) {
  RegionOutline outline;
  for (const auto& p : line)
    outline.push_back({p.x, p.y});
  return outline;
}

} // namespace

RegionPoint BareSide::back_corner(double off, double past) const {
  return crossing(out, dot(line[0], out) + off, behind, dot(back_in, behind) + past);
}

BareSide bare_side(const Step& step, Hand hand) {
  const bool right = hand == Hand::right;
  const auto& side = right ? step.right : step.left;
  BareSide s;
  s.closed = side.closed();
  s.sign = right ? 1 : -1;
  s.line = as_outline(side_line(step, hand));
  s.foot_x = s.line[0].a;
  // In front of its riser a landing's sides run square to it.
  s.in = step.landing() ? RegionPoint{0, 1} : unit(s.line[1] - s.line[0]);
  s.out = {s.sign * s.in.b, -s.sign * s.in.a};
  const auto far = as_outline(side_line(step, right ? Hand::left : Hand::right)).back();
  s.back_out = unit(s.line.back() - far);
  s.behind = {-s.sign * s.back_out.b, s.sign * s.back_out.a};
  if (s.closed) return s;
  s.overhang = side.overhang.mm();
  s.free_back = (right ? step.free_back_right : step.free_back_left).mm();
  if (step.landing_edge) { // to the seam, which is square to the step
    s.back_out = {s.sign, 0};
    s.behind = {0, 1};
  }
  const double back =
      step.landing_edge ? step.going.mm() : dot(s.line.back(), s.behind) + side.return_past.mm();
  s.back_in = crossing(s.out, dot(s.line[0], s.out), s.behind, back);
  s.back_end = s.back_corner(s.overhang, 0);
  return s;
}

} // namespace treadfold
