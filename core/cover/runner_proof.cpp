#include "cover/runner_proof.h"

#include "cover/coverage.h"
#include "cover/folded_course.h"
#include "cover/folded_runner_proof.h"
#include "measure/runner_band.h"

#include <fmt/format.h>

namespace treadfold {

namespace {

/// The piece in the frame of its highest step's band.
Piece on_its_band(Piece piece, double du, double dv) {
  const auto move = [&](FlatPoint& p) { p = {p.u + du, p.v + dv}; };
  const auto move_all = [&](FlatPath& path) {
    for (auto& p : path)
      move(p);
  };
  move_all(piece.outline);
  for (auto& line : piece.lines)
    move_all(line.points);
  for (auto& face : piece.faces) {
    move_all(face.outline);
    move(face.hinge_a);
    move(face.hinge_b);
  }
  for (auto& seam : piece.seams) {
    move_all(seam.a);
    move_all(seam.b);
  }
  return piece;
}

/// What the wood beside the runner sees of the piece. `shift`: of the band's frame in the highest step's.
void look_beside(const StepBand& bare, const char* side, Point3 shift, const BareFaceInput& input,
                 const std::vector<PlacedFace>& placed, Proof& proof) {
  if (bare.step.width <= Length{}) return;
  for (auto& face : bare_faces({bare.step}, input)) {
    face.origin = face.origin + shift;
    face.name = fmt::format("{}, {} of the runner", face.name, side);
    if (auto share = coverage(face, placed)) proof.kept_bare.push_back(std::move(*share));
  }
}

/// All but a sample or two of 600, which in a sharp corner may fall past the runner's edge; an edge 1/32 in
/// too far covers a row of them.
constexpr double kBare = 0.995;

std::string fault(const Proof& proof) {
  if (!proof.hems_clear) return "its turned edges would lie on the tack strip";
  for (const auto& c : proof.kept_bare)
    if (c.none < kBare)
      return fmt::format("{:.1f} % of the {} is covered when folded, and should stay bare",
                         100 * (1 - c.none), c.face);
  return {};
}

} // namespace

Proof prove_runner(const Piece& piece, const Flight& flight, Length pad, const Carpet& carpet,
                   const Allowances& allowances) {
  if (folds_round(flight)) return prove_folded(piece, flight, pad, carpet, allowances);
  const auto& runner = *flight.runner;
  const auto all = runner_steps(flight);
  const auto at = [](int step) { return static_cast<std::size_t>(step - 1); };
  const auto& top = all[at(piece.steps.front())];
  const auto& whole = flight.steps[at(piece.steps.front())];
  const auto under = runner_bands(flight, piece.steps);
  const double deeper = (whole.going - under.front().going).mm();
  auto proof =
      prove(on_its_band(piece, -top.under.left.mm(), -deeper), under, flight.style, pad, carpet, allowances);
  const auto placed = place_faces(piece, whole.going.mm(), whole.rise.mm() + piece.root_height_mm);
  const BareFaceInput input{flight.style, pad.mm(), carpet.backing.mm(), allowances.relief.mm()};
  Point3 origin{top.under.left.mm(), 0, 0}; // of each step's band
  for (std::size_t i = 0; i < under.size(); ++i) {
    const auto& step = all[at(piece.steps[i])];
    if (i > 0) origin = origin - Point3{0, under[i].going.mm(), under[i].rise.mm()};
    const auto beside = [&](const StepBand& bare) {
      return origin + Point3{(bare.left - step.under.left).mm(), 0, 0};
    };
    look_beside(step.bare_left, "left", beside(step.bare_left), input, placed, proof);
    look_beside(step.bare_right, "right", beside(step.bare_right), input, placed, proof);
  }
  if (runner.edges == RunnerEdges::turned && runner.edge_takes > runner.strip_stop) proof.hems_clear = false;
  if (proof.passed) proof.reason = fault(proof);
  proof.passed = proof.reason.empty();
  return proof;
}

} // namespace treadfold
