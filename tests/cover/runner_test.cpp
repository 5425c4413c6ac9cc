// Runners: a strip up the middle of a flight.
#include "steps.h"

#include "cover/certainty.h"
#include "cover/runner.h"
#include "cover/runner_proof.h"
#include "measure/runner_band.h"
#include "measure/step_frames.h"
#include "measure/tread_plan.h"

#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

constexpr double kIn = 25.4;

Runner usual_runner() {
  Runner runner;
  runner.width = inches(27);
  runner.exposed_left = inches(4, 1, 2);
  runner.strip_stop = inches(0, 3, 4);
  return runner;
}

Flight with_runner(std::vector<Step> steps, const Runner& runner, CoverStyle style = CoverStyle::waterfall) {
  steps.back().landing_edge = true;
  auto flight = flight_of(std::move(steps), style);
  flight.runner = runner;
  return flight;
}

std::vector<Step> steps_up(int count) {
  std::vector<Step> steps;
  for (int number = 1; number <= count; ++number)
    steps.push_back(usual_step(number));
  return steps;
}

struct Case {
  Flight flight;
  Length pad = inches(0, 3, 8);
  Carpet carpet = usual_carpet();
  Allowances allowances = usual_allowances();

  std::vector<Piece> pieces() const {
    return cover_flight(flight, {carpet, pad, allowances, LengthUnit::inch}, "A");
  }
  Proof proof(const Piece& piece) const { return prove_runner(piece, flight, pad, carpet, allowances); }
};

Case usual_case(int steps = 13) {
  Case c{with_runner(steps_up(steps), usual_runner())};
  c.carpet.roll_length = kFoot * 100;
  return c;
}

/// Straight steps between walls and open ends, with a runner that fits them.
Case any_case(int most_steps) {
  Case c;
  const int count = *rc::gen::inRange(1, most_steps + 1);
  std::vector<Step> steps;
  for (int i = 1; i <= count; ++i)
    steps.push_back(any_step(i));
  for (auto& step : steps)
    step.landing_edge = false;
  auto narrowest = steps.front().width;
  for (const auto& step : steps)
    narrowest = std::min(narrowest, step.width);
  Runner runner;
  runner.width = *sixty_fourths(3 * 64, static_cast<int>(narrowest.ticks / 3175));
  runner.exposed_left = *sixty_fourths(0, static_cast<int>((narrowest - runner.width).ticks / 3175));
  runner.edges = *rc::gen::element(RunnerEdges::bound, RunnerEdges::turned, RunnerEdges::cut);
  if (runner.edges == RunnerEdges::turned) runner.edge_takes = *sixty_fourths(0, 96);
  runner.strip_stop = std::max(inches(0, 3, 4), runner.edge_takes);
  c.flight = with_runner(steps, runner, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped));
  c.pad = *sixty_fourths(0, 64);
  c.carpet.backing = *sixty_fourths(1, 32);
  c.carpet.roll_length = kFoot * 500;
  return c;
}

/// As many steps as may be, each of them straight or turning to either hand, the next riser as wide as the
/// back before it. The runner fits the narrowest.
Case any_winding_case() {
  auto c = any_case(1);
  const int count = *rc::gen::inRange(2, 6);
  auto width = *sixty_fourths(24 * 64, 50 * 64);
  const auto narrowest = width;
  std::vector<Step> steps;
  for (int i = 1; i <= count; ++i) {
    auto step = any_step(i);
    step.width = width;
    step.landing_edge = false;
    if (i<count&& * rc::gen::inRange(0, 3)> 0) {
      step.nosing.projection = std::min(step.nosing.projection, inches(2));
      const double across = width.mm(), narrow = *rc::gen::inRange(100, 250);
      const double wide = narrow + across * *rc::gen::inRange(20, 700) / 1000;
      const bool left = *rc::gen::arbitrary<bool>();
      set_plan(step, {{0, 0}, {0, left ? narrow : wide}}, {{across, 0}, {across, left ? wide : narrow}});
      width = Length{from_mm(std::hypot(across, wide - narrow)).ticks / 3175 * 3175};
    }
    steps.push_back(step);
  }
  Runner runner;
  runner.width = *sixty_fourths(12 * 64, static_cast<int>(narrowest.ticks / 3175));
  runner.exposed_left = *sixty_fourths(0, static_cast<int>((narrowest - runner.width).ticks / 3175));
  runner.edges = *rc::gen::element(RunnerEdges::bound, RunnerEdges::turned);
  if (runner.edges == RunnerEdges::turned) runner.edge_takes = inches(1, 1, 4);
  runner.strip_stop = std::max(inches(0, 3, 4), runner.edge_takes);
  c.flight = with_runner(steps, runner, c.flight.style);
  return c;
}

