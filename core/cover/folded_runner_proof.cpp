#include "cover/folded_runner_proof.h"

#include "cover/bare_drop.h"
#include "cover/coverage.h"
#include "cover/folded_point.h"
#include "measure/runner_band.h"
#include "measure/step_frames.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;
constexpr double kWidestGap_mm = 25.4 / 64;
constexpr double kHair_mm = 0.05; // a nosing no deeper than this has no underside
constexpr double kBare = 0.995;   // as prove_runner

struct Standing {
  StepFrame frame; // in that of the piece's highest step
  Point3 at(Point3 p) const {
    const auto q = frame.at({p[0], p[1]});
    return {q.x, q.y, frame.z + p[2]};
  }
  Point3 along(Point3 p) const { return at(p) - at({0, 0, 0}); }
};

/// Where the steps stand, seen from that of the first mark. A back that is out of square by no more than a
/// crease takes up is taken at the runner's middle.
std::vector<Standing> frames_from(const Flight& flight, const std::vector<RunnerMark>& marks) {
  auto level = flight;
  for (const auto& mark : marks) {
    auto& step = level.steps[static_cast<std::size_t>(mark.step - 1)];
    if (step.rectangular() || turns(step, flight.runner->width)) continue;
    auto &left = step.left_side.back(), &right = step.right_side.back();
    const double share = (mark.back.bare_left_mm + flight.runner->width.mm() / 2) / (right.x - left.x);
    left.y = right.y = left.y + share * (right.y - left.y);
  }
  const auto all = step_frames(level);
  const auto& top = all[static_cast<std::size_t>(marks.front().step - 1)];
  const double c = steady::cos(top.turn_rad), s = steady::sin(top.turn_rad);
  std::vector<Standing> placed;
  for (const auto& f : all) {
    const double dx = f.x - top.x, dy = f.y - top.y;
    placed.push_back({{c * dx + s * dy, c * dy - s * dx, f.z - top.z, f.turn_rad - top.turn_rad}});
  }
  return placed;
}

/// The carpet's length over the bare wood from where the tread's level ends; before that, negative.
class Unrolled {
public:
  Unrolled(const BareStep& s, bool wrapped, double foot_z)
      : s_(s), drop_(s, foot_z), under_(wrapped && s.o + s.pad() - s.r - s.on_wood > kHair_mm),
        foot_z_(foot_z) {}
  bool under() const { return under_; }
  double tread(double y) const { return s_.front() - y; }
  double round(double b) const { return b / s_.r * (s_.r + s_.on_pad); }
  double bevel(double b) const { return s_.on_pad * kRight / 2 + b; }
  double over() const { return (s_.r + s_.on_pad) * kRight + s_.bevel * std::numbers::sqrt2; }
  double front(double z) const { return over() + s_.rise - s_.r - s_.bevel - z; }
  double below(double y) const { return lip() + y - low_y(); }
  double riser(double z) const {
    return under_ ? below(inner_y()) + s_.rise - s_.t - s_.on_wood - z : low() + drop_.run(z);
  }
  double foot() const { return riser(foot_z_); }

private:
  double low() const { return front(s_.rise - s_.t + s_.r); }
  double low_y() const { return s_.r - s_.o - s_.pad(); }
  double inner_y() const { return std::max(-s_.on_wood, low_y()); }
  double lip() const { return low() + (s_.r + s_.on_wood) * kRight; }

  const BareStep& s_;
  BareDrop drop_;
  bool under_;
  double foot_z_;
};

/// An edge as it is told at back and foot: straight from the one to the other over the unrolled wood.
struct ToldEdge {
  double back_run, back_x, foot_run, foot_x;
  double x(double run) const { return back_x + (foot_x - back_x) * (run - back_run) / (foot_run - back_run); }
};

