// Goods of different backings: how tight a fold they take, and which of their edges fray.
#include "cover/handling.h"

#include "steps.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

using namespace treadfold;
using namespace treadfold::test;

namespace {

constexpr Length kTick{1};
const TackStrip kStrip{inches(1), inches(0, 1, 4), inches(48), 100, 55, ""};

Carpet goods(Construction construction, Length least_fold) {
  auto carpet = usual_carpet();
  carpet.construction = construction;
  carpet.min_fold_radius = least_fold;
  return carpet;
}

/// Three steps, square nosings with this arris.
Flight steps_with(Length arris, CoverStyle style, Side right = {}) {
  std::vector<Step> steps;
  for (int number = 1; number <= 3; ++number) {
    auto step = usual_step(number);
    step.nosing.radius = arris;
    step.right = right;
    step.where = "/steps/" + std::to_string(number);
    steps.push_back(step);
  }
  auto flight = flight_of(steps, style);
  flight.where = "/flight";
  return flight;
}

Problems judged(const Flight& flight, const Carpet& carpet, Length pad = {}) {
  return check_folds(flight, carpet, pad, kStrip, LengthUnit::inch);
}

bool has_hem(const Piece& piece) {
  return std::any_of(piece.lines.begin(), piece.lines.end(),
                     [](const FlatLine& l) { return l.role == LineRole::hem; });
}

} // namespace

TEST(Handling, WhereNothingIsKnownOfTheBackingNothingIsJudged) {
  auto carpet = usual_carpet();
  EXPECT_TRUE(judged(steps_with({}, CoverStyle::wrapped, open_side()), carpet).empty());
  EXPECT_TRUE(takes_hem(carpet, kStrip));
  const auto flight = steps_with({}, CoverStyle::waterfall);
  const auto piece = cover_flight(flight, {carpet, {}, usual_allowances(), LengthUnit::inch}, "A").front();
  EXPECT_EQ(fraying_edges(piece, carpet), Length{});
}

TEST(Handling, AFoldIsTooTightBeyondTheRadiusToTheTick) {
  const auto carpet = goods(Construction::tufted, inches(0, 1, 8));
  const Length pad = inches(0, 1, 4);
  EXPECT_TRUE(judged(steps_with(inches(0, 1, 8), CoverStyle::wrapped), carpet, pad).empty());
  const auto problems = judged(steps_with(inches(0, 1, 8) - kTick, CoverStyle::wrapped), carpet, pad);
  ASSERT_EQ(problems.size(), 1u); // over the nosing the pad rounds it
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_EQ(problems[0].where, "/flight");
  EXPECT_EQ(problems[0].found, "a fold of radius 1/8\" under the nosing at steps 1–3");
  EXPECT_EQ(problems[0].expected,
            "at least 1/8\", usual for tufted goods: round the arris to 1/8\", or cut and seam it there");
}

TEST(Handling, OverTheNosingThePadRoundsTheFold) {
  const auto carpet = goods(Construction::tufted, inches(0, 1, 8));
  const auto flight = steps_with(inches(0, 1, 16), CoverStyle::waterfall);
  EXPECT_TRUE(judged(flight, carpet, inches(0, 1, 16)).empty());
  const auto problems = judged(flight, carpet, inches(0, 1, 16) - kTick);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_NE(problems[0].found.find("over the nosing"), std::string::npos) << problems[0].found;
}

TEST(Handling, OneStepIsNamedAtItsPlace) {
  auto flight = steps_with(inches(0, 1, 4), CoverStyle::wrapped);
  flight.steps[1].nosing.radius = {};
  const auto problems = judged(flight, goods(Construction::woven, inches(0, 1, 16)), inches(0, 1, 4));
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].where, "/steps/2");
  EXPECT_NE(problems[0].found.find("at step 2"), std::string::npos) << problems[0].found;
}

TEST(Handling, ABevelsTwoHalvesAreNoFolds) {
  auto flight = steps_with({}, CoverStyle::waterfall);
  for (auto& step : flight.steps)
    step.nosing.bevel = inches(0, 1, 2);
  const auto carpet = goods(Construction::tufted, inches(0, 1, 8));
  EXPECT_TRUE(judged(flight, carpet).empty());
  for (auto& step : flight.steps)
    step.left = open_side(); // its edge has no bevel
  EXPECT_EQ(judged(flight, carpet).size(), 2u);
}

