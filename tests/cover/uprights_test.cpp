// Holes and slits for balusters and newels.
#include "steps.h"

#include "cover/placed_face.h"
#include "measure/uprights.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

constexpr double kInch_mm = 25.4, kSixteenth_mm = 25.4 / 16;

std::vector<Piece> cover(const Flight& flight) {
  const auto carpet = usual_carpet();
  return cover_flight(flight, {carpet, inches(0, 3, 8), usual_allowances(), LengthUnit::inch}, "A");
}

Proof proof_of(const Piece& piece, const Flight& flight) {
  return prove(piece, steps_of(piece, flight), flight.style, inches(0, 3, 8), usual_carpet(),
               usual_allowances());
}

Upright post(double x_in, double y_in, Length size, bool round = false) {
  return {round ? "baluster" : "newel", round, {x_in * kInch_mm, y_in * kInch_mm}, size, size, "/there"};
}

/// 36 in wide, going 10, the tread 1 1/4 in past the right end and over the riser below.
Flight open_flight(std::vector<Upright> uprights, CoverStyle style = CoverStyle::waterfall) {
  auto step = usual_step();
  step.right = open_side();
  step.uprights = std::move(uprights);
  return flight_of({step}, style);
}

struct Box {
  double u0 = 1e300, v0 = 1e300, u1 = -1e300, v1 = -1e300;
};
Box box_of(const FlatPath& path) {
  Box b;
  for (const auto& p : path)
    b = {std::min(b.u0, p.u), std::min(b.v0, p.v), std::max(b.u1, p.u), std::max(b.v1, p.v)};
  return b;
}

std::string label_of(const Piece& piece, const FlatPath& slit) {
  for (const auto& l : piece.lines)
    if (l.points.size() == slit.size() && l.points[0].u == slit[0].u && l.points[0].v == slit[0].v &&
        l.points[1].u == slit[1].u && l.points[1].v == slit[1].v)
      return l.label;
  return {};
}

} // namespace

TEST(Openings, AHoleLiesInTheFlatWhereTheUprightStandsInPlan) {
  const auto flight = open_flight({post(35.75, 0.75, inches(1), true), post(30, 4, inches(3))});
  const auto piece = cover(flight)[0];
  ASSERT_EQ(piece.openings.size(), 2u);
  const auto round = box_of(piece.openings[0].hole), square = box_of(piece.openings[1].hole);
  EXPECT_NEAR(round.u0, 35.25 * kInch_mm, 1e-6);
  EXPECT_NEAR(round.v0, (10 - 1.25) * kInch_mm, 1e-6);
  EXPECT_NEAR(round.v1, (10 - 0.25) * kInch_mm, 1e-6);
  EXPECT_NEAR(square.u1, 31.5 * kInch_mm, 1e-6);
  EXPECT_NEAR(square.v1, (10 - 2.5) * kInch_mm, 1e-6);
  const auto proof = proof_of(piece, flight);
  EXPECT_TRUE(proof.passed) << proof.reason;
}

TEST(Openings, EachIsSlitToTheNearestHiddenEdge) {
  const auto flight = open_flight({post(35.75, 0, inches(1)), post(20, 7, inches(1)), post(3, 3, inches(1))});
  const auto piece = cover(flight)[0];
  const auto& end = piece.openings[0].slit;
  EXPECT_EQ(label_of(piece, end), "slit round the end");
  EXPECT_NEAR(end[0].u, 36.25 * kInch_mm, 1e-6);
  // 1 in to the tread's end, over two bends at half the backing (1/16 in), board and pad high, the lip.
  EXPECT_NEAR(distance_mm(end[0], end[1]), (1 + 3.14159265 / 16 + 1.375 + 1.25) * kInch_mm, 1e-6);
  const auto& back = piece.openings[1].slit;
  EXPECT_EQ(label_of(piece, back), "slit to the back");
  EXPECT_NEAR(back[0].v, 2.5 * kInch_mm, 1e-6);
  EXPECT_NEAR(back[1].v, piece.net_origin.v - piece.trim_back.mm(), 1e-6); // through what is tucked
  EXPECT_NEAR(back[1].u, 20 * kInch_mm, 1e-6);
  const auto& wall = piece.openings[2].slit;
  EXPECT_EQ(label_of(piece, wall), "slit to the wall");
  EXPECT_NEAR(wall[1].u, -piece.trim_left.mm(), 1e-6);
}

TEST(Openings, ASlitIsLaidClearOfAnotherHoleOrToIt) {
  // The front one's way to the back is barred by the other.
  auto flight = open_flight({post(18, 3, inches(1)), post(18, 7, inches(1))});
  auto piece = cover(flight)[0];
  EXPECT_EQ(label_of(piece, piece.openings[1].slit), "slit to the back");
  EXPECT_NE(label_of(piece, piece.openings[0].slit), "slit to the back");
  EXPECT_TRUE(proof_of(piece, flight).passed);
  // All its ways are.
  flight = open_flight(
      {post(18, 3, inches(1)), post(18, 7, inches(1)), post(10, 3, inches(1)), post(26, 3, inches(1))});
  piece = cover(flight)[0];
  EXPECT_EQ(label_of(piece, piece.openings[0].slit), "slit to the next hole");
  EXPECT_TRUE(proof_of(piece, flight).passed);
}

