// The bottom step with a curved front.
#include "steps.h"

#include "cover/relief_cuts.h"
#include "cover/starter_fixings.h"
#include "cover/starter_proof.h"

#include <cmath>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

constexpr double kSixtyFourth_mm = 25.4 / 64;
const Length kPad = inches(0, 3, 8);

FrontEnd half_round(Length past, Length along, Length across) {
  return {FrontEndShape::half, past, along, across};
}

Step with_front(Step step, const FrontReadings& readings, StarterClosing closing) {
  const auto solved =
      solve_front(readings, {step.width, step.going, step.nosing.projection, step.nosing.radius});
  EXPECT_TRUE(solved.front) << (solved.problems.empty() ? "" : sentence(solved.problems[0]));
  if (solved.front) step.starter = Starter{*solved.front, closing, 0.02, readings};
  return step;
}

/// Half-round at the right, as deep as the tread and 2 in behind the next riser; the left at a wall.
FrontReadings right_half() {
  FrontReadings r;
  r.right = half_round(inches(8), inches(7), inches(6, 5, 8));
  return r;
}

struct Covered {
  StarterCover cover;
  std::vector<Proof> proofs;
};
Covered cover_one(const Step& step, Length pad = kPad) {
  auto flight = flight_of({step}, CoverStyle::wrapped);
  const auto carpet = usual_carpet();
  const auto allowances = usual_allowances();
  const CoverInput input{carpet, pad, allowances, LengthUnit::inch};
  Covered c{cover_starter(step, flight, input, "A"), {}};
  c.proofs = prove_starter(c.cover, step, pad, carpet);
  return c;
}

std::string told(const Covered& c) {
  std::string text;
  for (std::size_t i = 0; i < c.proofs.size(); ++i) {
    const auto& proof = c.proofs[i];
    text += c.cover.pieces[i].id + ' ' + c.cover.pieces[i].kind + ": " + proof.reason + "; gap " +
            std::to_string(proof.widest_gap_mm) + " at " + proof.widest_seam + "; mismatch " +
            std::to_string(proof.worst_length_mismatch_mm) + "; strain " +
            std::to_string(proof.worst_strain) + " at " + proof.worst_strain_at;
    for (const auto& cov : proof.coverage)
      text += "\n    " + cov.face + ": once " + std::to_string(cov.once) + " more " +
              std::to_string(cov.more) + " none " + std::to_string(cov.none);
    if (const auto& r = c.cover.pieces[i].relief)
      text += "\n    cuts " + std::to_string(r->count) + " depth " + std::to_string(r->depth_mm) + " mouth " +
              std::to_string(r->mouth_mm) + " tooth " + std::to_string(r->tooth_mm) + " whole " +
              std::to_string(r->whole_mm);
    text += "\n";
  }
  return text;
}

bool all_passed(const Covered& c) {
  for (const auto& proof : c.proofs)
    if (!proof.passed) return false;
  return !c.proofs.empty();
}

} // namespace

// Cap: r(θ - sin θ)/(R - r + rθ); band: r(1 - sin θ)/R. The seam that asks least of both is searched for.
TEST(StarterStrain, SeamOneRadianOverTheBendAsksLeast) {
  for (const auto& [bend, radius] : {std::pair{24.0, 150.0}, {40.0, 90.0}, {6.0, 400.0}}) {
    const Turnover turnover{0, {{"nosing", bend * std::numbers::pi / 2, std::numbers::pi / 2}}};
    double best = 1, at = 0;
    for (double angle = 0.5; angle < 1.5; angle += 1e-4) {
      const double cap = surplus(turnover, FlatShape::curved, radius - bend, bend * angle);
      const double band = bend * (1 - std::sin(angle)) / radius;
      if (std::max(cap, band) < best) best = std::max(cap, band), at = angle;
    }
    EXPECT_NEAR(at, 1, 2e-4);
    EXPECT_NEAR(best, 0.158529 * bend / radius, 1e-4 * best);
  }
}

TEST(StarterStrain, WholeCarpetGivesUpToTheLimitAndNoMore) {
  const double right = std::numbers::pi / 2;
  const Turnover cap{0, {{"nosing", 37, right}, {"front", 10, 0}, {"lower bend", 20, right}}};
  const Turnover band{right, {{"lower bend", 20, right}, {"under nosing", 30, 0}}};
  for (const auto& [turnover, flat] : {std::pair{cap, FlatShape::curved}, {band, FlatShape::straight}})
    for (const double limit : {0.005, 0.02, 0.05}) {
      const double whole = whole_length(turnover, flat, 140, limit);
      EXPECT_NEAR(surplus(turnover, flat, 140, whole), limit, 1e-9);
      EXPECT_LT(surplus(turnover, flat, 140, whole / 2), limit);
    }
  EXPECT_EQ(whole_length(cap, FlatShape::curved, 1e6, 0.02), cap.length());
}

