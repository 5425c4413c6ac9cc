#include "cover/openings.h"

#include "measure/uprights.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;
constexpr double kTouch_mm = 1e-6;

/// From the middle of the step to the side's own x and back.
PlanPoint to_local(const StepSide& side, PlanPoint p) {
  return {side.frame.right ? p.x - side.frame.riser_end_u : side.frame.riser_end_u - p.x, p.y};
}

/// A direction of the side's plan as one of the flat tread.
FlatPoint flat_direction(const StepSide& side, PlanPoint d) { return {side.frame.right ? d.x : -d.x, -d.y}; }

std::string label_of(const Upright& u, LengthUnit unit) {
  const auto width = show_length(u.width, unit);
  if (u.round) return fmt::format("{}, {} round", u.word, width);
  if (u.width == u.depth) return fmt::format("{}, {} square", u.word, width);
  return fmt::format("{}, {} × {}", u.word, width, show_length(u.depth, unit));
}

FlatPath in_end(const StepSide& side, const std::vector<PlanPoint>& foot) {
  FlatPath path;
  for (const auto& p : foot) {
    const auto local = to_local(side, p);
    path.push_back({side.plan.xi(local), side.plan.t(local)});
  }
  return path;
}

bool let_in(const StepSide& side, const FlatPath& foot_in_end) {
  return side.wrap && std::any_of(foot_in_end.begin(), foot_in_end.end(),
                                  [&](FlatPoint p) { return p.u > side.wrap->overhang + kTouch_mm; });
}

/// The way over an open end to the inner edge of its under-lip, or to the mitre there, which is as hidden.
WayOut round_the_end(const StepSide& side) {
  const auto& w = *side.wrap;
  const double far_t = w.back_corner ? w.plan.t(w.plan.next_riser()) + w.return_past : w.end_back;
  FlatPath edge{{w.far_edge, far_t}, {w.far_edge, w.mitre_e[1].v}};
  edge.insert(edge.end(), w.mitre_e.rbegin(), w.mitre_e.rend());
  return {flat_direction(side, side.plan.out), side.frame.at(w.from_end(edge)), false, "slit round the end"};
}

/// The way over a back that stands free to the inner edge of its under-lip, or to the mitre there.
WayOut over_the_back(const StepSide& side) {
  const auto& w = *side.wrap;
  FlatPath edge{{w.slit_eta, w.back_far}};
  edge.insert(edge.end(), w.back_mitre_t.rbegin(), w.back_mitre_t.rend());
  return {flat_direction(side, side.plan.back), side.frame.at(w.from_back(edge)), false,
          "slit over the back"};
}

std::vector<WayOut> ways_out(const StepPart& part, bool highest) {
  std::vector<WayOut> ways;
  if (highest) {
    const auto next_riser = [](const StepSide& side) { return side.frame.at({side.begin()})[0]; };
    ways.push_back({flat_direction(part.right, part.right.plan.back),
                    {next_riser(part.left), next_riser(part.right)},
                    true,
                    part.step.landing_edge ? "slit to the seam" : "slit to the back"});
  }
  for (const auto* side : {&part.left, &part.right}) {
    if (side->wrap) {
      ways.push_back(round_the_end(*side));
      if (side->wrap->free_back > 0) ways.push_back(over_the_back(*side));
      continue;
    }
    const bool skirt = (side->frame.right ? part.step.right : part.step.left).kind == SideKind::skirt;
    auto line = side->plan.line;
    const double front = part.section.back_y - part.section.v_nose;
    line[0] = {side->plan.x(front), front}; // in front of the riser it runs on straight
    for (std::size_t i = 0; i + 1 < line.size(); ++i) {
      const auto d = line[i + 1] - line[i];
      const double length = steady::hypot(d.x, d.y);
      ways.push_back({flat_direction(*side, {d.y / length, -d.x / length}),
                      side->frame.at(FlatPath{side->plan.flat(line[i]), side->plan.flat(line[i + 1])}), true,
                      skirt ? "slit to the skirt" : "slit to the wall"});
    }
  }
  return ways;
}

/// Lower and upper t of a convex outline at ξ.
struct Chord {
  double low = 1e300, high = -1e300;
};
Chord chord_at(const FlatPath& foot, double xi) {
  Chord chord;
  const auto hold = [&](double t) { chord = {std::min(chord.low, t), std::max(chord.high, t)}; };
  for (std::size_t i = 0; i < foot.size(); ++i) {
    const auto &a = foot[i], &b = foot[(i + 1) % foot.size()];
    if (std::abs(a.u - xi) < kTouch_mm) hold(a.v);
    if ((a.u < xi) != (b.u < xi)) hold(a.v + (xi - a.u) / (b.u - a.u) * (b.v - a.v));
  }
  return chord;
}

void add_hole_line(Piece& piece, FlatPath hole, const std::string& label) {
  hole.push_back(hole.front());
  piece.lines.push_back({LineRole::cut, std::move(hole), label});
}

