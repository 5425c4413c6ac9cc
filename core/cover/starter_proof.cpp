#include "cover/starter_proof.h"

#include "cover/carpet_layers.h"
#include "cover/folded_point.h"
#include "cover/shared_edge.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kWidestGap_mm = 25.4 / 64;     // 1/64 in
constexpr double kStraightTooth_mm = 25.4 / 48; // by which a tooth's corners may stand off its curve
constexpr double kPressed = 0.005;              // beyond the limit, of a tooth's width

std::vector<std::vector<PlacedFace>> placed_on(const StarterCover& cover, const Step& step) {
  std::vector<std::vector<PlacedFace>> placed;
  for (const auto& piece : cover.pieces)
    placed.push_back(place_faces(piece, step.going.mm(), step.rise.mm() + piece.root_height_mm));
  return placed;
}

class Prover {
public:
  Prover(const StarterCover& cover, const Step& step, double pad, double backing)
      : cover_(cover), step_(step), bare_{step, pad, backing}, placed_(placed_on(cover, step)),
        layers_(cover.pieces, placed_, step.nosing.projection.mm() + pad + backing) {
    proofs_.resize(cover.pieces.size());
    pressed_.resize(cover.pieces.size());
  }

  std::vector<Proof> prove() {
    for (std::size_t i = 0; i < proofs_.size(); ++i) {
      const auto strain = worst_strain(cover_.pieces[i], placed_[i]);
      proofs_[i].worst_strain = strain.share;
      proofs_[i].worst_strain_at = strain.where;
      press_teeth(i);
    }
    for (const auto& seam : cover_.seams)
      close(seam);
    for (const auto& curve : bare_curves(bare_))
      see(curve);
    if (auto tread = coverage(bare_curved_tread(bare_), placed_[0])) proofs_[0].coverage.push_back(*tread);
    for (std::size_t i = 0; i < proofs_.size(); ++i) {
      proofs_[i].reason = fault(i);
      proofs_[i].passed = proofs_[i].reason.empty();
    }
    return std::move(proofs_);
  }

private:
  void widen(std::size_t piece, double gap, const std::string& name) {
    auto& proof = proofs_[piece];
    if (gap <= proof.widest_gap_mm) return;
    proof.widest_gap_mm = gap;
    proof.widest_seam = name;
  }

  /// The way along the edge at an end of a face, out of the face.
  static Point3 onward(const FoldedPoint& p) {
    const auto& face = *p.face;
    // A band's plumb faces hang on each other, all others along the edge.
    const auto way = std::abs(face.e1[2]) > 0.5 ? face.e2 : face.e1;
    FlatPoint middle;
    for (const auto& q : face.face->outline) {
      middle.u += q.u / static_cast<double>(face.face->outline.size());
      middle.v += q.v / static_cast<double>(face.face->outline.size());
    }
    return dot(p.at - face.at(middle), way) < 0 ? -1.0 * way : way;
  }
  /// How far a point stands open from the one beyond it: pressing on each other they do not, nor where
  /// straight teeth of two widths stand off the curve unlike.
  static double opening(const FoldedPoint& a, const FoldedPoint& b) {
    const auto apart = a.at - b.at;
    const double along = dot(apart, onward(a));
    return std::max(0.0, -along) + std::max(0.0, norm(apart - along * onward(a)) - kStraightTooth_mm);
  }

  /// The two sides of a relief cut: how far open, and how much they press at most.
  double press(std::size_t piece, const Seam& seam) {
    constexpr int kSteps = 24;
    double most = 0;
    const auto path_a = walk(seam.a, kSteps), path_b = walk(seam.b, kSteps);
    for (std::size_t i = 0; i < path_a.size(); ++i) {
      const auto a = fold_point(placed_[piece], seam.faces_a, path_a[i]),
                 b = fold_point(placed_[piece], seam.faces_b, path_b[i]);
      widen(piece, opening(a, b) + a.outside + b.outside, seam.name);
      most = std::max(most, dot(a.at - b.at, onward(a)));
    }
    return most;
  }

