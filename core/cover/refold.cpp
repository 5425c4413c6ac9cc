#include "cover/refold.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

using std::numbers::pi;

constexpr double kWidestGap_mm = 25.4 / 64; // 1/64 in
constexpr double kShareAllowed = 0.001;

Point3 operator+(Point3 a, Point3 b) { return {a[0] + b[0], a[1] + b[1], a[2] + b[2]}; }
Point3 operator-(Point3 a, Point3 b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
Point3 operator*(double k, Point3 a) { return {k * a[0], k * a[1], k * a[2]}; }
double dot(Point3 a, Point3 b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
Point3 cross(Point3 a, Point3 b) {
  return {a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]};
}
double norm(Point3 a) { return std::sqrt(dot(a, a)); }
double distance(FlatPoint a, FlatPoint b) { return std::hypot(a.u - b.u, a.v - b.v); }

/// Distance from the outline if outside, 0 inside.
double distance_outside(const FlatPath& outline, FlatPoint p) {
  bool inside = false;
  double nearest = 1e300;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const auto a = outline[j], b = outline[i];
    if ((a.v > p.v) != (b.v > p.v) && p.u < (b.u - a.u) * (p.v - a.v) / (b.v - a.v) + a.u) inside = !inside;
    const double du = b.u - a.u, dv = b.v - a.v, squared = du * du + dv * dv;
    const double t = squared == 0 ? 0 : std::clamp(((p.u - a.u) * du + (p.v - a.v) * dv) / squared, 0.0, 1.0);
    nearest = std::min(nearest, std::hypot(p.u - a.u - t * du, p.v - a.v - t * dv));
  }
  return inside ? 0 : nearest;
}

/// A face in space: flat coordinates along (h) and across (c) its hinge, mapped by a plane or a cylinder.
struct Placed {
  const Face* face = nullptr;
  FlatPoint hinge{}, h{}, c{};      // flat: a point of the hinge, unit vectors along and ahead
  Point3 origin{}, e1{}, e2{}, n{}; // space: hinge point, along, ahead, pile's side
  double radius = 0;                // signed; 0 for a plane
  Point3 low{}, high{};             // bounding box

  Point3 at(FlatPoint p) const {
    const double along = (p.u - hinge.u) * h.u + (p.v - hinge.v) * h.v;
    const double ahead = (p.u - hinge.u) * c.u + (p.v - hinge.v) * c.v;
    if (radius == 0) return origin + along * e1 + ahead * e2;
    const double turned = ahead / radius;
    return origin + along * e1 + radius * std::sin(turned) * e2 - radius * (1 - std::cos(turned)) * n;
  }
  Point3 normal_at(FlatPoint p) const {
    if (radius == 0) return n;
    const double turned = ((p.u - hinge.u) * c.u + (p.v - hinge.v) * c.v) / radius;
    return std::cos(turned) * n + std::sin(turned) * e2;
  }
  FlatPoint flat(double along, double ahead) const {
    return {hinge.u + along * h.u + ahead * c.u, hinge.v + along * h.v + ahead * c.v};
  }
};

Placed place(const Face& face, Point3 origin, Point3 along, Point3 normal) {
  Placed p;
  p.face = &face;
  p.hinge = face.hinge_a;
  const double length = distance(face.hinge_a, face.hinge_b);
  p.h = {(face.hinge_b.u - face.hinge_a.u) / length, (face.hinge_b.v - face.hinge_a.v) / length};
  p.c = {-p.h.v, p.h.u};
  p.origin = origin;
  p.e1 = along;
  // The pile's side is up when u runs right and v toward the viewer: along × ahead = -normal, so ahead =
  // along × normal.
  const auto ahead = cross(along, normal);
  const double turn = face.crease_rad;
  p.e2 = std::cos(turn) * ahead - std::sin(turn) * normal;
  p.n = std::cos(turn) * normal + std::sin(turn) * ahead;
  p.radius = face.bend_rad == 0 ? 0 : face.bend_width_mm / face.bend_rad;
  p.low = {1e300, 1e300, 1e300};
  p.high = {-1e300, -1e300, -1e300};
  const double bulge = p.radius == 0 ? 0 : std::abs(p.radius);
  for (const auto& point : face.outline) {
    const auto q = p.at(point);
    for (std::size_t k = 0; k < 3; ++k) {
      p.low[k] = std::min(p.low[k], q[k] - bulge);
      p.high[k] = std::max(p.high[k], q[k] + bulge);
    }
  }
  return p;
}