TEST(Handling, ADropThatTurnsFarUnderTheNosingIsAFoldThere) {
  const auto leaves = [](Length rise) {
    auto flight = steps_with({}, CoverStyle::waterfall);
    for (auto& step : flight.steps) {
      step.rise = rise;
      step.nosing.projection = inches(4);
    }
    const auto problems = judged(flight, goods(Construction::tufted, inches(0, 1, 8)), inches(0, 1, 4));
    return !problems.empty() && problems[0].found.find("leaves the nosing") != std::string::npos;
  };
  EXPECT_FALSE(leaves(inches(7, 1, 2)));
  EXPECT_TRUE(leaves(inches(4))); // 3 in down, over 4 in back
}

// ADA 504: nosings rounded to no more than 1/2 in; IRC R311.7.5.3 and IBC 1011.5.5: 9/16 in.
TEST(Handling, RoundingIsAdvisedOnlyAsFarAsCodesAndTheBoardAllow) {
  const auto advice = [](Length least, Length thickness) {
    auto flight = steps_with({}, CoverStyle::wrapped);
    for (auto& step : flight.steps)
      step.nosing.thickness = thickness;
    auto carpet = goods(Construction::unknown, least);
    carpet.fold_radius_told = true;
    return judged(flight, carpet, inches(1)).at(0).expected;
  };
  EXPECT_NE(advice(inches(0, 1, 2), inches(1)).find("job's min_fold_radius: round the arris to 1/2\""),
            std::string::npos);
  EXPECT_NE(advice(inches(0, 1, 2) + kTick, inches(2)).find("more than stair codes allow"),
            std::string::npos);
  EXPECT_NE(advice(inches(0, 1, 2), inches(1) - kTick).find("too thin"), std::string::npos);
}

TEST(Handling, AHemIsFoldedOnlyWhereItIsNoThickerThanTheStrip) {
  const auto flight = steps_with(inches(0, 1, 2), CoverStyle::waterfall, open_side());
  for (const Length more : {Length{}, kTick}) {
    const auto carpet = goods(Construction::tufted, inches(0, 1, 8) + more);
    const bool hem = more == Length{};
    EXPECT_EQ(takes_hem(carpet, kStrip), hem);
    const auto problems = judged(flight, carpet);
    ASSERT_EQ(problems.size(), hem ? 0u : 1u);
    if (!hem) {
      EXPECT_NE(problems[0].found.find("a hem 1/4\" thick at steps 1–3"), std::string::npos)
          << problems[0].found;
    }
    const auto allowances = allowances_for(usual_allowances(), carpet, kStrip);
    for (const auto& piece : cover_flight(flight, {carpet, {}, allowances, LengthUnit::inch}, "A")) {
      EXPECT_EQ(has_hem(piece), hem);
      const auto proof = prove(piece, steps_of(piece, flight), flight.style, {}, carpet, allowances);
      EXPECT_TRUE(proof.passed) << proof.reason;
    }
  }
}

RC_GTEST_PROP(Handling, DropsWithoutHemsFoldBackOntoAnyStep, ()) {
  auto step = any_step(1);
  step.right = open_side(*sixty_fourths(16, 6 * 64), *sixty_fourths(0, 6 * 64));
  const auto style = *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped);
  const auto flight = flight_of({step}, style);
  const Length pad = *sixty_fourths(0, 64);
  const auto carpet = goods(Construction::tufted, inches(1));
  const auto allowances = allowances_for(usual_allowances(), carpet, kStrip);
  RC_ASSERT(allowances.hem == Length{});
  for (const auto& piece : cover_flight(flight, {carpet, pad, allowances, LengthUnit::inch}, "A")) {
    RC_ASSERT(!has_hem(piece));
    const auto proof = prove(piece, {step}, style, pad, carpet, allowances);
    RC_LOG() << proof.reason << '\n';
    RC_ASSERT(proof.passed);
  }
}

// A box step: the rectangle's four edges, the two sides trimmed on the stair and the back.
TEST(Handling, WovenGoodsFrayOnAllFourEdgesAndWhereTheyAreTrimmed) {
  const auto flight = steps_with(inches(0, 1, 2), CoverStyle::waterfall);
  for (const auto construction : {Construction::unknown, Construction::tufted, Construction::woven}) {
    const auto carpet = goods(construction, {});
    const auto piece = cover_flight(flight, {carpet, {}, usual_allowances(), LengthUnit::inch}, "A").front();
    const auto edges = fraying_edges(piece, carpet);
    if (construction != Construction::woven) {
      EXPECT_EQ(edges, Length{});
      continue;
    }
    const Length expected = (piece.cut_width + piece.cut_length) * 2 + piece.net_length * 2 + inches(36);
    EXPECT_NEAR(edges.mm(), expected.mm(), 0.01);
  }
}
