// Random steps and flights: what must hold of every one.
#include "steps.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

constexpr double kSixtyFourth_mm = 25.4 / 64;

struct Case {
  Flight flight;
  Length pad;
  Carpet carpet = usual_carpet();

  std::vector<Piece> pieces() const {
    return cover_flight(flight, {carpet, pad, usual_allowances(), LengthUnit::inch}, "A");
  }
  Proof prove_piece(const Piece& piece) const {
    return prove(piece, steps_of(piece, flight), flight.style, pad, carpet, usual_allowances());
  }
};

Case any_case(int most_steps) {
  Case c;
  const int count = *rc::gen::inRange(1, most_steps + 1);
  std::vector<Step> steps;
  for (int i = 1; i <= count; ++i)
    steps.push_back(any_step(i));
  for (auto& step : steps) {
    if (&step != &steps.back()) step.landing_edge = false;
    step.left = steps[0].left; // alike, so that they may be joined
    step.right = steps[0].right;
    step.width = steps[0].width;
  }
  c.flight = flight_of(steps, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped),
                       *rc::gen::inRange(1, 4));
  c.pad = *sixty_fourths(0, 64);
  c.carpet.backing = *sixty_fourths(1, 32);
  return c;
}

double sum(const std::vector<SizeItem>& items) {
  double total = 0;
  for (const auto& item : items)
    total += item.mm;
  return total;
}

} // namespace

RC_GTEST_PROP(Cover, UnfoldThenRefoldClosesForRandomFlights, ()) {
  const auto c = any_case(4);
  for (const auto& piece : c.pieces()) {
    const auto proof = c.prove_piece(piece);
    RC_LOG() << piece.kind << ": " << proof.reason << '\n';
    RC_ASSERT(proof.passed);
    RC_ASSERT(proof.widest_gap_mm <= kSixtyFourth_mm);
    RC_ASSERT(proof.worst_length_mismatch_mm <= kSixtyFourth_mm);
    for (const auto& face : proof.coverage) {
      RC_LOG() << face.face << ' ' << face.once << '\n';
      RC_ASSERT(face.once >= 0.999);
    }
  }
}

RC_GTEST_PROP(Cover, CutSizeIsNetPlusAllowanceNeverLess, ()) {
  const auto c = any_case(3);
  for (const auto& piece : c.pieces()) {
    RC_ASSERT(piece.cut_width >= piece.net_width + piece.trim_left + piece.trim_right);
    RC_ASSERT(piece.cut_length >= piece.net_length + piece.trim_back + piece.trim_foot);
    RC_ASSERT(piece.cut_width.ticks % inches(0, 1, 16).ticks == 0);
    RC_ASSERT(piece.cut_length.ticks % inches(0, 1, 16).ticks == 0);
    RC_ASSERT(std::abs(sum(piece.across) - piece.cut_width.mm()) < 1e-3);
    RC_ASSERT(std::abs(sum(piece.along) - piece.cut_length.mm()) < 1e-3);
  }
}

RC_GTEST_PROP(Cover, EveryStepIsInExactlyOnePiece, ()) {
  const auto c = any_case(6);
  std::vector<int> numbers;
  for (const auto& piece : c.pieces()) {
    RC_ASSERT(static_cast<int>(piece.steps.size()) <= c.flight.join);
    numbers.insert(numbers.end(), piece.steps.begin(), piece.steps.end());
  }
  RC_ASSERT(numbers.size() == c.flight.steps.size());
  for (std::size_t i = 0; i < numbers.size(); ++i)
    RC_ASSERT(numbers[i] == static_cast<int>(numbers.size() - i));
}

// Mutation of a measure changes what it should and nothing else.
RC_GTEST_PROP(Cover, AWiderStepIsWiderByThatMuchAndNothingElse, ()) {
  auto c = any_case(1);
  const auto before = c.pieces()[0];
  c.flight.steps[0].width += inches(1);
  const auto after = c.pieces()[0];
  RC_ASSERT(after.net_width - before.net_width <= inches(1) + Length{1});
  RC_ASSERT(after.net_width - before.net_width >= inches(1) - Length{1});
  RC_ASSERT(after.net_length == before.net_length);
  RC_ASSERT(after.cut_length == before.cut_length);
}

RC_GTEST_PROP(Cover, ADeeperGoingIsLongerByThatMuchAndNothingElse, ()) {
  auto c = any_case(1);
  const auto before = c.pieces()[0];
  c.flight.steps[0].going += inches(1);
  const auto after = c.pieces()[0];
  RC_ASSERT(after.net_length - before.net_length <= inches(1) + Length{1});
  RC_ASSERT(after.net_length - before.net_length >= inches(1) - Length{1});
  RC_ASSERT(after.net_width == before.net_width);
}

