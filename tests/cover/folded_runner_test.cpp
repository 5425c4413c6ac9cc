// Runners folded round winders in one strip.
#include "../cases.h"
#include "steps.h"

#include "cover/certainty.h"
#include "cover/fold_mesh.h"
#include "cover/folded_course.h"
#include "cover/placed_face.h"
#include "cover/runner.h"
#include "cover/runner_proof.h"
#include "measure/runner_band.h"
#include "measure/tread_plan.h"

#include <cmath>
#include <gtest/gtest.h>
#include <numbers>
#include <random>

using namespace treadfold;
using namespace treadfold::test;

namespace {

constexpr double kIn = 25.4, kDegree = std::numbers::pi / 180;

/// Turns by `degrees` about a newel `newel_mm` beyond the narrow end of its riser.
Step winder(Step step, double degrees, double newel_mm, bool narrow_left) {
  const double width = step.width.mm(), c = std::cos(degrees * kDegree), s = std::sin(degrees * kDegree);
  const double near = newel_mm, far = newel_mm + width;
  if (narrow_left)
    set_plan(step, {{0, 0}, {near * c - near, near * s}}, {{width, 0}, {far * c - near, far * s}});
  else
    set_plan(step, {{0, 0}, {width + near - far * c, far * s}},
             {{width, 0}, {width + near - near * c, near * s}});
  return step;
}

struct Case {
  Flight flight;
  Length pad = inches(0, 3, 8);
  Carpet carpet = usual_carpet();
  Allowances allowances = usual_allowances();
  TackStrip strip = {};

  CoverInput input() const { return {carpet, pad, allowances, LengthUnit::inch}; }
  std::vector<Piece> pieces() const { return cover_flight(flight, input(), "A"); }
  Proof proof(const Piece& piece) const { return prove_runner(piece, flight, pad, carpet, allowances); }
  Problems problems() const { return check_course(flight, input(), strip); }
};

/// Two straight steps, three winders of 30° about a newel 3 in off, two straight steps and the landing's
/// edge.
Case usual_case(bool narrow_left = true, double degrees = 30, int winders = 3) {
  std::vector<Step> steps;
  const auto add = [&] {
    steps.push_back(usual_step(static_cast<int>(steps.size()) + 1));
    steps.back().width = inches(38);
  };
  for (int i = 0; i < 2; ++i)
    add();
  for (int i = 0; i < winders; ++i) {
    add();
    steps.back() = winder(steps.back(), degrees, 3 * kIn, narrow_left);
  }
  for (int i = 0; i < 3; ++i)
    add();
  steps.back().landing_edge = true;
  Case c{flight_of(std::move(steps), CoverStyle::waterfall)};
  Runner runner;
  runner.width = inches(27);
  runner.exposed_left = inches(5, 1, 2);
  runner.strip_stop = inches(0, 3, 4);
  runner.turn = RunnerTurn::fold;
  c.flight.runner = runner;
  c.carpet.roll_length = kFoot * 100;
  c.carpet.thickness = inches(0, 1, 4);
  c.strip.thickness = inches(0, 1, 4);
  return c;
}

/// Its own draws: the library's distributions differ from one standard library to the next.
class Draw {
public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) / 9007199254740992.0;
  }
  bool chance(double p) { return between(0, 1) < p; }
  int number(int low, int high) { return static_cast<int>(between(low, high + 1)); }
  Length sixteenths(double low, double high) {
    return Length{static_cast<std::int64_t>(std::llround(between(low, high) * 16)) * 12700};
  }

private:
  std::mt19937_64 engine_;
};

