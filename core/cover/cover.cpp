#include "cover/cover.h"

#include "cover/end_wrap.h"
#include "cover/piece_builder.h"
#include "cover/section.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <optional>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;

void append(FlatPath& path, const FlatPath& more) { path.insert(path.end(), more.begin(), more.end()); }

/// One side of one step within a piece.
struct StepSide {
  SideFrame frame;
  std::optional<EndWrap> wrap; // open
};

/// A step on its way into a piece.
struct StepPart {
  const Step& step;
  Section section;
  double v0 = 0; // of the step's v = 0 within the piece
  StepSide left, right;
};

bool can_join(const Step& upper, const Step& lower) {
  const auto alike = [](const Side& a, const Side& b) {
    return a.kind == b.kind && a.overhang == b.overhang;
  };
  return !upper.landing_edge && upper.width == lower.width && alike(upper.left, lower.left) &&
         alike(upper.right, lower.right);
}

const char* kind_of(const Step& step) {
  const bool left = !step.left.closed(), right = !step.right.closed();
  if (step.landing_edge)
    return left && right ? "landing edge, open both ends"
           : left        ? "landing edge, open left"
           : right       ? "landing edge, open right"
                         : "landing edge";
  return left && right ? "step, open both ends"
         : left        ? "step, open left"
         : right       ? "step, open right"
                       : "box step";
}

/// Left and right edge, between stations of the section, of a face that runs across the whole step.
FlatPath across(const StepPart& part, double from_v, double to_v) {
  const auto edge = [&](const StepSide& side) {
    FlatPath path;
    if (side.wrap && to_v <= part.section.v_low + 1e-7) {
      for (const auto& p : side.wrap->front_f)
        if (p.v >= from_v - 1e-7 && p.v <= to_v + 1e-7) path.push_back(side.frame.at(p.u, p.v));
    } else {
      path = side.frame.at({{0, from_v}, {0, to_v}});
    }
    return path;
  };
  auto path = edge(part.right);
  auto left = edge(part.left);
  std::reverse(left.begin(), left.end());
  append(path, left);
  return path;
}

FlatPath tread_outline(const StepPart& part) {
  const auto side = [&](const StepSide& s) -> FlatPath { // back to front
    if (!s.wrap) return s.frame.at({{0, 0}, {0, part.section.v_nose}});
    const double e = s.wrap->overhang, back = s.wrap->back_v;
    return s.frame.at({{0, 0}, {0, back}, {e, back}, {e, part.section.v_nose}});
  };
  auto path = side(part.right);
  auto left = side(part.left);
  std::reverse(left.begin(), left.end());
  append(path, left);
  return path;
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
  const int nosing =
      face("nosing", across(part, s.v_nose, s.v_front), tread, s.v_nose, bend(kRight, s.top_radius * kRight));
  const int flat = face("front", across(part, s.v_front, s.v_low), nosing, s.v_front, straight());
  const int front = flat < 0 ? nosing : flat;
  const int lower = face("lower bend", across(part, s.v_low, s.v_leave), front, s.v_low,
                         bend(s.turn, s.low_radius * s.turn));
  fold((s.v_nose + s.v_front) / 2, "over the nosing", kRight, s.top_radius);
  fold((s.v_low + s.v_leave) / 2, s.under ? "under the nosing" : "leaves the nosing", s.turn, s.low_radius);
  int foot = -1;
  if (s.under) {
    const int under = face("under nosing", across(part, s.v_lip, s.v_inner), lower, s.v_lip, straight());
    foot = face("riser", across(part, s.v_inner, s.v_foot), under, s.v_inner, crease(-kRight));
    fold(s.v_inner, "into the corner under the nosing", -kRight, 0);
  } else {
    foot = face("drop", across(part, s.v_leave, s.v_foot), lower < 0 ? front : lower, s.v_leave, straight());
  }
  for (const auto* side : {&part.left, &part.right})
    if (side->wrap) add_end(builder, *side->wrap, s, side->frame, number, tread, nosing, flat);
  return foot;
}

/// The hem at a riser's open end: net outline from the under-lip's inner corner to the foot, its face and its
/// lines.
FlatPath add_hem(PieceBuilder& builder, const StepPart& part, const StepSide& side, int drop, double hem,
                 double end_v) {
  const auto& s = part.section;
  const auto& f = side.frame;
  if (!s.under) builder.line(LineRole::cut, f.at({{0, s.v_leave}, {0, s.v_inner}}), "slit up to the nosing");
  const double mitre_end = std::min(s.v_inner + hem, end_v), width = mitre_end - s.v_inner;
  builder.face(std::string("hem, ") + f.name(), part.step.number,
               f.at({{0, s.v_inner}, {width, mitre_end}, {width, end_v}, {0, end_v}}), drop,
               f.at(0, s.v_inner), f.at(0, end_v), crease(2 * kRight), true);
  builder.line(LineRole::hem, f.at({{0, s.v_inner}, {0, end_v}}), "hem, folded under itself", 2 * kRight, 0);
  builder.line(LineRole::glue, f.at({{width / 2, mitre_end}, {width / 2, end_v}}), "glue the hem");
  return {{width, mitre_end}, {width, end_v}};
}

