#include "cover/end_wrap.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;
constexpr int kPerBend = 12;

/// The end in section across the stair: at height z, how far out it stands (ξ) and the length along it from
/// the tread.
struct EndSection {
  double out, length;
};

/// `z` between section.tread_z and section.lip_z; the end's arrises are sharp, so its bends turn at half the
/// backing.
EndSection end_at(double z, double overhang, double upper_axis_z, double lower_axis_z, double radius) {
  if (z > upper_axis_z) {
    const double angle = std::acos(std::min(1.0, (z - upper_axis_z) / radius));
    return {overhang + radius * std::sin(angle), radius * angle};
  }
  const double flat = radius * kRight + (upper_axis_z - std::max(z, lower_axis_z));
  if (z >= lower_axis_z) return {overhang + radius, flat};
  const double angle = std::asin(std::min(1.0, (lower_axis_z - z) / radius));
  return {overhang + radius * std::cos(angle), flat + radius * angle};
}

FlatPath without_last(FlatPath path) {
  path.pop_back();
  return path;
}

/// Points of `path` whose u (or v) lies in [from, to], ends included.
template <class Coordinate>
FlatPath between(const FlatPath& path, Coordinate coordinate, double from, double to) {
  FlatPath part;
  for (const auto& p : path)
    if (coordinate(p) >= from - 1e-7 && coordinate(p) <= to + 1e-7) part.push_back(p);
  return part;
}
double u_of(const FlatPoint& p) { return p.u; }
double v_of(const FlatPoint& p) { return p.v; }

/// Back corner: three tabs close the tread's back edge like an envelope, from above, from the end and from
/// below.
void close_back(EndWrap& w, const Section& s, double back_end_y, double relief) {
  const double r = s.half_backing, half = w.end_height / 2;
  const double depth =
      std::min(half, w.overhang + r); // a mitre runs 45° until the middle or the riser's plane
  const double tip = std::max(0.0, depth - relief);
  const double flat_out = w.bend_width + w.overhang; // ξ where the end's flat begins
  w.back_v = s.back_y - back_end_y;
  w.tab_top = w.back_v - w.bend_width - depth;
  for (int i = 0; i <= kPerBend; ++i) { // round the sharp arrises, upper and lower alike
    const double angle = kRight * i / kPerBend, out = r * std::sin(angle), turned = r * angle;
    w.back_t.push_back({w.overhang + out, w.back_v - turned});
    w.back_et.push_back({w.overhang + turned, w.back_v - out});
    w.back_l.push_back({w.lip_start - out, w.back_v - turned});
    w.back_el.push_back({w.lip_start - turned, w.back_v - out});
  }
  const double base = w.back_v - w.bend_width, end_base = w.back_v - r;
  w.back_t.push_back({w.overhang + r - tip, base - tip});
  w.back_et.push_back({flat_out + tip, end_base - tip});
  w.back_l.push_back({w.lip_start - r + tip, base - tip});
  w.back_el.push_back({flat_out + w.end_height - tip, end_base - tip});
  w.end_tab_tip = {w.back_et.back(), w.back_el.back()};
}

} // namespace

EndWrap end_wrap(const Section& s, const Step& step, const Side& side, double relief) {
  EndWrap w;
  const double r = s.half_backing;
  w.overhang = side.overhang.mm();
  w.end_height = s.thickness + s.pad;
  w.bend_width = r * kRight;
  w.lip_start = w.overhang + 2 * w.bend_width + w.end_height;
  w.far_edge = w.lip_start + w.overhang;

  const double upper_axis_z = s.tread_z - r, lower_axis_z = s.lip_z + r;
  std::vector<double> heights{upper_axis_z, lower_axis_z};
  for (int i = 0; i <= kPerBend; ++i) {
    heights.push_back(upper_axis_z + r * std::cos(kRight * i / kPerBend));
    heights.push_back(lower_axis_z - r * std::sin(kRight * i / kPerBend));
  }
  // The corner's edge lies on the front's surface and on the end's at once, so both flat edges have its
  // length.
  for (const auto& front : front_points(s, heights)) {
    const auto end = end_at(front.z, w.overhang, upper_axis_z, lower_axis_z, r);
    w.front_f.push_back({end.out, s.v_nose + front.s});
    w.front_e.push_back({w.overhang + end.length, s.back_y - front.y});
  }
  w.mitre_f = {{w.overhang, s.v_lip}, {0, s.v_inner}};
  w.mitre_e = {{w.lip_start, s.back_y - s.low_y}, {w.far_edge, s.back_y - s.inner_y}};

  w.back_corner = !step.landing_edge;
  if (w.back_corner) close_back(w, s, step.going.mm() + side.return_past.mm(), relief);
  return w;
}

