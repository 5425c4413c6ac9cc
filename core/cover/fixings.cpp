#include "cover/fixings.h"

#include "cover/end_wrap.h"
#include "cover/fixing_room.h"
#include "cover/section.h"
#include "cover/strip_and_pad.h"
#include "units/steady.h"

#include <algorithm>
#include <numbers>

namespace treadfold {

namespace {

/// Pad from the tread strip forward, over the nosing and flush with its underside. At an open end it is cut
/// on a line from the strip's end to the nosing's corner, clear of hem and back corner (common practice, no
/// source).
PadPiece pad_piece(const Step& step, double pad, double strip_front, const StripPiece* strip) {
  const auto& nosing = step.nosing;
  const double going = step.going.mm(), to_corner = going - strip_front + nosing.projection.mm();
  const double whole = to_corner + over_the_nosing(nosing, pad);
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
  piece.riser_y = going - strip_front;
  return piece;
}

/// Where the line at `depth` from the next riser meets a side: how far out from the next riser's end (η).
double side_eta(const SidePlan& plan, double depth) {
  const auto a = *(plan.line.end() - 2) - plan.next_riser(); // toward the riser
  return dot(a, plan.along) * depth / -dot(a, plan.back);
}

constexpr double kDegrees = 180 / std::numbers::pi;

/// Strip along a next riser that is not square to the sides. A closed end is cut to the side; an open one as
/// on a rectangle.
StripPiece oblique_strip(const Step& step, const SidePlan& left, const SidePlan& right, Length gully,
                         Length width, Length stop, double open_angle_deg) {
  StripPiece piece{StripPlace::tread, {}, {}, gully, open_angle_deg, open_angle_deg};
  const auto reach = [&](const SidePlan& plan, const Side& side, double& angle_deg) {
    const double back = side_eta(plan, gully.mm()), front = side_eta(plan, (gully + width).mm());
    if (!side.closed()) return std::min(back, front) - stop.mm();
    angle_deg = 90 + steady::atan2(back - front, width.mm()) * kDegrees;
    return std::max(back, front);
  };
  const auto whole = right.next_riser() + PlanPoint{step.width.mm(), 0} -
                     PlanPoint{-left.next_riser().x, left.next_riser().y};
  piece.from = from_mm(-reach(left, step.left, piece.left_angle_deg));
  piece.to = from_mm(steady::hypot(whole.x, whole.y) + reach(right, step.right, piece.right_angle_deg));
  return piece;
}

/// As pad_piece, for a tread that is no rectangle: from the strip's front edge to the nosing along the sides.
PadPiece oblique_pad(const Step& step, const Section& section, const SidePlan& left, const SidePlan& right,
                     double strip_front, Length stop) {
  const double deepest = section.back_y, to_corner = deepest + step.nosing.projection.mm();
  const double whole = to_corner + over_the_nosing(step.nosing, section.pad);
  const auto side = [&](const SidePlan& plan, const Side& s) { // back to front, x outward
    const double eta = side_eta(plan, strip_front) - (s.closed() ? 0 : stop.mm());
    std::vector<PlanPoint> path{plan.from_back(eta, -strip_front)};
    if (s.closed())
      for (std::size_t i = plan.line.size() - 1; i-- > 1;)
        path.push_back(plan.line[i]);
    for (auto& p : path)
      p.y = deepest - p.y;
    const double front = deepest - to_corner,
                 x = s.closed() ? plan.x(front) : plan.at_front(s.overhang.mm(), front).x;
    path.insert(path.end(), {{x, to_corner}, {x, whole}});
    return path;
  };
  PadPiece pad;
  pad.outline = side(right, step.right);
  for (auto& p : pad.outline)
    p.x += step.width.mm();
  auto other = side(left, step.left);
  for (auto p = other.rbegin(); p != other.rend(); ++p)
    pad.outline.push_back({-p->x, p->y});
  double x0 = 1e300, x1 = -1e300, y0 = 1e300;
  for (const auto& p : pad.outline)
    x0 = std::min(x0, p.x), x1 = std::max(x1, p.x), y0 = std::min(y0, p.y);
  pad.width = from_mm_up(x1 - x0);
  pad.length = from_mm_up(whole - y0);
  pad.riser_y = deepest;
  return pad;
}

/// A tread without risers has no strip; its pad goes over both edges, its carpet is stapled underneath.
Fixings open_riser_fixings(const Step& step, double pad, const Section& section) {
  Fixings f;
  f.step = step.number;
  const double left = step.left.closed() ? 0 : step.left.overhang.mm(),
               right = step.right.closed() ? 0 : step.right.overhang.mm();
  const double width = step.width.mm() + left + right, depth = (step.going + step.nosing.projection).mm();
  const double girth = depth + 2 * over_the_nosing(step.nosing, pad);
  if (pad > 0) {
    f.pad.outline = {{-left, 0}, {width - left, 0}, {width - left, girth}, {-left, girth}};
    f.pad.width = from_mm_up(width);
    f.pad.length = from_mm_up(girth);
    f.pad.riser_y = over_the_nosing(step.nosing, pad) + step.going.mm();
  }
  double round_ends = 0; // the seam round each open end
  for (const auto* side : {&step.left, &step.right})
    if (!side->closed()) round_ends += 2 * (depth + section.thickness + pad);
  f.hot_melt = from_mm_up(round_ends);
  f.latex = from_mm_up(2 * (width + round_ends));
  f.staple_run = from_mm_up(perimeter(f.pad.outline) + 2 * width);
  return f;
}

Fixings risers_fixings(const Step& step, CoverStyle style, const Cushion& cushion, const TackStrip& strip,
                       const Carpet& carpet, const Allowances& allowances) {
  Fixings f;
  f.step = step.number;
  const double pad = cushion.thickness.mm(), width = step.width.mm();
  const auto section = section_of({step, style, pad, carpet.backing.mm()});

  const double strip_front = step.landing_edge ? 0 : (allowances.gully + strip.width).mm();
  if (step.landing()) { // strip and pad of the landing are its floor's
    if (pad > 0) f.pad = pad_piece(step, pad, step.going.mm(), nullptr);
  } else if (step.rectangular()) {
    if (!step.landing_edge)
      f.strips.push_back(strip_across(step, StripPlace::tread, allowances.gully, allowances.strip_stop,
                                      strip.end_angle_deg));
    if (pad > 0) f.pad = pad_piece(step, pad, strip_front, step.landing_edge ? nullptr : &f.strips.front());
  } else {
    const auto left = side_plan(step, Hand::left, section.back_y),
               right = side_plan(step, Hand::right, section.back_y);
    f.strips.push_back(oblique_strip(step, left, right, allowances.gully, strip.width, allowances.strip_stop,
                                     strip.end_angle_deg));
    if (pad > 0) f.pad = oblique_pad(step, section, left, right, strip_front, allowances.strip_stop);
  }
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
    glue += (allowances.hem > Length{} ? hem : 0) +
            ((wrap.back_corner ? wrap.back_et.front().v : wrap.end_back) - wrap.mitre_e[0].v) + wrap.overhang;
    if (wrap.back_corner) glue += 2 * wrap.overhang + wrap.end_height;
    sealed += length_mm(outline_of(wrap, section)) + hem;
    stapled += inches(4).mm(); // front and back corner, two staples each (common practice, no source)
  }
  f.hot_melt = from_mm_up(glue);
  f.latex = from_mm_up(sealed);
  f.staple_run = from_mm_up(stapled);
  if (step.landing_edge && step.rectangular())
    f.seam_tape = step.width + step.left.overhang + step.right.overhang;
  f.latex += f.seam_tape * 2; // both edges of a seam
  return f;
}

} // namespace

Fixings fixings(const Step& step, CoverStyle style, const Cushion& cushion, const TackStrip& strip,
                const Carpet& carpet, const Allowances& allowances) {
  const double pad = cushion.thickness.mm(), backing = carpet.backing.mm();
  auto f = step.open_riser
               ? open_riser_fixings(step, pad, section_of({step, CoverStyle::wrapped, pad, backing}))
               : risers_fixings(step, style, cushion, strip, carpet, allowances);
  leave_room(f, step, strip.width);
  return f;
}

void add_opening(Fixings& f, const Opening& opening) {
  auto rim = opening.hole;
  rim.push_back(rim.front());
  const double slit = opening.slit.empty() ? 0 : length_mm(opening.slit);
  f.latex += from_mm_up(length_mm(rim) + 2 * slit);
  f.staple_run += from_mm_up(2 * slit);
}

} // namespace treadfold