/// Two to four winders that turn by 60° to 100°, to either hand, with straight steps above and mostly below.
Case any_case(std::uint64_t seed) {
  Draw draw(seed);
  Case c;
  Runner runner;
  runner.width = draw.sixteenths(22, 32);
  runner.exposed_left = draw.sixteenths(3, 8);
  runner.turn = RunnerTurn::fold;
  runner.strip_stop = inches(0, 3, 4);
  runner.edges = draw.chance(0.5) ? RunnerEdges::finished : RunnerEdges::turned;
  if (runner.edges == RunnerEdges::turned) runner.edge_takes = runner.strip_stop = inches(1, 1, 4);
  if (draw.chance(0.2)) runner.longest = draw.sixteenths(60, 120);
  const auto width = runner.width + runner.exposed_left + draw.sixteenths(3, 8);
  const int below = draw.number(0, 2), winders = draw.number(2, 4), above = draw.number(1, 3);
  const double turn = draw.between(60, 100) / winders, newel = draw.between(1, 8) * kIn;
  const bool narrow_left = draw.chance(0.5), kite = draw.chance(0.3), open = draw.chance(0.3);
  const auto rise = draw.sixteenths(6.5, 8.5);
  Nosing nosing{draw.sixteenths(0, 1.5), draw.sixteenths(0.75, 1.5), {}};
  if (draw.chance(0.3))
    nosing.bevel = inches(0, 1, 4);
  else
    nosing.radius = {
        static_cast<std::int64_t>(draw.between(0, 0.5) * static_cast<double>(nosing.thickness.ticks))};
  std::vector<Step> steps;
  for (int i = 0; i < below + winders + above; ++i) {
    Step step;
    step.number = i + 1;
    step.rise = rise;
    step.width = width;
    step.going = draw.sixteenths(9, 12);
    step.nosing = nosing;
    if (open) (narrow_left ? step.left : step.right) = open_side(inches(1), inches(1));
    if (i >= below && i < below + winders) {
      step = winder(step, turn, newel, narrow_left);
      auto& wall = narrow_left ? step.right_side : step.left_side;
      if (kite) wall.insert(wall.begin() + 1, {wall.front().x, 0.7 * wall.back().y}); // a corner of the walls
    }
    steps.push_back(step);
  }
  steps.back().landing_edge = true;
  c.flight = flight_of(std::move(steps), draw.chance(0.5) ? CoverStyle::waterfall : CoverStyle::wrapped);
  c.flight.runner = runner;
  c.pad = draw.sixteenths(0, 0.5);
  c.carpet.backing = draw.sixteenths(0.0625, 0.25);
  c.carpet.roll_length = kFoot * 100;
  c.strip.thickness = inches(0, 1, 4);
  return c;
}

double sum(const std::vector<SizeItem>& items) {
  double total = 0;
  for (const auto& item : items)
    total += item.mm;
  return total;
}

/// Of the line through the wedge's point, in degrees from the line across the strip.
double lean_deg(const FlatPath& crease) {
  return std::atan2(std::abs(crease[1].v - crease[0].v), std::abs(crease[1].u - crease[0].u)) / kDegree;
}

/// Every face, mark and crease below a line across the strip moves along it.
void move_below(Piece& piece, double v, double by) {
  const auto move = [&](FlatPoint& p) {
    if (p.v > v) p.v += by;
  };
  const auto all = [&](FlatPath& path) {
    for (auto& p : path)
      move(p);
  };
  all(piece.outline);
  for (auto& face : piece.faces)
    all(face.outline), move(face.hinge_a), move(face.hinge_b);
  for (auto& mark : piece.runner->marks)
    for (auto* line : {&mark.back, &mark.nosing, &mark.foot})
      move(line->left), move(line->right);
  piece.cut_length += from_mm_up(std::abs(by));
}

} // namespace

// A wedge of 30° between two lines across a strip 27 in wide. Square to the upper, the narrow edge jogs by
// 27·(1/cos 30° − 1) = 4.177 in; leaning by half of it to either line it does not jog. Evenly
// leaning, one tuck would be 27·sin 15° = 6.99 in deep, more than a drop of 6 in; two are 27·tan 7.5° deep.
TEST(CrotchFold, JogsByTheDifferenceOfTheTwoLeanings) {
  CourseStep upper, lower;
  lower.turns = lower.narrow_left = true;
  lower.turn_rad = 30 * kDegree;
  Section section;
  section.v_foot = 6 * kIn;
  const auto square = crotch_fold(upper, lower, section, 27 * kIn);
  ASSERT_TRUE(square.has_value());
  EXPECT_NEAR(square->jog_mm / kIn, 4.1769, 1e-4);
  EXPECT_EQ(square->tucks, 2);
  EXPECT_TRUE(square->fits());
  upper.lean_rad = lower.lean_rad = 15 * kDegree;
  const auto even = crotch_fold(upper, lower, section, 27 * kIn);
  ASSERT_TRUE(even.has_value());
  EXPECT_NEAR(even->jog_mm, 0, 1e-9);
  EXPECT_EQ(even->tucks, 2);
  EXPECT_NEAR(even->depth_mm / kIn, 27 * std::sin(7.5 * kDegree) / std::cos(7.5 * kDegree), 1e-9);
  section.v_foot = 7.5 * kIn;
  EXPECT_EQ(crotch_fold(upper, lower, section, 27 * kIn)->tucks, 1);
  EXPECT_NEAR(crotch_fold(upper, lower, section, 27 * kIn)->depth_mm / kIn, 27 * std::sin(15 * kDegree),
              1e-9);
  // Steps that turn to the right are its mirror image.
  lower.narrow_left = false;
  lower.turn_rad = -lower.turn_rad;
  upper.lean_rad = lower.lean_rad = -15 * kDegree;
  EXPECT_NEAR(crotch_fold(upper, lower, section, 27 * kIn)->jog_mm, 0, 1e-9);
  EXPECT_FALSE(crotch_fold({}, {}, section, 27 * kIn).has_value());
}