/// Every face of the piece in the frame of its highest step, whose tread's back line is v = 0.
std::vector<Placed> place_faces(const Piece& piece, double back_y, double tread_z) {
  std::vector<Placed> placed;
  for (const auto& face : piece.faces) {
    if (face.parent < 0) {
      const double length = distance(face.hinge_a, face.hinge_b);
      const Point3 along{(face.hinge_b.u - face.hinge_a.u) / length,
                         (face.hinge_a.v - face.hinge_b.v) / length, 0};
      placed.push_back(place(face, {face.hinge_a.u, back_y - face.hinge_a.v, tread_z}, along, {0, 0, 1}));
      continue;
    }
    assert(face.parent < static_cast<int>(placed.size()));
    const auto& parent = placed[static_cast<std::size_t>(face.parent)];
    const auto from = parent.at(face.hinge_a), to = parent.at(face.hinge_b);
    placed.push_back(place(face, from, (1 / norm(to - from)) * (to - from), parent.normal_at(face.hinge_a)));
  }
  return placed;
}

/// Where a point of a seam lies in space: on the nearest of the faces it may belong to.
Point3 fold_point(const std::vector<Placed>& placed, const std::vector<int>& faces, FlatPoint p) {
  const Placed* best = nullptr;
  double nearest = 1e300;
  for (const int index : faces) {
    const auto& candidate = placed[static_cast<std::size_t>(index)];
    const double d = distance_outside(candidate.face->outline, p);
    if (d < nearest) {
      nearest = d;
      best = &candidate;
    }
  }
  assert(best != nullptr);
  return best->at(p);
}

double length_of(const FlatPath& path) {
  double total = 0;
  for (std::size_t i = 1; i < path.size(); ++i)
    total += distance(path[i - 1], path[i]);
  return total;
}

/// `count` + 1 points at equal steps of the path's own length.
FlatPath walk(const FlatPath& path, int count) {
  FlatPath points{path.front()};
  const double step = length_of(path) / count;
  double walked = 0;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const double d = distance(path[i - 1], path[i]);
    while (static_cast<int>(points.size()) < count &&
           walked + d >= step * static_cast<double>(points.size())) {
      const double t = (step * static_cast<double>(points.size()) - walked) / d;
      points.push_back(
          {path[i - 1].u + t * (path[i].u - path[i - 1].u), path[i - 1].v + t * (path[i].v - path[i - 1].v)});
    }
    walked += d;
  }
  points.push_back(path.back());
  return points;
}

void prove_seams(const Piece& piece, const std::vector<Placed>& placed, Proof& proof) {
  constexpr int kSteps = 48;
  for (const auto& seam : piece.seams) {
    proof.worst_length_mismatch_mm =
        std::max(proof.worst_length_mismatch_mm, std::abs(length_of(seam.a) - length_of(seam.b)));
    const auto a = walk(seam.a, kSteps), b = walk(seam.b, kSteps);
    for (std::size_t i = 0; i < a.size(); ++i) {
      const double gap =
          norm(fold_point(placed, seam.faces_a, a[i]) - fold_point(placed, seam.faces_b, b[i]));
      if (gap > proof.widest_gap_mm) {
        proof.widest_gap_mm = gap;
        proof.widest_seam = seam.name;
      }
    }
  }
}

/// Bare wood to be covered: origin + a·A + b·B over the unit square, where `inside` allows, seen along
/// `outward`.
struct BareFace {
  std::string name;
  Point3 origin{}, a{}, b{}, outward{};
  double reach = 0;      // how far off the wood the carpet may lie
  double arc_radius = 0; // > 0: a quarter round about the axis origin + a·A; b turns from `outward` to `b`
  // Part of the square that is not wood, or left open on purpose; null: all is required.
  std::vector<std::array<double, 4>> left_out; // a0, a1, b0, b1 in mm from the origin
  double front_round = 0; // an end whose front edge is rounded by this radius (b: down, a: forward)
};