TEST(StarterStrain, ATurnoverStandsOutWhereItsSectionDoes) {
  const double right = std::numbers::pi / 2;
  const Turnover turnover{0,
                          {{"nosing", 20 * right, right},
                           {"front", 10, 0},
                           {"lower bend", 14 * right, right},
                           {"under nosing", 30, 0}}};
  EXPECT_NEAR(turnover.out(20 * right / 2), 20 * std::sin(right / 2), 1e-9);
  EXPECT_NEAR(turnover.out(20 * right + 7), 20, 1e-9);
  EXPECT_NEAR(turnover.out(20 * right + 10 + 14 * right), 20 - 14, 1e-9);
  EXPECT_NEAR(turnover.out(turnover.length()), 20 - 14 - 30, 1e-9);
  const auto rest = turnover.between(20 * right / 2, turnover.length());
  EXPECT_NEAR(rest.out(rest.length()), 20 - 14 - 30 - 20 * std::sin(right / 2), 1e-9);
}

TEST(Starter, BandAndCutsFoldBack) {
  for (const auto closing : {StarterClosing::band, StarterClosing::cuts})
    for (int ends = 1; ends < 4; ++ends) {
      auto readings = right_half();
      if (ends & 2) readings.left = {FrontEndShape::quarter, inches(2), inches(6), inches(8)};
      if (!(ends & 1)) readings.right = {};
      const auto c = cover_one(with_front(usual_step(), readings, closing));
      EXPECT_TRUE(all_passed(c)) << told(c);
      EXPECT_EQ(c.cover.pieces.size(), closing == StarterClosing::band ? 3u : 2u);
    }
}

// The refold measures what the formula says: 0.1585 of the bend's radius over the least radius of the front.
TEST(Starter, FoldedPiecesGiveWhatTheFormulaSays) {
  const auto step = with_front(usual_step(), right_half(), StarterClosing::band);
  const auto c = cover_one(step);
  const double backing = usual_carpet().backing.mm(), build_up = kPad.mm() + backing / 2;
  const double radius = tightest(step.starter->front.edge).radius;
  const double said = (1 - std::sin(1.0)) * (step.nosing.radius.mm() + build_up) / (radius + build_up);
  EXPECT_NEAR(c.proofs[0].worst_strain, said, 0.01 * said) << told(c); // the cap
  EXPECT_NEAR(c.proofs[1].worst_strain, said, 0.01 * said);            // the nosing band
  EXPECT_EQ(c.proofs[2].worst_strain, 0);                              // the riser band is developable
}

TEST(Starter, BandsAreAsLongAsTheCurveAtTheirBacking) {
  const auto step = with_front(usual_step(), right_half(), StarterClosing::band);
  const auto c = cover_one(step);
  const auto& edge = step.starter->front.edge;
  const double length = length_mm(edge), turn = turn_rad(edge), half = usual_carpet().backing.mm() / 2;
  EXPECT_NEAR(turn, std::numbers::pi, 1e-9);
  EXPECT_NEAR(c.cover.pieces[1].net_width.mm(), length + turn * (kPad.mm() + half), 0.1);
  EXPECT_NEAR(c.cover.pieces[2].net_width.mm(), length + turn * (half - step.nosing.projection.mm()), 0.1);
  EXPECT_NEAR(c.cover.pieces[2].net_length.mm(), (step.rise - step.nosing.thickness).mm() - half, 1e-3);
}

