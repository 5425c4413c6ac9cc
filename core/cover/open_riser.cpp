#include "cover/open_riser.h"

#include "cover/account.h"
#include "cover/openings.h"
#include "cover/piece_builder.h"
#include "cover/section.h"
#include "units/steady.h"

#include <algorithm>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;
constexpr double kSame_mm = 1e-7;
constexpr int kPerBend = 12;

/// One half of the wrap, from the tread over an edge and under it to the seam. The back half is the front
/// half mirrored: v becomes mirror - v.
struct Half {
  const Section& section;
  bool front;
  double mirror; // v_nose + v of the back's bend
  double seam_v; // of the front half, or of the back half before mirroring
  double at(double v) const { return front ? v : mirror - v; }
  const char* of(const char* front_name, const char* back_name) const {
    return front ? front_name : back_name;
  }
};

/// An end, open: ξ out from the riser's end. Edges run from the tread's corner down to the underside, front
/// half in (ξ, v).
struct End {
  double overhang = 0;
  FlatPath sheet; // of the sheet over the tread's edge
  FlatPath flap;  // of the flap over the end
  double far = 0; // ξ of the flap's lower edge
};

End end_of(const Section& s, double overhang) {
  End end;
  end.overhang = overhang;
  const double r = s.half_backing, axis_z = s.tread_z - r;
  std::vector<double> heights{axis_z};
  for (int i = 0; i <= kPerBend; ++i)
    heights.push_back(axis_z + r * steady::cos(kRight * i / kPerBend));
  for (const auto& p : front_points(s, heights)) {
    const double angle = p.z > axis_z ? steady::acos(std::min(1.0, (p.z - axis_z) / r)) : kRight;
    const double out = overhang + r * steady::sin(angle), length = r * angle + std::max(0.0, axis_z - p.z);
    end.sheet.push_back({out, s.v_nose + p.s});
    end.flap.push_back({overhang + length, s.back_y - p.y});
  }
  end.far = end.flap.back().u;
  return end;
}

struct Sides {
  const Section& section;
  SideFrame frames[2];
  std::optional<End> ends[2];

  /// Edge of a sheet between stations of the front half.
  FlatPath edge(int side, const Half& half, double from_v, double to_v) const {
    FlatPath path;
    const auto& end = ends[side];
    if (end && from_v < section.v_lip - kSame_mm) {
      for (const auto& p : end->sheet)
        if (p.v >= from_v - kSame_mm && p.v <= to_v + kSame_mm) path.push_back({p.u, half.at(p.v)});
    } else {
      const double out = end ? end->sheet.back().u : 0;
      path = {{out, half.at(from_v)}, {out, half.at(to_v)}};
    }
    return frames[side].at(path);
  }
  FlatPath across(const Half& half, double from_v, double to_v) const {
    auto path = edge(1, half, from_v, to_v);
    append(path, reversed(edge(0, half, from_v, to_v)));
    return path;
  }
};

/// Faces of one half from the tread to the seam; returns the last, and those that an end's flap may meet.
struct HalfFaces {
  std::vector<int> rim; // over the edge
  int under = -1;
};
HalfFaces add_half(PieceBuilder& builder, const Sides& sides, const Half& half, int step, int tread) {
  const auto& s = half.section;
  const double left = 0, right = sides.frames[1].riser_end_u;
  int parent = tread;
  const auto face = [&](const char* name, double from, double to, Turn turn) {
    const double v = half.at(from);
    const int index =
        builder.face(name, step, sides.across(half, from, to), parent, {left, v}, {right, v}, turn);
    if (index >= 0) parent = index;
    return index;
  };
  const auto fold = [&](double v, const char* label, double radius) {
    builder.line(LineRole::fold, {{left, half.at(v)}, {right, half.at(v)}}, label, kRight, radius);
  };
  HalfFaces faces;
  faces.rim.push_back(
      face(half.of("nosing", "back's upper bend"), s.v_nose, s.v_front, bend(kRight, s.top_radius * kRight)));
  faces.rim.push_back(face(half.of("front", "back"), s.v_front, s.v_low, straight()));
  faces.rim.push_back(face(half.of("lower bend", "back's lower bend"), s.v_low, s.v_lip,
                           bend(kRight, s.low_radius * kRight)));
  faces.under = face(half.of("underside, front", "underside, back"), s.v_lip, half.seam_v, straight());
  fold((s.v_nose + s.v_front) / 2, half.of("over the nosing", "over the back"), s.top_radius);
  fold((s.v_low + s.v_lip) / 2, half.of("under the nosing", "under the back"), s.low_radius);
  return faces;
}

