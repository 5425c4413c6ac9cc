// Steps for the cover tests: a plain one to start from, and random ones within what a job may say.
#pragma once

#include "cover/cover.h"
#include "cover/refold.h"

#include <rapidcheck.h>

namespace treadfold {
inline void showValue(const Length& x, std::ostream& os) { os << print_length(x, LengthUnit::inch); }
inline void showValue(CoverStyle style, std::ostream& os) {
  os << (style == CoverStyle::wrapped ? "wrapped" : "waterfall");
}
} // namespace treadfold

namespace treadfold::test {

inline Allowances usual_allowances() {
  return {inches(1),       inches(0, 1, 2), inches(0, 3, 4), inches(0, 3, 4), inches(0, 1, 4),
          inches(1, 1, 4), inches(1, 1, 2), inches(0, 1, 4), inches(0, 1, 4), inches(3)};
}

inline Carpet usual_carpet() {
  Carpet carpet;
  carpet.id = "main";
  carpet.backing = inches(0, 1, 8);
  carpet.thickness = inches(0, 3, 8);
  return carpet;
}

inline Side open_side(Length overhang = inches(1, 1, 4), Length return_past = inches(1)) {
  return {SideKind::open, overhang, return_past};
}

inline Step usual_step(int number = 1) {
  Step step;
  step.number = number;
  step.rise = inches(7, 1, 2);
  step.going = inches(10);
  step.width = inches(36);
  step.nosing = {inches(1, 1, 4), inches(1), inches(0, 1, 2)};
  return step;
}

inline Flight flight_of(std::vector<Step> steps, CoverStyle style = CoverStyle::waterfall, int join = 1) {
  Flight flight;
  flight.name = "Main";
  flight.carpet = "main";
  flight.steps = std::move(steps);
  flight.style = style;
  flight.join = join;
  return flight;
}

inline std::vector<Step> steps_of(const Piece& piece, const Flight& flight) {
  std::vector<Step> steps;
  for (const int number : piece.steps)
    steps.push_back(flight.steps[static_cast<std::size_t>(number - 1)]);
  return steps;
}

/// A length from `low` to `high` in 64ths of an inch.
inline rc::Gen<Length> sixty_fourths(int low, int high) {
  return rc::gen::map(rc::gen::inRange(low, high + 1), [](int k) { return Length{k * std::int64_t{3175}}; });
}

inline Side any_side() {
  if (*rc::gen::arbitrary<bool>()) return {};
  return open_side(*sixty_fourths(16, 6 * 64), *sixty_fourths(0, 6 * 64));
}

/// Any straight step a job may describe, over the whole of the ranges that it allows.
inline Step any_step(int number) {
  Step step;
  step.number = number;
  const int thickness = *rc::gen::inRange(16, 4 * 64 + 1);
  step.nosing.thickness = Length{thickness * std::int64_t{3175}};
  const auto half = step.nosing.thickness.ticks / 2;
  step.nosing.radius = {*rc::gen::oneOf(rc::gen::just(half), rc::gen::inRange<std::int64_t>(0, half + 1))};
  step.nosing.projection = *sixty_fourths(0, 4 * 64);
  step.rise = *sixty_fourths(thickness + 2 * 64, 15 * 64);
  step.going = *sixty_fourths(3 * 64, 60 * 64);
  step.width = *sixty_fourths(6 * 64, 144 * 64);
  step.left = any_side();
  step.right = any_side();
  step.landing_edge = *rc::gen::inRange(0, 4) == 0;
  return step;
}

} // namespace treadfold::test