TEST(Starter, CutsKeepToTheLimit) {
  for (const double limit : {0.01, 0.02, 0.04}) {
    auto step = with_front(usual_step(), right_half(), StarterClosing::cuts);
    step.starter->strain_limit = limit;
    const auto c = cover_one(step);
    ASSERT_TRUE(all_passed(c)) << told(c);
    ASSERT_TRUE(c.cover.pieces[0].relief);
    const auto& relief = *c.cover.pieces[0].relief;
    EXPECT_LE(c.proofs[0].worst_strain, 1.02 * limit) << told(c);
    EXPECT_GE(c.proofs[0].worst_strain, 0.9 * limit); // and no carpet is cut for nothing
    int cuts = 0;
    for (const auto& line : c.cover.pieces[0].lines)
      cuts += line.role == LineRole::cut && line.label.starts_with("relief cut");
    EXPECT_EQ(cuts, relief.count);
    // A tooth w wide on a bend of radius R stands w²/8R off it: no more than 1/48 in.
    const double radius = tightest(step.starter->front.edge).radius;
    EXPECT_LE(relief.tooth_mm * relief.tooth_mm / 8 / (radius + 200), 25.4 / 48);
  }
}

TEST(Starter, WithoutProjectionOneBandServes) {
  auto step = usual_step();
  step.nosing.projection = {};
  for (const auto closing : {StarterClosing::band, StarterClosing::cuts}) {
    auto readings = right_half();
    const auto c = cover_one(with_front(step, readings, closing));
    EXPECT_TRUE(all_passed(c)) << told(c);
    EXPECT_EQ(c.cover.pieces.size(), 2u);
  }
}

TEST(Starter, ABandLongerThanTheRollIsWideIsSplitAtTheSide) {
  auto readings = right_half();
  readings.left = readings.right;
  for (const auto closing : {StarterClosing::band, StarterClosing::cuts}) {
    const auto step = with_front(usual_step(), readings, closing);
    auto flight = flight_of({step}, CoverStyle::wrapped);
    auto carpet = usual_carpet();
    carpet.roll_widths = {inches(72)};
    const auto allowances = usual_allowances();
    const auto cover = cover_starter(step, flight, {carpet, kPad, allowances, LengthUnit::inch}, "A");
    const Covered c{cover, prove_starter(cover, step, kPad, carpet)};
    EXPECT_TRUE(all_passed(c)) << told(c);
    EXPECT_EQ(cover.pieces.size(), closing == StarterClosing::band ? 5u : 3u);
    for (std::size_t i = 1; i < cover.pieces.size(); ++i)
      EXPECT_LE(cover.pieces[i].cut_width, inches(72)) << cover.pieces[i].kind;
  }
}

TEST(Starter, PiecesAreCutToTheirAccounts) {
  for (const auto closing : {StarterClosing::band, StarterClosing::cuts})
    for (const auto& piece : cover_one(with_front(usual_step(), right_half(), closing)).cover.pieces) {
      double across = 0, along = 0;
      for (const auto& item : piece.across)
        across += item.mm;
      for (const auto& item : piece.along)
        along += item.mm;
      EXPECT_NEAR(across, piece.cut_width.mm(), 0.1) << piece.kind;
      EXPECT_NEAR(along, piece.cut_length.mm(), 0.1) << piece.kind;
    }
}

namespace {

/// What stands to the right of u moved to the left: a piece made too short.
void shorten(Piece& piece, double u, double by) {
  const auto move = [&](FlatPoint& p) { p.u -= p.u > u ? by : 0; };
  for (auto& face : piece.faces) {
    for (auto& p : face.outline)
      move(p);
    move(face.hinge_a);
    move(face.hinge_b);
  }
  for (auto& p : piece.outline)
    move(p);
  for (auto& seam : piece.seams)
    for (auto* path : {&seam.a, &seam.b})
      for (auto& p : *path)
        move(p);
}

bool seen(const StarterCover& cover, const Step& step, Length pad = kPad,
          const Carpet& carpet = usual_carpet()) {
  for (const auto& proof : prove_starter(cover, step, pad, carpet))
    if (!proof.passed) return true;
  return false;
}

} // namespace

TEST(StarterProof, SeesAStepOtherThanTheOneThatWasCovered) {
  const auto sixteenth = inches(0, 1, 16);
  for (const auto closing : {StarterClosing::band, StarterClosing::cuts}) {
    const auto step = with_front(usual_step(), right_half(), closing);
    const auto cover = cover_one(step).cover;
    ASSERT_FALSE(seen(cover, step));
    // Another curve: rounder, further out, further across.
    for (auto change : {&FrontEnd::past, &FrontEnd::along, &FrontEnd::across}) {
      auto readings = right_half();
      readings.right.*change += sixteenth;
      EXPECT_TRUE(seen(cover, with_front(usual_step(), readings, closing)));
    }
    for (auto change : {&Step::rise, &Step::going, &Step::width}) {
      auto other = usual_step();
      other.*change += sixteenth;
      EXPECT_TRUE(seen(cover, with_front(other, right_half(), closing)));
    }
    for (auto change : {&Nosing::projection, &Nosing::thickness}) {
      auto other = usual_step();
      other.nosing.*change += sixteenth;
      EXPECT_TRUE(seen(cover, with_front(other, right_half(), closing)));
    }
    EXPECT_TRUE(seen(cover, step, kPad + sixteenth));
    auto carpet = usual_carpet();
    carpet.backing += sixteenth;
    EXPECT_TRUE(seen(cover, step, kPad, carpet));
  }
}

