#include "cover/bare_step.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace treadfold {

namespace {

constexpr double kFar_mm = 1e4; // beyond any step

/// Where the carpet on the end meets an upright, from and to along the end; nothing if the upright stands
/// clear of it.
struct Stretch {
  double from = 1e300, to = -1e300;
  bool none() const { return to < from; }
};
Stretch let_in(const RegionOutline& upright, const BareStep& s, const BareSide& side) {
  const RegionPoint on = side.line[0];
  const double level = side.overhang + s.on_wood;
  Stretch stretch;
  for (std::size_t i = 0; i < upright.size(); ++i) {
    const auto p = upright[i] - on, q = upright[(i + 1) % upright.size()] - on;
    const double from = dot(p, side.out) - level, to = dot(q, side.out) - level;
    if ((from > 0) == (to > 0)) continue;
    const double t = from / (from - to), at = dot(p, side.in) + t * (dot(q, side.in) - dot(p, side.in));
    stretch = {std::min(stretch.from, at), std::max(stretch.to, at)};
  }
  return stretch;
}

/// From the pad's front to the wood's underside.
void add_lower_arris(BareFaceList& faces, const BareStep& s, const BareSide& side, const std::string& of) {
  if (s.r == 0) return;
  const auto y = [&](double b) { return s.r - s.o - s.r * steady::cos(b / s.r); };
  const auto inner = [&](double b) { return y(b) < 0 ? side.foot_x : side.outer(side.foot_x, side.x(y(b))); };
  const auto outer = [&](double b) {
    return side.outer(inner(b), side.inner(side.end_x(y(b)), side.end_x(y(b) - s.pad())));
  };
  faces.add({.name = "lower arris" + of,
             .origin = {0, s.r - s.o, s.rise - s.t + s.r},
             .a = kRightward,
             .b = kDown,
             .outward = kForward,
             .arc_radius = s.r,
             .region = {between(inner, outer, 0, s.r * std::numbers::pi / 2), {}}},
            s.on_wood, s.on_pad);
}

/// Region: along the end's line from y = 0 into the stair, and z. In front it is the nosing, cut obliquely.
void add_end_face(BareFaceList& faces, const BareStep& s, const BareSide& side, const std::string& of) {
  const RegionPoint zero{side.end_x(0), 0};
  const auto front = [&](double z) {
    const double up = std::max({0.0, z - (s.rise - s.r), s.rise - s.t + s.r - z});
    const double planed = std::max(0.0, z - (s.rise - s.bevel));
    return (s.r + planed - s.o - std::sqrt(std::max(0.0, s.r * s.r - up * up))) / side.in.b;
  };
  const auto back = [&, t = dot(side.back_end - zero, side.in)](double) { return t; };
  const double shift = dot(side.line[0] - zero, side.in);
  std::vector<RegionOutline> uprights;
  for (const auto& upright : s.uprights)
    if (const auto cut = let_in(upright, s, side); !cut.none())
      uprights.push_back({{cut.from + shift, -kFar_mm},
                          {cut.to + shift, -kFar_mm},
                          {cut.to + shift, kFar_mm},
                          {cut.from + shift, kFar_mm}});
  faces.add({.name = "end" + of,
             .origin = {zero.a, 0, 0},
             .a = {side.in.a, side.in.b, 0},
             .b = kUp,
             .outward = {side.out.a, side.out.b, 0},
             .region = {between(front, back, s.rise - s.t, s.rise), {}},
             .uprights = std::move(uprights)},
            s.on_wood);
}

/// Where the end meets the line of the next riser.
RegionPoint end_at_next_riser(const BareSide& side) {
  return side.back_corner(side.overhang, dot(side.line.back() - side.back_in, side.behind));
}

/// Inward to the riser's end and, behind the riser, to the stringer.
void add_under_lip(BareFaceList& faces, const BareStep& s, const BareSide& side, const std::string& of) {
  const RegionPoint foot{side.foot_x, 0}, far{foot.a + kFar_mm * side.in.a, foot.b + kFar_mm * side.in.b};
  RegionOutline plan{foot,
                     far,
                     {far.a + kFar_mm * side.out.a, far.b + kFar_mm * side.out.b},
                     {foot.a + side.sign * kFar_mm, -kFar_mm},
                     {foot.a, -kFar_mm}};
  plan = clipped(plan, {0, s.r - s.o}, {0, 1});
  plan = clipped(plan, side.back_end, {-side.out.a, -side.out.b});
  plan =
      clipped(plan, side.free_back > 0 ? side.line.back() : side.back_end, {-side.behind.a, -side.behind.b});
  std::vector<RegionOutline> uprights;
  std::copy_if(s.uprights.begin(), s.uprights.end(), std::back_inserter(uprights),
               [&](const auto& upright) { return !let_in(upright, s, side).none(); });
  faces.add(level_face("under-lip" + of, s.rise - s.t, kDown, std::move(plan), uprights), s.on_wood);
}

/// The free back's inner end, moved outward along the next riser's line.
RegionPoint inward_of(const BareSide& side, double outward) {
  const double a = outward - side.free_back;
  return {side.line.back().a + a * side.back_out.a, side.line.back().b + a * side.back_out.b};
}

/// Region: along the back edge from the stringer, and z. The tabs hang square from the back edge; their
/// mitres run 45° in from the carpet's corners. Past the end tab's set-off tip the middle is left open.
void add_back(BareFaceList& faces, const BareStep& s, const BareSide& side, const std::string& of,
              double relief) {
  const auto along = [&](RegionPoint p) { return dot(p - side.back_in, side.back_out); };
  const double wood = along(side.back_end),
               carpet = along(side.back_corner(side.overhang + s.on_wood, s.on_wood));
  const double half = (s.t + s.pad()) / 2, tip = std::max(0.0, std::min(half, carpet) - relief);
  const double middle = s.rise + s.pad() - half, open = half - tip;
  const auto free = along(inward_of(side, 0));
  const auto rectangle = [](double a0, double a1, double b0, double b1) {
    return RegionOutline{{a0, b0}, {a1, b0}, {a1, b1}, {a0, b1}};
  };
  faces.add({.name = "back" + of,
             .origin = {side.back_in.a, side.back_in.b, 0},
             .a = {side.back_out.a, side.back_out.b, 0},
             .b = kUp,
             .outward = {side.behind.a, side.behind.b, 0},
             .region = side.free_back > 0
                           ? Region{rectangle(free, wood, s.rise - s.t, s.rise), {}}
                           : Region{rectangle(0, wood, s.rise - s.t, s.rise),
                                    {rectangle(-kFar_mm, carpet - tip, middle - open, middle + open)}}},
            s.on_wood);
}

/// Beside a narrower riser above: the board's strip behind that riser's line, from above and below.
void add_free_back(BareFaceList& faces, const BareStep& s, const BareSide& side, const std::string& of) {
  const auto inner = inward_of(side, 0);
  const double q = dot(side.back_in - side.line.back(), side.behind);
  const RegionOutline strip{inner,
                            end_at_next_riser(side),
                            side.back_end,
                            {inner.a + q * side.behind.a, inner.b + q * side.behind.b}};
  faces.add(level_face("tread beside the riser above" + of, s.rise, kUp, strip), s.on_pad);
  faces.add(level_face("under-lip at the back" + of, s.rise - s.t, kDown, strip), s.on_wood);
}

} // namespace

void add_bare_end(BareFaceList& faces, const BareStep& s, const BareSide& side, double relief) {
  const auto of = side.sign > 0 ? ", right" + s.of : ", left" + s.of;
  const double front = s.front();
  faces.add(level_face("tread past the riser's end" + of, s.rise, kUp,
                       {{side.x(front), front},
                        side.free_back > 0 ? side.line.back() : side.back_in,
                        side.free_back > 0 ? end_at_next_riser(side) : side.back_end,
                        {side.end_x(front), front}},
                       s.uprights),
            s.on_pad);
  add_nosing_front(faces, s, " at the end" + of, front_edge(side),
                   [&side](double y, double off) { return side.inner(side.end_x(y), side.end_x(y - off)); });
  add_lower_arris(faces, s, side, of);
  add_end_face(faces, s, side, of);
  add_under_lip(faces, s, side, of);
  if (s.landing_edge) return;
  add_back(faces, s, side, of, relief);
  if (side.free_back > 0) add_free_back(faces, s, side, of);
}

} // namespace treadfold