/// Layers of carpet met by a ray from bare wood, out to `reach`.
int layers(const std::vector<const Placed*>& candidates, Point3 from, Point3 direction, double reach) {
  constexpr double kBehind = -1e-3;
  int count = 0;
  const auto hit = [&](const Placed& p, double along, double ahead, double at) {
    if (at >= kBehind && at <= reach && distance_outside(p.face->outline, p.flat(along, ahead)) == 0) ++count;
  };
  for (const auto* p : candidates) {
    const auto rel = from - p->origin;
    if (p->radius == 0) {
      const double slope = dot(direction, p->n);
      if (std::abs(slope) < 1e-9) continue;
      const double at = -dot(rel, p->n) / slope;
      const auto q = rel + at * direction;
      hit(*p, dot(q, p->e1), dot(q, p->e2), at);
      continue;
    }
    // Cylinder about the line origin - radius·n + s·e1.
    const double x = dot(rel, p->e2), y = dot(rel, p->n) + p->radius;
    const double dx = dot(direction, p->e2), dy = dot(direction, p->n);
    const double a = dx * dx + dy * dy, b = x * dx + y * dy, c = x * x + y * y - p->radius * p->radius;
    const double root = b * b - a * c;
    if (a < 1e-12 || root < 0) continue;
    for (const double sign : {-1.0, 1.0}) {
      const double at = (-b + sign * std::sqrt(root)) / a;
      const double turned =
          p->radius > 0 ? std::atan2(x + at * dx, y + at * dy) : std::atan2(-(x + at * dx), -(y + at * dy));
      hit(*p, dot(rel + at * direction, p->e1), turned * p->radius, at);
    }
  }
  return count;
}

std::optional<Coverage> cover_share(const BareFace& face, const std::vector<Placed>& placed) {
  constexpr int kSide = 24;
  Point3 low{1e300, 1e300, 1e300}, high{-1e300, -1e300, -1e300};
  for (int corner = 0; corner < 8; ++corner) {
    const auto turned = face.arc_radius > 0 ? (1 / norm(face.b)) * face.b : face.outward;
    auto p = face.origin + (corner & 1 ? 1.0 : 0.0) * face.a + (corner & 2 ? 1.0 : 0.0) * face.b;
    if (corner & 4) p = p + (face.reach + face.arc_radius) * (corner & 2 ? turned : face.outward);
    for (std::size_t k = 0; k < 3; ++k) {
      low[k] = std::min(low[k], p[k] - face.arc_radius - face.reach - 1);
      high[k] = std::max(high[k], p[k] + face.arc_radius + face.reach + 1);
    }
  }
  std::vector<const Placed*> candidates;
  for (const auto& p : placed) {
    bool apart = p.face->hidden;
    for (std::size_t k = 0; k < 3; ++k)
      apart = apart || p.low[k] > high[k] || p.high[k] < low[k];
    if (!apart) candidates.push_back(&p);
  }

  const double long_a = norm(face.a), long_b = norm(face.b);
  int once = 0, more = 0, none = 0;
  for (int i = 0; i < kSide; ++i) {
    for (int j = 0; j < kSide; ++j) {
      // Off the middle of each cell by odd amounts, so that no ray runs along a fold.
      const double fa = (i + 0.4931) / kSide, fb = (j + 0.5087) / kSide;
      const double at_a = fa * long_a, at_b = fb * long_b;
      bool skip = false;
      for (const auto& out : face.left_out)
        skip = skip || (at_a >= out[0] && at_a <= out[1] && at_b >= out[2] && at_b <= out[3]);
      if (face.front_round > 0 && long_a - at_a < face.front_round) {
        const double x = face.front_round - (long_a - at_a),
                     y = face.front_round - std::min(at_b, long_b - at_b);
        skip = skip || (y > 0 && std::hypot(x, y) > face.front_round);
      }
      if (skip) continue;
      Point3 from, direction = face.outward;
      if (face.arc_radius > 0) {
        const double angle = fb * pi / 2;
        direction = std::cos(angle) * face.outward + (std::sin(angle) / long_b) * face.b;
        from = face.origin + fa * face.a + face.arc_radius * direction;
      } else {
        from = face.origin + fa * face.a + fb * face.b;
      }
      const int count = layers(candidates, from, direction, face.reach);
      ++(count == 1 ? once : count == 0 ? none : more);
    }
  }
  const double all = once + more + none;
  if (all == 0) return std::nullopt; // left open on purpose, all of it
  return Coverage{face.name, once / all, more / all, none / all};
}

struct ProofInput {
  CoverStyle style;
  double pad, backing, relief;
};

