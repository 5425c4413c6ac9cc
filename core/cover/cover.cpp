#include "cover/cover.h"

#include "cover/account.h"
#include "cover/drop.h"
#include "cover/open_riser.h"
#include "cover/openings.h"
#include "cover/runner.h"
#include "cover/step_part.h"
#include "cover/trims.h"

#include <algorithm>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;
constexpr double kSame_mm = 1e-7;

/// What its plan makes a tread: "kite winder", "winder", or a "step", in a box, out of square or neither.
const char* shape_of(const Step& step) {
  if (step.rectangular()) return "step";
  if (step.left_side.size() > 2 || step.right_side.size() > 2) return "kite winder";
  const auto &left = step.left_side.back(), &right = step.right_side.back();
  constexpr double kWinds = 0.0875; // the next riser turned by 5°
  return std::abs(right.y - left.y) > kWinds * (right.x - left.x) ? "winder" : "step, no rectangle";
}

std::string kind_of(const Step& step) {
  const bool left = !step.left.closed(), right = !step.right.closed();
  if (step.landing()) return "landing and its first drop";
  if (step.landing_edge)
    return left && right ? "landing edge, open both ends"
           : left        ? "landing edge, open left"
           : right       ? "landing edge, open right"
                         : "landing edge";
  const std::string shape = shape_of(step);
  if (!left && !right) return step.rectangular() ? "box step" : shape;
  if (left && right) return shape + ", open both ends";
  return left ? shape + ", open left" : shape + ", open right";
}

/// One side's edge in (x, v) between stations of the section, back to front.
FlatPath edge(const StepSide& side, const Section& s, double from_v, double to_v) {
  if (side.wrap && to_v <= s.v_low + kSame_mm) {
    FlatPath path;
    for (const auto& p : side.wrap->front_f)
      if (p.v >= from_v - kSame_mm && p.v <= to_v + kSame_mm) path.push_back(p);
    return path;
  }
  if (side.wrap || side.plan.straight()) return {{0, from_v}, {0, to_v}};
  // A wall at an angle cuts a bend in a curve.
  constexpr int kPerBend = 16;
  std::vector<double> stations{from_v};
  for (const auto& [begin, end] : {std::pair{s.v_nose, s.v_front}, std::pair{s.v_low, s.v_leave}})
    for (int i = 0; i <= kPerBend; ++i)
      if (const double v = begin + (end - begin) * i / kPerBend; v > from_v + kSame_mm && v < to_v - kSame_mm)
        stations.push_back(v);
  for (const double v : {s.v_lip, s.v_inner})
    if (s.under && v > from_v + kSame_mm && v < to_v - kSame_mm) stations.push_back(v);
  stations.push_back(to_v);
  FlatPath path;
  for (const double v : stations)
    path.push_back({side.plan.x(y_at(s, v)), v});
  return path;
}

/// A face that runs across the whole step.
FlatPath across(const StepPart& part, double from_v, double to_v) {
  auto path = part.right.frame.at(edge(part.right, part.section, from_v, to_v));
  append(path, reversed(part.left.frame.at(edge(part.left, part.section, from_v, to_v))));
  return path;
}

/// A closed side of the tread in (x, v), from the next riser to the riser.
FlatPath wall_edge(const StepSide& side, double v_nose) {
  if (side.plan.straight()) return {{0, 0}, {0, v_nose}};
  FlatPath path;
  for (auto p = side.plan.line.rbegin(); p + 1 != side.plan.line.rend(); ++p)
    path.push_back(side.plan.flat(*p));
  if (side.plan.square_front) path.push_back(side.plan.flat({0, 0}));
  path.push_back({side.plan.x(side.plan.back_y - v_nose), v_nose});
  return path;
}

