#include "cover/refold.h"

#include "cover/coverage.h"
#include "cover/face_bands.h"
#include "cover/folded_point.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <set>
#include <utility>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kWidestGap_mm = 25.4 / 64; // 1/64 in

void widen(Proof& proof, double gap, const std::string& name) {
  if (gap <= proof.widest_gap_mm) return;
  proof.widest_gap_mm = gap;
  proof.widest_seam = name;
}

void prove_seams(const Piece& piece, const std::vector<PlacedFace>& placed, Proof& proof) {
  constexpr int kSteps = 48;
  for (const auto& seam : piece.seams) {
    proof.worst_length_mismatch_mm =
        std::max(proof.worst_length_mismatch_mm, std::abs(length_mm(seam.a) - length_mm(seam.b)));
    const auto a = walk(seam.a, kSteps), b = walk(seam.b, kSteps);
    for (std::size_t i = 0; i < a.size(); ++i) {
      const auto p = fold_point(placed, seam.faces_a, a[i]), q = fold_point(placed, seam.faces_b, b[i]);
      widen(proof, norm(p.at - q.at) + p.outside + q.outside, seam.name);
    }
  }
}

/// The line that is tucked into the crotch must come to it: down to the wood below, and no further from the
/// riser than the backing is thick.
/// `crotch`: its left end in the frame of the highest step.
void prove_foot(const Piece& piece, const std::vector<PlacedFace>& placed, const Step& lowest, Point3 crotch,
                double half_backing, Proof& proof) {
  const auto foot = std::find_if(piece.lines.rbegin(), piece.lines.rend(), [](const auto& line) {
    return line.role == LineRole::tuck && line.label == "tuck into the crotch";
  });
  if (foot == piece.lines.rend()) return widen(proof, 1e3, "foot in the crotch");
  std::vector<int> faces;
  for (std::size_t i = 0; i < piece.faces.size(); ++i)
    if (!piece.faces[i].hidden && piece.faces[i].step == lowest.number) faces.push_back(static_cast<int>(i));
  const double slope = lowest.fall_right.mm() / lowest.width.mm();
  for (const auto& p : walk(foot->points, 16)) {
    const auto folded = fold_point(placed, faces, p);
    const auto off = folded.at - crotch;
    widen(proof,
          steady::hypot(std::max(0.0, std::abs(off[1]) - half_backing), off[2] + slope * off[0]) +
              folded.outside,
          "foot in the crotch");
  }
}

/// The hem, folded under, must end where the strip on the riser begins.
void prove_hems(const Piece& piece, const Allowances& allowances, Proof& proof) {
  for (const auto& face : piece.faces) {
    if (!face.name.starts_with("hem")) continue;
    double width = 0;
    for (const auto& p : face.outline)
      width = std::max(width, std::abs(p.u - face.hinge_a.u));
    if (from_mm_up(width) > allowances.strip_stop) proof.hems_clear = false;
  }
}

/// Each open end closes at its front and, but for a landing edge, in two mitres at its back; that of a tread
/// without risers all round.
std::size_t least_seams(const std::vector<Step>& steps) {
  std::size_t count = 0;
  for (const auto& step : steps)
    for (const auto* side : {&step.left, &step.right})
      if (!side->closed()) count += step.open_riser ? 4 : step.landing_edge ? 1 : 3;
  return count;
}

/// Why the piece does not fit, or "".
std::string fault(const Piece& piece, const std::vector<Step>& steps, const Proof& proof) {
  if (auto text = outline_fault(piece); !text.empty()) return text;
  if (piece.seams.size() < least_seams(steps)) return "an open end is not closed by its seams";
  if (proof.widest_gap_mm > kWidestGap_mm)
    return fmt::format("the {} stands open {:.2f} mm when folded", proof.widest_seam, proof.widest_gap_mm);
  if (proof.worst_length_mismatch_mm > kWidestGap_mm)
    return fmt::format("the two edges of a seam differ by {:.2f} mm", proof.worst_length_mismatch_mm);
  if (auto text = slit_fault(piece); !text.empty()) return text;
  if (!proof.hems_clear) return "the folded hem would lie on the riser's tack strip";
  for (const auto& c : proof.coverage) {
    if (c.none > 0) return fmt::format("{:.1f} % of the {} stays bare when folded", 100 * c.none, c.face);
    if (c.more > 0)
      return fmt::format("{:.1f} % of the {} is covered twice when folded", 100 * c.more, c.face);
    if (c.filled > 0) return fmt::format("carpet lies where an upright stands in the {}", c.face);
  }
  return {};
}

} // namespace