/// A hole in the level tread.
Unslit cut_hole(Piece& piece, const Step& step, const Upright& upright, double riser_v,
                const std::vector<WayOut>& ways, LengthUnit unit) {
  const auto flat = [&](PlanPoint p) { return FlatPoint{p.x, riser_v - p.y}; };
  Opening opening{step.number, upright.word, {}, {}, {}};
  for (const auto& p : footprint(upright))
    opening.hole.push_back(flat(p));
  add_hole_line(piece, opening.hole, label_of(upright, unit));
  piece.openings.push_back(std::move(opening));
  return {piece.openings.size() - 1, flat(upright.centre), ways};
}

/// Cuts the hole of an upright let into an end and, where it leaves some of the lip behind it, the slit to
/// the lip's edge.
void cut_let_in(Piece& piece, const Step& step, const Upright& upright, const StepSide& side,
                const FlatPath& foot, LengthUnit unit) {
  const auto& w = *side.wrap;
  Opening opening{step.number, upright.word, {}, {}, {}};
  const auto hole = let_in_hole(foot, w);
  opening.hole = side.frame.at(w.from_end(hole));
  add_hole_line(piece, opening.hole, label_of(upright, unit));
  const auto inner = std::max_element(hole.begin(), hole.end(), [](auto a, auto b) { return a.u < b.u; });
  if (inner->u < w.far_edge - kTouch_mm) {
    const auto chord = chord_at(hole, inner->u);
    const double t = (chord.low + chord.high) / 2;
    opening.slit = side.frame.at(w.from_end(FlatPath{{inner->u, t}, {w.far_edge, t}}));
    opening.way = "slit to the lip's edge";
    piece.lines.push_back({LineRole::cut, opening.slit, opening.way});
  }
  piece.openings.push_back(std::move(opening));
}

} // namespace

FlatPath let_in_hole(const FlatPath& foot, const EndWrap& w) {
  constexpr int kPerBend = 12;
  const double r = w.bend_width / kRight;
  std::vector<double> corners; // ξ of the footprint on the tread
  double least = 1e300, most = -1e300;
  for (const auto& p : foot) {
    least = std::min(least, p.u), most = std::max(most, p.u);
    if (p.u < w.overhang - kTouch_mm) corners.push_back(p.u);
  }
  std::sort(corners.begin(), corners.end());
  struct Station {
    double plan, flat; // ξ in plan, and round the end
  };
  std::vector<Station> stations;
  for (const double xi : corners)
    stations.push_back({xi, xi});
  const auto bend = [&](bool upper) {
    for (int i = 0; i <= kPerBend; ++i) {
      const double angle = kRight * (upper ? i : kPerBend - i) / kPerBend,
                   xi = w.overhang + r * steady::sin(angle);
      const double flat = upper ? w.overhang + r * angle : w.lip_start - r * angle;
      if (xi <= most) stations.push_back({xi, flat});
    }
  };
  bend(true);
  if (most < w.overhang + r + kTouch_mm) { // stands out no more than the carpet's own bend
    const double flat = w.overhang + r * steady::asin(std::min(1.0, (most - w.overhang) / r));
    stations.push_back({most, flat});
  } else {
    bend(false);
    for (auto xi = corners.rbegin(); xi != corners.rend(); ++xi)
      if (*xi > kTouch_mm) stations.push_back({*xi, w.far_edge - *xi});
    if (least <= kTouch_mm) stations.push_back({0, w.far_edge});
  }
  FlatPath low, high;
  for (const auto& s : stations) {
    const auto chord = chord_at(foot, s.plan);
    low.push_back({s.flat, chord.low});
    high.push_back({s.flat, chord.high});
  }
  append(low, reversed(high));
  return without_repeats(low);
}

void cut_openings(Piece& piece, const std::vector<StepPart>& parts, LengthUnit unit) {
  std::vector<Unslit> unslit;
  for (const auto& part : parts) {
    if (part.step.uprights.empty()) continue;
    const auto ways = ways_out(part, &part == &parts.front());
    for (const auto& upright : part.step.uprights) {
      const auto foot = footprint(upright);
      const StepSide* end = nullptr;
      for (const auto* side : {&part.left, &part.right})
        if (let_in(*side, in_end(*side, foot))) end = side;
      if (end != nullptr)
        cut_let_in(piece, part.step, upright, *end, in_end(*end, foot), unit);
      else
        unslit.push_back(cut_hole(piece, part.step, upright, part.v0 + part.section.back_y, ways, unit));
    }
  }
  slit_holes(piece, std::move(unslit));
}

void cut_openings(Piece& piece, const Step& step, double riser_v, const std::vector<WayOut>& ways,
                  LengthUnit unit) {
  std::vector<Unslit> unslit;
  for (const auto& upright : step.uprights)
    unslit.push_back(cut_hole(piece, step, upright, riser_v, ways, unit));
  slit_holes(piece, std::move(unslit));
}

} // namespace treadfold