/// The flap over an open end, hinged on the tread, and its seams round the end.
void add_flap(PieceBuilder& builder, const Sides& sides, int side, const Half (&halves)[2],
              const HalfFaces (&faces)[2], int step, int tread) {
  const auto& end = *sides.ends[side];
  const auto& frame = sides.frames[side];
  const auto& s = sides.section;
  const double bend_end = end.overhang + s.half_backing * kRight;
  const std::string of = fmt::format(", {}, step {}", frame.name(), step);
  const auto mirrored = [&](const FlatPath& path, const Half& half) {
    FlatPath result;
    for (const auto& p : path)
      result.push_back({p.u, half.at(p.v)});
    return frame.at(result);
  };
  const auto part = [&](double from, double to) {
    FlatPath edge;
    for (const auto& p : end.flap)
      if (p.u >= from - kSame_mm && p.u <= to + kSame_mm) edge.push_back(p);
    auto path = mirrored(edge, halves[0]);
    append(path, reversed(mirrored(edge, halves[1])));
    return path;
  };
  const double front_v = end.flap.front().v, back_v = halves[1].at(front_v);
  const auto face = [&](const char* name, double from, double to, int parent, Turn turn) {
    return builder.face(std::string(name) + ", " + frame.name(), step, part(from, to), parent,
                        frame.at(from, back_v), frame.at(from, front_v), turn);
  };
  const int upper =
      face("end's upper bend", end.overhang, bend_end, tread, bend(kRight, s.half_backing * kRight));
  const int flat = face("end", bend_end, end.far, upper, straight());
  const double fold = (end.overhang + bend_end) / 2;
  builder.line(LineRole::fold, {frame.at(fold, back_v), frame.at(fold, front_v)}, "over the tread's end",
               kRight, s.half_backing);
  for (int i = 0; i < 2; ++i) {
    const auto& half = halves[i];
    const char* edge = half.of("front", "rear");
    auto rim = faces[i].rim;
    rim.push_back(faces[i].under);
    builder.seam(fmt::format("end seam, {}{}", edge, of), mirrored(end.sheet, half), std::move(rim),
                 mirrored(end.flap, half), {upper, flat});
    // Underneath, the flap's lower edge meets the sheet's.
    const auto low = end.flap.back();
    const double run = half.seam_v - s.v_lip;
    builder.seam(fmt::format("end seam, under the {}{}", edge, of),
                 mirrored({{end.sheet.back().u, s.v_lip}, {end.sheet.back().u, half.seam_v}}, half),
                 {faces[i].under}, mirrored({low, {low.u, low.v - run}}, half), {flat});
  }
}

/// Net outline of one side from the back's seam to the front's.
FlatPath side_outline(const Sides& sides, int side, const Half (&halves)[2]) {
  const auto& s = sides.section;
  const auto half_edge = [&](const Half& half) { // from the tread's corner to the seam
    if (!sides.ends[side]) return sides.frames[side].at({{0, half.at(s.v_nose)}, {0, half.at(half.seam_v)}});
    auto path = sides.edge(side, half, s.v_nose, s.v_lip);
    append(path, sides.edge(side, half, s.v_lip, half.seam_v));
    return path;
  };
  auto path = reversed(half_edge(halves[1]));
  if (const auto& end = sides.ends[side]) {
    FlatPath flap = end->flap, back;
    for (const auto& p : end->flap)
      back.push_back({p.u, halves[1].at(p.v)});
    append(path, sides.frames[side].at(back));
    append(path, sides.frames[side].at(reversed(flap)));
  }
  append(path, half_edge(halves[0]));
  return path;
}

/// Over the back to the seam underneath, over an open end to its seams there, or to a string.
std::vector<WayOut> ways_out(const Sides& sides, const FlatPath& back_seam) {
  std::vector<WayOut> ways{{{0, -1}, back_seam, false, "slit over the back"}};
  for (int side = 0; side < 2; ++side) {
    const auto& end = sides.ends[side];
    const auto& frame = sides.frames[side];
    const double out = end ? end->far : 0, far = 2 * sides.section.v_lip; // beyond the piece
    ways.push_back({{frame.right ? 1.0 : -1.0, 0},
                    frame.at({{out, -far}, {out, far}}),
                    !end,
                    end ? "slit round the end" : "slit to the string"});
  }
  return ways;
}

} // namespace

double underneath_seam_y(const Step& step) {
  constexpr double kFromBack_mm = 50.8;
  const double depth = (step.going + step.nosing.projection).mm();
  return step.going.mm() - std::min(kFromBack_mm, depth / 4) - step.nosing.radius.mm();
}

