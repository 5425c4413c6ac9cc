#include "cover/section.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;
constexpr double kHair_mm = 0.05;
constexpr double kHalf = std::numbers::pi / 4; // of the upper bend

/// Turn and straight length of the taut line from the lower bend to the foot (y, z).
struct Tangent {
  double turn, length;
};
Tangent tangent(const Section& s, double foot_y, double foot_z) {
  const double dy = foot_y - s.low_y, dz = foot_z - s.low_z;
  const double squared = dy * dy + dz * dz;
  assert(squared > s.low_radius * s.low_radius);
  const double length = std::sqrt(squared - s.low_radius * s.low_radius);
  return {steady::atan2(length * dy - s.low_radius * dz, -s.low_radius * dy - length * dz), length};
}

} // namespace

Section section_of(const SectionInput& input) {
  const auto& step = input.step;
  const double rise = step.rise.mm(), projection = step.nosing.projection.mm(),
               radius = step.nosing.radius.mm();
  Section s;
  s.half_backing = input.backing / 2;
  s.pad = input.pad;
  s.thickness = step.nosing.thickness.mm();
  s.back_y = step.going.mm() - (input.joined_back ? s.half_backing : 0);
  s.tread_z = rise + s.pad + s.half_backing;
  s.lip_z = rise - s.thickness - s.half_backing;
  s.top_radius = radius + s.pad + s.half_backing;
  s.bevel = step.nosing.bevel.mm();
  s.top_y = radius + s.bevel - projection;
  s.top_z = rise - radius;
  s.low_radius = radius + s.half_backing;
  s.low_y = radius - projection - s.pad;
  s.low_z = rise - s.thickness + radius;
  s.inner_y = std::max(-s.half_backing, s.low_y);
  // A nosing of no more than a hair's depth has no underside to cover.
  s.under = input.style == CoverStyle::wrapped && s.inner_y - s.low_y > kHair_mm;

  s.v_nose = s.back_y - s.top_y;
  const double bevel_length = s.bevel * std::numbers::sqrt2;
  s.v_bevel = s.v_nose + s.top_radius * kHalf;
  s.v_bevel_end = s.v_bevel + bevel_length;
  s.v_front = s.v_nose + s.top_radius * kRight + bevel_length;
  s.v_low = s.v_front + (s.top_z - s.bevel - s.low_z);
  s.v_lip = s.v_low + s.low_radius * kRight;
  s.v_inner = s.v_lip + (s.inner_y - s.low_y);
  if (s.under) {
    s.turn = kRight;
    s.v_leave = s.v_lip;
    s.v_foot = s.v_inner + (s.lip_z - input.foot_z);
  } else {
    const auto taut = tangent(s, -s.half_backing, input.foot_z);
    s.turn = taut.turn;
    s.v_leave = s.v_low + s.low_radius * s.turn;
    s.v_foot = s.v_leave + taut.length;
  }
  return s;
}

double y_at(const Section& s, double v) {
  if (v <= s.v_nose) return s.back_y - v;
  const auto upper = [&](double turned) { return s.top_y - s.top_radius * steady::sin(turned); };
  if (v <= s.v_bevel) return upper((v - s.v_nose) / s.top_radius);
  if (v <= s.v_bevel_end) return upper(kHalf) - (v - s.v_bevel) / std::numbers::sqrt2;
  if (v <= s.v_front) return upper(kHalf + (v - s.v_bevel_end) / s.top_radius) - s.bevel;
  const double front = s.low_y - s.low_radius;
  if (v <= s.v_low) return front;
  const auto lower = [&](double turned) { return s.low_y - s.low_radius * steady::cos(turned); };
  if (v <= s.v_leave) return lower((v - s.v_low) / s.low_radius);
  if (s.under) return std::min(s.low_y + (v - s.v_lip), s.inner_y);
  const double from = lower(s.turn), share = (v - s.v_leave) / (s.v_foot - s.v_leave);
  return from + share * (-s.half_backing - from);
}

std::vector<FrontPoint> front_points(const Section& s, const std::vector<double>& also) {
  constexpr int kPerBend = 24; // 3.75° a chord: 0.03 mm off the arc of a 2 in bend
  std::vector<double> heights = also;
  heights.insert(heights.end(), {s.tread_z, s.lip_z}); // the bends' ends may miss them by a rounding
  for (int i = 0; i <= kPerBend; ++i) {
    const double angle = kRight * i / kPerBend;
    if (2 * i <= kPerBend) heights.push_back(s.top_z + s.top_radius * steady::cos(angle));
    if (2 * i >= kPerBend) heights.push_back(s.top_z - s.bevel + s.top_radius * steady::cos(angle));
    heights.push_back(s.low_z - s.low_radius * steady::sin(angle));
  }
  std::erase_if(heights, [&](double z) { return z > s.tread_z || z < s.lip_z; });
  std::sort(heights.begin(), heights.end(), std::greater<>());
  heights.erase(std::unique(heights.begin(), heights.end(), [](double a, double b) { return a - b < 1e-9; }),
                heights.end());

  std::vector<FrontPoint> points;
  for (const double z : heights) {
    FrontPoint point{z, 0, 0};
    if (z > s.top_z - s.bevel) {
      const double part = s.top_radius * steady::cos(kHalf); // of the height, on either half
      if (z < s.top_z + part && z > s.top_z - s.bevel + part) {
        const double down = s.top_z + part - z;
        point.y = s.top_y - part - down;
        point.s = s.top_radius * kHalf + down * std::numbers::sqrt2;
      } else {
        const bool lower = z < s.top_z + part;
        const double axis_z = lower ? s.top_z - s.bevel : s.top_z;
        const double angle = steady::acos(std::min(1.0, (z - axis_z) / s.top_radius));
        point.y = s.top_y - (lower ? s.bevel : 0) - s.top_radius * steady::sin(angle);
        point.s = s.top_radius * angle + (lower ? s.bevel * std::numbers::sqrt2 : 0);
      }
    } else if (z >= s.low_z) {
      point.y = s.low_y - s.low_radius;
      point.s = s.v_front - s.v_nose + (s.top_z - s.bevel - z);
    } else {
      const double angle = steady::asin(std::min(1.0, (s.low_z - z) / s.low_radius));
      point.y = s.low_y - s.low_radius * steady::cos(angle);
      point.s = s.v_low - s.v_nose + s.low_radius * angle;
    }
    points.push_back(point);
  }
  return points;
}

} // namespace treadfold