/// The bare faces of an open end. `sign` +1: right, -1: left; `at_x`: of the riser's end.
void end_faces(std::vector<BareFace>& faces, const Step& step, const Side& side, double sign, double at_x,
               Point3 shift, const ProofInput& in) {
  const double rise = step.rise.mm(), going = step.going.mm(), o = step.nosing.projection.mm();
  const double t = step.nosing.thickness.mm(), r = step.nosing.radius.mm(), e = side.overhang.mm();
  const double back = step.landing_edge ? going : going + side.return_past.mm();
  const double thin = in.backing + 1;
  const std::string of = fmt::format(", {}, step {}", sign > 0 ? "right" : "left", step.number);
  const auto at = [&](double x, double y, double z) { return Point3{at_x + sign * x, y, z} + shift; };
  const auto add = [&](BareFace face) {
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

std::vector<BareFace> bare_faces(const std::vector<Step>& steps, const ProofInput& in) {
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

/// Strip on the riser must end where the hem, folded under, begins.
void prove_hems(const Piece& piece, const Allowances& allowances, Proof& proof) {
  for (const auto& face : piece.faces) {
    if (!face.name.starts_with("hem")) continue;
    double width = 0;
    for (const auto& p : face.outline)
      width = std::max(width, std::abs(p.u - face.hinge_a.u));
    if (from_mm_up(width) > allowances.strip_stop) proof.hems_clear = false;
  }
}

} // namespace

std::vector<FoldedFace> fold(const Piece& piece, const std::vector<Step>& steps) {
  constexpr int kBands = 8;
  const bool floor = steps.empty();
  const auto placed = place_faces(piece, floor ? 0 : steps.front().going.mm(),
                                  floor ? 0 : steps.front().rise.mm() + piece.root_height_mm);
  std::vector<FoldedFace> folded;
  for (const auto& p : placed) {
    FoldedFace result{p.face->name, p.face->step, {}};
    // A bend is drawn as bands; cutting the outline across keeps each band flat.
    const int bands = p.radius == 0 ? 1 : kBands;
    for (int band = 0; band < bands; ++band) {
      const double from = p.face->bend_width_mm * band / bands,
                   to = p.face->bend_width_mm * (band + 1) / bands;
      FlatPath part = p.face->outline;
      const auto ahead = [&](FlatPoint q) { return (q.u - p.hinge.u) * p.c.u + (q.v - p.hinge.v) * p.c.v; };
      const auto clip = [&](double limit, double sign) {
        FlatPath kept;
        for (std::size_t i = 0; i < part.size(); ++i) {
          const auto a = part[i], b = part[(i + 1) % part.size()];
          const double da = sign * (ahead(a) - limit), db = sign * (ahead(b) - limit);
          if (da >= 0) kept.push_back(a);
          if ((da < 0) != (db < 0)) {
            const double t = da / (da - db);
            kept.push_back({a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)});
          }
        }
        part = std::move(kept);
      };
      if (bands > 1) {
        if (band > 0) clip(from, 1);
        if (band + 1 < bands) clip(to, -1);
      }
      std::vector<Point3> polygon;
      for (const auto& q : part)
        polygon.push_back(p.at(q));
      if (polygon.size() >= 3) result.polygons.push_back(std::move(polygon));
    }
    folded.push_back(std::move(result));
  }
  return folded;
}

Proof prove(const Piece& piece, const std::vector<Step>& steps, CoverStyle style, Length pad,
            const Carpet& carpet, const Allowances& allowances) {
  Proof proof;
  if (steps.empty()) { // a floor lies flat
    proof.passed = true;
    return proof;
  }
  const auto placed =
      place_faces(piece, steps.front().going.mm(), steps.front().rise.mm() + piece.root_height_mm);
  prove_seams(piece, placed, proof);
  for (const auto& face : bare_faces(steps, {style, pad.mm(), carpet.backing.mm(), allowances.relief.mm()}))
    if (auto coverage = cover_share(face, placed)) proof.coverage.push_back(std::move(*coverage));
  prove_hems(piece, allowances, proof);

  if (proof.widest_gap_mm > kWidestGap_mm) {
    proof.reason = fmt::format("the seam at the {} stands open {:.2f} mm when folded", proof.widest_seam,
                               proof.widest_gap_mm);
  } else if (!proof.hems_clear) {
    proof.reason = "the folded hem would lie on the riser's tack strip";
  } else {
    for (const auto& c : proof.coverage) {
      if (c.none > kShareAllowed)
        proof.reason = fmt::format("{:.1f} % of the {} stays bare when folded", 100 * c.none, c.face);
      else if (c.more > kShareAllowed)
        proof.reason = fmt::format("{:.1f} % of the {} is covered twice when folded", 100 * c.more, c.face);
      if (!proof.reason.empty()) break;
    }
  }
  proof.passed = proof.reason.empty();
  return proof;
}

} // namespace treadfold
