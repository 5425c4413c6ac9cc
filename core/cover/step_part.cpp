#include "cover/step_part.h"

#include "cover/drop.h"

#include <algorithm>

namespace treadfold {

namespace {

StepPart part_of(const Step& step, const Flight& flight, const CoverInput& input, bool above, bool below) {
  const double backing = input.carpet.backing.mm(), pad = input.pad.mm();
  const double longer = std::min(0.0, -step.fall_right.mm()); // z of the deeper end of the crotch
  const auto section =
      section_of({step, flight.style, pad, backing, above, longer + (below ? pad + backing / 2 : 0.0)});
  const auto side = [&](Hand hand) {
    const bool right = hand == Hand::right;
    StepSide s{{right, side_line(step, hand).front().x, 0}, side_plan(step, hand, section.back_y), {}, {}};
    if (!(right ? step.right : step.left).closed())
      s.wrap = end_wrap(section, step, hand, input.allowances.relief.mm());
    return s;
  };
  StepPart part{step, section, 0, side(Hand::left), side(Hand::right)};
  set_foot(part);
  return part;
}

} // namespace

std::vector<StepPart> parts_of(const std::vector<const Step*>& steps, const Flight& flight,
                               const CoverInput& input) {
  std::vector<StepPart> parts;
  double v0 = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    auto part = part_of(*steps[i], flight, input, i > 0, i + 1 < steps.size());
    part.v0 = part.left.frame.v0 = part.right.frame.v0 = v0;
    v0 += part.section.v_foot + 2 * input.allowances.crease.mm();
    parts.push_back(std::move(part));
  }
  return parts;
}

double hem_end(const Section& upper, const EndWrap& below, const Allowances& allowances) {
  return upper.v_foot + 2 * allowances.crease.mm() + below.slit().back().v - allowances.relief.mm();
}

bool can_join(const Step& upper, const Step& lower, const Flight& flight, const CoverInput& input) {
  if (upper.open_riser || lower.open_riser || upper.fall_right.ticks != 0 || lower.fall_right.ticks != 0)
    return false;
  if (upper.width != lower.width || !upper.rectangular() || !lower.rectangular()) return false;
  for (const auto side : {&Step::left, &Step::right})
    if ((upper.*side).kind != (lower.*side).kind || (upper.*side).overhang != (lower.*side).overhang)
      return false;
  const auto above = part_of(upper, flight, input, false, true),
             below = part_of(lower, flight, input, true, false);
  for (const auto side : {&StepPart::left, &StepPart::right})
    if (const auto& wrap = (below.*side).wrap)
      if (hem_end(above.section, *wrap, input.allowances) < above.section.v_inner + input.allowances.hem.mm())
        return false; // no room for the hem's own mitre
  return true;
}

} // namespace treadfold