  /// Teeth share what presses on them with their neighbours: each gives over its own width.
  void press_teeth(std::size_t piece) {
    const auto& p = cover_.pieces[piece];
    std::map<int, double> given; // by a tooth's first face
    for (const auto& seam : p.seams) {
      const double half = press(piece, seam) / 2;
      given[seam.faces_a.front()] += half;
      given[seam.faces_b.front()] += half;
    }
    for (const auto& [face, mm] : given)
      pressed_[piece] = std::max(pressed_[piece], mm / width_of(p.faces[static_cast<std::size_t>(face)]));
    if (pressed_[piece] <= proofs_[piece].worst_strain) return;
    proofs_[piece].worst_strain = pressed_[piece];
    proofs_[piece].worst_strain_at = "between relief cuts";
  }
  /// Along its hinge.
  static double width_of(const Face& face) {
    const double hu = face.hinge_b.u - face.hinge_a.u, hv = face.hinge_b.v - face.hinge_a.v,
                 length = steady::hypot(hu, hv);
    double low = 1e300, high = -1e300;
    for (const auto& p : face.outline) {
      const double at = (p.u * hu + p.v * hv) / length;
      low = std::min(low, at), high = std::max(high, at);
    }
    return high - low;
  }

  void close(const PieceSeam& seam) {
    constexpr int kSteps = 48;
    const auto& s = seam.seam;
    const double mismatch = std::abs(length_mm(s.a) - length_mm(s.b));
    for (const auto piece : {seam.piece_a, seam.piece_b})
      proofs_[piece].worst_length_mismatch_mm = std::max(proofs_[piece].worst_length_mismatch_mm, mismatch);
    const auto path_a = walk(s.a, kSteps), path_b = walk(s.b, kSteps);
    for (std::size_t i = 0; i < path_a.size(); ++i) {
      const auto a = fold_point(placed_[seam.piece_a], s.faces_a, path_a[i]),
                 b = fold_point(placed_[seam.piece_b], s.faces_b, path_b[i]);
      const double gap = s.pressed ? opening(a, b) : norm(a.at - b.at);
      for (const auto piece : {seam.piece_a, seam.piece_b})
        widen(piece, gap + a.outside + b.outside, s.name);
    }
  }

  /// Counted for the pieces that were seen there; wood that none covers, for all.
  void see(const BareCurve& curve) {
    int once = 0, more = 0, none = 0;
    std::set<std::size_t> pieces;
    for (const auto& p : curve.points) {
      const auto seen = layers_.at(p);
      if (seen.layers > 0) pieces.insert(seen.piece);
      ++(seen.layers == 1 ? once : seen.layers == 0 ? none : more);
    }
    const double all = once + more + none;
    if (all == 0) return;
    for (std::size_t i = 0; i < proofs_.size(); ++i)
      if (none > 0 || pieces.contains(i))
        proofs_[i].coverage.push_back(
            {fmt::format("{}, step {}", curve.name, step_.number), once / all, more / all, none / all});
  }

  std::string fault(std::size_t i) const {
    const auto& proof = proofs_[i];
    if (auto text = outline_fault(cover_.pieces[i]); !text.empty()) return text;
    const bool met = cover_.pieces.size() == 1 ||
                     std::any_of(cover_.seams.begin(), cover_.seams.end(),
                                 [&](const auto& s) { return s.piece_a == i || s.piece_b == i; });
    if (!met) return "it meets none of the step's other pieces";
    if (proof.widest_gap_mm > kWidestGap_mm)
      return fmt::format("the {} stands open {:.2f} mm when folded", proof.widest_seam, proof.widest_gap_mm);
    if (proof.worst_length_mismatch_mm > kWidestGap_mm)
      return fmt::format("the two edges of a seam differ by {:.2f} mm", proof.worst_length_mismatch_mm);
    if (pressed_[i] > step_.starter->strain_limit + kPressed)
      return fmt::format("its teeth press on each other by {:.1f} % of their width: its cuts are too narrow",
                         100 * pressed_[i]);
    if (auto text = slit_fault(cover_.pieces[i]); !text.empty()) return text;
    for (const auto& c : proof.coverage) {
      if (c.none > 0) return fmt::format("{:.1f} % of the {} stays bare when folded", 100 * c.none, c.face);
      if (c.more > 0)
        return fmt::format("{:.1f} % of the {} is covered twice when folded", 100 * c.more, c.face);
      if (c.filled > 0) return fmt::format("carpet lies where an upright stands in the {}", c.face);
    }
    return {};
  }

  const StarterCover& cover_;
  const Step& step_;
  BareCurveInput bare_;
  std::vector<std::vector<PlacedFace>> placed_; // by piece
  CarpetLayers layers_;
  std::vector<double> pressed_; // by piece: the most that teeth press on each other
  std::vector<Proof> proofs_;
};

} // namespace

std::vector<Proof> prove_starter(const StarterCover& cover, const Step& step, Length pad,
                                 const Carpet& carpet) {
  return Prover(cover, step, pad.mm(), carpet.backing.mm()).prove();
}

} // namespace treadfold