// By hand: nothing between carpet and wood, no nosing, 27 in, 5 1/2 in bare at the narrow end, 30° about the
// riser's end. The wide edge meets both lines 32 1/2 in out; going up it comes in by 32 1/2·(1 − cos 30°) =
// 4.354 in on 32 1/2·sin 30° + 7 1/2 = 23 3/4 in, so it leans by atan 0.183334 = 10.3889°.
TEST(FoldedRunner, LeansSoThatItKeepsItsLine) {
  auto c = usual_case();
  for (auto& step : c.flight.steps) {
    step.nosing = {Length{}, inches(1), Length{}};
    if (step.number >= 3 && step.number <= 5) step = winder(step, 30, 0, true);
  }
  c.pad = c.carpet.backing = Length{};
  const auto course = course_of(c.flight, c.input());
  for (const std::size_t i : {2u, 3u, 4u})
    EXPECT_NEAR(course[i].lean_rad / kDegree, 10.3889, 1e-4);
  for (const std::size_t i : {0u, 1u, 5u, 6u, 7u})
    EXPECT_EQ(course[i].lean_rad, 0);
  const auto pieces = c.pieces();
  ASSERT_EQ(pieces.size(), 1u);
  const auto& pleats = pieces[0].runner->pleats;
  ASSERT_EQ(pleats.size(), 4u);
  const double turns[] = {30 - 10.3889, 30, 30, 10.3889};
  for (std::size_t i = 0; i < 4; ++i)
    EXPECT_NEAR(pleats[i].angle_rad / kDegree, turns[i], 1e-4);
  EXPECT_NEAR(pleats[0].jog_mm / kIn, 27 * (1 / std::cos(19.6111 * kDegree) - 1), 1e-4); // 1.663
  EXPECT_NEAR(pleats[1].jog_mm / kIn, 27 / std::cos(19.6111 * kDegree) - 27 / std::cos(10.3889 * kDegree),
              1e-4); // 1.213
  EXPECT_NEAR(pleats[3].jog_mm / kIn, 27 * (1 - 1 / std::cos(10.3889 * kDegree)),
              1e-4); // the riser is the wider
}

TEST(FoldedRunner, IsOneStripWithItsWideEdgeUnbroken) {
  for (const bool narrow_left : {true, false}) {
    const auto c = usual_case(narrow_left);
    const auto pieces = c.pieces();
    ASSERT_EQ(pieces.size(), 1u);
    const auto& piece = pieces[0];
    EXPECT_EQ(piece.cut_width, inches(27));
    EXPECT_EQ(piece.steps.size(), 8u);
    EXPECT_EQ(piece.kind, "runner, 8 steps, 4 pleats");
    const auto& marks = piece.runner->marks;
    for (const auto& mark : marks) {
      const auto wide = [&](const RunnerLine& l) { return narrow_left ? l.bare_right_mm : l.bare_left_mm; };
      EXPECT_NEAR(wide(mark.foot), 5.5 * kIn, 1e-6);
      EXPECT_NEAR(wide(mark.back), 5.5 * kIn, 1e-6);
    }
    const auto proof = c.proof(piece);
    EXPECT_TRUE(proof.passed) << proof.reason;
    // 8 steps of tread, nosing and riser; beside each of them wood at either side.
    EXPECT_EQ(proof.coverage.size(), 24u);
    EXPECT_EQ(proof.kept_bare.size(), 48u);
  }
}

