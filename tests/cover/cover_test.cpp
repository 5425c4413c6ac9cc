#include "steps.h"

#include "cover/section.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

constexpr double kSixtyFourth_mm = 25.4 / 64;

std::vector<Piece> cover(const Flight& flight, Length pad = inches(0, 3, 8),
                         const Carpet& carpet = usual_carpet()) {
  return cover_flight(flight, {carpet, pad, usual_allowances(), LengthUnit::inch}, "A");
}

Proof proof_of(const Piece& piece, const Flight& flight, Length pad = inches(0, 3, 8),
               const Carpet& carpet = usual_carpet()) {
  return prove(piece, steps_of(piece, flight), flight.style, pad, carpet, usual_allowances());
}

std::string told(const Proof& proof) {
  std::string text =
      proof.reason + "; gap " + std::to_string(proof.widest_gap_mm) + " at " + proof.widest_seam;
  for (const auto& c : proof.coverage)
    if (c.once < 0.9999)
      text += "\n  " + c.face + ": once " + std::to_string(c.once) + " more " + std::to_string(c.more) +
              " none " + std::to_string(c.none);
  return text;
}

} // namespace

// Nose geometry, docs/sources.md (computed from T, R, n): T 11 1/4 with n = 1 1/4, R 7 1/2 → 20.00 and 18.85
// in.
TEST(NoseGeometry, WrappedIsTreadPlusRisePlusNosing) {
  auto step = usual_step();
  step.nosing = {inches(1, 1, 4), inches(1), Length{0}};
  const auto s = section_of({step, CoverStyle::wrapped, 0, 0});
  EXPECT_NEAR(s.v_foot, 20.0 * 25.4, 1e-9);
}

TEST(NoseGeometry, WaterfallOfAThinTreadIsTreadPlusHypotenuse) {
  auto step = usual_step();
  step.nosing = {inches(1, 1, 4), Length{0}, Length{0}};
  const auto s = section_of({step, CoverStyle::waterfall, 0, 0});
  EXPECT_NEAR(s.v_foot, (11.25 + std::hypot(7.5, 1.25)) * 25.4, 1e-9);
  EXPECT_NEAR(s.v_foot / 25.4, 18.85, 0.005);
}

TEST(NoseGeometry, EachRoundedCornerSavesItsShare) {
  auto step = usual_step();
  step.nosing = {inches(1, 1, 4), inches(1), Length{0}};
  const auto sharp = section_of({step, CoverStyle::wrapped, 0, 0}).v_foot;
  step.nosing.radius = inches(0, 1, 4);
  const auto rounded = section_of({step, CoverStyle::wrapped, 0, 0}).v_foot;
  EXPECT_NEAR(sharp - rounded, 2 * 0.429 * 0.25 * 25.4, 0.01);
}

TEST(NoseGeometry, BuildUpAddsAQuarterTurnOfItsThickness) {
  const auto step = usual_step();
  const auto bare = section_of({step, CoverStyle::waterfall, 0, 0});
  const auto padded = section_of({step, CoverStyle::waterfall, 10, 0});
  EXPECT_NEAR((padded.v_front - padded.v_nose) - (bare.v_front - bare.v_nose), 1.571 * 10, 0.01);
}

TEST(Cover, BoxStepIsCutToItsAccount) {
  const auto flight = flight_of({usual_step()});
  const auto pieces = cover(flight);
  ASSERT_EQ(pieces.size(), 1u);
  const auto& piece = pieces[0];
  EXPECT_EQ(piece.net_width, inches(36));
  EXPECT_EQ(piece.cut_width, inches(38));
  double sum = 0;
  for (const auto& item : piece.along)
    sum += item.mm;
  EXPECT_NEAR(sum, piece.cut_length.mm(), 1e-3);
  const auto proof = proof_of(piece, flight);
  EXPECT_TRUE(proof.passed) << told(proof);
}

TEST(Cover, OpenEndsFoldBack) {
  for (const auto style : {CoverStyle::waterfall, CoverStyle::wrapped})
    for (const bool landing : {false, true})
      for (int sides = 0; sides < 4; ++sides) {
        auto step = usual_step();
        if (sides & 1) step.left = open_side();
        if (sides & 2) step.right = open_side();
        step.landing_edge = landing;
        const auto flight = flight_of({step}, style);
        const auto piece = cover(flight)[0];
        const auto proof = proof_of(piece, flight);
        EXPECT_TRUE(proof.passed) << sides << landing << told(proof);
        EXPECT_LE(proof.widest_gap_mm, kSixtyFourth_mm);
      }
}

TEST(Cover, JoinedStepsFoldBack) {
  for (const auto style : {CoverStyle::waterfall, CoverStyle::wrapped}) {
    std::vector<Step> steps{usual_step(1), usual_step(2), usual_step(3)};
    for (auto& step : steps)
      step.right = open_side();
    const auto flight = flight_of(steps, style, 3);
    const auto pieces = cover(flight);
    ASSERT_EQ(pieces.size(), 1u);
    const auto proof = proof_of(pieces[0], flight);
    EXPECT_TRUE(proof.passed) << told(proof);
  }
}

// boulderlibrary.net/renovation-3/carpeting-stairs.html: T + R + 1 in a step and 6 in a flight; T 10, R 7 1/2
// and 13 steps make 246 1/2 in (computed). The rule must hold at least what thirteen such steps need without
// their tucks.
TEST(ByHandRule, TreadPlusRisePlusOneCoversThirteenBoxSteps) {
  const auto by_hand = (inches(10) + inches(7, 1, 2) + inches(1)) * 13 + inches(6);
  EXPECT_EQ(by_hand, inches(246, 1, 2));
  std::vector<Step> steps;
  for (int number = 1; number <= 13; ++number) {
    auto step = usual_step(number);
    step.going = inches(9); // the tread is 10 with its nosing
    step.nosing = {inches(1), inches(1), inches(0, 1, 2)};
    steps.push_back(step);
  }
  Length net;
  for (const auto& piece : cover(flight_of(steps)))
    net += piece.net_length;
  EXPECT_LE(net, by_hand);
  EXPECT_GE(net + inches(13), by_hand); // and by less than the rule's own inch a step and its six
}

// Common practice, no source: about 2 in across and 1 1/2 in along a single step.
TEST(CommonPractice, ABoxStepIsAllowedTwoInchesAcrossAndAnInchAndAHalfAlong) {
  const auto piece = cover(flight_of({usual_step()}))[0];
  EXPECT_EQ(piece.trim_left + piece.trim_right, inches(2));
  EXPECT_EQ(piece.trim_back + piece.trim_foot, inches(1, 1, 2));
}