bool leans_less_than_45_degrees(const Step& band) {
  for (const auto hand : {Hand::left, Hand::right}) {
    const auto line = side_line(band, hand);
    if (std::abs(line.back().x - line.front().x) >= line.back().y) return false;
  }
  return true;
}

double sum(const std::vector<SizeItem>& items) {
  double total = 0;
  for (const auto& item : items)
    total += item.mm;
  return total;
}

void move_across(Piece& piece, double du) {
  for (auto& p : piece.outline)
    p.u += du;
  for (auto& face : piece.faces) {
    for (auto& p : face.outline)
      p.u += du;
    face.hinge_a.u += du;
    face.hinge_b.u += du;
  }
}

/// Every point right of the runner's middle moves right.
void widen(Piece& piece, double by) {
  const double middle = piece.net_origin.u + piece.net_width.mm() / 2;
  const auto widen_path = [&](FlatPath& path) {
    for (auto& p : path)
      if (p.u > middle) p.u += by;
  };
  widen_path(piece.outline);
  for (auto& face : piece.faces)
    widen_path(face.outline);
  piece.cut_width += inches(1);
}

} // namespace

// secrets-of-self-sufficiency.com, docs/sources.md: (T + R) × risers + one riser + 18 in. On a stair of sharp
// treads, with nothing between carpet and wood and a landing as deep as a tread, that is what we cut, tuck at
// the foot apart; one riser and 18 in are what is folded under.
TEST(SecretsOfSelfSufficiency, TreadAndRiserByRisersAndARiserAndEighteenInches) {
  auto c = usual_case();
  for (auto& step : c.flight.steps)
    step.nosing = {Length{}, inches(1), Length{}};
  c.flight.runner->wear_shift = inches(7, 1, 2) + inches(18);
  c.pad = c.carpet.backing = Length{};
  c.allowances.crease = Length{};
  const auto pieces = c.pieces();
  ASSERT_EQ(pieces.size(), 1u);
  const auto rule = (inches(10) + inches(7, 1, 2)) * 13 + inches(7, 1, 2) + inches(18);
  EXPECT_EQ(rule, inches(253));
  EXPECT_EQ(pieces[0].cut_length, rule + c.allowances.tuck_foot);
  EXPECT_EQ(pieces[0].trim_back, inches(25, 1, 2));
}

TEST(Runner, IsOneStripOverAllStepsAsWideAsItIs) {
  const auto c = usual_case();
  const auto pieces = c.pieces();
  ASSERT_EQ(pieces.size(), 1u);
  const auto& piece = pieces[0];
  EXPECT_EQ(piece.steps.size(), 13u);
  EXPECT_EQ(piece.cut_width, inches(27));
  EXPECT_EQ(piece.trim_left + piece.trim_right, Length{});
  EXPECT_EQ(piece.kind, "runner, 13 steps");
  ASSERT_TRUE(piece.runner.has_value());
  for (const auto& mark : piece.runner->marks)
    for (const auto* line : {&mark.back, &mark.nosing, &mark.foot}) {
      EXPECT_NEAR(line->bare_left_mm, 4.5 * kIn, 1e-6);
      EXPECT_NEAR(line->bare_right_mm, 4.5 * kIn, 1e-6);
      EXPECT_NEAR(line->left.u, 4.5 * kIn, 1e-6);
      EXPECT_NEAR(line->right.u, 31.5 * kIn, 1e-6);
    }
  const auto proof = c.proof(piece);
  EXPECT_TRUE(proof.passed) << proof.reason;
  EXPECT_FALSE(proof.kept_bare.empty());
}

// What a joined piece of the same steps between walls needs along the stair, a runner needs.
TEST(Runner, IsAsLongAsAWholeCoverOfItsSteps) {
  auto c = usual_case(6);
  const auto runner = c.pieces();
  c.flight.runner.reset();
  c.flight.join = 6;
  const auto whole = c.pieces();
  ASSERT_EQ(whole.size(), 1u);
  EXPECT_EQ(runner[0].net_length, whole[0].net_length);
}

