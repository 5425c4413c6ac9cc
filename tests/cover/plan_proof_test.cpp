// The proof on steps whose tread is no rectangle.
#include "plan_steps.h"

#include "cover/placed_face.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

struct Case {
  Step step;
  CoverStyle style;
  Length pad;
  Carpet carpet = usual_carpet();

  Piece piece() const {
    const auto flight = flight_of({step}, style);
    return cover_flight(flight, {carpet, pad, usual_allowances(), LengthUnit::inch}, "A")[0];
  }
  Proof prove_piece(const Piece& piece) const {
    return prove(piece, {step}, style, pad, carpet, usual_allowances());
  }
};

/// Over the whole of every range from the first case on.
Case any_plan_case() {
  return *rc::gen::resize(rc::kNominalSize, rc::gen::exec([] {
                            Case c{any_plan_step(1),
                                   *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped),
                                   *sixty_fourths(0, 64)};
                            c.carpet.backing = *sixty_fourths(1, 32);
                            return c;
                          }));
}

void tell(const Case& c) {
  const auto& s = c.step;
  RC_LOG() << "fall " << s.fall_right.mm() << ", "
           << (c.style == CoverStyle::wrapped ? "wrapped" : "waterfall") << " pad " << c.pad.mm()
           << " backing " << c.carpet.backing.mm() << " rise " << s.rise.mm() << " o "
           << s.nosing.projection.mm() << " t " << s.nosing.thickness.mm() << " r " << s.nosing.radius.mm()
           << '\n';
  for (const auto* line : {&s.left_side, &s.right_side}) {
    const auto& side = line == &s.left_side ? s.left : s.right;
    RC_LOG() << (side.closed() ? "closed" : "open") << " e " << side.overhang.mm() << " q "
             << side.return_past.mm() << ':';
    for (const auto& p : *line)
      RC_LOG() << " (" << p.x << ", " << p.y << ")";
    RC_LOG() << '\n';
  }
}

} // namespace

RC_GTEST_PROP(PlanProof, StepsOfAnyPlanFoldBackAndAreCoveredOnce, ()) {
  const auto c = any_plan_case();
  tell(c);
  const auto proof = c.prove_piece(c.piece());
  RC_LOG() << proof.reason << '\n';
  for (const auto& face : proof.coverage)
    if (face.once < 1) RC_LOG() << face.face << " more " << face.more << " none " << face.none << '\n';
  RC_ASSERT(proof.passed);
}

namespace {

/// Of the two sides of a step, one.
struct AnySide {
  std::vector<PlanPoint> Step::*line;
  Side Step::*side;
  double outward;
};
AnySide any_one_side() {
  return *rc::gen::arbitrary<bool>() ? AnySide{&Step::left_side, &Step::left, -1}
                                     : AnySide{&Step::right_side, &Step::right, 1};
}

Step moved(Step step) {
  const auto left = step.left_side, right = step.right_side; // set_plan takes them over
  set_plan(step, left, right);
  return step;
}

} // namespace

// The proof must be able to fail: the plan is measured a little larger than the piece was cut for.
RC_GTEST_PROP(PlanProof, ABackCornerAThirtySecondFurtherBackIsNotCovered, ()) {
  auto c = any_plan_case();
  tell(c);
  const auto piece = c.piece();
  (c.step.*any_one_side().line).back().y += inches(0, 1, 32).mm();
  c.step = moved(c.step);
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(PlanProof, ACornerOfTheWallsAThirtySecondFurtherOutIsNotCovered, ()) {
  auto c = any_plan_case();
  const auto which = any_one_side();
  auto& line = c.step.*which.line;
  RC_PRE(line.size() > 2);
  tell(c);
  const auto piece = c.piece();
  line[1].x += which.outward * inches(0, 1, 32).mm();
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(PlanProof, ASideTurnedOutByAThirtySecondIsNotCovered, ()) {
  auto c = any_plan_case();
  const auto which = any_one_side();
  tell(c);
  const auto piece = c.piece();
  auto& line = c.step.*which.line;
  line[1].x += which.outward * inches(0, 1, 32).mm();
  RC_ASSERT(!c.prove_piece(piece).passed);
}

// The bend over a tread's back edge lies within the proof's 0.05 mm for up to 1/32 in beyond it.
RC_GTEST_PROP(PlanProof, AnOpenEndLongerByAThirtySecondOrASixteenthDeeperIsNotCovered, ()) {
  auto c = any_plan_case();
  auto which = any_one_side();
  if ((c.step.*which.side).closed()) which.side = which.side == &Step::left ? &Step::right : &Step::left;
  RC_PRE(!(c.step.*which.side).closed());
  tell(c);
  const auto piece = c.piece();
  auto& side = c.step.*which.side;
  if (*rc::gen::arbitrary<bool>())
    side.overhang += inches(0, 1, 32);
  else
    side.return_past += inches(0, 1, 16);
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(PlanProof, ATreadBelowThatFallsASixteenthMoreIsNotReached, ()) {
  auto c = any_plan_case();
  tell(c);
  const auto piece = c.piece();
  c.step.fall_right += *rc::gen::element(inches(0, 1, 16), -inches(0, 1, 16));
  RC_ASSERT(!c.prove_piece(piece).passed);
}

TEST(CrossesItself, WhereTwoEdgesCrossButNotWhereTheyTouch) {
  EXPECT_FALSE(crosses_itself({{0, 0}, {10, 0}, {10, 10}, {0, 10}}));
  EXPECT_TRUE(crosses_itself({{0, 0}, {10, 10}, {10, 0}, {0, 10}}));
  EXPECT_TRUE(crosses_itself({{0, 0}, {10, 0}, {10, 10}, {5, -0.001}, {0, 10}}));
  EXPECT_FALSE(crosses_itself({{0, 0}, {10, 0}, {10, 10}, {5, 0}, {0, 10}})); // a corner on an edge
  EXPECT_FALSE(crosses_itself({{0, 0}, {10, 0}, {10, 10}, {10, 5}, {0, 5}})); // an edge back along itself
}
