#include "cover/bare_open_riser.h"
#include "units/steady.h"

#include <numbers>

namespace treadfold {

namespace {

constexpr double kQuarter = std::numbers::pi / 2;

RegionOutline rectangle(double a0, double a1, double b0, double b1) {
  return {{a0, b0}, {a1, b0}, {a1, b1}, {a0, b1}};
}

/// A board's end in (y, z): its four arrises are rounded alike, or the upper two bevelled.
RegionOutline board_end(double front, double back, double low, double high, double radius, double bevel) {
  if (bevel > 0)
    return {{front, low},         {back, low},           {back, high - bevel},
            {back - bevel, high}, {front + bevel, high}, {front, high - bevel}};
  constexpr int kSteps = 12;
  RegionOutline outline;
  const RegionPoint axes[] = {{back - radius, low + radius},
                              {back - radius, high - radius},
                              {front + radius, high - radius},
                              {front + radius, low + radius}};
  for (int corner = 0; corner < 4; ++corner)
    for (int i = 0; i <= kSteps; ++i) {
      const double angle = kQuarter * (corner - 1 + static_cast<double>(i) / kSteps);
      outline.push_back(
          {axes[corner].a + radius * steady::cos(angle), axes[corner].b + radius * steady::sin(angle)});
    }
  return outline;
}

} // namespace

void add_open_riser(BareFaceList& faces, const Step& step, const BareFaceInput& input) {
  const auto s = bare_step(step, input);
  const double x0 = step.left.closed() ? 0 : -step.left.overhang.mm();
  const double x1 = step.width.mm() + (step.right.closed() ? 0 : step.right.overhang.mm());
  const double back = step.going.mm(), bottom = s.rise - s.t;
  const auto left = [&](double, double) { return x0; };
  const auto right = [&](double, double) { return x1; };
  faces.add(
      level_face("tread" + s.of, s.rise, kUp, rectangle(x0, x1, s.front(), back - s.r - s.bevel), s.uprights),
      s.on_pad);
  faces.add(level_face("underside" + s.of, bottom, kDown, rectangle(x0, x1, s.r - s.o, back - s.r)),
            s.on_wood);
  add_nosing_front(faces, s, s.of, left, right);

  const auto arris = [&](const char* name, double y, double z, Point3 from, Point3 to, double nearest,
                         double farthest) {
    faces.add({.name = name + s.of,
               .origin = {0, y, z},
               .a = kRightward,
               .b = to,
               .outward = from,
               .arc_radius = s.r,
               .region = {rectangle(x0, x1, 0, s.r * kQuarter), {}}},
              nearest, farthest);
  };
  faces.add({.name = "back" + s.of,
             .origin = {0, back, 0},
             .a = kRightward,
             .b = kUp,
             .outward = kInward,
             .region = {rectangle(x0, x1, bottom + s.r, s.rise - s.r - s.bevel), {}}},
            s.on_pad);
  if (s.bevel > 0) {
    constexpr double kSlope = std::numbers::sqrt2 / 2;
    faces.add({.name = "back's bevel" + s.of,
               .origin = {0, back - s.bevel, s.rise},
               .a = kRightward,
               .b = {0, kSlope, -kSlope},
               .outward = {0, kSlope, kSlope},
               .region = {rectangle(x0, x1, 0, s.bevel * std::numbers::sqrt2), {}}},
              s.on_pad);
  }
  if (s.r > 0) { // below, from the pad's edge to the wood
    arris("back's upper arris", back - s.r, s.rise - s.r, kUp, kInward, s.on_pad, s.on_pad);
    arris("back's lower arris", back - s.r, bottom + s.r, kInward, kDown, s.on_wood, s.on_pad);
    arris("lower arris", s.r - s.o, bottom + s.r, kForward, kDown, s.on_wood, s.on_pad);
  }
  for (const auto* side : {&s.left, &s.right})
    if (!side->closed)
      faces.add({.name = side->sign > 0 ? "end, right" + s.of : "end, left" + s.of,
                 .origin = {side->sign > 0 ? x1 : x0, 0, 0},
                 .a = kInward,
                 .b = kUp,
                 .outward = {side->sign, 0, 0},
                 .region = {board_end(-s.o, back, bottom, s.rise, s.r, s.bevel), {}}},
                s.on_wood);
}

} // namespace treadfold