std::string outline_fault(const Piece& piece) {
  constexpr double kOff_mm = 0.01, kArea_mm2 = 1;
  if (crosses_itself(piece.outline)) return "its outline crosses itself, so that it cannot be cut";
  std::set<std::pair<long long, long long>> seen; // a curve's facets share most of their corners
  const auto is_new = [&](FlatPoint p) {
    return seen.insert({std::llround(p.u * 1e6), std::llround(p.v * 1e6)}).second;
  };
  for (const auto& p : piece.outline)
    is_new(p);
  double faces = 0;
  for (const auto& face : piece.faces) {
    faces += area_mm2(face.outline);
    for (const auto& p : face.outline)
      if (is_new(p) && distance_outside(piece.outline, p) > kOff_mm)
        return fmt::format("its outline leaves out some of the {}", face.name);
  }
  if (std::abs(faces - area_mm2(piece.outline)) > kArea_mm2)
    return "its outline is not what its faces make up";
  double u0 = 1e300, u1 = -1e300, v0 = 1e300, v1 = -1e300;
  for (const auto& p : piece.outline) {
    u0 = std::min(u0, p.u), u1 = std::max(u1, p.u);
    v0 = std::min(v0, p.v), v1 = std::max(v1, p.v);
  }
  const auto across = from_mm_up(u1 - u0) + piece.trim_left + piece.trim_right;
  const auto along = from_mm_up(v1 - v0) + piece.trim_back + piece.trim_foot;
  if (piece.cut_width < across || piece.cut_length < along)
    return "its cut size is less than its outline and trims";
  return {};
}

std::string slit_fault(const Piece& piece) {
  constexpr double kOn_mm = 0.01;
  const auto& openings = piece.openings;
  std::vector<bool> reached(openings.size(), false);
  const auto at_an_edge = [&](FlatPoint p) { return distance_inside(piece.outline, p) < kOn_mm; };
  const auto touches = [&](FlatPoint p, const FlatPath& hole) {
    return distance_outside(hole, p) < kOn_mm && distance_inside(hole, p) < kOn_mm;
  };
  for (bool more = true; more;) {
    more = false;
    for (std::size_t i = 0; i < openings.size(); ++i) {
      const auto& own = openings[i];
      if (reached[i]) continue;
      if (own.slit.empty())
        reached[i] = std::any_of(own.hole.begin(), own.hole.end(), at_an_edge);
      else if (touches(own.slit.front(), own.hole)) {
        reached[i] = at_an_edge(own.slit.back());
        for (std::size_t k = 0; k < openings.size(); ++k)
          reached[i] = reached[i] || (reached[k] && touches(own.slit.back(), openings[k].hole));
      }
      more = more || reached[i];
    }
  }
  for (std::size_t i = 0; i < openings.size(); ++i)
    if (!reached[i])
      return fmt::format("no slit brings the carpet round the {} of step {}", openings[i].what,
                         openings[i].step);
  return {};
}

std::vector<FoldedFace> fold(const Piece& piece, const std::vector<Step>& steps) {
  const bool floor = steps.empty();
  const auto placed = place_faces(piece, floor ? 0 : steps.front().going.mm(),
                                  floor ? 0 : steps.front().rise.mm() + piece.root_height_mm);
  std::vector<FoldedFace> folded;
  for (const auto& p : placed) {
    FoldedFace result{p.face->name, p.face->step, {}};
    for (const auto& band : face_bands(p)) {
      std::vector<Point3> polygon;
      for (const auto& q : band)
        polygon.push_back(p.at(q));
      result.polygons.push_back(std::move(polygon));
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
  if (!steps.back().open_riser)
    prove_foot(piece, placed, steps.back(), crotch, carpet.backing.mm() / 2, proof);
  for (const auto& face : bare_faces(steps, {style, pad.mm(), carpet.backing.mm(), allowances.relief.mm()}))
    if (auto share = coverage(face, placed)) proof.coverage.push_back(std::move(*share));
  prove_hems(piece, allowances, proof);

  proof.reason = fault(piece, steps, proof);
  proof.passed = proof.reason.empty();
  return proof;
}

} // namespace treadfold
