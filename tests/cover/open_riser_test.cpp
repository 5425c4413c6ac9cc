// Treads without risers, wrapped all round.
#include "steps.h"

#include "cover/open_riser.h"

#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

struct Case {
  Step step;
  Length pad = inches(0, 3, 8);
  Carpet carpet = usual_carpet();

  Piece piece() const {
    return cover_flight(flight_of({step}), {carpet, pad, usual_allowances(), LengthUnit::inch}, "A")[0];
  }
  Proof proof(const Piece& p) const {
    return prove(p, {step}, CoverStyle::waterfall, pad, carpet, usual_allowances());
  }
};

Case any_case() {
  Case c;
  c.step = any_step(2);
  c.step.landing_edge = false;
  c.step.open_riser = true;
  c.step.going = *sixty_fourths(6 * 64, 20 * 64); // room for both bends underneath
  c.step.nosing.thickness = *sixty_fourths(32, 2 * 64);
  c.step.nosing.radius = {*rc::gen::inRange<std::int64_t>(0, c.step.nosing.thickness.ticks / 2 + 1)};
  c.pad = *sixty_fourths(0, 40);
  c.carpet.backing = *sixty_fourths(1, 20);
  return c;
}

} // namespace

RC_GTEST_PROP(OpenRiser, TreadFoldsRoundItsBoard, ()) {
  const auto c = any_case();
  const auto piece = c.piece();
  const auto proof = c.proof(piece);
  RC_LOG() << piece.kind << ": " << proof.reason << '\n';
  RC_ASSERT(proof.passed);
  RC_ASSERT(proof.widest_gap_mm <= 25.4 / 64);
}

// No pad, no backing, sharp arrises: the girth of the board, and its ends.
TEST(OpenRiser, BareMinimumIsTheBoardsGirth) {
  Case c;
  c.step = usual_step();
  c.step.open_riser = true;
  c.step.nosing.radius = {};
  c.pad = {};
  c.carpet.backing = Length{1};
  const double girth = 2 * ((c.step.going + c.step.nosing.projection).mm() + c.step.nosing.thickness.mm());
  EXPECT_NEAR(c.piece().net_length.mm(), girth, 0.01);
  EXPECT_NEAR(c.piece().net_width.mm(), c.step.width.mm(), 0.01);
  c.step.right = open_side(inches(1));
  EXPECT_NEAR(c.piece().net_width.mm(), (c.step.width + inches(1) + c.step.nosing.thickness).mm(), 0.01);
}

RC_GTEST_PROP(OpenRiser, ABoardThirtySecondDeeperOrThickerIsSeen, ()) {
  auto c = any_case();
  const auto piece = c.piece();
  auto deeper = c, thicker = c;
  deeper.step.going += inches(0, 1, 32);
  thicker.step.nosing.thickness += inches(0, 1, 16);
  RC_ASSERT(!deeper.proof(piece).passed);
  RC_ASSERT(!thicker.proof(piece).passed);
}