TEST(Openings, OnlyTheHighestTreadOfAJoinedPieceIsSlitToTheBack) {
  std::vector<Step> steps{usual_step(1), usual_step(2)};
  for (auto& step : steps)
    step.uprights = {post(18, 7, inches(1))};
  const auto flight = flight_of(steps, CoverStyle::waterfall, 2);
  const auto pieces = cover(flight);
  ASSERT_EQ(pieces.size(), 1u);
  const auto& openings = pieces[0].openings;
  ASSERT_EQ(openings.size(), 2u);
  EXPECT_EQ(label_of(pieces[0], openings[0].slit), "slit to the back");
  EXPECT_EQ(label_of(pieces[0], openings[1].slit), "slit to the wall");
  const auto proof = proof_of(pieces[0], flight);
  EXPECT_TRUE(proof.passed) << proof.reason;
}

TEST(Openings, ANewelLetIntoTheEndIsANotchOverTheEndAndUnderTheLip) {
  for (const auto style : {CoverStyle::waterfall, CoverStyle::wrapped})
    for (const bool round : {false, true}) {
      // From 1/2 in inside the stringer's face to beyond the tread's end.
      auto flight = open_flight({post(37, 3, inches(3), round)}, style);
      auto piece = cover(flight)[0];
      EXPECT_TRUE(piece.openings[0].slit.empty());
      EXPECT_NEAR(box_of(piece.openings[0].hole).u1, box_of(piece.outline).u1, 1e-6);
      auto proof = proof_of(piece, flight);
      EXPECT_TRUE(proof.passed) << proof.reason;
      // Clear of the stringer: some of the lip runs on behind it.
      flight = open_flight({post(38, 3, inches(3), round)}, style);
      piece = cover(flight)[0];
      EXPECT_EQ(label_of(piece, piece.openings[0].slit), "slit to the lip's edge");
      proof = proof_of(piece, flight);
      EXPECT_TRUE(proof.passed) << proof.reason;
    }
}

TEST(Openings, StandOnTreadsThatAreNoRectangles) {
  auto step = usual_step();
  step.right = open_side();
  set_plan(step, {{0, 0}, {30, 260}}, {{900, 0}, {960, 300}});
  const UprightRow row{"baluster", Hand::right, false, inches(1, 1, 4), inches(1, 1, 4), inches(1, 1, 2),
                       inches(3),  inches(4),   2,     "/row"};
  step.uprights = stand(step, row);
  const auto flight = flight_of({step});
  ASSERT_TRUE(check_uprights(flight, LengthUnit::inch).empty());
  const auto piece = cover(flight)[0];
  for (const auto& opening : piece.openings)
    EXPECT_FALSE(opening.slit.empty());
  for (const auto& c : proof_of(piece, flight).coverage)
    EXPECT_EQ(c.filled, 0) << c.face;
}

TEST(Openings, OfATreadWithoutRisersAreSlitOverItsBackOrEnd) {
  auto step = usual_step();
  step.open_riser = true;
  step.right = open_side();
  step.uprights = {post(35.5, 4, inches(1)), post(12, 7, inches(1), true)};
  const auto flight = flight_of({step});
  ASSERT_TRUE(check_uprights(flight, LengthUnit::inch).empty());
  const auto piece = cover(flight)[0];
  EXPECT_EQ(label_of(piece, piece.openings[0].slit), "slit round the end");
  EXPECT_EQ(label_of(piece, piece.openings[1].slit), "slit over the back");
  const auto proof = proof_of(piece, flight);
  EXPECT_TRUE(proof.passed) << proof.reason;
}

// A newel beside a narrower riser above, where this tread's back stands free.
TEST(Openings, BesideANarrowerRiserAreSlitOverTheFreeBack) {
  auto step = usual_step(1), above = usual_step(2);
  step.right = open_side();
  above.right = open_side();
  above.width = inches(30); // against the same wall on the left
  step.uprights = {post(34, 8.25, inches(3))};
  Flight flight = flight_of({step, above});
  ASSERT_TRUE(check_uprights(flight, LengthUnit::inch).empty());
  flight.steps[0].free_back_right = inches(6);
  flight.steps.pop_back();
  const auto piece = cover(flight)[0];
  EXPECT_EQ(label_of(piece, piece.openings[0].slit), "slit over the back");
  const auto proof = proof_of(piece, flight);
  EXPECT_TRUE(proof.passed) << proof.reason;
}

// Its outer face just where the backing's middle hangs: a hole over the bend, none in the end.
TEST(Openings, ThatReachAsFarOutAsTheBackingFoldBack) {
  auto flight = open_flight({});
  auto& step = flight.steps[0];
  const double out = (step.width + step.right.overhang + Length{usual_carpet().backing.ticks / 2}).inches();
  step.uprights = {post(out - 1, 3, inches(2))};
  const auto proof = proof_of(cover(flight)[0], flight);
  EXPECT_TRUE(proof.passed) << proof.reason;
}

