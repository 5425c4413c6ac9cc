#include "cover/refold.h"

#include "cover/bare_faces.h"
#include "cover/placed_face.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <optional>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kWidestGap_mm = 25.4 / 64; // 1/64 in
constexpr double kShareAllowed = 0.001;

/// Where a point of a seam lies in space: on the nearest of the faces it may belong to.
Point3 fold_point(const std::vector<PlacedFace>& placed, const std::vector<int>& faces, FlatPoint p) {
  const PlacedFace* best = nullptr;
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

/// `count` + 1 points at equal steps of the path's own length.
FlatPath walk(const FlatPath& path, int count) {
  FlatPath points{path.front()};
  const double step = length_mm(path) / count;
  double walked = 0;
  for (std::size_t i = 1; i < path.size(); ++i) {
    const double d = distance_mm(path[i - 1], path[i]);
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

void prove_seams(const Piece& piece, const std::vector<PlacedFace>& placed, Proof& proof) {
  constexpr int kSteps = 48;
  for (const auto& seam : piece.seams) {
    proof.worst_length_mismatch_mm =
        std::max(proof.worst_length_mismatch_mm, std::abs(length_mm(seam.a) - length_mm(seam.b)));
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

/// Layers of carpet met by a ray from bare wood, out to `reach`.
int layers(const std::vector<const PlacedFace*>& candidates, Point3 from, Point3 direction, double reach) {
  constexpr double kBehind = -1e-3;
  int count = 0;
  const auto hit = [&](const PlacedFace& p, double along, double ahead, double at) {
    if (at >= kBehind && at <= reach && inside(p.face->outline, p.flat(along, ahead))) ++count;
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

std::optional<Coverage> cover_share(const BareFace& face, const std::vector<PlacedFace>& placed) {
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
  std::vector<const PlacedFace*> candidates;
  for (const auto& p : placed) {
    bool apart = p.face->hidden || p.face->step != face.step;
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
        const double angle = fb * std::numbers::pi / 2;
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

/// The piece's foot must come to the crotch of its lowest step, `crotch` in the frame of its highest: no
/// further off than the backing is thick there.
void prove_foot(const Piece& piece, const std::vector<PlacedFace>& placed, Point3 crotch, double half_backing,
                Proof& proof) {
  const FlatLine* foot = nullptr;
  for (const auto& line : piece.lines)
    if (line.role == LineRole::tuck && (foot == nullptr || line.points[0].v > foot->points[0].v))
      foot = &line;
  std::vector<int> faces;
  for (std::size_t i = 0; i < piece.faces.size(); ++i)
    if (!piece.faces[i].hidden && piece.faces[i].step == piece.steps.back())
      faces.push_back(static_cast<int>(i));
  assert(foot != nullptr && !faces.empty());
  for (const auto& end : foot->points) {
    const auto p = fold_point(placed, faces, end) - crotch;
    const double gap = std::hypot(p[1], p[2]) - half_backing;
    if (gap <= proof.widest_gap_mm) continue;
    proof.widest_gap_mm = gap;
    proof.widest_seam = "foot in the crotch";
  }
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
  Point3 crotch{0, 0, 0};
  for (std::size_t i = 1; i < steps.size(); ++i)
    crotch = crotch - Point3{0, steps[i].going.mm(), steps[i].rise.mm()};
  prove_foot(piece, placed, crotch, carpet.backing.mm() / 2, proof);
  for (const auto& face : bare_faces(steps, {style, pad.mm(), carpet.backing.mm(), allowances.relief.mm()}))
    if (auto coverage = cover_share(face, placed)) proof.coverage.push_back(std::move(*coverage));
  prove_hems(piece, allowances, proof);

  if (proof.widest_gap_mm > kWidestGap_mm) {
    proof.reason =
        fmt::format("the {} stands open {:.2f} mm when folded", proof.widest_seam, proof.widest_gap_mm);
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