/// Local outline of one side of one step, back to foot.
FlatPath side_outline(PieceBuilder& builder, const StepPart& part, const StepSide& side, int foot, double hem,
                      double hem_end) {
  if (!side.wrap) {
    builder.line(LineRole::trim, side.frame.at({{0, 0}, {0, part.section.v_foot}}),
                 std::string("trim at the ") +
                     ((side.frame.right ? part.step.right : part.step.left).kind == SideKind::skirt
                          ? "skirt"
                          : "wall"));
    return {{0, 0}, {0, part.section.v_foot}};
  }
  auto path = outline_of(*side.wrap, part.section);
  append(path, add_hem(builder, part, side, foot, hem, hem_end));
  return path;
}

void drop_repeats(FlatPath& path) {
  const auto same = [](FlatPoint a, FlatPoint b) {
    return std::abs(a.u - b.u) < 1e-7 && std::abs(a.v - b.v) < 1e-7;
  };
  path.erase(std::unique(path.begin(), path.end(), same), path.end());
  if (path.size() > 1 && same(path.front(), path.back())) path.pop_back();
}

struct Box {
  double u0 = 1e300, v0 = 1e300, u1 = -1e300, v1 = -1e300;
};
Box box_of(const FlatPath& path) {
  Box box;
  for (const auto& p : path) {
    box.u0 = std::min(box.u0, p.u);
    box.v0 = std::min(box.v0, p.v);
    box.u1 = std::max(box.u1, p.u);
    box.v1 = std::max(box.v1, p.v);
  }
  return box;
}

/// Net size from the outline, cut size with the trims; both only ever rounded up.
void size_piece(Piece& piece, LengthUnit unit) {
  const auto box = box_of(piece.outline);
  piece.net_origin = {box.u0, box.v0};
  piece.net_width = from_mm_up(box.u1 - box.u0);
  piece.net_length = from_mm_up(box.v1 - box.v0);
  const auto step = unit == LengthUnit::inch ? inches(0, 1, 16) : millimetres(1);
  piece.cut_width = ceil_to(piece.net_width + piece.trim_left + piece.trim_right, step);
  piece.cut_length = ceil_to(piece.net_length + piece.trim_back + piece.trim_foot, step);
}

void account_across(Piece& piece, const StepPart& part) {
  piece.across.push_back({"riser, end to end", part.step.width.mm()});
  for (const auto* side : {&part.left, &part.right}) {
    if (!side->wrap) continue;
    const auto& w = *side->wrap;
    const std::string name = side->frame.name();
    piece.across.push_back({"tread past the riser's end, " + name, w.overhang});
    piece.across.push_back({"end, " + name, w.end_height});
    piece.across.push_back({"bends over and under the end, " + name, 2 * w.bend_width});
    piece.across.push_back({"under the lip, " + name, w.overhang});
  }
}

void account_along(Piece& piece, const StepPart& part, bool first) {
  const auto& s = part.section;
  if (first && piece.net_origin.v < -1e-7)
    piece.along.push_back({"back corner's return and tabs", -piece.net_origin.v});
  piece.along.push_back({"tread to the nosing's bend", s.v_nose});
  piece.along.push_back({"over the nosing", s.v_front - s.v_nose});
  if (s.v_low - s.v_front > 1e-9) piece.along.push_back({"front", s.v_low - s.v_front});
  piece.along.push_back({"lower bend", s.v_leave - s.v_low});
  if (s.under) piece.along.push_back({"under the nosing", s.v_inner - s.v_lip});
  piece.along.push_back(s.under ? SizeItem{"riser", s.v_foot - s.v_inner}
                                : SizeItem{"drop to the crotch", s.v_foot - s.v_leave});
}

void account_trims(Piece& piece) {
  const auto add = [](std::vector<SizeItem>& items, const char* what, Length length) {
    if (length.ticks != 0) items.push_back({what, length.mm()});
  };
  add(piece.across, "trim, left", piece.trim_left);
  add(piece.across, "trim, right", piece.trim_right);
  add(piece.along, "to tuck at the back", piece.trim_back);
  add(piece.along, "to tuck at the foot", piece.trim_foot);
  add(piece.across, "rounded up", piece.cut_width - piece.net_width - piece.trim_left - piece.trim_right);
  add(piece.along, "rounded up", piece.cut_length - piece.net_length - piece.trim_back - piece.trim_foot);
}

