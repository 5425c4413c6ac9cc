#include "cover/strip_and_pad.h"

#include "units/steady.h"

#include <numbers>

namespace treadfold {

double perimeter(const std::vector<PlanPoint>& outline) {
  double total = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto& p = outline[i];
    const auto& q = outline[(i + 1) % outline.size()];
    total += steady::hypot(q.x - p.x, q.y - p.y);
  }
  return total;
}

StripPiece strip_across(const Step& step, StripPlace place, Length set_off, Length stop,
                        double open_angle_deg) {
  StripPiece piece{place, {}, step.width, set_off, 90, 90};
  if (!step.left.closed()) {
    piece.from = stop;
    piece.left_angle_deg = open_angle_deg;
  }
  if (!step.right.closed()) {
    piece.to -= stop;
    piece.right_angle_deg = open_angle_deg;
  }
  return piece;
}

double over_the_nosing(const Nosing& nosing, double pad) {
  const double radius = nosing.radius.mm(), bevel = nosing.bevel.mm();
  return -radius - bevel + (radius + pad / 2) * std::numbers::pi / 2 + bevel * std::numbers::sqrt2 +
         nosing.thickness.mm() - radius - bevel;
}

} // namespace treadfold