// The proof must be able to fail.
TEST(OpeningsProof, AHoleASixteenthOffOrTooLargeOrTooSmallIsSaid) {
  for (const bool round : {false, true})
    for (const double x : {30.0, 37.0}) {
      const auto flight = open_flight({post(x, 3, inches(3), round)});
      const auto piece = cover(flight)[0];
      ASSERT_TRUE(proof_of(piece, flight).passed);
      const auto spoiled = [&](auto move) {
        auto other = piece;
        for (auto& p : other.openings[0].hole)
          move(p);
        return proof_of(other, flight);
      };
      const auto middle = box_of(piece.openings[0].hole);
      const FlatPoint c{(middle.u0 + middle.u1) / 2, (middle.v0 + middle.v1) / 2};
      const auto scaled = [&](double by) {
        return [&, by](FlatPoint& p) { p = {c.u + (p.u - c.u) * by, c.v + (p.v - c.v) * by}; };
      };
      const double grow = 1 + 2 * kSixteenth_mm / (3 * kInch_mm);
      EXPECT_FALSE(spoiled([](FlatPoint& p) { p.u += kSixteenth_mm; }).passed);
      EXPECT_FALSE(spoiled([](FlatPoint& p) { p.u -= kSixteenth_mm; }).passed);
      EXPECT_FALSE(spoiled([](FlatPoint& p) { p.v += kSixteenth_mm; }).passed);
      EXPECT_FALSE(spoiled([](FlatPoint& p) { p.v -= kSixteenth_mm; }).passed);
      EXPECT_FALSE(spoiled(scaled(grow)).passed);
      EXPECT_FALSE(spoiled(scaled(1 / grow)).passed);
    }
}

TEST(OpeningsProof, CarpetWhereAnUprightStandsIsSaid) {
  const auto flight = open_flight({post(30, 3, inches(3))});
  auto piece = cover(flight)[0];
  piece.openings.clear();
  EXPECT_EQ(proof_of(piece, flight).reason, "carpet lies where an upright stands in the tread, step 1");
}

TEST(OpeningsProof, AHoleThatNoSlitReachesIsSaid) {
  const auto flight = open_flight({post(30, 3, inches(3)), post(18, 3, inches(1))});
  auto piece = cover(flight)[0];
  auto without = piece;
  without.openings[0].slit.clear();
  EXPECT_EQ(proof_of(without, flight).reason, "no slit brings the carpet round the newel of step 1");
  auto short_of = piece;
  auto& slit = short_of.openings[0].slit;
  slit[1] = {(slit[0].u + slit[1].u) / 2, (slit[0].v + slit[1].v) / 2};
  EXPECT_FALSE(proof_of(short_of, flight).passed);
}

namespace {

/// Up to `most` uprights, such of a few more as stand on it.
void add_uprights(Step& step, std::size_t most) {
  for (int i = 0; i < 12 && step.uprights.size() < most; ++i) {
    Upright u;
    u.word = "baluster";
    u.round = *rc::gen::arbitrary<bool>();
    u.width = *sixty_fourths(24, 5 * 64);
    u.depth = u.round ? u.width : *sixty_fourths(24, 5 * 64);
    u.centre = {(*sixty_fourths(-4 * 64, 148 * 64)).mm(), (*sixty_fourths(-4 * 64, 60 * 64)).mm()};
    u.centre.x = std::fmod(u.centre.x, step.width.mm() + 100);
    u.centre.y = std::fmod(u.centre.y, step.going.mm());
    step.uprights.push_back(u);
    auto flight = flight_of({step});
    if (!check_uprights(flight, LengthUnit::inch).empty()) step.uprights.pop_back();
  }
}

} // namespace

RC_GTEST_PROP(Openings, OfAnyStepFoldBackRoundTheirUprights, ()) {
  auto step = any_step(1);
  add_uprights(step, 6);
  RC_PRE(!step.uprights.empty());
  const auto flight = flight_of({step}, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped));
  const auto piece = cover(flight)[0];
  RC_ASSERT(piece.openings.size() == step.uprights.size());
  const auto proof = proof_of(piece, flight);
  RC_LOG() << proof.reason << '\n';
  RC_ASSERT(proof.passed);
}

RC_GTEST_PROP(Openings, AnyHoleMovedByASixteenthIsSeen, ()) {
  auto step = any_step(1);
  add_uprights(step, 3);
  RC_PRE(!step.uprights.empty());
  const auto flight = flight_of({step});
  auto piece = cover(flight)[0];
  RC_PRE(proof_of(piece, flight).passed);
  auto& opening = piece.openings[*rc::gen::inRange<std::size_t>(0, piece.openings.size())];
  const bool across = *rc::gen::arbitrary<bool>();
  const double by = *rc::gen::element(-kSixteenth_mm, kSixteenth_mm);
  for (auto* path : {&opening.hole, &opening.slit})
    for (auto& p : *path)
      (across ? p.u : p.v) += by;
  RC_ASSERT(!proof_of(piece, flight).passed);
}