// Along the stair the same readings err; across, a runner is as wide as it is cut.
TEST(Runner, IsAsSureAsAWholeCoverAlongAndAsksNothingAcross) {
  auto c = usual_case(6);
  const Tolerances usual{inches(0, 1, 16), inches(0, 1, 16), inches(0, 1, 8)};
  const auto judged = [&](const Piece& piece, const std::vector<Step>& steps) {
    return certainty({{piece, steps}}, c.flight.style, {c.carpet, c.pad, c.allowances, LengthUnit::inch},
                     usual)[0];
  };
  const auto runner = c.pieces()[0];
  const auto sure = judged(runner, runner_bands(c.flight, runner.steps));
  c.flight.runner.reset();
  c.flight.join = 6;
  const auto whole = c.pieces()[0];
  const auto as_whole = judged(whole, steps_of(whole, c.flight));
  EXPECT_TRUE(sure.across.empty());
  ASSERT_EQ(sure.along.size(), as_whole.along.size());
  for (std::size_t i = 0; i < sure.along.size(); ++i) {
    EXPECT_NEAR(sure.along[i].need, as_whole.along[i].need, 1e-6);
    EXPECT_NEAR(sure.along[i].deviation, as_whole.along[i].deviation, 1e-6);
  }
  EXPECT_GT(sure.chance, 0);
  EXPECT_EQ(of_stair("", {sure}, LengthUnit::inch).least_across, Length{});
}

TEST(Runner, JointsFallInCrotchesAndPiecesKeepToTheLongest) {
  auto c = usual_case();
  c.flight.runner->longest = inches(100);
  const auto pieces = c.pieces();
  std::size_t steps = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    EXPECT_LE(pieces[i].cut_length, inches(100));
    // One step more would be too long.
    if (i + 1 < pieces.size()) {
      EXPECT_GT(pieces[i].cut_length + inches(20), inches(100));
    }
    EXPECT_TRUE(c.proof(pieces[i]).passed);
    steps += pieces[i].steps.size();
  }
  EXPECT_EQ(steps, 13u);
  EXPECT_GE(pieces.size(), 3u);
  c.flight.runner->longest.reset();
  c.carpet.roll_length = inches(100);
  EXPECT_EQ(c.pieces().size(), pieces.size());
}

TEST(Runner, EdgesAreAsLongAsWhatIsCutAndATopEndThatShows) {
  auto c = usual_case();
  auto piece = c.pieces()[0];
  EXPECT_NEAR(piece.runner->edges_mm, 2 * (piece.net_length + piece.trim_foot).mm() + 27 * kIn, 0.01);
  c.flight.runner->top = RunnerTop::seamed;
  piece = c.pieces()[0];
  EXPECT_NEAR(piece.runner->edges_mm, 2 * (piece.net_length + piece.trim_foot + piece.trim_back).mm(), 0.01);
  EXPECT_EQ(piece.trim_back, c.allowances.tuck_back);
}

// CRI 105, older edition, §17.2: strip and cushion 1 1/2 in shorter than the carpet's width.
TEST(Runner, StripAndCushionAreAnInchAndAHalfShorterThanItIsWide) {
  const auto c = usual_case();
  const Cushion cushion{"", inches(0, 3, 8), kFoot * 6, kFoot * 45, ""};
  TackStrip strip;
  strip.width = inches(1);
  const auto f = runner_fixings(c.flight, 2, cushion, strip, c.carpet, c.allowances);
  ASSERT_EQ(f.strips.size(), 2u);
  for (const auto& s : f.strips) {
    EXPECT_EQ(s.length(), inches(25, 1, 2));
    EXPECT_EQ(s.from, inches(5, 1, 4));
  }
  EXPECT_EQ(f.pad.width, inches(25, 1, 2));
  EXPECT_NEAR(f.pad.outline.front().x, 5.25 * kIn, 1e-6);
  EXPECT_EQ(f.latex, Length{});
}

RC_GTEST_PROP(Runner, FoldsBackOntoItsBandAndLeavesTheRestBare, ()) {
  const auto c = any_case(4);
  for (const auto& piece : c.pieces()) {
    const auto proof = c.proof(piece);
    RC_LOG() << piece.kind << ": " << proof.reason << '\n';
    RC_ASSERT(proof.passed);
    for (const auto& face : proof.coverage)
      RC_ASSERT(face.once >= 0.999);
    RC_ASSERT(piece.cut_width >= c.flight.runner->width + piece.trim_left + piece.trim_right);
    RC_ASSERT(std::abs(sum(piece.across) - piece.cut_width.mm()) < 1e-3);
    RC_ASSERT(std::abs(sum(piece.along) - piece.cut_length.mm()) < 1e-3);
  }
}