// What is longer than a roll or than one can handle is joined in a crotch, in the turn too.
TEST(FoldedRunner, IsJoinedInCrotchesWhereItWouldBeTooLong) {
  auto c = usual_case();
  c.flight.runner->longest = inches(60);
  const auto pieces = c.pieces();
  ASSERT_GE(pieces.size(), 3u);
  int next = 8;
  bool within = false;
  for (const auto& piece : pieces) {
    EXPECT_LE(piece.cut_length, inches(60));
    for (const int step : piece.steps)
      EXPECT_EQ(step, next--);
    within = within || piece.runner->lean_rad > 0;
    const auto proof = c.proof(piece);
    EXPECT_TRUE(proof.passed) << proof.reason;
  }
  EXPECT_TRUE(within); // one of them begins on a winder
  EXPECT_EQ(next, 0);
}

// What viewers are given: flat at first, at last as the proof folds it, its lengths kept on the way.
TEST(FoldedRunner, HasAMeshThatFolds) {
  auto c = usual_case(false);
  c.flight.runner->longest = inches(60);
  for (const auto& piece : c.pieces()) {
    const auto mesh = fold_mesh(piece);
    const auto steps = steps_of(piece, c.flight);
    const auto folded = positions(mesh, piece, steps, 1);
    const auto placed =
        place_faces(piece, steps.front().going.mm(), steps.front().rise.mm() + piece.root_height_mm);
    for (std::size_t i = 0; i < folded.size(); ++i)
      EXPECT_LT(
          norm(folded[i] - placed[static_cast<std::size_t>(mesh.vertices[i].face)].at(mesh.vertices[i].flat)),
          1e-9);
    const auto flat = positions(mesh, piece, steps, 0);
    for (const auto& t : mesh.triangles)
      for (std::size_t k = 0; k < 3; ++k) {
        const auto a = static_cast<std::size_t>(t[k]), b = static_cast<std::size_t>(t[(k + 1) % 3]);
        EXPECT_NEAR(norm(flat[a] - flat[b]), distance_mm(mesh.vertices[a].flat, mesh.vertices[b].flat), 1e-9);
        EXPECT_NEAR(flat[a][2], flat[b][2], 1e-9);
      }
    double area = 0;
    for (const auto& t : mesh.triangles) {
      const auto at = [&](std::size_t k) { return mesh.vertices[static_cast<std::size_t>(t[k])].flat; };
      area += area_mm2({at(0), at(1), at(2)});
    }
    EXPECT_NEAR(area, area_mm2(piece.outline), 1);
  }
}

// As wide as it is cut; along, it may come up short by its readings, in proportion to what they err.
TEST(FoldedRunner, IsAsSureOfItsLengthAsItsReadingsAre) {
  const auto c = usual_case();
  const auto piece = c.pieces()[0];
  const auto steps = steps_of(piece, c.flight);
  const auto judged = [&](Tolerances t) {
    return certainty({{piece, steps, &*c.flight.runner}}, c.flight.style, c.input(), t)[0];
  };
  const auto sure = judged({inches(0, 1, 16), inches(0, 1, 16), inches(0, 1, 8)}),
             surer = judged({inches(0, 1, 32), inches(0, 1, 32), inches(0, 1, 16)});
  EXPECT_TRUE(sure.across.empty());
  ASSERT_EQ(sure.along.size(), surer.along.size());
  ASSERT_FALSE(sure.along.empty());
  for (std::size_t i = 0; i < sure.along.size(); ++i) {
    EXPECT_GE(sure.along[i].need, piece.net_length.mm() - 1e-3);
    EXPECT_LE(sure.along[i].need, piece.cut_length.mm());
    EXPECT_EQ(sure.along[i].cut, piece.cut_length.mm());
    EXPECT_NEAR(sure.along[i].deviation, 2 * surer.along[i].deviation, 1e-6);
    EXPECT_GT(sure.along[i].deviation, kIn / 8); // eight steps of one rise and, but for winders, of one going
  }
}

// Winders to the left, one straight step, winders to the right; and a straight step that flares, a little out
// of square.
TEST(FoldedRunner, GoesRoundToEitherHandAfterAStraightStep) {
  auto c = usual_case();
  auto& steps = c.flight.steps;
  steps.insert(steps.begin() + 6,
               {winder(steps[0], 30, 3 * kIn, false), winder(steps[0], 25, 2 * kIn, false)});
  for (std::size_t i = 0; i < steps.size(); ++i)
    steps[i].number = static_cast<int>(i) + 1;
  set_plan(steps[1], {{0, 0}, {kIn, 10 * kIn}}, {{38 * kIn, 0}, {39 * kIn, 10 * kIn + 1}});
  ASSERT_FALSE(has_errors(c.problems())) << sentence(c.problems()[0]);
  const auto pieces = c.pieces();
  ASSERT_EQ(pieces.size(), 1u);
  const auto& pleats = pieces[0].runner->pleats;
  ASSERT_EQ(pleats.size(), 7u);
  for (const auto& pleat : pleats)
    EXPECT_EQ(pleat.narrow_left, pleat.step <= 6);
  const auto proof = c.proof(pieces[0]);
  EXPECT_TRUE(proof.passed) << proof.reason;
}

