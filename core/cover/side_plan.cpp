#include "cover/side_plan.h"
#include "units/steady.h"

namespace treadfold {

namespace {

PlanPoint unit(PlanPoint v) { return (1 / steady::hypot(v.x, v.y)) * v; }

} // namespace

double SidePlan::eta_at(double xi, double beta) const {
  return (xi - dot(out, next_riser()) - beta * dot(out, back)) / dot(out, along);
}

PlanPoint SidePlan::at_front(double xi, double y) const { return {(xi - out.y * y) / out.x, y}; }

SidePlan side_plan(const Step& step, Hand hand, double back_y) {
  const double sign = hand == Hand::right ? 1 : -1;
  const auto own = side_line(step, hand),
             other = side_line(step, hand == Hand::right ? Hand::left : Hand::right);
  const double end = own.front().x;
  const auto local = [&](PlanPoint p) { return PlanPoint{sign * (p.x - end), p.y}; };
  SidePlan plan;
  plan.back_y = back_y;
  plan.square_front = step.landing_edge;
  for (const auto& p : own)
    plan.line.push_back(local(p));
  plan.in = unit(plan.line[1]);
  plan.out = {plan.in.y, -plan.in.x};
  plan.along = unit(plan.next_riser() - local(other.back()));
  plan.back = {-plan.along.y, plan.along.x};
  return plan;
}

} // namespace treadfold
