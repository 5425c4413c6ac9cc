// Landings: the floor and its first drop in one piece, or seamed behind the landing edge.
#include "steps.h"

#include "measure/landing.h"

#include <algorithm>
#include <gtest/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

constexpr double in = 25.4;

Step top_step() {
  auto step = usual_step(4);
  step.landing_edge = true;
  step.going = inches(4);
  return step;
}

Floor half_landing() {
  return {"half landing", {{0, 0}, {75 * in, 0}, {75 * in, 38 * in}, {0, 38 * in}}, "main", {}};
}

} // namespace

TEST(Landing, FloorAndFirstDropInOnePieceFoldBack) {
  for (const auto style : {CoverStyle::waterfall, CoverStyle::wrapped})
    for (const Length at : {inches(0), inches(20), inches(39)}) { // left, within, right
      const auto step = landing_step(top_step(), half_landing(), {"half landing", at, true, {}});
      ASSERT_TRUE(step.landing());
      const auto carpet = usual_carpet();
      const auto pieces = cover_flight(flight_of({step}, style),
                                       {carpet, inches(0, 3, 8), usual_allowances(), LengthUnit::inch}, "A");
      ASSERT_EQ(pieces.size(), 1U);
      const auto& piece = pieces[0];
      EXPECT_EQ(piece.kind, "landing and its first drop");
      EXPECT_NEAR(piece.net_width.mm(), 75 * in, 0.001);
      EXPECT_NEAR(piece.net_origin.u, -at.mm(), 1e-9);
      const auto proof = prove(piece, {step}, style, inches(0, 3, 8), carpet, usual_allowances());
      EXPECT_TRUE(proof.passed) << proof.reason;
      // The same step with a tread 38 in deep has the same length along the pile.
      auto deep = usual_step(4);
      deep.going = inches(38);
      const auto plain = cover_flight(flight_of({deep}, style),
                                      {carpet, inches(0, 3, 8), usual_allowances(), LengthUnit::inch}, "A");
      EXPECT_EQ(piece.net_length, plain[0].net_length);
      // Trims of a floor all round, of a step at the foot.
      EXPECT_EQ(piece.trim_left, usual_allowances().floor_trim);
      EXPECT_EQ(piece.trim_back, usual_allowances().floor_trim);
      EXPECT_EQ(piece.trim_foot, usual_allowances().tuck_foot);
      // Area: floor, and below its front edge a strip as wide as the flight.
      const double strip = (plain[0].net_length.mm() - 38 * in) * 36 * in;
      EXPECT_NEAR(area_mm2(piece.outline), 75 * in * 38 * in + strip, 50);
    }
}

TEST(Landing, SeamedFloorLeavesTheLandingEdgeToTheFlight) {
  const auto floor = half_landing();
  const auto rest = without_edge(floor, top_step(), {"half landing", inches(39), false, {}});
  FlatPath whole, left;
  for (const auto& p : floor.corners)
    whole.push_back({p.x, p.y});
  for (const auto& p : rest.corners)
    left.push_back({p.x, p.y});
  EXPECT_NEAR(area_mm2(whole) - area_mm2(left), 36 * in * 4 * in, 1e-6);
  EXPECT_EQ(rest.corners.size(), 6U); // the notch takes the right corner
}