Piece cover_open_riser(const Step& step, const Flight& flight, const CoverInput& input,
                       const std::string& prefix) {
  const auto& allow = input.allowances;
  const auto s = section_of({step, CoverStyle::wrapped, input.pad.mm(), input.carpet.backing.mm()});
  Piece piece;
  piece.flight = flight.name;
  piece.carpet = flight.carpet;
  piece.steps = {step.number};
  piece.id = fmt::format("{}-{:02}", prefix, step.number);
  piece.root_height_mm = s.tread_z - step.rise.mm();
  const bool left = !step.left.closed(), right = !step.right.closed();
  piece.kind = left && right ? "open-riser tread, both ends open"
               : left        ? "open-riser tread, left end open"
               : right       ? "open-riser tread, right end open"
                             : "open-riser tread";

  Sides sides{s, {{false, 0, 0}, {true, step.width.mm(), 0}}, {}};
  if (left) sides.ends[0] = end_of(s, step.left.overhang.mm());
  if (right) sides.ends[1] = end_of(s, step.right.overhang.mm());
  // The back's bend begins as far before the board's back as the front's behind its nosing.
  const double radius = step.nosing.radius.mm(), seam_y = underneath_seam_y(step);
  const double bend_in = radius + s.bevel; // from the board's back to where its upper bend begins
  const double under_front = seam_y - s.low_y, under_back = s.back_y - radius + s.pad - seam_y;
  const Half halves[2] = {{s, true, 0, s.v_lip + under_front},
                          {s, false, s.v_nose + bend_in, s.v_lip + under_back}};

  PieceBuilder builder(piece);
  FlatPath tread_edges[2];
  for (int side = 0; side < 2; ++side) {
    const double out = sides.ends[side] ? sides.ends[side]->overhang : 0;
    tread_edges[side] = sides.frames[side].at({{out, bend_in}, {out, s.v_nose}});
  }
  FlatPath tread_outline = tread_edges[1];
  append(tread_outline, reversed(tread_edges[0]));
  const double width = step.width.mm();
  const int tread = builder.face("tread", step.number, tread_outline, -1, {0, 0}, {width, 0}, straight());
  const HalfFaces faces[2] = {add_half(builder, sides, halves[0], step.number, tread),
                              add_half(builder, sides, halves[1], step.number, tread)};
  for (int side = 0; side < 2; ++side)
    if (sides.ends[side]) add_flap(builder, sides, side, halves, faces, step.number, tread);

  const auto seam_at = [&](const Half& half) {
    const auto l = sides.edge(0, half, s.v_lip, half.seam_v).back(),
               r = sides.edge(1, half, s.v_lip, half.seam_v).back();
    return FlatPath{l, r};
  };
  builder.seam(fmt::format("seam underneath, step {}", step.number), seam_at(halves[0]), {faces[0].under},
               seam_at(halves[1]), {faces[1].under});
  piece.outline = side_outline(sides, 1, halves);
  append(piece.outline, reversed(side_outline(sides, 0, halves)));
  piece.outline = without_repeats(std::move(piece.outline));
  for (int side = 0; side < 2; ++side)
    if (!sides.ends[side])
      builder.line(LineRole::trim, side_outline(sides, side, halves), "trim at the string");

  piece.trim_left = left ? allow.open_side_trim : allow.side_trim;
  piece.trim_right = right ? allow.open_side_trim : allow.side_trim;
  piece.trim_back = piece.trim_foot = allow.open_side_trim; // cut in at the seam underneath
  size_piece(piece, input.unit);
  const auto item = [](std::vector<SizeItem>& items, const std::string& what, double mm) {
    if (mm > 1e-9) items.push_back({what, mm});
  };
  item(piece.across, "tread, between its strings", width);
  item(piece.across, "end and bend, left", -piece.net_origin.u);
  item(piece.across, "end and bend, right", piece.net_origin.u + piece.net_width.mm() - width);
  const double bends = s.v_front - s.v_nose + s.v_lip - s.v_low;
  item(piece.along, "tread between its bends", s.v_nose - bend_in);
  item(piece.along, "bends over and under the nosing", bends);
  item(piece.along, "bends over and under the back", bends);
  item(piece.along, "front and back", 2 * (s.v_low - s.v_front));
  item(piece.along, "underside", under_front + under_back);
  account_trims(piece, "for the seam underneath", "for the seam underneath");
  cut_openings(piece, step, s.back_y, ways_out(sides, seam_at(halves[1])), input.unit);
  return piece;
}

} // namespace treadfold
