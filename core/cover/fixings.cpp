#include "cover/fixings.h"

#include "cover/end_wrap.h"
#include "cover/section.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace treadfold {

namespace {

double perimeter(const std::vector<PlanPoint>& outline) {
  double total = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto& p = outline[i];
    const auto& q = outline[(i + 1) % outline.size()];
    total += std::hypot(q.x - p.x, q.y - p.y);
  }
  return total;
}

/// Strip stops short of an open end so that the hem lies flat (common practice, no source).
StripPiece strip_across(const Step& step, StripPlace place, Length set_off, Length stop,
                        double open_angle_deg) {
  StripPiece piece{place, {}, step.width, set_off, 90, 90};
  if (!step.left.closed()) {
    piece.from = stop;
    piece.left_angle_deg = open_angle_deg;
  }
  if (!step.right.closed()) {
    piece.to -= stop;
    piece.right_angle_deg = open_angle_deg;
  }
  return piece;
}

/// Pad from the tread strip forward, over the nosing and flush with its underside. At an open end it is cut
/// on a line from the strip's end to the nosing's corner, clear of hem and back corner (common practice, no
/// source).
PadPiece pad_piece(const Step& step, double pad, double strip_front, const StripPiece* strip) {
  const auto& nosing = step.nosing;
  const double radius = nosing.radius.mm(), going = step.going.mm();
  const double to_bend = going - strip_front + nosing.projection.mm() - radius;
  const double to_corner = to_bend + radius;
  const double whole = to_bend + (radius + pad / 2) * std::numbers::pi / 2 + (nosing.thickness.mm() - radius);
  const double width = step.width.mm();
  const double left_front = step.left.closed() ? 0 : -step.left.overhang.mm();
  const double right_front = step.right.closed() ? width : width + step.right.overhang.mm();
  const double left_back = strip != nullptr ? strip->from.mm() : left_front;
  const double right_back = strip != nullptr ? strip->to.mm() : right_front;
  PadPiece piece;
  piece.outline = {{left_back, 0},       {right_back, 0},     {right_front, to_corner},
                   {right_front, whole}, {left_front, whole}, {left_front, to_corner}};
  piece.width = from_mm_up(std::max(right_front, right_back) - std::min(left_front, left_back));
  piece.length = from_mm_up(whole);
  return piece;
}

} // namespace

Fixings fixings(const Step& step, CoverStyle style, const Cushion& cushion, const TackStrip& strip,
                const Carpet& carpet, const Allowances& allowances) {
  Fixings f;
  f.step = step.number;
  const double pad = cushion.thickness.mm(), width = step.width.mm();
  const auto section = section_of({step, style, pad, carpet.backing.mm()});

  if (!step.landing_edge)
    f.strips.push_back(
        strip_across(step, StripPlace::tread, allowances.gully, allowances.strip_stop, strip.end_angle_deg));
  const double strip_front = step.landing_edge ? 0 : (allowances.gully + strip.width).mm();
  if (pad > 0) f.pad = pad_piece(step, pad, strip_front, step.landing_edge ? nullptr : &f.strips.front());
  // Riser strip for waterfall only, none for wrapped steps: CRI 105, older edition, §17.2.
  if (style == CoverStyle::waterfall)
    f.strips.push_back(strip_across(step, StripPlace::riser, allowances.gully, allowances.strip_stop, 90));

  double glue = 0, sealed = 0, stapled = perimeter(f.pad.outline);
  if (section.under) stapled += width;
  for (const auto hand : {Hand::left, Hand::right}) {
    if ((hand == Hand::left ? step.left : step.right).closed()) continue;
    const auto wrap = end_wrap(section, step, hand, allowances.relief.mm());
    const double hem = section.v_foot - section.v_inner;
    // Bead on the hem, on both parts of the under-lip and along the tabs of the back corner.
    glue += hem + ((wrap.back_corner ? wrap.back_et.front().v : wrap.end_back) - wrap.mitre_e[0].v) +
            wrap.overhang;
    if (wrap.back_corner) glue += 2 * wrap.overhang + wrap.end_height;
    sealed += length_mm(outline_of(wrap, section)) + hem;
    stapled += inches(4).mm(); // front and back corner, two staples each (common practice, no source)
  }
  f.hot_melt = from_mm_up(glue);
  f.latex = from_mm_up(sealed);
  f.staple_run = from_mm_up(stapled);
  if (step.landing_edge) f.seam_tape = step.width + step.left.overhang + step.right.overhang;
  return f;
}

} // namespace treadfold
