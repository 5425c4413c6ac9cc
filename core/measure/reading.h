// What somebody read off a step with a tape, one length at a time.
#pragma once

#include "measure/stair.h"

namespace treadfold {

/// A size of a step, or a coordinate of a corner of its plan.
struct Reading {
  enum class Of {
    rise,
    going,
    width,
    fall,
    projection,
    thickness,
    radius,
    bevel,
    left_overhang,
    left_return,
    right_overhang,
    right_return,
    left_x, // of corner `corner` of the left side's line
    left_y,
    right_x,
    right_y,
    left_past, // of a starter's rounds
    left_along,
    left_across,
    right_past,
    right_along,
    right_across,
    front_out // of offset `corner` of its front
  };
  Of of = Of::rise;
  std::size_t corner = 0;

  auto operator<=>(const Reading&) const = default;
};

/// Those on which the step's shape rests: of a closed side none, of a half-round or sharp nosing no radius;
/// of a plan with corners each but the datum, the left end of the riser; of a curved front its own in place
/// of the sides', but for offsets that end it.
std::vector<Reading> readings(const Step& step);

double value_mm(const Step& step, Reading reading);

/// The step where the truth is `by_mm` more than the reading. A size stops at 0, a radius or bevel where the
/// tread's thickness ends it; a curved front that cannot be that way stays as it is.
Step changed(Step step, Reading reading, double by_mm);

} // namespace treadfold