std::vector<StepPart> parts_of(const std::vector<const Step*>& steps, const Flight& flight,
                               const CoverInput& input) {
  std::vector<StepPart> parts;
  const double backing = input.carpet.backing.mm(), pad = input.pad.mm();
  double v0 = 0;
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const auto& step = *steps[i];
    const bool last = i + 1 == steps.size();
    const auto section =
        section_of({step, flight.style, pad, backing, i > 0, last ? 0.0 : pad + backing / 2});
    StepPart part{step, section, v0, {{false, 0, v0}, {}}, {{true, step.width.mm(), v0}, {}}};
    if (!step.left.closed())
      part.left.wrap = end_wrap(section, step, step.left, input.allowances.relief.mm());
    if (!step.right.closed())
      part.right.wrap = end_wrap(section, step, step.right, input.allowances.relief.mm());
    v0 += section.v_foot + 2 * input.allowances.crease.mm();
    parts.push_back(std::move(part));
  }
  return parts;
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
    const auto hem_end = [&](const StepSide& side, const StepSide& below) {
      if (last || !side.wrap) return part.section.v_foot;
      // The back corner of the step below takes the carpet beside the drop's foot.
      return part.section.v_foot + 2 * depth + below.wrap->tab_top - allow.relief.mm();
    };
    for (const bool is_right : {false, true}) {
      const auto& side = is_right ? part.right : part.left;
      const double end =
          last ? part.section.v_foot : hem_end(side, is_right ? parts[i + 1].right : parts[i + 1].left);
      auto local = side_outline(builder, part, side, foot, allow.hem.mm(), end);
      if (!last && side.wrap) local.push_back({0, end});
      append(is_right ? right : left, side.frame.at(local));
    }
    if (!last) parent = add_crease(builder, part, foot, depth);
  }
  piece.outline = right;
  std::reverse(left.begin(), left.end());
  append(piece.outline, left);
  drop_repeats(piece.outline);

  const auto& top = *steps.front();
  const double width = top.width.mm(), foot_v = parts.back().v0 + parts.back().section.v_foot;
  builder.line(top.landing_edge ? LineRole::seam : LineRole::tuck, {{0, 0}, {width, 0}},
               top.landing_edge ? "seam to the landing's carpet" : "tuck into the gully behind the strip");
  builder.line(LineRole::tuck, {{0, foot_v}, {width, foot_v}}, "tuck into the crotch");

  const auto side_trim = [&](const Side& side) {
    return side.closed() ? allow.side_trim : allow.open_side_trim;
  };
  piece.trim_left = side_trim(top.left);
  piece.trim_right = side_trim(top.right);
  piece.trim_foot = allow.tuck_foot;
  const double above = -box_of(piece.outline).v0; // tabs of the back corner, above the crotch
  piece.trim_back =
      above < 1e-7 ? allow.tuck_back : std::max(allow.open_side_trim, allow.tuck_back - from_mm(above));
  size_piece(piece, input.unit);
  account_across(piece, parts.front());
  for (std::size_t i = 0; i < parts.size(); ++i) {
    account_along(piece, parts[i], i == 0);
    if (i + 1 < parts.size()) piece.along.push_back({"crease in the crotch", 2 * depth});
  }
  account_trims(piece);
  return piece;
}

} // namespace

std::vector<Piece> cover_flight(const Flight& flight, const CoverInput& input, const std::string& prefix) {
  std::vector<Piece> pieces;
  std::vector<const Step*> run;
  for (auto step = flight.steps.rbegin(); step != flight.steps.rend(); ++step) {
    const bool joins =
        !run.empty() && static_cast<int>(run.size()) < flight.join && can_join(*run.back(), *step);
    if (!run.empty() && !joins) {
      pieces.push_back(cover_steps(run, flight, input, prefix));
      run.clear();
    }
    run.push_back(&*step);
  }
  if (!run.empty()) pieces.push_back(cover_steps(run, flight, input, prefix));
  return pieces;
}

Piece cover_floor(const Floor& floor, const CoverInput& input, const std::string& id) {
  Piece piece;
  piece.id = id;
  piece.flight = floor.name;
  piece.carpet = floor.carpet;
  piece.kind = "floor";
  // Seen from the stair below: v runs toward the viewer, so that the pile runs on down the stair.
  for (const auto& corner : floor.corners)
    piece.outline.push_back({corner.x, -corner.y});
  PieceBuilder builder(piece);
  builder.face("floor", 0, piece.outline, -1, piece.outline[0], piece.outline[1], straight());
  auto edge = piece.outline;
  edge.push_back(edge.front());
  builder.line(LineRole::trim, edge, "trim at the edges");
  const auto trim = input.allowances.floor_trim;
  piece.trim_left = piece.trim_right = piece.trim_back = piece.trim_foot = trim;
  size_piece(piece, input.unit);
  piece.across.push_back({"floor, widest", piece.net_width.mm()});
  piece.along.push_back({"floor, longest", piece.net_length.mm()});
  account_trims(piece);
  return piece;
}

} // namespace treadfold
