#include "cover/folded_course.h"

#include "measure/step_frames.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace treadfold {

namespace {

constexpr double kNoFold_rad = 1e-6;
constexpr int kMostTucks = 2; // four layers behind the riser's own: common practice, no source

/// How deep a wedge's tucks are at the narrow edge, square to the crotch.
double depth_of(const CrotchFold& fold, int tucks, double width_mm) {
  const double half = fold.angle() / (2 * tucks); // of a tuck
  const double least = std::min(steady::cos(fold.above_rad - half), steady::cos(fold.below_rad - half));
  return width_mm / least * steady::sin(half);
}

/// From the crotch up the riser's carpet to the underside of the nosing, along the backing.
double room_behind(const Section& s) {
  if (s.under) return s.v_foot - s.v_inner;
  const double above = s.low_z - s.low_radius * steady::sin(s.turn) - (s.lip_z + s.half_backing);
  return s.v_foot - s.v_leave - std::max(0.0, above) / steady::cos(s.turn);
}

} // namespace

double CourseStep::x(Hand edge, double v) const {
  return (edge == Hand::left ? left_x : right_x) + steady::tan(lean_rad) * v;
}

double CourseStep::along_back(Hand edge, double before) const {
  const double slope = steady::tan(lean_rad), x0 = back.x + before * along.y, y0 = back.y - before * along.x;
  return (x(edge, back_y - y0) - x0) / (along.x + slope * along.y);
}

FlatPoint CourseStep::at_back(double along_mm, double before) const {
  return {back.x + along_mm * along.x + before * along.y,
          back_y - (back.y + along_mm * along.y - before * along.x)};
}

Section strip_section(const Step& step, CoverStyle style, const CoverInput& input, bool goes_on) {
  const double pad = input.pad.mm(), backing = input.carpet.backing.mm();
  return section_of({step, style, pad, backing, false, goes_on ? pad + backing / 2 : 0});
}

namespace {

/// The step's back line; of one that does not turn, level at the middle of the runner, whose ends are
/// `from` and `to` along it.
void set_back(CourseStep& c, const Step& step, double from, double to) {
  const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
  const auto along = right - left;
  const double far = steady::hypot(along.x, along.y);
  c.back = left;
  if (c.turns) {
    c.along = (1 / far) * along;
    c.turn_rad = steady::atan2(along.y, along.x);
  } else {
    c.back.y += along.y / along.x * (from + to) / 2;
  }
}

/// The wide edge from (x, v) at the back to (foot_x, foot_v), the other as far from it as the strip is wide.
void set_edges(CourseStep& c, Hand wide, FlatPoint at_back, double foot_x, double width) {
  c.lean_rad = c.turns ? steady::atan2(foot_x - at_back.u, c.foot_v - at_back.v) : 0;
  const double x0 = at_back.u - steady::tan(c.lean_rad) * at_back.v, across = width / steady::cos(c.lean_rad);
  c.left_x = wide == Hand::left ? x0 : x0 - across;
  c.right_x = c.left_x + across;
}

} // namespace

std::vector<CourseStep> course_of(const Flight& flight, const CoverInput& input) {
  assert(folds_round(flight));
  const auto& runner = *flight.runner;
  const double width = runner.width.mm(), before = input.carpet.backing.mm() / 2;
  const auto exposed_right = narrowest_straight(flight, runner.width) - runner.width - runner.exposed_left;
  std::vector<CourseStep> course(flight.steps.size());
  for (std::size_t i = course.size(); i-- > 0;) {
    const auto& step = flight.steps[i];
    auto& c = course[i];
    const auto section = strip_section(step, flight.style, input, true);
    c.turns = turns(step, runner.width);
    c.narrow_left = c.turns && side_line(step, Hand::right).back().y > side_line(step, Hand::left).back().y;
    c.back_y = section.back_y;
    c.foot_v = section.v_foot;
    if (i + 1 == course.size()) {
      c.left_x = runner.exposed_left.mm();
      c.right_x = c.left_x + width;
      c.back.y = c.back_y;
      continue;
    }
    const auto& above = course[i + 1];
    const double gap = back_gaps(step, flight.steps[i + 1]).left;
    const double left = above.x(Hand::left, above.foot_v) + gap,
                 right = above.x(Hand::right, above.foot_v) + gap;
    set_back(c, step, left, right);
    const bool wide_right = c.turns ? c.narrow_left : above.narrow_left;
    const auto at_back = c.at_back(wide_right ? right : left, before);
    const auto foot =
        c.narrow_left ? runner.exposed_left + runner.width : step.width - exposed_right - runner.width;
    set_edges(c, wide_right ? Hand::right : Hand::left, at_back, foot.mm(), width);
  }
  return course;
}

std::optional<CrotchFold> crotch_fold(const CourseStep& upper, const CourseStep& lower,
                                      const Section& upper_section, double width_mm) {
  CrotchFold fold;
  fold.narrow_left = lower.turns ? lower.narrow_left : upper.narrow_left;
  const double sign = fold.narrow_left ? 1 : -1;
  fold.above_rad = sign * upper.lean_rad;
  fold.below_rad = sign * (lower.turn_rad - lower.lean_rad);
  if (std::abs(fold.above_rad) < kNoFold_rad && std::abs(fold.below_rad) < kNoFold_rad) return {};
  fold.jog_mm = width_mm / steady::cos(fold.below_rad) - width_mm / steady::cos(fold.above_rad);
  fold.room_mm = room_behind(upper_section);
  do {
    fold.depth_mm = depth_of(fold, ++fold.tucks, width_mm);
  } while (fold.tucks < kMostTucks && !fold.fits());
  return fold;
}

} // namespace treadfold
