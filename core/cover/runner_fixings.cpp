#include "cover/runner.h"

#include "cover/folded_course.h"
#include "cover/section.h"
#include "measure/runner_band.h"
#include "units/steady.h"

#include <algorithm>

namespace treadfold {

namespace {

/// What lies inside the runner's edges, as a step between walls, and where it begins on the riser, at the
/// front of the tread, and along the next riser.
struct Inside {
  Step step;
  Length left, riser_left, back_left;
  Length riser_right;  // 0: as far as the step is wide
  double edges_mm = 0; // of the runner on the step
};

Inside inside_seamed(Flight flight, std::size_t index) {
  auto& runner = *flight.runner;
  runner.exposed_left += runner.strip_stop;
  runner.width -= runner.strip_stop * 2;
  const auto part = runner_steps(flight)[index];
  Inside in;
  in.step = part.under.step;
  in.left = in.riser_left = part.under.left;
  in.back_left = part.left_behind;
  return in;
}

/// Under a strip that leans its edges lie elsewhere at the riser's foot than on the tread.
Inside inside_folded(const Flight& flight, std::size_t index, const CoverInput& input) {
  const auto course = course_of(flight, input);
  const auto& c = course[index];
  const auto& runner = *flight.runner;
  const double stop = runner.strip_stop.mm();
  const double on_riser = stop / steady::cos(c.lean_rad),
               on_back = stop / steady::cos(c.turn_rad - c.lean_rad);
  const double left = c.x(Hand::left, c.back_y) + on_riser, right = c.x(Hand::right, c.back_y) - on_riser;
  Inside in;
  in.step = flight.steps[index];
  in.step.left = in.step.right = Side{};
  in.step.free_back_left = in.step.free_back_right = in.step.fall_right = Length{};
  in.step.uprights.clear();
  in.step.left_side.clear();
  in.step.right_side.clear();
  in.left = from_mm(left);
  in.riser_left = from_mm(c.x(Hand::left, c.foot_v) + on_riser);
  in.riser_right = from_mm(c.x(Hand::right, c.foot_v) - on_riser);
  const double back_left = c.along_back(Hand::left, 0) + on_back,
               back_right = c.along_back(Hand::right, 0) - on_back;
  in.back_left = from_mm(back_left);
  if (c.turns) {
    const auto at = [&](double along) {
      return PlanPoint{c.back.x + along * c.along.x - left, c.back.y + along * c.along.y};
    };
    set_plan(in.step, {{0, 0}, at(back_left)}, {{right - left, 0}, at(back_right)});
  } else {
    in.step.width = from_mm(right - left);
    in.step.going = from_mm(c.back.y);
  }
  in.edges_mm = 2 * c.foot_v / steady::cos(c.lean_rad);
  return in;
}

/// What a pleat takes of the narrow edge.
double edge_of(const RunnerPleat* pleat) {
  return pleat ? distance_mm(pleat->creases.front()[1], pleat->creases.back()[1]) : 0;
}

} // namespace

Fixings runner_fixings(const Flight& flight, int step, const Cushion& cushion, const TackStrip& strip,
                       const Carpet& carpet, const Allowances& allowances, const RunnerPleat* pleat) {
  const auto index = static_cast<std::size_t>(step - 1);
  const auto& whole = flight.steps[index];
  const bool folds = folds_round(flight);
  const auto in = folds ? inside_folded(flight, index, {carpet, cushion.thickness, allowances})
                        : inside_seamed(flight, index);
  auto f = fixings(in.step, flight.style, cushion, strip, carpet, allowances);
  if (pleat) // common practice, no source
    std::erase_if(f.strips, [](const StripPiece& s) { return s.place == StripPlace::riser; });
  for (auto& s : f.strips) {
    const bool riser = s.place == StripPlace::riser;
    s.from += riser ? in.riser_left : in.back_left;
    s.to += riser ? in.riser_left : in.back_left;
    if (riser && in.riser_right > Length{}) s.to = in.riser_right;
  }
  // Pad of a step that is no rectangle is drawn from the line of its deepest point.
  const double down =
      whole.rectangular()
          ? 0
          : (whole.going - in.step.going).mm() +
                (in.step.rectangular() && !whole.landing_edge ? (allowances.gully + strip.width).mm() : 0);
  for (auto& p : f.pad.outline)
    p = {p.x + in.left.mm(), p.y + down};
  const auto section = section_of({whole, flight.style, cushion.thickness.mm(), carpet.backing.mm()});
  const auto edges = from_mm_up((folds ? in.edges_mm : 2 * section.v_foot) + edge_of(pleat));
  f.hot_melt = flight.runner->edges == RunnerEdges::turned ? edges : Length{};
  const bool seamed = whole.landing_edge && flight.runner->top == RunnerTop::seamed;
  f.seam_tape = seamed ? flight.runner->width : Length{};
  f.latex = (flight.runner->edges == RunnerEdges::cut ? edges : Length{}) + f.seam_tape * 2;
  if (!pleat) return f;
  f.latex += from_mm_up(pleat->snip_mm) * 2;
  f.staple_run += from_mm_up(length_mm(pleat->creases.front())) * pleat->tucks; // each along the crotch
  return f;
}

} // namespace treadfold
