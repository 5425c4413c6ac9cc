#include "cover/runner.h"

#include "cover/section.h"
#include "measure/runner_band.h"

namespace treadfold {

Fixings runner_fixings(const Flight& flight, int step, const Cushion& cushion, const TackStrip& strip,
                       const Carpet& carpet, const Allowances& allowances) {
  auto inside = flight;
  auto& runner = *inside.runner;
  runner.exposed_left += runner.strip_stop;
  runner.width -= runner.strip_stop * 2;
  const auto index = static_cast<std::size_t>(step - 1);
  const auto& whole = flight.steps[index];
  const auto part = runner_steps(inside)[index];
  const auto& band = part.under;
  auto f = fixings(band.step, flight.style, cushion, strip, carpet, allowances);
  for (auto& s : f.strips) {
    const auto by = s.place == StripPlace::riser ? band.left : part.left_behind;
    s.from += by;
    s.to += by;
  }
  // Pad of a step that is no rectangle is drawn from the line of its deepest point.
  const double down =
      whole.rectangular()
          ? 0
          : (whole.going - band.step.going).mm() +
                (band.step.rectangular() && !whole.landing_edge ? (allowances.gully + strip.width).mm() : 0);
  for (auto& p : f.pad.outline)
    p = {p.x + band.left.mm(), p.y + down};
  const auto section = section_of({whole, flight.style, cushion.thickness.mm(), carpet.backing.mm()});
  const auto edges = from_mm_up(2 * section.v_foot);
  f.hot_melt = flight.runner->edges == RunnerEdges::turned ? edges : Length{};
  const bool seamed = whole.landing_edge && flight.runner->top == RunnerTop::seamed;
  f.seam_tape = seamed ? flight.runner->width : Length{};
  f.latex = (flight.runner->edges == RunnerEdges::cut ? edges : Length{}) + f.seam_tape * 2;
  return f;
}

} // namespace treadfold