TEST(StarterProof, SeesABandCutASixteenthShort) {
  const auto step = with_front(usual_step(), right_half(), StarterClosing::band);
  const auto good = cover_one(step).cover;
  for (const std::size_t piece : {1, 2}) {
    auto cover = good;
    shorten(cover.pieces[piece], 300, 25.4 / 16); // in the straight front
    for (auto& seam : cover.seams)
      if (seam.piece_b == piece)
        for (auto& p : seam.seam.b)
          p.u -= p.u > 300 ? 25.4 / 16 : 0;
    EXPECT_TRUE(seen(cover, step)) << piece;
  }
}

TEST(StarterProof, SeesPartsOfABandThatDoNotMeet) {
  auto readings = right_half();
  readings.left = readings.right;
  const auto step = with_front(usual_step(), readings, StarterClosing::band);
  auto flight = flight_of({step}, CoverStyle::wrapped);
  auto carpet = usual_carpet();
  carpet.roll_widths = {inches(72)};
  const auto allowances = usual_allowances();
  auto cover = cover_starter(step, flight, {carpet, kPad, allowances, LengthUnit::inch}, "A");
  ASSERT_FALSE(seen(cover, step, kPad, carpet));
  for (auto& seam : cover.seams)
    if (seam.seam.name == "seam of the band's parts")
      for (auto& p : seam.seam.a)
        p.u -= 25.4 / 16;
  EXPECT_TRUE(seen(cover, step, kPad, carpet));
}

TEST(StarterProof, SeesCutsThatAreTooFewOrMissing) {
  const auto step = with_front(usual_step(), right_half(), StarterClosing::cuts);
  auto stricter = step; // made for 4 %, held to 2 %
  auto laxer = step;
  laxer.starter->strain_limit = 0.04;
  EXPECT_TRUE(seen(cover_one(laxer).cover, stricter));
  auto cover = cover_one(step).cover;
  auto& cut = cover.pieces[0].seams[5]; // its sides moved together
  for (auto& p : cut.b)
    p = {p.u - 3, p.v};
  EXPECT_TRUE(seen(cover, step));
}

TEST(StarterProof, SeesPiecesThatDoNotMeet) {
  const auto step = with_front(usual_step(), right_half(), StarterClosing::band);
  auto cover = cover_one(step).cover;
  auto without = cover;
  without.pieces.pop_back(); // no riser band
  std::erase_if(without.seams, [](const auto& s) { return s.piece_b == 2; });
  EXPECT_TRUE(seen(without, step));
  cover.seams.clear();
  EXPECT_TRUE(seen(cover, step));
}