RC_GTEST_PROP(Cover, AHigherRiseLengthensTheDropByAtMostThatMuch, ()) {
  auto c = any_case(1);
  const auto before = c.pieces()[0];
  c.flight.steps[0].rise += inches(1);
  const auto after = c.pieces()[0];
  RC_ASSERT(after.net_length > before.net_length);
  RC_ASSERT(after.net_length - before.net_length <= inches(1) + Length{1});
  RC_ASSERT(after.net_width == before.net_width);
}

RC_GTEST_PROP(Cover, LeftAndRightAreMirrorImages, ()) {
  auto c = any_case(1);
  auto mirrored = c;
  std::swap(mirrored.flight.steps[0].left, mirrored.flight.steps[0].right);
  const auto a = c.pieces()[0], b = mirrored.pieces()[0];
  RC_ASSERT(a.net_length == b.net_length);
  RC_ASSERT(std::abs(a.net_width.ticks - b.net_width.ticks) <= 1);
  RC_ASSERT(std::abs(area_mm2(a.outline) - area_mm2(b.outline)) < 1e-6 * area_mm2(a.outline));
}

// The proof must be able to fail: spoil one thing and it says so.
RC_GTEST_PROP(Refold, AStepHigherThanMeasuredIsNotCovered, ()) {
  auto c = any_case(1);
  const auto piece = c.pieces()[0];
  c.flight.steps[0].rise += inches(1);
  const auto proof = c.prove_piece(piece);
  RC_ASSERT(!proof.passed);
}

RC_GTEST_PROP(Refold, ARiseASixteenthHigherThanMeasuredIsNotReached, ()) {
  auto c = any_case(1);
  const auto piece = c.pieces()[0];
  c.flight.steps[0].rise += inches(0, 1, 16);
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(Refold, AStepAThirtySecondWiderThanItsPieceIsNotCovered, ()) {
  auto c = any_case(1);
  const auto piece = c.pieces()[0];
  c.flight.steps[0].width += inches(0, 1, 32);
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(Refold, AGoingAThirtySecondDeeperThanItsPieceIsNotCovered, ()) {
  auto c = any_case(1);
  const auto piece = c.pieces()[0];
  c.flight.steps[0].going += inches(0, 1, 32);
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(Refold, APieceCutForAThinnerPadDoesNotFit, ()) {
  auto c = any_case(1);
  const auto piece = c.pieces()[0];
  c.pad += inches(0, 1, 16);
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(Refold, APieceCutForAThinnerBackingDoesNotFit, ()) {
  auto c = any_case(1);
  const auto piece = c.pieces()[0];
  c.carpet.backing += inches(0, 1, 16);
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(Refold, AnOutlineThatIsNotItsFacesIsSaid, ()) {
  const auto c = any_case(1);
  auto piece = c.pieces()[0];
  for (auto& p : piece.outline)
    p.v *= 0.99;
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(Refold, ARectangleWithNoRoomForItsTrimsIsSaid, ()) {
  const auto c = any_case(1);
  auto piece = c.pieces()[0];
  piece.cut_length -= inches(0, 1, 16);
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(Refold, AnOpenEndWithoutItsSeamsIsSaid, ()) {
  auto c = any_case(1);
  c.flight.steps[0].left = open_side();
  auto piece = c.pieces()[0];
  piece.seams.clear();
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(Refold, ASeamMovedByASixteenthIsAGap, ()) {
  auto c = any_case(1);
  c.flight.steps[0].right = open_side();
  auto piece = c.pieces()[0];
  auto& seam = piece.seams[*rc::gen::inRange<std::size_t>(0, piece.seams.size())];
  for (auto& p : seam.a)
    p.u += 25.4 / 16;
  RC_ASSERT(!c.prove_piece(piece).passed);
}

RC_GTEST_PROP(Refold, AFoldTurnedTooLittleIsAGapOrABareFace, ()) {
  auto c = any_case(1);
  auto piece = c.pieces()[0];
  std::vector<Face*> bends;
  for (auto& face : piece.faces)
    if (face.bend_rad > 1.5 && face.name.find("tab") == std::string::npos) // a tab may be all set-off
      bends.push_back(&face);
  RC_PRE(!bends.empty());
  bends[*rc::gen::inRange<std::size_t>(0, bends.size())]->bend_rad *= 0.8;
  RC_ASSERT(!c.prove_piece(piece).passed);
}

TEST(Refold, AHemOverTheStripIsSaid) {
  auto step = usual_step();
  step.right = open_side();
  const auto flight = flight_of({step});
  auto allowances = usual_allowances();
  allowances.strip_stop = inches(1);
  const auto carpet = usual_carpet();
  const auto piece = cover_flight(flight, {carpet, inches(0, 3, 8), allowances, LengthUnit::inch}, "A")[0];
  const auto proof = prove(piece, {step}, flight.style, inches(0, 3, 8), carpet, allowances);
  EXPECT_FALSE(proof.hems_clear);
  EXPECT_FALSE(proof.passed);
}