TEST(FoldedRunner, BindsBothEdgesOfWhatIsCut) {
  const auto c = usual_case();
  const auto piece = c.pieces()[0];
  EXPECT_NEAR(piece.runner->edges_mm, 2 * (piece.net_length + piece.trim_foot).mm() + 27 * kIn, 0.01);
}

TEST(FoldedRunner, WhatCannotBeFoldedIsSaidInOneSentence) {
  const auto said = [](const Case& c) {
    const auto problems = c.problems();
    for (const auto& p : problems)
      if (p.severity == Severity::error) return p.found;
    return std::string();
  };
  auto c = usual_case();
  EXPECT_EQ(said(c), "");
  EXPECT_EQ(c.problems().size(), 1u);   // how far its edge jogs
  c.carpet.thickness = inches(0, 3, 8); // four layers are thicker than the nosing projects
  EXPECT_EQ(said(c), "");
  EXPECT_EQ(c.problems().size(), 2u);
  c = usual_case();
  for (auto& step : c.flight.steps)
    step.rise = inches(4);
  EXPECT_NE(said(c).find("deep behind the riser"), std::string::npos) << said(c);
  c = usual_case();
  c.flight.runner->exposed_left = inches(1, 1, 2);
  EXPECT_NE(said(c).find("goes 11/16\" past one side of step 3"), std::string::npos) << said(c);
  c = usual_case();
  c.flight.steps[3] = winder(usual_case().flight.steps[0], 30, 3 * kIn, false);
  c.flight.steps[3].number = 4;
  EXPECT_NE(said(c).find("to one hand"), std::string::npos) << said(c);
  c = usual_case();
  for (const std::size_t i : {2u, 3u, 4u}) // its narrow end leans in by more than the tread turns
    for (auto* side : {&c.flight.steps[i].left_side, &c.flight.steps[i].right_side})
      side->back().x += 6 * kIn;
  EXPECT_NE(said(c).find("lean to the wide side"), std::string::npos) << said(c);
  c = usual_case();
  c.carpet.min_fold_radius = inches(0, 1, 4);
  EXPECT_NE(said(c).find("thick where they are folded"), std::string::npos) << said(c);
  c = usual_case();
  c.flight.steps[3].uprights.push_back({"newel", true, {20 * kIn, 6 * kIn}, inches(3), inches(3), ""});
  EXPECT_NE(said(c).find("under a newel"), std::string::npos) << said(c);
  c = usual_case(true, 8, 3); // hardly deeper than the newel's distance
  EXPECT_NE(said(c).find("deep at the runner's narrow edge"), std::string::npos) << said(c);
}

