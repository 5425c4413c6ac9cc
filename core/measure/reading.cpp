#include "measure/reading.h"

#include "measure/step_front.h"
#include "measure/tread_plan.h"

#include <algorithm>
#include <cassert>
#include <utility>

namespace treadfold {

namespace {

using Of = Reading::Of;

/// The length read, of a step or a const step; nullptr for a corner's coordinate.
template <class AnyStep>
auto length_of(AnyStep& step, Of of) -> decltype(&step.rise) {
  switch (of) {
  case Of::rise:
    return &step.rise;
  case Of::going:
    return &step.going;
  case Of::width:
    return &step.width;
  case Of::fall:
    return &step.fall_right;
  case Of::projection:
    return &step.nosing.projection;
  case Of::thickness:
    return &step.nosing.thickness;
  case Of::radius:
    return &step.nosing.radius;
  case Of::bevel:
    return &step.nosing.bevel;
  case Of::left_overhang:
    return &step.left.overhang;
  case Of::left_return:
    return &step.left.return_past;
  case Of::right_overhang:
    return &step.right.overhang;
  case Of::right_return:
    return &step.right.return_past;
  case Of::left_x:
  case Of::left_y:
  case Of::right_x:
  case Of::right_y:
  case Of::left_past:
  case Of::left_along:
  case Of::left_across:
  case Of::right_past:
  case Of::right_along:
  case Of::right_across:
  case Of::front_out:
    break;
  }
  return nullptr;
}

/// The length read of a curved front; nullptr for any other reading.
template <class AnyReadings>
auto length_of_front(AnyReadings& front, Reading reading) -> decltype(&front.left.past) {
  switch (reading.of) {
  case Of::left_past:
    return &front.left.past;
  case Of::left_along:
    return &front.left.along;
  case Of::left_across:
    return &front.left.across;
  case Of::right_past:
    return &front.right.past;
  case Of::right_along:
    return &front.right.along;
  case Of::right_across:
    return &front.right.across;
  case Of::front_out:
    return &front.offsets[reading.corner].out;
  default:
    return nullptr;
  }
}

template <class AnyStep>
auto& coordinate(AnyStep& step, Reading reading) {
  const bool left = reading.of == Of::left_x || reading.of == Of::left_y;
  auto& line = left ? step.left_side : step.right_side;
  assert(reading.corner < line.size());
  auto& corner = line[reading.corner];
  return reading.of == Of::left_x || reading.of == Of::right_x ? corner.x : corner.y;
}

/// Its right end goes with the riser's, and all of it is measured from the next riser.
void fit_front(Step& step, Length width_before) {
  auto starter = *step.starter;
  auto& offsets = starter.readings.offsets;
  if (!offsets.empty() && offsets.back().at == width_before) offsets.back().at = step.width;
  set_front(step, std::move(starter));
}

void keep_nosing_whole(Nosing& nosing, bool half_round) {
  nosing.thickness.ticks -= nosing.thickness.ticks % 2;
  const Length half{nosing.thickness.ticks / 2};
  nosing.radius = half_round ? half : std::min(nosing.radius, half);
  nosing.bevel = std::min(nosing.bevel, nosing.thickness - Length{1});
}

} // namespace

std::vector<Reading> readings(const Step& step) {
  std::vector<Reading> all{{Of::rise}, {Of::projection}, {Of::thickness}};
  const auto add_if = [&](bool there, Of of, std::size_t corner = 0) {
    if (there) all.push_back({of, corner});
  };
  const auto& nosing = step.nosing;
  add_if(nosing.radius > Length{} && !nosing.half_round(), Of::radius);
  add_if(nosing.bevel > Length{}, Of::bevel);
  add_if(step.fall_right != Length{}, Of::fall);
  const bool ends = !step.starter;
  add_if(ends && !step.left.closed(), Of::left_overhang);
  add_if(ends && !step.left.closed(), Of::left_return);
  add_if(ends && !step.right.closed(), Of::right_overhang);
  add_if(ends && !step.right.closed(), Of::right_return);
  if (step.starter) {
    const auto& front = step.starter->readings;
    const bool left = front.left.shape != FrontEndShape::square,
               right = front.right.shape != FrontEndShape::square;
    for (const auto of : {Of::left_past, Of::left_along, Of::left_across})
      add_if(left, of);
    for (const auto of : {Of::right_past, Of::right_along, Of::right_across})
      add_if(right, of);
    for (std::size_t i = 1; i + 1 < front.offsets.size(); ++i)
      add_if(true, Of::front_out, i);
  }
  add_if(step.rectangular(), Of::going);
  add_if(step.rectangular(), Of::width);
  for (std::size_t i = 0; i < step.left_side.size(); ++i) {
    add_if(i > 0, Of::left_x, i);
    add_if(i > 0, Of::left_y, i);
  }
  for (std::size_t i = 0; i < step.right_side.size(); ++i) {
    add_if(true, Of::right_x, i);
    add_if(i > 0, Of::right_y, i);
  }
  return all;
}

double value_mm(const Step& step, Reading reading) {
  if (const auto* length = length_of(step, reading.of)) return length->mm();
  if (step.starter)
    if (const auto* length = length_of_front(step.starter->readings, reading)) return length->mm();
  return coordinate(step, reading);
}

Step changed(Step step, Reading reading, double by_mm) {
  const Length width = step.width;
  const bool half_round = step.nosing.half_round();
  if (auto* length = length_of(step, reading.of)) {
    *length += from_mm(by_mm);
    if (reading.of != Of::fall) *length = std::max(*length, Length{});
    keep_nosing_whole(step.nosing, half_round);
    if (step.starter) fit_front(step, width);
    return step;
  }
  if (step.starter) {
    *length_of_front(step.starter->readings, reading) += from_mm(by_mm);
    fit_front(step, width);
    return step;
  }
  coordinate(step, reading) += by_mm;
  set_plan(step, step.left_side, step.right_side);
  return step;
}

} // namespace treadfold
