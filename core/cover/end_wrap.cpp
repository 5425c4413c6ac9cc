#include "cover/end_wrap.h"
#include "units/steady.h"

#include <algorithm>
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
    const double angle = steady::acos(std::min(1.0, (z - upper_axis_z) / radius));
    return {overhang + radius * steady::sin(angle), radius * angle};
  }
  const double flat = radius * kRight + (upper_axis_z - std::max(z, lower_axis_z));
  if (z >= lower_axis_z) return {overhang + radius, flat};
  const double angle = steady::asin(std::min(1.0, (lower_axis_z - z) / radius));
  return {overhang + radius * steady::cos(angle), flat + radius * angle};
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

template <class Map>
FlatPath mapped(const FlatPath& path, Map map) {
  FlatPath result;
  result.reserve(path.size());
  for (const auto& p : path)
    result.push_back(map(p));
  return result;
}

/// Back corner: three tabs close the tread's back edge like an envelope, from above, from the end and from
/// below.
void close_back(EndWrap& w, const Section& s, double relief) {
  const auto& plan = w.plan;
  const double r = s.half_backing, q = w.return_past;
  for (int i = 0; i <= kPerBend; ++i) { // round the sharp arrises, upper and lower alike
    const double angle = kRight * i / kPerBend, out = r * steady::sin(angle), turned = r * angle;
    const double eta = plan.eta_at(w.overhang + out, q + out);
    const double t = plan.t(plan.from_back(eta, q + out));
    w.back_t.push_back({eta, q + turned});
    w.back_et.push_back({w.overhang + turned, t});
    w.back_l.push_back({eta, q + turned});
    w.back_el.push_back({w.lip_start - turned, t});
  }
  w.slit_eta = plan.eta_at(0, q);
  w.corner_eta = w.back_t.back().u;
  w.end_back = w.back_et.back().v;
  w.corner_rad = steady::acos(std::clamp(dot(plan.out, plan.back), -1.0, 1.0));
  // A mitre runs 45° until the middle or the riser's plane.
  const double depth = std::min(w.end_height / 2, w.corner_eta - w.slit_eta);
  const double tip = std::max(0.0, depth - relief), base = q + w.bend_width;
  w.tab_beta = base + depth;
  w.back_t.push_back({w.corner_eta - tip, base + tip});
  w.back_l.push_back(w.back_t.back());
  const double upper = w.overhang + w.bend_width, lower = upper + w.end_height;
  w.back_et.push_back({upper + tip, w.end_back + tip});
  w.back_el.push_back({lower - tip, w.end_back + tip});
  w.end_tab_tip = {w.back_et.back(), w.back_el.back()};
}

/// The free back hangs from the tread's back edge as the end does from its own: their corner is the curve in
/// which the two cross.
void free_the_back(EndWrap& w, const Section& s, double upper_axis_z, double lower_axis_z) {
  const auto& plan = w.plan;
  const double q = w.return_past, r = s.half_backing;
  std::vector<double> heights{s.tread_z, upper_axis_z, lower_axis_z, s.lip_z};
  for (int i = 1; i < kPerBend; ++i) {
    heights.push_back(upper_axis_z + r * steady::cos(kRight * i / kPerBend));
    heights.push_back(lower_axis_z - r * steady::sin(kRight * i / kPerBend));
  }
  std::sort(heights.begin(), heights.end(), std::greater<>());
  for (const double z : heights) {
    const auto end = end_at(z, w.overhang, upper_axis_z, lower_axis_z, r);
    const double out = end.out - w.overhang, eta = plan.eta_at(end.out, q + out);
    w.back_t.push_back({eta, q + end.length});
    w.back_et.push_back({w.overhang + end.length, plan.t(plan.from_back(eta, q + out))});
  }
  w.slit_eta = -w.free_back;
  const double lip_beta = w.back_t.back().v;
  w.back_far = lip_beta + q;
  const auto outer = plan.from_back(plan.eta_at(w.overhang, q), q);
  w.back_mitre_t = {w.back_t.back(), {0, w.back_far}};
  w.back_mitre_e = {w.on_lip(outer), w.on_lip(plan.next_riser())};
  w.end_back = w.back_et.front().v;
}

} // namespace

