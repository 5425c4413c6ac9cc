// A tread's readings against the plan they were taken from.
#include "taped_samples.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace treadfold {
namespace {

using namespace taped;

TEST(TapedTread, WorkedExampleOfTheHeader) {
  Step step = bare_step();
  const double in = 25.4;
  ASSERT_FALSE(
      set_taped_tread(step, {{{0, 0}, {0, 6 * in}}, {{36 * in, 0}, {36 * in, 20 * in}}}, LengthUnit::inch));
  EXPECT_EQ(step.width, inches(36));
  EXPECT_EQ(step.going, inches(19));
  EXPECT_LT(farthest(step.left_side, {{0, 0}, {0, 5 * in}}), 1e-9);
  EXPECT_LT(farthest(step.right_side, {{36 * in, 0}, {36 * in, 19 * in}}), 1e-9);
}

TEST(TapedTread, ARectangleIsStoredAsOne) {
  for (const Side end : {Side{}, Side{SideKind::open, inches(1, 1, 4), inches(1)}}) {
    Step step = bare_step();
    step.right = end;
    const double front = (inches(36) + end.overhang).mm(), depth = inches(11, 3, 8).mm();
    ASSERT_FALSE(set_taped_tread(step, {{{0, 0}, {1e-5, depth}}, {{front, 0}, {front, depth - 2e-4}}},
                                 LengthUnit::inch));
    EXPECT_TRUE(step.rectangular());
    EXPECT_EQ(step.width, inches(36));
    EXPECT_EQ(step.going, inches(10, 3, 8));
  }
}

// The forward way (taped::outline: nosing drawn forward, open ends moved out) shares nothing with the way
// back.
RC_GTEST_PROP(TapedTread, AnyPlanComesBackFromItsOutline, ()) {
  const Step plan = *steps();
  Step step = bare_step();
  step.nosing = plan.nosing;
  step.left = plan.left;
  step.right = plan.right;
  const auto problem = set_taped_tread(step, outline(plan), LengthUnit::inch);
  if (problem) RC_FAIL(sentence(*problem));
  RC_ASSERT(!step.rectangular());
  RC_ASSERT(farthest(step.left_side, plan.left_side) < 1e-3);
  RC_ASSERT(farthest(step.right_side, plan.right_side) < 1e-3);
  RC_ASSERT(std::abs(step.width.mm() - plan.width.mm()) < 1e-3);
  RC_ASSERT(step.right_side.front().x == step.width.mm() && step.right_side.front().y == 0);
  RC_ASSERT(step.left_side.front().x == 0 && step.left_side.front().y == 0);
}

TEST(TapedTread, ImpossibleShapesAreRefusedInOneSentence) {
  const Side open{SideKind::open, inches(1), inches(1)};
  struct Case {
    TapedTread taped;
    bool open_right;
    const char* found;
  };
  const Case cases[] = {
      {{{{0, 0}, {0, 300}}, {{900, 0}, {100, 100}}}, false, "back right corner turns inward"},
      {{{{0, 0}, {0, 300}}, {{900, 0}, {600, 200}, {900, 400}}},
       false,
       "corner of the right side turns inward"},
      {{{{0, 0}, {700, 300}}, {{900, 0}, {200, 300}}}, false, "turns inward"}, // sides that cross
      {{{{0, 0}, {0, 300}}, {{900, 0}, {1000, 200}, {900, 300}}},
       true,
       "a corner on the right side, which is open"},
      {{{{0, 0}, {0, 300}}, {{900, 0}, {1400, 100}}}, false, "a right side that runs along the nosing"},
      {{{{0, 0}, {-500, 100}}, {{900, 0}, {900, 300}}}, false, "a left side that runs along the nosing"},
      {{{{0, 0}, {0, 31}}, {{900, 0}, {900, 300}}}, false, "a left end 1/4\" deep"},
      {{{{0, 0}, {0, 300}}, {{140, 0}, {150, 300}}}, false, "a riser of"},
      {{{{0, 0}, {400, 300}}, {{900, 0}, {500, 300}}}, false, "a back of"},
      {{{{0, 0}, {0, 90}}, {{900, 0}, {900, 95}}}, false, "a depth of 2 3/4\""},
      {{{{0, 0}, {0, 300}}, {{900, 0}, {900, 1600}}}, false, "a depth of 62\""},
  };
  for (const auto& c : cases) {
    Step step = bare_step();
    if (c.open_right) step.right = open;
    const auto problem = set_taped_tread(step, c.taped, LengthUnit::inch);
    ASSERT_TRUE(problem) << c.found;
    EXPECT_NE(problem->found.find(c.found), std::string::npos) << problem->found;
    EXPECT_TRUE(step.rectangular());
  }
}

TEST(TapedTread, NarrowEndOfAQuarterInchPasses) {
  const double narrow = inches(1, 1, 4).mm(); // the nosing projects 1 in
  for (const double off : {0.0, -0.01}) {
    Step step = bare_step();
    const auto problem =
        set_taped_tread(step, {{{0, 0}, {0, narrow + off}}, {{900, 0}, {900, 400}}}, LengthUnit::inch);
    EXPECT_EQ(problem.has_value(), off < 0);
  }
}

} // namespace
} // namespace treadfold