FlatPath outline_of(const EndWrap& w, const Section& s) {
  FlatPath path;
  if (w.back_corner) {
    path = {{0, w.tab_top}};
    // Past the set-off the mitre runs on to the tab's own top.
    path.push_back({w.back_t.back().u - (w.back_t.back().v - w.tab_top), w.tab_top});
    append(path, reversed(w.back_t));
    append(path, FlatPath(w.back_et.begin() + 1, w.back_et.end()));
    append(path, reversed(w.back_el));
    append(path, FlatPath(w.back_l.begin() + 1, w.back_l.end()));
    path.push_back({w.back_l.back().u + (w.back_l.back().v - w.tab_top), w.tab_top});
    path.push_back({w.far_edge, w.tab_top});
  } else {
    path = {{0, 0}, {w.far_edge, 0}};
  }
  append(path, reversed(w.mitre_e));
  append(path, reversed(w.front_e));
  append(path, FlatPath(w.front_f.begin() + 1, w.front_f.end()));
  path.push_back({0, s.v_inner});
  return path;
}

void add_end(PieceBuilder& builder, const EndWrap& w, const Section& s, const SideFrame& f, int step,
             int tread, int front_upper, int front_flat) {
  const std::string side = f.name(), of = ", " + side + ", step " + std::to_string(step);
  const double out = w.overhang + w.bend_width, low = out + w.end_height; // ξ of the end's flat
  const double end_back = w.back_corner ? w.back_v - s.half_backing : w.back_v;
  const auto end_part = [&](double from, double to) { // of the end, between its edges at front and back
    auto path = between(w.front_e, u_of, from, to);
    if (w.back_corner) {
      append(path, between(without_last(w.back_el), u_of, from, to));
      append(path, reversed(between(without_last(w.back_et), u_of, from, to)));
    } else {
      append(path, {{to, w.back_v}, {from, w.back_v}});
    }
    return path;
  };
  const auto face = [&](const char* name, const FlatPath& outline, int parent, FlatPoint a, FlatPoint b,
                        Turn turn) {
    return builder.face(std::string(name) + ", " + side, step, f.at(outline), parent, f.at(a.u, a.v),
                        f.at(b.u, b.v), turn);
  };

  // Tread → end → under-lip.
  const int upper = face("end's upper bend", end_part(w.overhang, out), tread, {w.overhang, w.back_v},
                         {w.overhang, s.v_nose}, bend(kRight, w.bend_width));
  const int end = face("end", end_part(out, low), upper, {out, w.back_v}, {out, s.v_nose}, straight());
  const int lower = face("end's lower bend", end_part(low, w.lip_start), end, {low, w.back_v},
                         {low, s.v_nose}, bend(kRight, w.bend_width));
  const int lip =
      face("under-lip", {{w.lip_start, w.back_v}, {w.far_edge, w.back_v}, w.mitre_e[1], w.mitre_e[0]}, lower,
           {w.lip_start, w.back_v}, {w.lip_start, s.v_nose}, straight());

  // Front → its own bit of under-lip.
  auto bend_path = between(w.front_f, v_of, s.v_low, s.v_lip);
  append(bend_path, {{0, s.v_lip}, {0, s.v_low}});
  const int front_lower = face("front's lower bend", bend_path, front_flat < 0 ? front_upper : front_flat,
                               {0, s.v_low}, {w.overhang, s.v_low}, bend(kRight, s.low_radius * kRight));
  const int front_lip = face("front's under-lip", {{0, s.v_lip}, w.mitre_f[0], w.mitre_f[1]}, front_lower,
                             {0, s.v_lip}, {w.overhang, s.v_lip}, straight());

  builder.seam("front corner" + of, f.at(w.front_f), {front_upper, front_flat, front_lower, front_lip},
               f.at(w.front_e), {upper, end, lower, lip});
  if (front_lip >= 0)
    builder.seam("mitre under the lip" + of, f.at(w.mitre_f), {front_lip}, f.at(w.mitre_e), {lip});
  const double end_fold = w.overhang + w.bend_width / 2, lip_fold = low + w.bend_width / 2;
  builder.line(LineRole::fold, f.at({{end_fold, end_back}, {end_fold, s.v_nose}}), "over the tread's end",
               kRight, s.half_backing);
  builder.line(LineRole::fold, f.at({{lip_fold, end_back}, {lip_fold, w.mitre_e[0].v}}), "under the lip",
               kRight, s.half_backing);
  const double front_fold = s.v_low + s.low_radius * kRight / 2;
  builder.line(LineRole::fold, f.at({{0, front_fold}, {w.overhang, front_fold}}), "front, under the lip",
               kRight, s.low_radius);
  const double glue_u = (w.lip_start + w.far_edge) / 2;
  builder.line(LineRole::glue, f.at({{glue_u, w.back_v}, {glue_u, (w.mitre_e[0].v + w.mitre_e[1].v) / 2}}),
               "glue under the lip");
  if (!w.back_corner) return;

  // Back corner: the tabs of tread, end and under-lip.
  const double base = w.back_v - w.bend_width;
  const auto tab_bend = [&](const FlatPath& edge, double inner) {
    auto path = without_last(edge);
    append(path, {{inner, base}, {inner, w.back_v}});
    return path;
  };
  const auto tab = [&](const FlatPath& edge, double inner, double toward_inner) {
    const auto corner = edge[edge.size() - 2];
    return FlatPath{corner,
                    {corner.u + toward_inner * (corner.v - w.tab_top), w.tab_top},
                    {inner, w.tab_top},
                    {inner, base}};
  };
  const int top_bend = face("top tab's bend", tab_bend(w.back_t, 0), tread, {0, w.back_v},
                            {w.overhang, w.back_v}, bend(kRight, w.bend_width));
  const int top_tab =
      face("top tab", tab(w.back_t, 0, -1), top_bend, {0, base}, {w.overhang, base}, straight());
  const int bottom_bend = face("bottom tab's bend", tab_bend(w.back_l, w.far_edge), lip,
                               {w.lip_start, w.back_v}, {w.far_edge, w.back_v}, bend(kRight, w.bend_width));
  const int bottom_tab = face("bottom tab", tab(w.back_l, w.far_edge, 1), bottom_bend, {w.lip_start, base},
                              {w.far_edge, base}, straight());
  const int end_tab = face("end tab", {{out, end_back}, w.end_tab_tip[0], w.end_tab_tip[1], {low, end_back}},
                           end, {out, end_back}, {low, end_back}, crease(kRight));
  builder.seam("back corner, upper mitre" + of, f.at(w.back_t), {top_bend, top_tab}, f.at(w.back_et),
               {upper, end, end_tab});
  builder.seam("back corner, lower mitre" + of, f.at(w.back_l), {bottom_bend, bottom_tab}, f.at(w.back_el),
               {lower, end, end_tab});
  const double tab_fold = (w.back_v + base) / 2;
  builder.line(LineRole::fold, f.at({{0, tab_fold}, {w.overhang, tab_fold}}), "top tab, down over the back",
               kRight, s.half_backing);
  builder.line(LineRole::fold, f.at({{out, end_back}, {low, end_back}}), "end tab, round the back", kRight,
               0);
  builder.line(LineRole::fold, f.at({{w.lip_start, tab_fold}, {w.far_edge, tab_fold}}),
               "bottom tab, up over the back", kRight, s.half_backing);
  builder.line(LineRole::cut, f.at({{0, 0}, {0, w.tab_top}}), "slit behind the riser");
  builder.line(LineRole::cut, f.at(w.end_tab_tip), "set-off, room for the folds");
}

} // namespace treadfold
