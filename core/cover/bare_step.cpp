#include "cover/bare_step.h"
#include "units/steady.h"

#include "measure/uprights.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kTolerance_mm = 0.05;
constexpr double kNothing_mm = 1e-6;

void follow(RegionOutline& outline, const RegionEdge& edge, double from, double to) {
  constexpr int kSteps = 48;
  const double begin = edge(from);
  const bool straight =
      std::abs(begin - edge((from + to) / 2)) < kNothing_mm && std::abs(begin - edge(to)) < kNothing_mm;
  const int steps = straight ? 1 : kSteps;
  for (int i = 0; i <= steps; ++i) { // closer together at the ends, where arcs turn
    const double b = from + (to - from) * (1 - steady::cos(std::numbers::pi * i / steps)) / 2;
    outline.push_back({edge(b), b});
  }
}

} // namespace

BareStep bare_step(const Step& step, const BareFaceInput& input) {
  std::vector<RegionOutline> uprights;
  for (const auto& upright : step.uprights) {
    uprights.emplace_back();
    for (const auto& p : footprint(upright))
      uprights.back().push_back({p.x, p.y});
  }
  const double on_wood = input.backing / 2;
  return {.rise = step.rise.mm(),
          .o = step.nosing.projection.mm(),
          .t = step.nosing.thickness.mm(),
          .r = step.nosing.radius.mm(),
          .bevel = step.nosing.bevel.mm(),
          .on_pad = input.pad + on_wood,
          .on_wood = on_wood,
          .left = bare_side(step, Hand::left),
          .right = bare_side(step, Hand::right),
          .landing_edge = step.landing_edge,
          .uprights = std::move(uprights),
          .of = fmt::format(", step {}", step.number)};
}

RegionOutline between(const RegionEdge& left, const RegionEdge& right, double b0, double b1) {
  RegionOutline outline;
  follow(outline, left, b0, b1);
  follow(outline, right, b1, b0);
  return outline;
}

BareFace level_face(const std::string& name, double z, Point3 outward, RegionOutline plan,
                    const std::vector<RegionOutline>& uprights) {
  return {.name = name,
          .origin = {0, 0, z},
          .a = kRightward,
          .b = kInward,
          .outward = outward,
          .region = {std::move(plan), {}},
          .uprights = uprights};
}

void BareFaceList::add(BareFace face, double nearest, double farthest) {
  const auto box = box_of(face.region.outline);
  if (box.high.a - box.low.a < kNothing_mm || box.high.b - box.low.b < kNothing_mm) return;
  face.region.holes.insert(face.region.holes.end(), face.uprights.begin(), face.uprights.end());
  face.origin = face.origin + shift;
  face.nearest = nearest - kTolerance_mm;
  face.farthest = farthest + kTolerance_mm;
  faces_.push_back(std::move(face));
}

FrontEdge front_edge(const BareSide& side) {
  if (side.closed) return [&side](double y, double off) { return side.x(y - off); };
  return [&side](double y, double off) { return side.inner(side.x(y), side.x(y - off)); };
}

void add_nosing_front(BareFaceList& faces, const BareStep& s, const std::string& of, const FrontEdge& left,
                      const FrontEdge& right) {
  const auto flat = [&](const FrontEdge& edge) { return [&](double) { return edge(-s.o, s.on_pad); }; };
  faces.add({.name = "front" + of,
             .origin = {0, -s.o, 0},
             .a = kRightward,
             .b = kUp,
             .outward = kForward,
             .region = {between(flat(left), flat(right), s.rise - s.t + s.r, s.rise - s.r - s.bevel), {}}},
            s.on_pad);
  if (s.bevel > 0) { // b: down the slope
    constexpr double kSlope = std::numbers::sqrt2 / 2;
    const auto slope = [&](const FrontEdge& edge) {
      return [&](double b) { return edge(s.bevel - s.o - b * kSlope, s.on_pad * kSlope); };
    };
    faces.add({.name = "bevel" + of,
               .origin = {0, s.bevel - s.o, s.rise},
               .a = kRightward,
               .b = {0, -kSlope, -kSlope},
               .outward = {0, -kSlope, kSlope},
               .region = {between(slope(left), slope(right), 0, s.bevel * std::numbers::sqrt2), {}}},
              s.on_pad);
  }
  if (s.r == 0) return;
  const auto round = [&](const FrontEdge& edge) {
    return [&](double b) {
      const double forward = steady::sin(b / s.r);
      return edge(s.r - s.o - s.r * forward, s.on_pad * forward);
    };
  };
  faces.add({.name = "nosing" + of,
             .origin = {0, s.r - s.o, s.rise - s.r},
             .a = kRightward,
             .b = kForward,
             .outward = kUp,
             .arc_radius = s.r,
             .region = {between(round(left), round(right), 0, s.r * std::numbers::pi / 2), {}}},
            s.on_pad);
}

} // namespace treadfold
