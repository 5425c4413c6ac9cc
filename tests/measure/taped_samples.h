// Random steps that are no rectangles, and what a tape would find on them.
#pragma once

#include "measure/taped_tread.h"

#include <rapidcheck.h>

#include <algorithm>
#include <cmath>

namespace treadfold::taped {

inline double distance(PlanPoint a, PlanPoint b) { return std::hypot(b.x - a.x, b.y - a.y); }

inline double farthest(const std::vector<PlanPoint>& a, const std::vector<PlanPoint>& b) {
  if (a.size() != b.size()) return 1e9;
  double most = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    most = std::max(most, distance(a[i], b[i]));
  return most;
}

inline Step bare_step() {
  Step step;
  step.rise = inches(7);
  step.nosing = {inches(1), inches(1), inches(0, 1, 8)};
  return step;
}

/// a + k (b - a)
inline PlanPoint between(PlanPoint a, PlanPoint b, double k) {
  return {a.x + k * (b.x - a.x), a.y + k * (b.y - a.y)};
}

/// The outline that the plan's tread has from above: its sides drawn on to the nosing, an open end moved out.
inline TapedTread outline(const Step& step) {
  const double o = step.nosing.projection.mm();
  const auto& left = step.left_side;
  const auto& right = step.right_side;
  const auto drawn = [&](std::vector<PlanPoint> line, const Side& side, double sign) {
    const double lean = std::atan2(line[1].x - line[0].x, line[1].y - line[0].y);
    line[0] = {line[0].x - o * std::tan(lean), -o};
    if (side.closed()) return line;
    // Moved out by e square to itself: along the nosing by e / cos(lean), along the back by e / sin of the
    // angle between side and back.
    const double e = side.overhang.mm(),
                 back = std::atan2(right.back().y - left.back().y, right.back().x - left.back().x);
    line[0].x += sign * e / std::cos(lean);
    const double out = sign * e / std::cos(lean + back);
    line[1] = {line[1].x + out * std::cos(back), line[1].y + out * std::sin(back)};
    return line;
  };
  TapedTread taped{drawn(left, step.left, -1), drawn(right, step.right, 1)};
  const double shift = taped.left[0].x;
  for (auto* line : {&taped.left, &taped.right})
    for (auto& p : *line)
      p = {p.x - shift, p.y + o};
  return taped;
}

/// Winders, flared and skewed treads, half of them with a corner of walls at one side, the other ends closed
/// or open.
inline rc::Gen<Step> steps() {
  return rc::gen::map(rc::gen::container<std::vector<int>>(14, rc::gen::inRange(0, 101)), [](const auto& k) {
    const auto part = [&](std::size_t i, double from, double to) {
      return from + (to - from) * k[i] / 100.0;
    };
    Step step = bare_step();
    step.nosing.projection = from_mm(part(0, 0, 40));
    const double w = part(1, 500, 1200), narrow = part(2, 20, 300), wide = narrow + part(3, 80, 400);
    std::vector<PlanPoint> left = {{0, 0}, {part(4, -0.3, 0.3) * narrow, narrow}};
    std::vector<PlanPoint> right = {{w, 0}, {w + part(5, -0.3, 0.3) * wide, wide}};
    const bool bent = k[6] % 2 == 0, mirrored = k[7] % 2 == 0;
    if (bent) { // the walls meet beyond the middle of what would be the straight side
      const auto half = between(right[0], right[1], part(8, 0.4, 0.7));
      right.insert(right.begin() + 1, {half.x + part(9, 0.1, 0.3) * wide, half.y});
    }
    // Shorter than the end is deep: else its corner could come to lie before the nosing's edge.
    if (k[10] % 3 == 0)
      step.left = {SideKind::open, from_mm(part(11, 7, std::min(60.0, narrow / 2))), inches(1)};
    if (!bent && k[12] % 3 == 0) step.right = {SideKind::open, from_mm(part(13, 7, 60)), inches(1)};
    if (mirrored) {
      for (auto* line : {&left, &right})
        for (auto& p : *line)
          p.x = w - p.x;
      std::swap(left, right);
      std::swap(step.left, step.right);
    }
    set_plan(step, left, right);
    return step;
  });
}

} // namespace treadfold::taped