/// One step under the strip.
class StepLook {
public:
  StepLook(const Step& step, const RunnerMark& mark, const Flight& flight, const BareFaceInput& input,
           Standing frame, const std::vector<PlacedFace>& placed, bool highest, bool lowest)
      : s_(bare_step(step, input)), mark_(mark), frame_(frame), placed_(placed),
        foot_z_(lowest ? 0 : s_.on_pad), riser_from_(lowest ? 0 : input.pad + input.backing),
        run_(s_, flight.style == CoverStyle::wrapped, foot_z_) {
    const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
    const auto across = right - left;
    const double far = steady::hypot(across.x, across.y), from = mark.back.bare_left_mm,
                 to = far - mark.back.bare_right_mm;
    PlanPoint end = left, along = (1 / far) * across;
    if (!turns(step, flight.runner->width)) { // level at the runner's middle
      end.y += across.y / across.x * (from + to) / 2;
      along = {1, 0};
    }
    const auto before = (highest ? 0 : s_.on_wood) * PlanPoint{along.y, -along.x};
    back_[0] = end + from * along + before;
    back_[1] = end + to * along + before;
    const double foot[2] = {mark.foot.bare_left_mm, step.width.mm() - mark.foot.bare_right_mm};
    for (const int k : {0, 1})
      edges_[k] = {run_.tread(back_[k].y), back_[k].x, run_.foot(), foot[k]};
  }

  /// Marks, folded, must stand where their bare wood says.
  void meet_marks(const Piece& piece, Proof& proof) const {
    std::vector<int> faces;
    for (std::size_t i = 0; i < piece.faces.size(); ++i)
      if (!piece.faces[i].hidden && piece.faces[i].step == mark_.step) faces.push_back(static_cast<int>(i));
    const auto meet = [&](FlatPoint flat, Point3 told, const char* what) {
      const auto folded = fold_point(placed_, faces, flat);
      const double gap = norm(folded.at - frame_.at(told)) + folded.outside;
      if (gap <= proof.widest_gap_mm) return;
      proof.widest_gap_mm = gap;
      proof.widest_seam = fmt::format("mark at the {} of step {}", what, mark_.step);
    };
    const double half = std::numbers::sqrt2 / 2; // over the middle of the nosing's bend
    const double y = s_.r - s_.o + s_.bevel / 2 - (s_.r + s_.on_pad) * half,
                 z = s_.rise - s_.r - s_.bevel / 2 + (s_.r + s_.on_pad) * half, level = s_.rise + s_.on_pad;
    meet(mark_.back.left, {back_[0].x, back_[0].y, level}, "back");
    meet(mark_.back.right, {back_[1].x, back_[1].y, level}, "back");
    meet(mark_.nosing.left, {s_.left.x(y) + mark_.nosing.bare_left_mm, y, z}, "nosing");
    meet(mark_.nosing.right, {s_.right.x(y) - mark_.nosing.bare_right_mm, y, z}, "nosing");
    meet(mark_.foot.left, {edges_[0].foot_x, -s_.on_wood, foot_z_}, "foot");
    meet(mark_.foot.right, {edges_[1].foot_x, -s_.on_wood, foot_z_}, "foot");
  }

  /// What the band's carpet must hide of the step, and what must stay bare at its sides.
  void cover(Proof& proof) const {
    tread(proof);
    const double slope = std::numbers::sqrt2 / 2;
    stretch(
        face("nosing", {0, s_.r - s_.o, s_.rise - s_.r}, kForward, kUp, s_.r), {0, s_.r * kRight},
        [&](double b) { return run_.round(b); },
        [&](double b) { return s_.r - s_.o - s_.r * steady::sin(b / s_.r); }, {s_.on_pad, s_.on_pad}, proof);
    stretch(
        face("bevel", {0, s_.bevel - s_.o, s_.rise}, {0, -slope, -slope}, {0, -slope, slope}),
        {0, s_.bevel / slope}, [&](double b) { return run_.bevel(b); },
        [&](double b) { return s_.bevel - s_.o - b * slope; }, {s_.on_pad, s_.on_pad}, proof);
    stretch(
        face("front", {0, -s_.o, 0}, kUp, kForward), {s_.rise - s_.t + s_.r, s_.rise - s_.r - s_.bevel},
        [&](double z) { return run_.front(z); }, [&](double) { return -s_.o; }, {s_.on_pad, s_.on_pad},
        proof);
    const bool under = run_.under();
    if (under)
      stretch(
          face("under nosing", {0, 0, s_.rise - s_.t}, kInward, kDown), {s_.r - s_.o, -s_.on_wood},
          [&](double y) { return run_.below(y); }, [](double y) { return y; }, {s_.on_wood, s_.on_wood},
          proof);
    // A drop hangs free before the riser.
    const Reach off = under ? Reach{s_.on_wood, s_.on_wood} : Reach{0, s_.o + s_.on_pad + s_.on_wood};
    stretch(
        face("riser", {}, kUp, kForward), {riser_from_, s_.rise - s_.t - (under ? s_.on_wood : 0)},
        [&](double z) { return run_.riser(z); }, [](double) { return 0.0; }, off, proof);
  }

private:
  struct Reach {
    double from, to;
  };