FlatPath EndWrap::from_end(const FlatPath& path) const {
  return mapped(path, [&](FlatPoint p) { return from_end(p); });
}
FlatPath EndWrap::from_back(const FlatPath& path) const {
  return mapped(path, [&](FlatPoint p) { return from_back(p); });
}
FlatPath EndWrap::from_lip_back(const FlatPath& path) const {
  return mapped(path, [&](FlatPoint p) { return from_lip_back(p); });
}

FlatPath EndWrap::slit() const {
  FlatPath path{plan.begin()};
  if (free_back > 0) return {from_back(FlatPoint{slit_eta, 0}), from_back(FlatPoint{slit_eta, back_far})};
  if (!back_corner) return path;
  if (!plan.straight()) path.push_back(from_back(FlatPoint{slit_eta, return_past}));
  path.push_back(from_back(FlatPoint{slit_eta, tab_beta}));
  return path;
}

EndWrap end_wrap(const Section& s, const Step& step, Hand hand, double relief) {
  const auto& side = hand == Hand::right ? step.right : step.left;
  EndWrap w;
  w.plan = side_plan(step, hand, s.back_y);
  const double r = s.half_backing;
  w.overhang = side.overhang.mm();
  w.end_height = s.thickness + s.pad;
  w.bend_width = r * kRight;
  w.lip_start = w.overhang + 2 * w.bend_width + w.end_height;
  w.far_edge = w.lip_start + w.overhang;

  const double upper_axis_z = s.tread_z - r, lower_axis_z = s.lip_z + r;
  std::vector<double> heights{upper_axis_z, lower_axis_z};
  for (int i = 0; i <= kPerBend; ++i) {
    heights.push_back(upper_axis_z + r * steady::cos(kRight * i / kPerBend));
    heights.push_back(lower_axis_z - r * steady::sin(kRight * i / kPerBend));
  }
  // The corner's edge lies on the front's surface and on the end's at once, so both flat edges have its
  // length.
  for (const auto& front : front_points(s, heights)) {
    const auto end = end_at(front.z, w.overhang, upper_axis_z, lower_axis_z, r);
    const auto corner = w.plan.at_front(end.out, front.y);
    w.front_f.push_back({corner.x, s.v_nose + front.s});
    w.front_e.push_back({w.overhang + end.length, w.plan.t(corner)});
  }
  const auto outer = w.plan.at_front(w.overhang, s.low_y);
  // A bend deeper than the projection leaves no lip before the riser: the end's ends at the stringer.
  const PlanPoint inner{s.inner_y > 0 ? w.plan.x(s.inner_y) : 0, s.inner_y};
  w.mitre_f = {{outer.x, s.v_lip}, {0, s.v_inner}};
  w.mitre_e = {w.on_lip(outer), w.on_lip(inner)};

  w.back_corner = !step.landing_edge;
  if (w.back_corner) {
    w.return_past = side.return_past.mm();
    w.free_back = (hand == Hand::right ? step.free_back_right : step.free_back_left).mm();
    if (w.free_back > 0)
      free_the_back(w, s, upper_axis_z, lower_axis_z);
    else
      close_back(w, s, relief);
  } else {
    w.end_back = s.back_y;
  }
  return w;
}

