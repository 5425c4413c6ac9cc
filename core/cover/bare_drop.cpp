#include "cover/bare_drop.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

BareDrop::BareDrop(const BareStep& s, double foot_z)
    : foot_y_(-s.on_wood), foot_z_(foot_z), axis_y_(s.r - s.o - s.pad()), axis_z_(s.rise - s.t + s.r),
      radius_(s.r + s.on_wood) {
  const double dy = axis_y_ - foot_y_, dz = axis_z_ - foot_z_, far = steady::hypot(dy, dz);
  const double length = std::sqrt(far * far - radius_ * radius_), sine = radius_ / far, cosine = length / far;
  // From the foot to the touching point, which lies in front of the axis.
  to_y_ = (dy * cosine - dz * sine) / far;
  to_z_ = (dz * cosine + dy * sine) / far;
  touch_z_ = foot_z_ + length * to_z_;
}

double BareDrop::y(double z) const {
  if (z <= touch_z_) return foot_y_ + to_y_ / to_z_ * (z - foot_z_);
  const double up = std::min(0.0, z - axis_z_);
  return axis_y_ - std::sqrt(std::max(0.0, radius_ * radius_ - up * up));
}

double BareDrop::run(double z) const {
  const auto round = [&](double at) {
    return radius_ == 0 ? 0 : radius_ * steady::asin(std::clamp((axis_z_ - at) / radius_, 0.0, 1.0));
  };
  return z >= touch_z_ ? round(z) : round(touch_z_) + (touch_z_ - z) / to_z_;
}

} // namespace treadfold