FlatPath tread_outline(const StepPart& part) {
  const auto side = [&](const StepSide& s) -> FlatPath { // back to front
    if (!s.wrap) return s.frame.at(wall_edge(s, part.section.v_nose));
    auto path = s.wrap->slit();
    if (s.wrap->back_corner) path.pop_back();
    const auto& w = *s.wrap;
    const double corner = w.back_corner ? w.back_t.front().u : w.overhang;
    path.push_back(w.from_back(FlatPoint{w.slit_eta, w.return_past}));
    path.push_back(w.from_back(FlatPoint{corner, w.return_past}));
    path.push_back(w.from_end(w.front_e.front()));
    return s.frame.at(path);
  };
  auto path = side(part.right);
  append(path, reversed(side(part.left)));
  return path;
}

/// The faces from the tread over the nosing to the lower bend, from the top; none without area.
std::vector<int> add_front(PieceBuilder& builder, const StepPart& part, int tread) {
  const auto& s = part.section;
  const double width = part.right.frame.riser_end_u;
  std::vector<int> faces;
  const auto face = [&](const char* name, double from, double to, Turn turn) {
    const double v = part.v0 + from;
    const int index = builder.face(name, part.step.number, across(part, from, to),
                                   faces.empty() ? tread : faces.back(), {0, v}, {width, v}, turn);
    if (index >= 0) faces.push_back(index);
  };
  const auto fold = [&](double from, double to, const char* label, double angle) {
    const double v = part.v0 + (from + to) / 2;
    builder.line(LineRole::fold, {{0, v}, {width, v}}, label, angle, s.top_radius);
  };
  if (s.bevel > 0) {
    const auto turn = bend(kRight / 2, s.top_radius * kRight / 2);
    face("nosing, to the bevel", s.v_nose, s.v_bevel, turn);
    face("bevel", s.v_bevel, s.v_bevel_end, straight());
    face("nosing, from the bevel", s.v_bevel_end, s.v_front, turn);
    fold(s.v_nose, s.v_bevel, "over the nosing, to the bevel", kRight / 2);
    fold(s.v_bevel_end, s.v_front, "over the nosing, from the bevel", kRight / 2);
  } else {
    face("nosing", s.v_nose, s.v_front, bend(kRight, s.top_radius * kRight));
    fold(s.v_nose, s.v_front, "over the nosing", kRight);
  }
  face("front", s.v_front, s.v_low, straight());
  return faces;
}

/// Adds one step's faces below `parent` (-1: the root) and returns the face that ends at its foot.
int add_step(PieceBuilder& builder, const StepPart& part, int parent, Turn into_tread) {
  const auto& s = part.section;
  const int number = part.step.number;
  const double left_u = 0, right_u = part.right.frame.riser_end_u;
  const auto at = [&](double v) { return part.v0 + v; };
  const auto hinge = [&](double v) { return std::pair{FlatPoint{left_u, at(v)}, FlatPoint{right_u, at(v)}}; };
  const auto face = [&](const char* name, FlatPath outline, int below, double hinge_v, Turn turn) {
    const auto [a, b] = hinge(hinge_v);
    return builder.face(name, number, std::move(outline), below, a, b, turn);
  };
  const auto fold = [&](double v, const char* label, double angle, double radius) {
    builder.line(LineRole::fold, {{left_u, at(v)}, {right_u, at(v)}}, label, angle, radius);
  };

  const int tread = face("tread", tread_outline(part), parent, 0, into_tread);
  const auto front = add_front(builder, part, tread);
  const int lower = face("lower bend", across(part, s.v_low, s.v_leave), front.back(), s.v_low,
                         bend(s.turn, s.low_radius * s.turn));
  fold((s.v_low + s.v_leave) / 2, s.under ? "under the nosing" : "leaves the nosing", s.turn, s.low_radius);
  int foot = -1;
  if (s.under) {
    const int under = face("under nosing", across(part, s.v_lip, s.v_inner), lower, s.v_lip, straight());
    foot = add_drop(builder, part, "riser", s.v_inner, under, crease(-kRight));
    fold(s.v_inner, "into the corner under the nosing", -kRight, 0);
  } else {
    foot = add_drop(builder, part, "drop", s.v_leave, lower < 0 ? front.back() : lower, straight());
  }
  for (const auto* side : {&part.left, &part.right})
    if (side->wrap) add_end(builder, *side->wrap, s, side->frame, number, tread, front);
  return foot;
}