FlatPath outline_of(const EndWrap& w, const Section& s) {
  FlatPath path = w.slit();
  if (w.free_back > 0) {
    path.erase(path.begin());
    append(path, w.from_back(reversed(w.back_mitre_t)));
    append(path, w.from_back(reversed(w.back_t)));
    append(path, w.from_end(FlatPath(w.back_et.begin() + 1, w.back_et.end())));
    append(path, w.from_end(w.back_mitre_e));
    if (!w.plan.straight()) path.push_back(w.from_end(w.on_lip({0, 0})));
  } else if (w.back_corner) {
    path.erase(path.begin());
    // Past the set-off the mitre runs on to the tabs' own far edge.
    const auto tip = w.back_t.back();
    const double far = tip.u - (w.tab_beta - tip.v);
    path.push_back(w.from_back(FlatPoint{far, w.tab_beta}));
    append(path, w.from_back(reversed(w.back_t)));
    append(path, w.from_end(FlatPath(w.back_et.begin() + 1, w.back_et.end())));
    append(path, w.from_end(reversed(w.back_el)));
    append(path, w.from_lip_back(FlatPath(w.back_l.begin() + 1, w.back_l.end())));
    path.push_back(w.from_lip_back(FlatPoint{far, w.tab_beta}));
    path.push_back(w.from_lip_back(FlatPoint{w.slit_eta, w.tab_beta}));
    if (!w.plan.straight()) {
      path.push_back(w.from_lip_back(FlatPoint{w.slit_eta, w.return_past}));
      if (s.inner_y < 0) path.push_back(w.from_end(w.on_lip({0, 0})));
    }
  } else {
    path.push_back(w.from_end({w.far_edge, w.end_back}));
  }
  append(path, w.from_end(reversed(w.mitre_e)));
  append(path, w.from_end(reversed(w.front_e)));
  append(path, FlatPath(w.front_f.begin() + 1, w.front_f.end()));
  path.push_back({0, s.v_inner});
  return path;
}

namespace {

/// The sheet over a free back, and its seams with the end. `end`: the faces of the end from the top.
void add_free_back(PieceBuilder& builder, const EndWrap& w, const SideFrame& f, int step, int tread,
                   std::vector<int> end) {
  const std::string side = f.name(), of = ", " + side + ", step " + std::to_string(step);
  const double q = w.return_past, r = w.bend_width / kRight, flat = q + w.bend_width,
               low = flat + w.end_height, lip = low + w.bend_width, outer = w.back_t.front().u;
  std::vector<int> sheet;
  const auto face = [&](const char* name, FlatPath edge, double from, double to, Turn turn) {
    append(edge, {{w.slit_eta, to}, {w.slit_eta, from}});
    const auto a = w.from_back(FlatPoint{w.slit_eta, from}), b = w.from_back(FlatPoint{outer, from});
    const int index =
        builder.face(std::string(name) + ", " + side, step, f.at(w.from_back(edge)),
                     sheet.empty() ? tread : sheet.back(), f.at(a.u, a.v), f.at(b.u, b.v), turn);
    if (index >= 0) sheet.push_back(index);
  };
  face("back's upper bend", between(w.back_t, v_of, q, flat), q, flat, bend(kRight, w.bend_width));
  face("free back", between(w.back_t, v_of, flat, low), flat, low, straight());
  face("back's lower bend", between(w.back_t, v_of, low, lip), low, lip, bend(kRight, w.bend_width));
  face("back's under-lip", w.back_mitre_t, lip, w.back_far, straight());
  builder.seam("free back's corner" + of, f.at(w.from_back(w.back_t)), sheet, f.at(w.from_end(w.back_et)),
               end);
  builder.seam("free back's mitre" + of, f.at(w.from_back(w.back_mitre_t)), std::move(sheet),
               f.at(w.from_end(w.back_mitre_e)), std::move(end));
  for (const auto& [v, label] :
       {std::pair{(q + flat) / 2, "down over the back"}, std::pair{(low + lip) / 2, "under the back"}})
    builder.line(LineRole::fold, f.at(w.from_back({{w.slit_eta, v}, {outer, v}})), label, kRight, r);
  builder.line(LineRole::cut, f.at(w.slit()), "slit beside the riser above");
}

} // namespace