// Round winders too: every piece folds back onto its band, and the runner's edges go on from step to step.
RC_GTEST_PROP(Runner, TurnsOnWindersAPieceAWinder, ()) {
  const auto c = any_winding_case();
  const auto bands = runner_steps(c.flight);
  for (std::size_t i = 0; i < bands.size(); ++i)
    RC_PRE(lies_on(c.flight.steps[i], bands[i]) && leans_less_than_45_degrees(bands[i].under.step));
  const RunnerMark* above = nullptr;
  const auto pieces = c.pieces();
  for (const auto& piece : pieces) {
    const auto proof = c.proof(piece);
    RC_LOG() << piece.id << ' ' << piece.kind << ": " << proof.reason << '\n';
    RC_ASSERT(proof.passed);
    // What is turned under is all that is cut of the edges, and a top end that shows.
    double turned = 2 * (piece.trim_back + piece.trim_foot).mm();
    for (const auto& line : piece.lines)
      if (line.role == LineRole::hem) turned += length_mm(line.points);
    if (c.flight.runner->edge_takes > Length{}) RC_ASSERT(std::abs(turned - piece.runner->edges_mm) < 0.01);
    for (const auto& mark : piece.runner->marks) {
      RC_ASSERT(std::abs(distance_mm(mark.back.left, mark.back.right) - c.flight.runner->width.mm()) < 0.01);
      const auto& step = c.flight.steps[static_cast<std::size_t>(mark.step - 1)];
      const auto turns_at = [&](int number) { return bands[static_cast<std::size_t>(number - 1)].turns; };
      if (above && (turns_at(mark.step) || !turns_at(above->step))) { // below a winder a new run may begin
        const auto gaps = back_gaps(step, c.flight.steps[static_cast<std::size_t>(mark.step)]);
        RC_ASSERT(std::abs(mark.back.bare_left_mm - gaps.left - above->foot.bare_left_mm) < 0.01);
        RC_ASSERT(std::abs(mark.back.bare_right_mm - gaps.right - above->foot.bare_right_mm) < 0.01);
      }
      above = &mark;
    }
  }
}

// The proof must be able to fail.
RC_GTEST_PROP(RunnerProof, AWinderAThirtySecondAsideIsSaid, ()) {
  const auto c = any_winding_case();
  for (auto piece : c.pieces()) {
    if (!turns(c.flight.steps[static_cast<std::size_t>(piece.steps[0] - 1)], c.flight.runner->width))
      continue;
    move_across(piece, *rc::gen::element(-1, 1) * kIn / 32);
    RC_ASSERT(!c.proof(piece).passed);
  }
}

RC_GTEST_PROP(RunnerProof, AThirtySecondAsideIsSaid, ()) {
  const auto c = any_case(2);
  auto piece = c.pieces()[0];
  move_across(piece, *rc::gen::element(-1, 1) * kIn / 32);
  RC_ASSERT(!c.proof(piece).passed);
}

RC_GTEST_PROP(RunnerProof, AThirtySecondTooWideCoversWhatShouldStayBare, ()) {
  const auto c = any_case(2);
  const auto& runner = *c.flight.runner;
  RC_PRE(c.flight.steps.back().width - runner.width - runner.exposed_left > inches(0, 1, 4));
  auto piece = c.pieces()[0];
  widen(piece, kIn / 32);
  const auto proof = c.proof(piece);
  RC_ASSERT(!proof.passed);
  RC_ASSERT(proof.reason.find("should stay bare") != std::string::npos);
}

RC_GTEST_PROP(RunnerProof, ARunnerAThirtySecondNarrowerThanItsBandIsSaid, ()) {
  auto c = any_case(2);
  const auto piece = c.pieces()[0];
  c.flight.runner->width += inches(0, 1, 32);
  RC_PRE(c.flight.runner->width + c.flight.runner->exposed_left <= c.flight.steps[0].width);
  RC_ASSERT(!c.proof(piece).passed);
}

RC_GTEST_PROP(RunnerProof, ASteeperStairThanMeasuredIsSaid, ()) {
  auto c = any_case(3);
  const auto pieces = c.pieces();
  c.flight.steps[*rc::gen::inRange<std::size_t>(0, c.flight.steps.size())].rise += inches(0, 1, 16);
  bool all = true;
  for (const auto& piece : pieces)
    all = all && c.proof(piece).passed;
  RC_ASSERT(!all);
}

TEST(RunnerProof, TurnedEdgesOverTheStripAreSaid) {
  auto c = usual_case(3);
  c.flight.runner->edges = RunnerEdges::turned;
  c.flight.runner->edge_takes = inches(1, 1, 4);
  c.flight.runner->strip_stop = inches(1, 1, 4);
  EXPECT_TRUE(c.proof(c.pieces()[0]).passed);
  c.flight.runner->strip_stop = inches(0, 3, 4);
  EXPECT_FALSE(c.proof(c.pieces()[0]).passed);
}
