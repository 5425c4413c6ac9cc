#include "cover/starter_fixings.h"

#include "cover/fixing_room.h"
#include "cover/starter_shape.h"
#include "cover/strip_and_pad.h"

#include <algorithm>

namespace treadfold {

namespace {

PadPiece pad_of(const StarterShape& shape, const StripPiece& strip, double strip_front) {
  const auto& step = shape.step;
  const double width = step.width.mm(), from = step.going.mm() - strip_front;
  PadPiece pad;
  pad.riser_y = from;
  pad.outline = {{strip.from.mm(), 0}, {strip.to.mm(), 0}};
  if (shape.stop(Hand::right) == EdgeStop::stringer) pad.outline.push_back({width, 0});
  auto edge = shape.fine.line(over_the_nosing(step.nosing, shape.section.pad));
  for (auto p = edge.rbegin(); p != edge.rend(); ++p)
    pad.outline.push_back({p->x, from - p->y});
  if (shape.stop(Hand::left) == EdgeStop::stringer) pad.outline.push_back({0, 0});
  const auto [x0, x1] = std::minmax_element(pad.outline.begin(), pad.outline.end(),
                                            [](PlanPoint a, PlanPoint b) { return a.x < b.x; });
  const auto [y0, y1] = std::minmax_element(pad.outline.begin(), pad.outline.end(),
                                            [](PlanPoint a, PlanPoint b) { return a.y < b.y; });
  pad.width = from_mm_up(x1->x - x0->x);
  pad.length = from_mm_up(y1->y - y0->y);
  return pad;
}

} // namespace

Fixings starter_fixings(const Step& step, const StarterCover& cover, const Cushion& cushion,
                        const TackStrip& strip, const CoverInput& input) {
  const auto& allow = input.allowances;
  const auto shape = starter_shape(step, input);
  Fixings f;
  f.step = step.number;
  f.strips = {strip_across(step, StripPlace::tread, allow.gully, allow.strip_stop, 90)};
  if (cushion.thickness > Length{}) f.pad = pad_of(shape, f.strips[0], (allow.gully + strip.width).mm());
  double glued = 0, sealed = 0, stapled = perimeter(f.pad.outline);
  for (const auto& joint : cover.seams) {
    const double length = length_mm(joint.seam.a);
    sealed += 2 * length;
    // Seen, it is glued edge to edge; under the nosing each edge is stapled, and one that is cut into teeth
    // glued as well.
    if (joint.under_nosing) stapled += 2 * length;
    if (!joint.under_nosing || shape.cut()) glued += length;
  }
  for (const auto& piece : cover.pieces)
    if (piece.relief) sealed += 2 * piece.relief->count * piece.relief->depth_mm;
  FlatPath foot;
  for (const auto& p : shape.fine.line(shape.riser_off))
    foot.push_back({p.x, p.y});
  stapled += length_mm(foot);
  f.hot_melt = from_mm_up(glued);
  f.latex = from_mm_up(sealed);
  f.staple_run = from_mm_up(stapled);
  leave_room(f, step, strip.width);
  return f;
}

} // namespace treadfold