void add_end(PieceBuilder& builder, const EndWrap& w, const Section& s, const SideFrame& f, int step,
             int tread, const std::vector<int>& front) {
  const std::string side = f.name(), of = ", " + side + ", step " + std::to_string(step);
  const double out = w.overhang + w.bend_width, low = out + w.end_height; // ξ of the end's flat
  const double front_t = w.front_e.front().v;                             // where the nosing's bend begins
  const auto end_part = [&](double from, double to) { // of the end, between its edges at front and back
    auto path = between(w.front_e, u_of, from, to);
    if (w.free_back > 0) {
      append(path, reversed(between(w.back_et, u_of, from, to)));
    } else if (w.back_corner) {
      append(path, between(without_last(w.back_el), u_of, from, to));
      append(path, reversed(between(without_last(w.back_et), u_of, from, to)));
    } else {
      append(path, {{to, w.end_back}, {from, w.end_back}});
    }
    return w.from_end(path);
  };
  // Outlines and hinges are in (x, v).
  const auto face = [&](const char* name, const FlatPath& outline, int parent, FlatPoint a, FlatPoint b,
                        Turn turn) {
    return builder.face(std::string(name) + ", " + side, step, f.at(outline), parent, f.at(a.u, a.v),
                        f.at(b.u, b.v), turn);
  };
  const auto end_face = [&](const char* name, const FlatPath& outline, int parent, double xi, Turn turn) {
    return face(name, outline, parent, w.from_end({xi, w.end_back}), w.from_end({xi, front_t}), turn);
  };

  // Tread → end → under-lip.
  const int upper =
      end_face("end's upper bend", end_part(w.overhang, out), tread, w.overhang, bend(kRight, w.bend_width));
  const int end = end_face("end", end_part(out, low), upper, out, straight());
  const int lower =
      end_face("end's lower bend", end_part(low, w.lip_start), end, low, bend(kRight, w.bend_width));
  FlatPath lip_outline;
  if (w.free_back > 0)
    lip_outline = w.from_end(w.back_mitre_e);
  else if (w.back_corner)
    lip_outline = w.from_lip_back({w.back_l.front(), {w.slit_eta, w.return_past}});
  else
    lip_outline = w.from_end({{w.lip_start, w.end_back}, {w.far_edge, w.end_back}});
  if (!w.plan.straight() && s.inner_y < 0) lip_outline.push_back(w.from_end(w.on_lip({0, 0})));
  append(lip_outline, w.from_end({w.mitre_e[1], w.mitre_e[0]}));
  const int lip = end_face("under-lip", lip_outline, lower, w.lip_start, straight());

  // Front → its own bit of under-lip.
  auto bend_path = between(w.front_f, v_of, s.v_low, s.v_lip);
  append(bend_path, {{0, s.v_lip}, {0, s.v_low}});
  const int front_lower = face("front's lower bend", bend_path, front.back(), {0, s.v_low},
                               {w.overhang, s.v_low}, bend(kRight, s.low_radius * kRight));
  const int front_lip = face("front's under-lip", {{0, s.v_lip}, w.mitre_f[0], w.mitre_f[1]}, front_lower,
                             {0, s.v_lip}, {w.overhang, s.v_lip}, straight());

  auto front_faces = front;
  front_faces.insert(front_faces.end(), {front_lower, front_lip});
  builder.seam("front corner" + of, f.at(w.front_f), std::move(front_faces), f.at(w.from_end(w.front_e)),
               {upper, end, lower, lip});
  if (front_lip >= 0)
    builder.seam("mitre under the lip" + of, f.at(w.mitre_f), {front_lip}, f.at(w.from_end(w.mitre_e)),
                 {lip});
  const auto line = [&](LineRole role, const FlatPath& path, const char* label, double angle = 0,
                        double radius = 0) { builder.line(role, f.at(path), label, angle, radius); };
  const double end_fold = w.overhang + w.bend_width / 2, lip_fold = low + w.bend_width / 2;
  line(LineRole::fold, w.from_end({{end_fold, w.end_back}, {end_fold, front_t}}), "over the tread's end",
       kRight, s.half_backing);
  line(LineRole::fold, w.from_end({{lip_fold, w.end_back}, {lip_fold, w.mitre_e[0].v}}), "under the lip",
       kRight, s.half_backing);
  const double front_fold = s.v_low + s.low_radius * kRight / 2;
  line(LineRole::fold, {{0, front_fold}, {w.mitre_f[0].u, front_fold}}, "front, under the lip", kRight,
       s.low_radius);
  const auto mid = [](FlatPoint a, FlatPoint b) { return FlatPoint{(a.u + b.u) / 2, (a.v + b.v) / 2}; };
  line(LineRole::glue, {mid(lip_outline[0], lip_outline[1]), w.from_end(mid(w.mitre_e[0], w.mitre_e[1]))},
       "glue under the lip");
  if (!w.back_corner) return;
  if (w.free_back > 0) return add_free_back(builder, w, f, step, tread, {upper, end, lower, lip});

  // Back corner: the tabs of tread, end and under-lip.
  const double q = w.return_past, base = q + w.bend_width;
  const auto tab_bend = [&](const FlatPath& edge) {
    auto path = without_last(edge);
    append(path, {{w.slit_eta, base}, {w.slit_eta, q}});
    return path;
  };
  const auto tab = [&](const FlatPath& edge) {
    const auto corner = edge[edge.size() - 2];
    return FlatPath{corner,
                    {corner.u - (w.tab_beta - corner.v), w.tab_beta},
                    {w.slit_eta, w.tab_beta},
                    {w.slit_eta, base}};
  };
  const FlatPoint inner{w.slit_eta, q}, outer{w.back_t.front().u, q}, tab_inner{w.slit_eta, base},
      tab_outer{outer.u, base};
  const int top_bend = face("top tab's bend", w.from_back(tab_bend(w.back_t)), tread, w.from_back(inner),
                            w.from_back(outer), bend(kRight, w.bend_width));
  const int top_tab = face("top tab", w.from_back(tab(w.back_t)), top_bend, w.from_back(tab_inner),
                           w.from_back(tab_outer), straight());
  const int bottom_bend = face("bottom tab's bend", w.from_lip_back(tab_bend(w.back_l)), lip,
                               w.from_lip_back(outer), w.from_lip_back(inner), bend(kRight, w.bend_width));
  const int bottom_tab = face("bottom tab", w.from_lip_back(tab(w.back_l)), bottom_bend,
                              w.from_lip_back(tab_outer), w.from_lip_back(tab_inner), straight());
  const FlatPath end_edge{{out, w.end_back}, {low, w.end_back}};
  const int end_tab =
      face("end tab", w.from_end({end_edge[0], w.end_tab_tip[0], w.end_tab_tip[1], end_edge[1]}), end,
           w.from_end(end_edge[0]), w.from_end(end_edge[1]), crease(w.corner_rad));
  builder.seam("back corner, upper mitre" + of, f.at(w.from_back(w.back_t)), {top_bend, top_tab},
               f.at(w.from_end(w.back_et)), {upper, end, end_tab});
  builder.seam("back corner, lower mitre" + of, f.at(w.from_lip_back(w.back_l)), {bottom_bend, bottom_tab},
               f.at(w.from_end(w.back_el)), {lower, end, end_tab});
  const double tab_fold = (q + base) / 2;
  const FlatPath across{{w.slit_eta, tab_fold}, {outer.u, tab_fold}};
  line(LineRole::fold, w.from_back(across), "top tab, down over the back", kRight, s.half_backing);
  line(LineRole::fold, w.from_end(end_edge), "end tab, round the back", w.corner_rad, 0);
  line(LineRole::fold, reversed(w.from_lip_back(across)), "bottom tab, up over the back", kRight,
       s.half_backing);
  line(LineRole::cut, w.slit(), "slit behind the riser");
  line(LineRole::cut, w.from_end(w.end_tab_tip), "set-off, room for the folds");
}

} // namespace treadfold
