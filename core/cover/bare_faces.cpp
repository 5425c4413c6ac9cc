#include "cover/bare_faces.h"

#include "cover/bare_drop.h"
#include "cover/bare_open_riser.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

constexpr double kHair_mm = 0.05; // a nosing no deeper than this has no underside

/// `joined_back`: in a joined piece the tread ends before the carpet on the riser behind it.
void add_tread(BareFaceList& faces, const BareStep& s, bool joined_back) {
  const double front = s.front();
  RegionOutline plan{{s.left.x(front), front}};
  plan.insert(plan.end(), s.left.line.begin(), s.left.line.end());
  plan.insert(plan.end(), s.right.line.rbegin(), s.right.line.rend());
  plan.push_back({s.right.x(front), front});
  if (joined_back) {
    const auto &last = s.right.line.back(), &behind = s.right.behind;
    plan =
        clipped(plan, {last.a - s.on_wood * behind.a, last.b - s.on_wood * behind.b}, {-behind.a, -behind.b});
  }
  faces.add(level_face("tread" + s.of, s.rise, kUp, std::move(plan), s.uprights), s.on_pad);
}

/// What the drop hides: the riser; where the carpet goes under the nosing, that and the riser.
/// `foot`: z at its left end, below which the carpet of the step below lies before it.
void add_riser(BareFaceList& faces, const BareStep& s, bool wrapped, double foot, double fall_right) {
  const bool under = wrapped && s.o + s.pad() - s.r - s.on_wood > kHair_mm;
  // A concave corner is filled by the backing itself.
  const double top = std::max(foot, s.rise - s.t - (under ? s.on_wood : 0));
  const auto edge = [&](const BareSide& side, double foot_z) -> RegionEdge {
    if (!side.closed) return [&side](double) { return side.foot_x; };
    if (under) return [&side, &s](double) { return side.x(-s.on_wood); };
    return [&side, drop = BareDrop(s, foot_z)](double z) { return side.x(drop.y(z)); };
  };
  auto outline =
      between(edge(s.left, foot), edge(s.right, foot - fall_right), foot - std::max(0.0, fall_right), top);
  if (fall_right != 0)
    outline = clipped(outline, {s.left.foot_x, foot}, {fall_right, s.right.foot_x - s.left.foot_x});
  // A drop hangs free before the riser.
  faces.add({.name = "riser" + s.of,
             .a = kRightward,
             .b = kUp,
             .outward = kForward,
             .region = {std::move(outline), {}}},
            under ? s.on_wood : 0, under ? s.on_wood : s.o + s.on_pad + s.on_wood);
  if (!under || s.o - s.r - s.on_wood <= kHair_mm) return;
  const auto side_edge = [](const BareSide& side) {
    return [&side](double y) { return side.closed ? side.x(y) : side.foot_x; };
  };
  faces.add(level_face("under nosing" + s.of, s.rise - s.t, kDown,
                       between(side_edge(s.left), side_edge(s.right), s.r - s.o, -s.on_wood)),
            s.on_wood);
}

} // namespace

std::vector<BareFace> bare_faces(const std::vector<Step>& steps, const BareFaceInput& input) {
  BareFaceList faces;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const bool highest = i == 0, lowest = i + 1 == steps.size();
    if (!highest) faces.shift = faces.shift - Point3{0, steps[i].going.mm(), steps[i].rise.mm()};
    if (steps[i].open_riser) {
      add_open_riser(faces, steps[i], input);
      continue;
    }
    const auto s = bare_step(steps[i], input);
    add_tread(faces, s, !highest);
    add_nosing_front(faces, s, s.of, front_edge(s.left), front_edge(s.right));
    add_riser(faces, s, input.style == CoverStyle::wrapped, lowest ? 0 : input.pad + input.backing,
              steps[i].fall_right.mm());
    for (const auto* side : {&s.left, &s.right})
      if (!side->closed) add_bare_end(faces, s, *side, input.relief);
  }
  return faces.take();
}

} // namespace treadfold