namespace {

/// Half an ellipse before the next riser's line, or from a wall a quarter of one, read to 1/16 in.
FrontReadings any_offsets(const Step& step) {
  const bool wall = *rc::gen::inRange(0, 2) == 0;
  const double along =
      wall ? step.width.mm() + *rc::gen::inRange(0, 200) : step.width.mm() / 2 + *rc::gen::inRange(0, 200);
  const double middle = wall ? 0 : step.width.mm() / 2, across = (step.going + step.nosing.projection).mm();
  const int count = *rc::gen::inRange(7, 14);
  FrontReadings readings;
  const auto read = [](double mm) { return inches(0, std::lround(mm / 25.4 * 16), 16); };
  for (int i = 0; i <= count; ++i) {
    const double t = std::numbers::pi * (wall ? 0.5 + 0.5 * i / count : 1.0 * i / count);
    const bool last = i == count || (i == 0 && !wall);
    readings.offsets.push_back(
        {read(middle - along * std::cos(t)), last ? Length{} : read(across * std::sin(t)), "/offsets"});
  }
  return readings;
}

/// Any curved starter that a job may describe.
Step any_starter() {
  const auto mm = [](int low, int high) { return millimetres(*rc::gen::inRange(low, high)); };
  Step step = usual_step();
  step.width = mm(700, 1500);
  step.going = mm(230, 320);
  const int thickness = *rc::gen::inRange(18, 45);
  step.nosing.thickness = millimetres(thickness);
  step.nosing.radius = {*rc::gen::oneOf(rc::gen::just(step.nosing.thickness.ticks / 2),
                                        rc::gen::inRange<std::int64_t>(0, step.nosing.thickness.ticks / 2))};
  step.nosing.projection = *rc::gen::oneOf(
      rc::gen::just(Length{}), rc::gen::map(rc::gen::inRange(5, 45), [](int k) { return millimetres(k); }));
  step.rise = mm(thickness + 120, 200);
  const auto end = [&]() -> FrontEnd {
    switch (*rc::gen::inRange(0, 3)) {
    case 0:
      return {};
    case 1:
      return {FrontEndShape::quarter, mm(0, 200), mm(100, 300), mm(100, 220)};
    default: {
      const auto along = mm(100, 300);
      return {FrontEndShape::half, along + mm(0, 60), along,
              Length{(step.going + step.nosing.projection).ticks / 2} + mm(0, 60)};
    }
    }
  };
  FrontReadings readings;
  readings.left = end();
  readings.right = end();
  if (*rc::gen::inRange(0, 4) == 0) readings = any_offsets(step);
  const auto solved =
      solve_front(readings, {step.width, step.going, step.nosing.projection, step.nosing.radius});
  RC_PRE(solved.front.has_value());
  step.starter = Starter{*solved.front, *rc::gen::element(StarterClosing::band, StarterClosing::cuts),
                         *rc::gen::inRange(1, 9) * 0.005, readings};
  return step;
}

} // namespace

RC_GTEST_PROP(Starter, AnyFoldsBack, ()) {
  const auto step = any_starter();
  const auto pad = *rc::gen::element(Length{}, inches(0, 1, 4), inches(0, 7, 16));
  const auto c = cover_one(step, pad);
  RC_LOG() << told(c) << "r " << step.nosing.radius.mm() << " t " << step.nosing.thickness.mm() << " o "
           << step.nosing.projection.mm() << " pad " << pad.mm() << " limit " << step.starter->strain_limit
           << '\n';
  RC_ASSERT(all_passed(c));
}

TEST(Starter, AnUprightOnTheCapHasItsHoleAndSlit) {
  auto step = with_front(usual_step(), right_half(), StarterClosing::band);
  step.uprights = {{"newel", false, {step.width.mm() + 40, 120}, inches(3), inches(3), "/there"},
                   {"baluster", true, {300, 60}, inches(1), inches(1), "/there"}};
  const auto c = cover_one(step);
  EXPECT_TRUE(all_passed(c)) << told(c);
  ASSERT_EQ(c.cover.pieces[0].openings.size(), 2u);
  for (const auto& opening : c.cover.pieces[0].openings)
    EXPECT_FALSE(opening.slit.empty()) << opening.what;
  auto uncut = c.cover;
  uncut.pieces[0].openings.clear();
  EXPECT_FALSE(prove_starter(uncut, step, kPad, usual_carpet())[0].passed);
}

TEST(StarterFixings, StripKeepsToTheRiserAndThePadGoesRoundTheCurve) {
  const auto step = with_front(usual_step(), right_half(), StarterClosing::band);
  const auto carpet = usual_carpet();
  const auto allowances = usual_allowances();
  const CoverInput input{carpet, kPad, allowances, LengthUnit::inch};
  const auto flight = flight_of({step}, CoverStyle::wrapped);
  const auto cover = cover_starter(step, flight, input, "A");
  const auto f = starter_fixings(step, cover, {"Pad", kPad, {}, {}, {}}, TackStrip{}, input);
  ASSERT_EQ(f.strips.size(), 1u);
  EXPECT_EQ(f.strips[0].place, StripPlace::tread);
  EXPECT_LE(f.strips[0].to, step.width);
  // Round the nosing's own edge and over it: wider than the riser by the reach and what turns over.
  EXPECT_GT(f.pad.width, step.width + inches(8));
  EXPECT_LT(f.pad.width, step.width + inches(8) + step.nosing.thickness + kPad * 2);
  double seams = 0;
  for (const auto& joint : cover.seams)
    if (!joint.under_nosing) seams += length_mm(joint.seam.a);
  EXPECT_NEAR(f.hot_melt.mm(), seams, 0.01);
  EXPECT_GT(f.staple_run.mm(), 2 * step.width.mm());
}