/// The hem at a riser's open end, if there is one: net outline from the under-lip's inner corner to the foot,
/// its face and its lines.
FlatPath add_hem(PieceBuilder& builder, const StepPart& part, const StepSide& side, int drop, double hem,
                 double end_v) {
  const auto& s = part.section;
  const auto& f = side.frame;
  if (!s.under) builder.line(LineRole::cut, f.at({{0, s.v_leave}, {0, s.v_inner}}), "slit up to the nosing");
  if (hem == 0) return {{0, s.v_inner}, {side.foot.u, end_v}};
  const double mitre_end = std::min(s.v_inner + hem, end_v), width = mitre_end - s.v_inner;
  // A little off the riser's end where the tread below is out of level.
  const double foot_u = side.foot.u, end_u = mitre_end < end_v ? foot_u + width : width;
  builder.face(fmt::format("hem, {}", f.name()), part.step.number,
               f.at({{0, s.v_inner}, {width, mitre_end}, {end_u, end_v}, {foot_u, end_v}}), drop,
               f.at(0, s.v_inner), f.at(foot_u, end_v), crease(2 * kRight), true);
  builder.line(LineRole::hem, f.at({{0, s.v_inner}, {foot_u, end_v}}), "hem, folded under itself", 2 * kRight,
               0);
  builder.line(LineRole::glue, f.at({{width / 2, mitre_end}, {foot_u + width / 2, end_v}}), "glue the hem");
  return {{width, mitre_end}, {end_u, end_v}};
}

/// Local outline of one side of one step, back to foot.
FlatPath side_outline(PieceBuilder& builder, const StepPart& part, const StepSide& side, int foot, double hem,
                      double end_v) {
  if (!side.wrap) {
    auto path = wall_edge(side, part.section.v_nose);
    path.pop_back();
    const auto& s = part.section;
    if (side.plan.straight()) {
      if (part.step.fall_right.ticks != 0) path.push_back({0, s.v_leave});
    } else {
      append(path, edge(side, s, s.v_nose, s.under ? s.v_inner : s.v_leave));
    }
    path.push_back(side.foot);
    builder.line(LineRole::trim, side.frame.at(path),
                 (side.frame.right ? part.step.right : part.step.left).kind == SideKind::skirt
                     ? "trim at the skirt"
                     : "trim at the wall");
    return path;
  }
  auto path = outline_of(*side.wrap, part.section);
  append(path, add_hem(builder, part, side, foot, hem, end_v));
  return path;
}

/// The fold pushed into a crotch inside a joined piece: down one crease's depth and up again.
int add_crease(PieceBuilder& builder, const StepPart& above, int foot, double depth) {
  const double v = above.v0 + above.section.v_foot, width = above.right.frame.riser_end_u;
  const int number = above.step.number;
  builder.line(LineRole::tuck, {{0, v + depth}, {width, v + depth}}, "push into the crotch", -2 * kRight, 0);
  const int down = builder.face("crease", number, {{0, v}, {width, v}, {width, v + depth}, {0, v + depth}},
                                foot, {0, v}, {width, v}, straight(), true);
  return builder.face("crease", number,
                      {{0, v + depth}, {width, v + depth}, {width, v + 2 * depth}, {0, v + 2 * depth}}, down,
                      {0, v + depth}, {width, v + depth}, crease(-2 * kRight), true);
}