  BareFace face(const char* name, Point3 origin, Point3 b, Point3 outward, double arc_radius = 0) const {
    return {.name = name + s_.of,
            .origin = origin,
            .a = kRightward,
            .b = b,
            .outward = outward,
            .arc_radius = arc_radius,
            .region = {}};
  }

  void tread(Proof& proof) const {
    const double front = s_.front();
    const RegionPoint nose[2] = {{edges_[0].x(0), front}, {edges_[1].x(0), front}},
                      back[2] = {{back_[0].x, back_[0].y}, {back_[1].x, back_[1].y}};
    const auto beside = [&](const BareSide& side, int k) {
      RegionOutline outline{nose[k], {side.x(front), front}};
      outline.insert(outline.end(), side.line.begin(), side.line.end());
      outline.push_back(back[k]);
      return outline;
    };
    three(face("tread", {0, 0, s_.rise}, kInward, kUp), {nose[0], back[0], back[1], nose[1]},
          beside(s_.left, 0), beside(s_.right, 1), {s_.on_pad, s_.on_pad}, proof);
  }

  /// A stretch of the way down the step: `length` and the wood's y at b.
  void stretch(const BareFace& wood, Reach b, const RegionEdge& length, const RegionEdge& y, Reach off,
               Proof& proof) const {
    if (b.to - b.from < kHair_mm) return;
    const RegionEdge left = [&](double at) { return edges_[0].x(length(at)); },
                     right = [&](double at) { return edges_[1].x(length(at)); },
                     left_end = [&](double at) { return s_.left.x(y(at)); },
                     right_end = [&](double at) { return s_.right.x(y(at)); };
    three(wood, between(left, right, b.from, b.to), between(left_end, left, b.from, b.to),
          between(right, right_end, b.from, b.to), off, proof);
  }

  void three(const BareFace& wood, const RegionOutline& band, const RegionOutline& left,
             const RegionOutline& right, Reach off, Proof& proof) const {
    look(wood, band, off, proof.coverage);
    look(beside(wood, "left"), left, off, proof.kept_bare);
    look(beside(wood, "right"), right, off, proof.kept_bare);
  }

  static BareFace beside(BareFace wood, const char* side) {
    wood.name = fmt::format("{}, {} of the runner", wood.name, side);
    return wood;
  }

  void look(BareFace wood, const RegionOutline& outline, Reach off, std::vector<Coverage>& into) const {
    wood.region = {outline, {}};
    BareFaceList list;
    list.add(std::move(wood), off.from, off.to);
    for (auto& f : list.take()) {
      f.origin = frame_.at(f.origin);
      for (auto* direction : {&f.a, &f.b, &f.outward})
        *direction = frame_.along(*direction);
      if (auto share = coverage(f, placed_)) into.push_back(std::move(*share));
    }
  }

  BareStep s_;
  const RunnerMark& mark_;
  Standing frame_;
  const std::vector<PlacedFace>& placed_;
  double foot_z_, riser_from_;
  Unrolled run_;
  PlanPoint back_[2];
  ToldEdge edges_[2];
};

