#include "cover/bare_faces.h"

#include <algorithm>

#include <fmt/format.h>

namespace treadfold {

namespace {

/// The bare faces of an open end. `sign` +1: right, -1: left; `at_x`: of the riser's end.
void end_faces(std::vector<BareFace>& faces, const Step& step, const Side& side, double sign, double at_x,
               Point3 shift, const BareFaceInput& in) {
  const double rise = step.rise.mm(), going = step.going.mm(), o = step.nosing.projection.mm();
  const double t = step.nosing.thickness.mm(), r = step.nosing.radius.mm(), e = side.overhang.mm();
  const double back = step.landing_edge ? going : going + side.return_past.mm();
  const double thin = in.backing + 1;
  const std::string of = fmt::format(", {}, step {}", sign > 0 ? "right" : "left", step.number);
  const auto at = [&](double x, double y, double z) { return Point3{at_x + sign * x, y, z} + shift; };
  const auto add = [&](BareFace face) {
    face.step = step.number;
    if (norm(face.a) > 1e-6 && norm(face.b) > 1e-6) faces.push_back(std::move(face));
  };
  add({"end" + of, at(e, back, rise), {0, -(back + o), 0}, {0, 0, -t}, {sign, 0, 0}, thin, 0, {}, r});
  add({"under-lip" + of,
       at(0, back, rise - t),
       {sign * e, 0, 0},
       {0, -(back + o - r), 0},
       {0, 0, -1},
       thin,
       0,
       {},
       0});
  add({"front at the end" + of,
       at(0, -o, rise - r),
       {sign * e, 0, 0},
       {0, 0, -(t - 2 * r)},
       {0, -1, 0},
       in.pad + thin,
       0,
       {},
       0});
  if (r > 0) {
    add({"nosing at the end" + of,
         at(0, -o + r, rise - r),
         {sign * e, 0, 0},
         {0, -1, 0},
         {0, 0, 1},
         in.pad + thin,
         r,
         {},
         0});
    add({"lower arris at the end" + of,
         at(0, -o + r, rise - t + r),
         {sign * e, 0, 0},
         {0, 0, -1},
         {0, -1, 0},
         in.pad + thin,
         r,
         {},
         0});
  }
  if (step.landing_edge) return;
  // Seen from behind: a from the riser's plane outward, b from the tread's top down. The tabs' mitres run 45°
  // from the carpet's corners; past the end tab's set-off tip the middle is left open on purpose.
  const double half = (t + in.pad) / 2, out = e + in.backing / 2, depth = std::min(half, out);
  const double tip = std::max(0.0, depth - in.relief), middle = half - in.pad, open = half - tip;
  add({"back" + of,
       at(0, back, rise),
       {sign * e, 0, 0},
       {0, 0, -t},
       {0, 1, 0},
       thin,
       0,
       {{0, out - tip, middle - open, middle + open}},
       0});
}

} // namespace

std::vector<BareFace> bare_faces(const std::vector<Step>& steps, const BareFaceInput& in) {
  std::vector<BareFace> faces;
  Point3 shift{0, 0, 0}; // of the step's frame in the frame of the highest
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto& step = steps[i];
    if (i > 0) shift = shift - Point3{0, step.going.mm(), step.rise.mm()};
    const double rise = step.rise.mm(), going = step.going.mm(), o = step.nosing.projection.mm();
    const double t = step.nosing.thickness.mm(), r = step.nosing.radius.mm(), width = step.width.mm();
    const double thick = in.pad + in.backing + 1;
    const bool last = i + 1 == steps.size();
    const double back = going - (i > 0 ? in.backing / 2 : 0);
    const double foot = last ? 0 : in.pad + in.backing; // below that the step below's carpet lies before it
    const std::string of = fmt::format(", step {}", step.number);
    const auto add = [&](BareFace face) {
      face.origin = face.origin + shift;
      face.step = step.number;
      if (norm(face.a) > 1e-6 && norm(face.b) > 1e-6) faces.push_back(std::move(face));
    };
    add({"tread" + of, {0, back, rise}, {width, 0, 0}, {0, -(back + o - r), 0}, {0, 0, 1}, thick, 0, {}, 0});
    add({"front" + of, {0, -o, rise - r}, {width, 0, 0}, {0, 0, -(t - 2 * r)}, {0, -1, 0}, thick, 0, {}, 0});
    if (r > 0)
      add({"nosing" + of, {0, -o + r, rise - r}, {width, 0, 0}, {0, -1, 0}, {0, 0, 1}, thick, r, {}, 0});
    add({"riser" + of,
         {0, 0, rise - t},
         {width, 0, 0},
         {0, 0, -(rise - t - foot)},
         {0, -1, 0},
         o + thick,
         0,
         {},
         0});
    // A concave corner is filled by the backing itself; a nosing of a hair's depth has no underside.
    const double under = o - r - in.backing / 2, hair = 0.05;
    if (in.style == CoverStyle::wrapped && under > hair)
      add({"under nosing" + of,
           {0, -o + r, rise - t},
           {width, 0, 0},
           {0, under, 0},
           {0, 0, -1},
           in.backing + 1,
           0,
           {},
           0});
    for (const bool right : {false, true}) {
      const auto& side = right ? step.right : step.left;
      if (side.closed()) continue;
      const double sign = right ? 1 : -1, at_x = right ? width : 0, e = side.overhang.mm();
      const double end = step.landing_edge ? going : going + side.return_past.mm();
      add({fmt::format("tread past the riser's end, {}{}", right ? "right" : "left", of),
           {at_x, end, rise},
           {sign * e, 0, 0},
           {0, -(end + o - r), 0},
           {0, 0, 1},
           thick,
           0,
           {},
           0});
      end_faces(faces, step, side, sign, at_x, shift, in);
    }
  }
  return faces;
}

} // namespace treadfold
