#include "steps.h"

#include "cover/fixings.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

Fixings fixings_of(const Step& step, CoverStyle style = CoverStyle::waterfall) {
  const Cushion cushion{"", inches(0, 3, 8), inches(72), inches(540), ""};
  const TackStrip strip{inches(1), inches(0, 1, 4), inches(48), 100, 55, ""};
  return fixings(step, style, cushion, strip, usual_carpet(), usual_allowances());
}

} // namespace

// Common practice, no source: the riser strip stops back about 1 1/2 in from the open edge, the hem is about
// 1 1/4 in, the tread-end strip is cut at 50–60°.
TEST(OpenEndPractice, StripStopsBackAndTheTreadStripIsCutAtAnAngle) {
  auto step = usual_step();
  step.right = open_side();
  const auto f = fixings_of(step);
  ASSERT_EQ(f.strips.size(), 2u);
  for (const auto& strip : f.strips) {
    EXPECT_EQ(strip.from, Length{});
    EXPECT_EQ(strip.to, step.width - inches(1, 1, 2));
  }
  EXPECT_EQ(f.strips[0].place, StripPlace::tread);
  EXPECT_EQ(f.strips[0].right_angle_deg, 55);
  EXPECT_EQ(f.strips[1].place, StripPlace::riser);
  EXPECT_EQ(f.strips[1].right_angle_deg, 90);
}

// CRI 105, older edition, §17.2: riser strip for waterfall only, none for wrapped steps.
TEST(Cri105OlderEdition17_2, NoRiserStripOnWrappedSteps) {
  const auto f = fixings_of(usual_step(), CoverStyle::wrapped);
  ASSERT_EQ(f.strips.size(), 1u);
  EXPECT_EQ(f.strips[0].place, StripPlace::tread);
}

TEST(Fixings, ALandingEdgeHasASeamInsteadOfATreadStrip) {
  auto step = usual_step();
  step.landing_edge = true;
  const auto f = fixings_of(step);
  ASSERT_EQ(f.strips.size(), 1u);
  EXPECT_EQ(f.strips[0].place, StripPlace::riser);
  EXPECT_EQ(f.seam_tape, step.width);
  EXPECT_EQ(fixings_of(usual_step()).seam_tape, Length{});
}

TEST(Fixings, ABoxStepNeedsNoGlue) {
  const auto f = fixings_of(usual_step());
  EXPECT_EQ(f.hot_melt, Length{});
  EXPECT_EQ(f.latex, Length{});
}

TEST(Fixings, PadIsCutOutAndStripPartedWhereUprightsStand) {
  auto step = usual_step();
  // Gully 1/4 in and strip 1 in: the first stands in the strip, the second in front of it.
  step.uprights = {{"newel", false, {12 * 25.4, 8.5 * 25.4}, inches(2), inches(2), ""},
                   {"baluster", true, {30 * 25.4, 5 * 25.4}, inches(1), inches(1), ""}};
  const auto f = fixings_of(step);
  ASSERT_EQ(f.strips.size(), 3u);
  EXPECT_EQ(f.strips[0].to, inches(10, 7, 8)); // 1/8 in short of it
  EXPECT_EQ(f.strips[1].from, inches(13, 1, 8));
  EXPECT_EQ(f.strips[1].to, inches(36));
  EXPECT_EQ(f.strips[2].place, StripPlace::riser);
  ASSERT_EQ(f.pad.holes.size(), 2u);
  // The pad begins at the strip's front edge, 1 1/4 in before the next riser.
  EXPECT_NEAR(f.pad.holes[0][0].x, 11 * 25.4, 1e-9);
  EXPECT_NEAR(f.pad.holes[0][0].y, (10 - 1.25 - 7.5) * 25.4, 1e-9);
}

TEST(Fixings, AnOpeningTakesLatexOnItsEdgesAndStaplesBesideItsSlit) {
  Fixings f;
  add_opening(f,
              {1, "newel", {{0, 0}, {50, 0}, {50, 50}, {0, 50}}, {{25, 0}, {25, -100}}, "slit to the back"});
  EXPECT_EQ(f.latex, millimetres(4 * 50 + 2 * 100));
  EXPECT_EQ(f.staple_run, millimetres(2 * 100));
}

RC_GTEST_PROP(Fixings, PadReachesFromTheStripOverTheNoseAndStaysClearOfTheHem, ()) {
  const auto step = any_step(1);
  const auto f = fixings_of(step);
  const double width = step.width.mm();
  RC_ASSERT(f.pad.length >= step.going + step.nosing.projection - inches(1, 1, 4)); // less gully and strip
  for (const auto& p : f.pad.outline) {
    if (p.y > 0) continue; // at the strip
    if (!step.landing_edge && !step.right.closed()) RC_ASSERT(p.x <= width - inches(1, 1, 2).mm() + 1e-9);
    if (!step.landing_edge && !step.left.closed()) RC_ASSERT(p.x >= inches(1, 1, 2).mm() - 1e-9);
  }
}