/// Every layer of a pleat must lie on the carpet that comes down to the crotch, within it: "", or what shows.
std::string shown_pleat(const std::vector<PlacedFace>& placed) {
  constexpr double kOff_mm = kWidestGap_mm + kHair_mm;
  for (const auto& layer : placed) {
    if (!layer.face->hidden || layer.face->name == "crease") continue;
    const auto riser = std::find_if(placed.begin(), placed.end(), [&](const PlacedFace& p) {
      return p.face->step == layer.face->step && (p.face->name == "drop" || p.face->name == "riser");
    });
    for (const auto& p : layer.face->outline) {
      if (riser == placed.end()) break;
      const auto q = layer.at(p) - riser->origin;
      const auto on = riser->flat(dot(q, riser->e1), dot(q, riser->e2));
      if (std::abs(dot(q, riser->n)) > kOff_mm || distance_outside(riser->face->outline, on) > kOff_mm)
        return fmt::format("the {} behind the riser of step {} shows when folded", layer.face->name,
                           layer.face->step);
    }
  }
  return {};
}

/// Layers of a pleat that are one in the flat must be one when folded.
void keep_whole(const std::vector<PlacedFace>& placed, Proof& proof) {
  constexpr double kOne_mm = 1e-6;
  for (const auto& a : placed)
    for (const auto& b : placed) {
      if (&a >= &b || !a.face->hidden || !b.face->hidden || a.face->step != b.face->step) continue;
      for (const auto& p : a.face->outline)
        for (const auto& q : b.face->outline) {
          if (distance_mm(p, q) > kOne_mm) continue;
          const double gap = norm(a.at(p) - b.at(q));
          if (gap <= proof.widest_gap_mm) continue;
          proof.widest_gap_mm = gap;
          proof.widest_seam = fmt::format("fold behind the riser of step {}", a.face->step);
        }
    }
}

std::string fault(const Piece& piece, const std::vector<PlacedFace>& placed, const Proof& proof) {
  if (auto text = outline_fault(piece); !text.empty()) return text;
  if (proof.widest_gap_mm > kWidestGap_mm)
    return fmt::format("the {} lies {:.2f} mm off when folded", proof.widest_seam, proof.widest_gap_mm);
  if (auto text = shown_pleat(placed); !text.empty()) return text;
  if (!proof.hems_clear) return "its turned edges would lie on the tack strip";
  for (const auto& c : proof.coverage) {
    if (c.none > 0) return fmt::format("{:.1f} % of the {} stays bare when folded", 100 * c.none, c.face);
    if (c.more > 0)
      return fmt::format("{:.1f} % of the {} is covered twice when folded", 100 * c.more, c.face);
  }
  for (const auto& c : proof.kept_bare)
    if (c.none < kBare)
      return fmt::format("{:.1f} % of the {} is covered when folded, and should stay bare",
                         100 * (1 - c.none), c.face);
  return {};
}

} // namespace

Proof prove_folded(const Piece& piece, const Flight& flight, Length pad, const Carpet& carpet,
                   const Allowances& allowances) {
  const auto& runner = *flight.runner;
  const auto& marks = piece.runner->marks;
  const auto step = [&](int number) -> const Step& {
    return flight.steps[static_cast<std::size_t>(number - 1)];
  };
  const BareFaceInput input{flight.style, pad.mm(), carpet.backing.mm(), allowances.relief.mm()};
  const auto frames = frames_from(flight, marks);
  const auto& top = step(marks.front().step);
  const auto placed = place_faces(piece, top.going.mm(), top.rise.mm() + piece.root_height_mm);
  Proof proof;
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const auto& mark = marks[i];
    const StepLook look(step(mark.step), mark, flight, input, frames[static_cast<std::size_t>(mark.step - 1)],
                        placed, i == 0, i + 1 == marks.size());
    look.meet_marks(piece, proof);
    look.cover(proof);
  }
  keep_whole(placed, proof);
  proof.hems_clear = runner.edges != RunnerEdges::turned || runner.edge_takes <= runner.strip_stop;
  proof.reason = fault(piece, placed, proof);
  proof.passed = proof.reason.empty();
  return proof;
}

} // namespace treadfold
