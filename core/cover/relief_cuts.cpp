#include "cover/relief_cuts.h"

#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace treadfold {

namespace {

constexpr double kNothing_mm = 1e-6;

} // namespace

Turnover::Turnover(double falling_rad, std::vector<TurnoverPart> parts) : falling_(falling_rad) {
  for (auto& part : parts)
    if (part.length > kNothing_mm) {
      length_ += part.length;
      parts_.push_back(std::move(part));
    }
}

double Turnover::out(double s) const {
  double angle = falling_, out = 0;
  for (std::size_t i = 0; i < parts_.size() && s > 0; ++i) {
    const auto& part = parts_[i];
    const double length = i + 1 == parts_.size() ? s : std::min(s, part.length);
    if (part.turn_rad == 0) {
      out += length * steady::cos(angle);
    } else {
      const double radius = part.length / part.turn_rad, turned = angle + length / radius;
      out += radius * (steady::sin(turned) - steady::sin(angle));
      angle = turned;
    }
    s -= length;
  }
  return out;
}

double Turnover::end_falling_rad() const {
  double angle = falling_;
  for (const auto& part : parts_)
    angle += part.turn_rad;
  return angle;
}

Turnover Turnover::between(double from, double to) const {
  double begin = 0, angle = falling_, start = falling_;
  std::vector<TurnoverPart> parts;
  for (const auto& part : parts_) {
    const double a = std::max(from, begin), b = std::min(to, begin + part.length);
    if (b - a > kNothing_mm) {
      if (parts.empty()) start = angle + part.turn_rad * (a - begin) / part.length;
      parts.push_back({part.name, b - a, part.turn_rad * (b - a) / part.length});
    }
    begin += part.length;
    angle += part.turn_rad;
  }
  return {start, std::move(parts)};
}

double surplus(const Turnover& turnover, FlatShape flat, double radius, double s) {
  const double laid = radius + (flat == FlatShape::curved ? s : 0.0);
  return (laid - radius - turnover.out(s)) / laid;
}

double whole_length(const Turnover& turnover, FlatShape flat, double radius, double limit) {
  double low = 0, high = turnover.length();
  if (surplus(turnover, flat, radius, high) <= limit) return high;
  for (int i = 0; i < 60; ++i) {
    const double middle = (low + high) / 2;
    (surplus(turnover, flat, radius, middle) <= limit ? low : high) = middle;
  }
  return low;
}

double tooth_weight(double off_mm) { return std::sqrt(8 * off_mm); }

} // namespace treadfold