TEST(FoldedRunner, FoldsBackOntoItsBandRoundAnyWinders) {
  int folded = 0, pleats = 0, snips = 0, two = 0;
  double widest = 0;
  const int count = cases(1500);
  for (int seed = 1; seed <= count; ++seed) {
    const auto c = any_case(static_cast<std::uint64_t>(seed));
    if (has_errors(c.problems())) continue;
    ++folded;
    const auto pieces = c.pieces();
    double turned = 0, turns = 0;
    for (const auto& piece : pieces) {
      const auto proof = c.proof(piece);
      ASSERT_TRUE(proof.passed) << "seed " << seed << ", " << piece.id << ": " << proof.reason;
      widest = std::max(widest, proof.widest_gap_mm);
      for (const auto& face : proof.coverage)
        ASSERT_GE(face.once, 0.999) << face.face;
      ASSERT_FALSE(proof.kept_bare.empty());
      ASSERT_EQ(piece.net_width, c.flight.runner->width);
      ASSERT_NEAR(sum(piece.across), piece.cut_width.mm(), 1e-3);
      ASSERT_NEAR(sum(piece.along), piece.cut_length.mm(), 1e-3);
      for (const auto& pleat : piece.runner->pleats) {
        turned += pleat.angle_rad;
        snips += pleat.snip_mm > 0;
        two += pleat.tucks == 2;
        ++pleats;
        // The jog, from the flat: how much longer the last crease is than the first.
        const auto &first = pleat.creases.front(), &last = pleat.creases.back();
        ASSERT_NEAR(pleat.jog_mm, distance_mm(last[0], last[1]) - distance_mm(first[0], first[1]), 1e-6);
        ASSERT_NEAR(lean_deg(first) + lean_deg(last), pleat.angle_rad / kDegree, 1e-6);
      }
    }
    for (const auto& step : c.flight.steps)
      if (treadfold::turns(step, c.flight.runner->width))
        turns += std::abs(std::atan2(step.right_side.back().y - step.left_side.back().y,
                                     step.right_side.back().x - step.left_side.back().x));
    if (pieces.size() == 1 && c.flight.steps[0].rectangular()) {
      ASSERT_NEAR(turned, turns, 1e-9);
    }
  }
  RecordProperty("folded", folded); // the figures that docs/geometry.md gives
  RecordProperty("wedges", pleats);
  RecordProperty("in_two_tucks", two);
  EXPECT_LT(widest, 1e-8);
  EXPECT_GE(folded, count * 13 / 15);
  EXPECT_GE(two, count * 2 / 15);
  EXPECT_GE(snips, count / 3);
}

// The proof must be able to fail.
TEST(FoldedRunnerProof, WhatIsSpoiledIsSaid) {
  int spoiled = 0;
  const int count = cases(100);
  for (int seed = 1; seed <= count; ++seed) {
    const auto c = any_case(static_cast<std::uint64_t>(seed));
    if (has_errors(c.problems())) continue;
    for (const auto& piece : c.pieces()) {
      if (piece.runner->pleats.empty()) continue;
      ++spoiled;
      const auto& pleat = piece.runner->pleats.front();
      const auto fails = [&](const char* what, const Piece& bad, const Case& at) {
        EXPECT_FALSE(at.proof(bad).passed) << "seed " << seed << ", " << piece.id << ": " << what;
      };
      ASSERT_TRUE(c.proof(piece).passed);
      const auto of_pleat = [&](const Face& face) { return face.name == "pleat" && face.step == pleat.step; };
      auto bad = piece;
      auto first = std::find_if(bad.faces.begin(), bad.faces.end(), of_pleat);
      first->hinge_a.v += kIn / 16, first->hinge_b.v += kIn / 16;
      fails("a crease moved", bad, c);
      bad = piece;
      for (auto& face : bad.faces) // the tread's, by its end at the narrow edge
        if (face.name == "tread" && face.step == pleat.step - 1)
          (pleat.narrow_left == (face.hinge_a.u < face.hinge_b.u) ? face.hinge_a : face.hinge_b).v +=
              kIn / 16;
      fails("a leaning wrong", bad, c);
      bad = piece;
      for (auto& face : bad.faces)
        if (of_pleat(face)) face.crease_rad *= 0.99;
      fails("a pleat turned too little", bad, c);
      bad = piece;
      move_below(bad, (pleat.creases.back()[0].v + pleat.creases.back()[1].v) / 2 + 4 * kIn, kIn / 16);
      fails("a tread 1/16 in longer", bad, c);
      bad = piece;
      for (auto& mark : bad.runner->marks)
        if (mark.step == pleat.step) mark.foot.bare_left_mm += kIn / 16, mark.foot.bare_right_mm -= kIn / 16;
      fails("a mark 1/16 in off", bad, c);
      bad = piece;
      for (auto& face : bad.faces)
        if (face.name == "corner of the pleat" && face.step == pleat.step) face.crease_rad = 0;
      if (pleat.snip_mm > 0) fails("a corner not folded behind the pleat", bad, c);
      auto other = c;
      const auto below = static_cast<std::size_t>(pleat.step - 2);
      if (!other.flight.steps[below].rectangular()) {
        auto& side = other.flight.steps[below].left_side.back();
        side.y += kIn / 8;
        fails("a winder that turns more", piece, other);
        other = c;
      }
      other.flight.steps[below].rise += inches(0, 1, 16);
      fails("a steeper stair", piece, other);
      other = c;
      other.pad += inches(0, 1, 16);
      fails("a thicker pad", piece, other);
    }
  }
  EXPECT_GE(spoiled, count * 9 / 10);
}