Piece cover_steps(const std::vector<const Step*>& steps, const Flight& flight, const CoverInput& input,
                  const std::string& prefix) {
  const auto& allow = input.allowances;
  const auto parts = parts_of(steps, flight, input);
  const double depth = allow.crease.mm();
  Piece piece;
  piece.flight = flight.name;
  piece.carpet = flight.carpet;
  piece.kind = kind_of(*steps.front());
  piece.root_height_mm = parts.front().section.tread_z - steps.front()->rise.mm();
  for (const auto* step : steps)
    piece.steps.push_back(step->number);
  piece.id = steps.size() == 1
                 ? fmt::format("{}-{:02}", prefix, steps.front()->number)
                 : fmt::format("{}-{:02}.{:02}", prefix, steps.back()->number, steps.front()->number);
  if (steps.size() > 1) piece.kind = fmt::format("{} joined, {}", steps.size(), kind_of(*steps.back()));

  PieceBuilder builder(piece);
  FlatPath left, right;
  int parent = -1;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    const auto& part = parts[i];
    const bool last = i + 1 == parts.size();
    // From the crease's rising half, square to the drop, into the level tread: the turns of the crotch add up
    // to level.
    const auto into =
        i == 0 ? straight() : crease(kRight - (parts[i - 1].section.under ? 0 : parts[i - 1].section.turn));
    const int foot = add_step(builder, part, parent, into);
    for (const bool is_right : {false, true}) {
      const auto& side = is_right ? part.right : part.left;
      const double end =
          last || !side.wrap
              ? side.foot.v
              : hem_end(part.section, *(is_right ? parts[i + 1].right : parts[i + 1].left).wrap, allow);
      auto local = side_outline(builder, part, side, foot, allow.hem.mm(), end);
      if (i == 0) // the slit behind the riser ends at the next riser
        local.insert(local.begin(), side.begin());
      if (side.wrap && (!last || part.step.fall_right.ticks != 0)) local.push_back({side.foot.u, end});
      append(is_right ? right : left, side.frame.at(local));
    }
    if (!last) parent = add_crease(builder, part, foot, depth);
  }
  piece.outline = right;
  append(piece.outline, reversed(left));
  piece.outline = without_repeats(std::move(piece.outline));

  const auto& top = *steps.front();
  const auto next_riser = [](const StepSide& side) { return side.frame.at({side.begin()})[0]; };
  builder.line(top.landing()      ? LineRole::trim
               : top.landing_edge ? LineRole::seam
                                  : LineRole::tuck,
               {next_riser(parts.front().left), next_riser(parts.front().right)},
               top.landing()      ? "trim at the landing's edge"
               : top.landing_edge ? "seam to the landing's carpet"
                                  : "tuck into the gully behind the strip");
  const auto foot = [](const StepSide& side) { return side.frame.at({side.foot})[0]; };
  builder.line(LineRole::tuck, {foot(parts.back().left), foot(parts.back().right)}, "tuck into the crotch");

  set_trims(piece, parts, allow);
  account(piece, parts, input);
  cut_openings(piece, parts, input.unit);
  return piece;
}

} // namespace

std::vector<Piece> cover_flight(const Flight& flight, const CoverInput& input, const std::string& prefix) {
  if (flight.runner) return cover_runner(flight, input, prefix);
  std::vector<Piece> pieces;
  std::vector<const Step*> run;
  for (auto step = flight.steps.rbegin(); step != flight.steps.rend(); ++step) {
    const bool joins =
        !run.empty() && static_cast<int>(run.size()) < flight.join &&
        std::find(flight.begins.begin(), flight.begins.end(), step->number) == flight.begins.end() &&
        can_join(*run.back(), *step, flight, input);
    if (step->open_riser || step->starter) {
      if (!run.empty()) pieces.push_back(cover_steps(run, flight, input, prefix));
      run.clear();
      if (step->open_riser) pieces.push_back(cover_open_riser(*step, flight, input, prefix));
      continue;
    }
    if (!run.empty() && !joins) {
      pieces.push_back(cover_steps(run, flight, input, prefix));
      run.clear();
    }
    run.push_back(&*step);
  }
  if (!run.empty()) pieces.push_back(cover_steps(run, flight, input, prefix));
  return pieces;
}

} // namespace treadfold
