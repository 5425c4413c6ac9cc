#include "measure/code.h"
#include "measure/tread_plan.h"

#include <cmath>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace treadfold {
namespace {

constexpr Length kTick{1};

/// A flight that meets the code exactly in the middle of what it allows.
Flight flight(StairCode code, int risers = 14) {
  Flight f;
  f.name = "main";
  f.where = "/stairs/0/flights/0";
  for (int i = 1; i <= risers; ++i) {
    Step s;
    s.number = i;
    s.rise = code == StairCode::uk_private ? millimetres(190)
             : code == StairCode::ibc      ? inches(6)
                                           : inches(7);
    s.going = code == StairCode::uk_private ? millimetres(240)
              : code == StairCode::ibc      ? inches(12)
                                            : inches(10, 1, 2);
    s.width = inches(40);
    s.nosing = {inches(1), inches(1), inches(0, 1, 4)};
    s.landing_edge = i == risers;
    s.where = "/stairs/0/flights/0/steps/" + std::to_string(i);
    f.steps.push_back(s);
  }
  return f;
}

Problems bare(const Flight& f, StairCode code) { return check_code(f, code, {}, {}, {}); }

bool says(const Problems& problems, const std::string& text) {
  for (const auto& p : problems)
    if (sentence(p).find(text) != std::string::npos) return true;
  return false;
}

/// Sets a measure on every step.
template <class Set>
Flight with(StairCode code, const Set& set) {
  Flight f = flight(code);
  for (auto& s : f.steps)
    set(s);
  return f;
}

TEST(Code, FlightsWithinLimitsPassSilently) {
  for (auto code : {StairCode::irc, StairCode::ibc, StairCode::uk_private, StairCode::none})
    EXPECT_TRUE(bare(flight(code), code).empty());
}

/// Passes with every step at the limit; warns, with the paragraph, one tick beyond it.
template <class Set>
void expect_boundary(StairCode code, Length limit, Length beyond, const char* paragraph, const Set& set) {
  EXPECT_TRUE(bare(with(code, [&](Step& s) { set(s, limit); }), code).empty())
      << print_length(limit, LengthUnit::inch);
  const auto problems = bare(with(code, [&](Step& s) { set(s, limit + beyond); }), code);
  ASSERT_EQ(problems.size(), 1u) << print_length(limit, LengthUnit::inch);
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_TRUE(says(problems, paragraph)) << sentence(problems[0]);
}

const auto set_rise = [](Step& s, Length x) { s.rise = x; };
const auto set_going = [](Step& s, Length x) { s.going = x; };
const auto set_width = [](Step& s, Length x) { s.width = x; };
const auto set_nosing = [](Step& s, Length x) { s.nosing.projection = x; };
const auto set_radius = [](Step& s, Length x) { s.nosing.thickness = inches(2), s.nosing.radius = x; };

TEST(Code, Irc_R311_7_Boundaries) {
  expect_boundary(StairCode::irc, inches(7, 3, 4), kTick, "IRC R311.7.5.1", set_rise);
  expect_boundary(StairCode::irc, inches(10), -kTick, "IRC R311.7.5.2", set_going);
  expect_boundary(StairCode::irc, inches(36), -kTick, "IRC R311.7.1", set_width);
}

TEST(Code, FromMemory_Irc_R311_7_5_3_NosingBoundaries) {
  expect_boundary(StairCode::irc, inches(0, 3, 4), -kTick, "IRC R311.7.5.3", set_nosing);
  expect_boundary(StairCode::irc, inches(1, 1, 4), kTick, "IRC R311.7.5.3", set_nosing);
  expect_boundary(StairCode::irc, inches(0, 9, 16), kTick, "IRC R311.7.5.3", set_radius);
}

TEST(Code, FromMemory_Irc_TreadsOfElevenInchesNeedNoNosing) {
  const auto no_nosing = [](Length going) {
    return with(StairCode::irc, [&](Step& s) { s.going = going, s.nosing.projection = {}; });
  };
  EXPECT_TRUE(bare(no_nosing(inches(11)), StairCode::irc).empty());
  EXPECT_TRUE(says(bare(no_nosing(inches(11) - kTick), StairCode::irc), "R311.7.5.3"));
}

TEST(Code, Irc_R311_7_RisersAndTreadsMayDifferByThreeEighths) {
  auto f = flight(StairCode::irc);
  f.steps[4].rise = inches(7, 3, 8);
  EXPECT_TRUE(bare(f, StairCode::irc).empty());
  f.steps[4].rise += kTick;
  const auto problems = bare(f, StairCode::irc);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_TRUE(says(problems, "(step 5)"));
  EXPECT_TRUE(says(problems, "no more than 3/8\" apart (IRC R311.7.5.1)"));

  f = flight(StairCode::irc);
  f.steps[2].going = inches(10, 7, 8);
  EXPECT_TRUE(bare(f, StairCode::irc).empty());
  f.steps[2].going += kTick;
  EXPECT_TRUE(says(bare(f, StairCode::irc), "R311.7.5.2"));
}

TEST(Code, Ibc2015_1011_5_2_Boundaries) {
  expect_boundary(StairCode::ibc, inches(7), kTick, "IBC 1011.5.2", set_rise);
  expect_boundary(StairCode::ibc, inches(4), -kTick, "IBC 1011.5.2", set_rise);
  expect_boundary(StairCode::ibc, inches(11), -kTick, "IBC 1011.5.2", set_going);
}

TEST(Code, FromMemory_Ibc_1011_5_5_NosingBoundaries) {
  expect_boundary(StairCode::ibc, inches(1, 1, 4), kTick, "IBC 1011.5.5", set_nosing);
  expect_boundary(StairCode::ibc, inches(0, 9, 16), kTick, "IBC 1011.5.5", set_radius);
}

TEST(Code, ApprovedDocumentK_PrivateStairBoundaries) {
  const auto code = StairCode::uk_private;
  // 220 mm of rise passes only with 245 mm of going or more (pitch), and 220 of going with 198 of rise or
  // less
  const auto rise = [](Step& s, Length x) { s.rise = x, s.going = millimetres(250); };
  expect_boundary(code, millimetres(220), kTick, "Approved Document K", rise);
  const auto going = [](Step& s, Length x) { s.going = x, s.rise = millimetres(180); };
  expect_boundary(code, millimetres(220), -kTick, "Approved Document K", going);
}

TEST(Code, ApprovedDocumentK_TwiceRisePlusGoingBoundaries) {
  const auto code = StairCode::uk_private;
  const auto short_sum = [](Step& s, Length x) { s.rise = millimetres(155), s.going = x - millimetres(310); };
  expect_boundary(code, millimetres(550), -kTick, "from 550 to 700 mm", short_sum);
  const auto long_sum = [](Step& s, Length x) { s.rise = millimetres(210), s.going = x - millimetres(420); };
  expect_boundary(code, millimetres(700), kTick, "from 550 to 700 mm", long_sum);
}

TEST(Code, ApprovedDocumentK_PitchBoundary) {
  // tan 42° = 0.900404: over 240 mm of going a rise of 216.09697 mm
  const auto code = StairCode::uk_private;
  const auto rise = [](Step& s, Length x) { s.rise = x, s.going = millimetres(240); };
  expect_boundary(code, Length{1728775}, kTick, "42°", rise); // 216.096875 and 216.097 mm
}

TEST(Code, EqualBreachesShareOneWarningThatNamesTheirSteps) {
  auto f = flight(StairCode::irc);
  for (auto& s : f.steps)
    s.rise = inches(8);
  EXPECT_TRUE(says(bare(f, StairCode::irc), "a riser of 8\" at steps 1–14"));
  f.steps[5].rise = f.steps[9].rise = inches(8, 1, 8);
  const auto problems = bare(f, StairCode::irc);
  EXPECT_EQ(problems.size(), 2u);
  EXPECT_TRUE(says(problems, "a riser of 8\" at steps 1–5, 7–9 and 11–14"));
  EXPECT_TRUE(says(problems, "a riser of 8 1/8\" at steps 6 and 10"));
  EXPECT_EQ(problems.back().steps, (std::vector<int>{6, 10}));
}

TEST(Code, AWarningOnOneStepPointsToThatStep) {
  auto f = flight(StairCode::irc);
  f.steps[3].width = inches(35);
  const auto problems = bare(f, StairCode::irc);
  ASSERT_EQ(problems.size(), 1u);
  EXPECT_EQ(problems[0].where, f.steps[3].where);
  EXPECT_TRUE(says(problems, "at step 4"));
}

TEST(Code, TreadDepthIsTheGoingWhenNosingsAreAlike) {
  auto f = flight(StairCode::irc);
  EXPECT_EQ(tread_depth(f, 3), f.steps[3].going);
  f.steps[4].nosing.projection += inches(0, 1, 4); // the nosing above comes forward and takes tread away
  EXPECT_EQ(tread_depth(f, 3), f.steps[3].going - inches(0, 1, 4));
  EXPECT_EQ(tread_depth(f, 4), f.steps[4].going + inches(0, 1, 4));
}

TEST(Code, LandingEdgeHasNoTreadDepth) {
  auto f = flight(StairCode::irc);
  f.steps.back().going = inches(4);
  EXPECT_TRUE(bare(f, StairCode::irc).empty());
}

TEST(Code, NoneSaysNothing) {
  auto f = flight(StairCode::irc);
  for (auto& s : f.steps)
    s.rise = inches(14), s.width = inches(12);
  EXPECT_TRUE(check_code(f, StairCode::none, inches(1), {}, {}).empty());
}

// docs/sources.md: h = 7 1/2, t = 3/4 and bare floors: 8 1/4 and 6 3/4, a spread of 1 1/2 in.
TEST(FinishedRisers, ComputedExampleOfBareFloors) {
  auto f = flight(StairCode::irc);
  for (auto& s : f.steps)
    s.rise = inches(7, 1, 2);
  const auto finished = finished_risers(f, inches(0, 3, 4), {}, {});
  EXPECT_EQ(finished.first, inches(8, 1, 4));
  EXPECT_EQ(finished.last, inches(6, 3, 4));
  EXPECT_EQ(finished.first - finished.last, inches(1, 1, 2));
  const auto problems = check_code(f, StairCode::irc, inches(0, 3, 4), {}, {});
  ASSERT_EQ(problems.size(), 1u); // a trip, not a breach: no riser is over 7 3/4 in as the code measures
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_TRUE(says(problems, "8 1/4\""));
  EXPECT_TRUE(says(problems, "6 3/4\""));
  EXPECT_TRUE(says(problems, "1 1/2\" apart"));
  EXPECT_TRUE(says(problems, "not a breach of the IRC, which measures without carpet"));
}

TEST(FinishedRisers, FloorsBuiltUpLikeTheTreadsChangeNothing) {
  const auto f = flight(StairCode::irc);
  const auto finished = finished_risers(f, inches(0, 3, 4), inches(0, 3, 4), inches(0, 3, 4));
  EXPECT_EQ(finished.first, f.steps.front().rise);
  EXPECT_EQ(finished.last, f.steps.back().rise);
  EXPECT_TRUE(check_code(f, StairCode::irc, inches(0, 3, 4), inches(0, 3, 4), inches(0, 3, 4)).empty());
}

TEST(FinishedRisers, TripWarningBeginsBeyondThreeEighths) {
  const auto f = flight(StairCode::irc); // build-up on the treads only: first and last differ by twice of it
  EXPECT_TRUE(check_code(f, StairCode::irc, inches(0, 3, 16), {}, {}).empty());
  EXPECT_EQ(check_code(f, StairCode::irc, inches(0, 3, 16) + kTick, {}, {}).size(), 1u);
}

TEST(FinishedRisers, OneRiserHasBothFloors) {
  const auto f = flight(StairCode::irc, 1);
  const auto finished = finished_risers(f, inches(1), inches(0, 1, 4), inches(0, 3, 4));
  EXPECT_EQ(finished.first, inches(7, 1, 2));
  EXPECT_EQ(finished.last, inches(7, 1, 2));
}

RC_GTEST_PROP(FinishedRisers, TotalRiseChangesOnlyByTheFloors, ()) {
  auto f = flight(StairCode::irc, *rc::gen::inRange(1, 20));
  const auto build_up = [] { return Length{*rc::gen::inRange(0, 200000)}; };
  const Length treads = build_up(), foot = build_up(), landing = build_up();
  const auto finished = finished_risers(f, treads, foot, landing);
  Length sum, after;
  for (const auto& s : f.steps)
    sum += s.rise, after += s.rise;
  after += finished.first - f.steps.front().rise;
  if (f.steps.size() > 1) after += finished.last - f.steps.back().rise;
  RC_ASSERT(after == sum + landing - foot);
}

TEST(Count, OneTreadFewerThanRisers) {
  auto f = flight(StairCode::irc);
  f.treads_counted = 13;
  EXPECT_TRUE(check_count(f).empty());
  for (int wrong : {12, 14, 0}) {
    f.treads_counted = wrong;
    const auto problems = check_count(f);
    ASSERT_EQ(problems.size(), 1u);
    EXPECT_TRUE(has_errors(problems));
    EXPECT_TRUE(says(problems, "14 risers go with 13 treads"));
  }
}

TEST(Count, RisesAddUpToTheTotalByTape) {
  auto f = flight(StairCode::irc); // 14 × 7 in = 98 in; 1/16 in a riser is 7/8 in
  f.total_rise = inches(98, 7, 8);
  EXPECT_TRUE(check_count(f).empty());
  f.total_rise = inches(97, 1, 8);
  EXPECT_TRUE(check_count(f).empty());
  f.total_rise = inches(98, 7, 8) + kTick;
  ASSERT_EQ(check_count(f).size(), 1u);
  EXPECT_FALSE(has_errors(check_count(f)));
}

TEST(Count, AMissingRiserIsAnError) {
  auto f = flight(StairCode::irc);
  f.total_rise = inches(105);
  EXPECT_TRUE(has_errors(check_count(f)));
  EXPECT_TRUE(says(check_count(f), "a riser seems to be missing"));
  f.total_rise = inches(91);
  EXPECT_TRUE(has_errors(check_count(f)));
  EXPECT_TRUE(says(check_count(f), "counted twice"));
  f.total_rise = inches(98) + inches(3, 1, 2);
  EXPECT_TRUE(has_errors(check_count(f)));
  f.total_rise = inches(98) + inches(3, 1, 2) - kTick;
  EXPECT_FALSE(has_errors(check_count(f)));
}

/// Step 5 as a winder without projection: its nosings meet `turn_degrees` apart in a point `narrow` to the
/// left of its left end. By plain trigonometry its depth at d from the narrow end is the chord 2·(narrow +
/// d)·sin(turn/2).
Flight winding(StairCode code, Length narrow, double turn_degrees, Length width) {
  Flight f = flight(code);
  for (auto& s : f.steps)
    s.nosing.projection = {};
  const double turn = turn_degrees * 3.14159265358979323846 / 180, r = narrow.mm(), far = r + width.mm();
  Step& s = f.steps[4];
  set_plan(s, {{0, 0}, {r * std::cos(turn) - r, r * std::sin(turn)}},
           {{width.mm(), 0}, {far * std::cos(turn) - r, far * std::sin(turn)}});
  return f;
}

double turn_for(Length depth, Length radius) {
  return 2 * std::asin(depth.mm() / 2 / radius.mm()) * 180 / 3.14159265358979323846;
}

// IRC R311.7.5.2.1: 10 in at the walkline, 12 in from the inside edge; 6 in anywhere (from memory).
TEST(IrcR311_7, WindersAtTheWalklineAndAtTheNarrowEnd) {
  const auto at_walkline = [](Length depth) {
    return winding(StairCode::irc, inches(30), turn_for(depth, inches(42)), inches(40));
  };
  const char* walked = "a winder's depth where it is walked on";
  EXPECT_FALSE(says(bare(at_walkline(inches(10) + Length{20}), StairCode::irc), walked));
  EXPECT_TRUE(says(bare(at_walkline(inches(10) - Length{20}), StairCode::irc), walked));
  const auto at_narrow = [](Length depth) {
    return winding(StairCode::irc, inches(12), turn_for(depth, inches(12)), inches(40));
  };
  EXPECT_FALSE(says(bare(at_narrow(inches(6) + Length{20}), StairCode::irc), "a winder's narrow end"));
  EXPECT_TRUE(says(bare(at_narrow(inches(6) - Length{20}), StairCode::irc), "a winder's narrow end"));
  // It is no tread like the others: neither its depth nor its spread is taken with theirs.
  EXPECT_FALSE(says(bare(at_walkline(inches(11)), StairCode::irc), "treads from"));
}

// IBC 2015 1011.5.2: 11 in at the walkline and 10 in at the least.
TEST(Ibc1011_5_2, WindersAtTheWalklineAndAtTheLeast) {
  const auto at_narrow = [](Length depth) {
    return winding(StairCode::ibc, inches(40), turn_for(depth, inches(40)), inches(44));
  };
  EXPECT_FALSE(says(bare(at_narrow(inches(10) + Length{20}), StairCode::ibc), "a winder's"));
  EXPECT_TRUE(says(bare(at_narrow(inches(10) - Length{20}), StairCode::ibc), "a winder's narrow end"));
  const auto at_walkline = [](Length depth) {
    return winding(StairCode::ibc, inches(110), turn_for(depth, inches(122)), inches(44));
  };
  EXPECT_TRUE(says(bare(at_walkline(inches(11) - Length{20}), StairCode::ibc), "walked on"));
  EXPECT_FALSE(says(bare(at_walkline(inches(11) + Length{20}), StairCode::ibc), "walked on"));
}

// Approved Document K, 1998 edition, ¶1.18–1.20: mid-width under 1 m, else 270 mm from each side; 50 mm at
// the narrow end.
TEST(ApprovedDocumentK, TaperedTreads) {
  const auto middle = [](Length depth) {
    return winding(StairCode::uk_private, millimetres(200), turn_for(depth, millimetres(600)),
                   millimetres(800));
  };
  EXPECT_FALSE(says(bare(middle(millimetres(220) + Length{40}), StairCode::uk_private), "walked on"));
  EXPECT_TRUE(says(bare(middle(millimetres(220) - Length{40}), StairCode::uk_private), "walked on"));
  const auto wide = [](Length depth) {
    return winding(StairCode::uk_private, millimetres(400), turn_for(depth, millimetres(670)),
                   millimetres(1200));
  };
  EXPECT_FALSE(says(bare(wide(millimetres(220) + Length{40}), StairCode::uk_private), "walked on"));
  EXPECT_TRUE(says(bare(wide(millimetres(220) - Length{40}), StairCode::uk_private), "walked on"));
  const auto narrow = [](Length depth) {
    return winding(StairCode::uk_private, millimetres(120), turn_for(depth, millimetres(120)),
                   millimetres(900));
  };
  EXPECT_FALSE(says(bare(narrow(millimetres(50) + Length{40}), StairCode::uk_private), "narrow end"));
  EXPECT_TRUE(says(bare(narrow(millimetres(50) - Length{40}), StairCode::uk_private), "narrow end"));
}

// Where a kite's nosing is longer than 1 m, the flight is not.
TEST(ApprovedDocumentK, AFlightIsAsWideAsItsNarrowestRiser) {
  auto f = winding(StairCode::uk_private, millimetres(200), turn_for(millimetres(215), millimetres(650)),
                   millimetres(1040));
  EXPECT_TRUE(says(bare(f, StairCode::uk_private), "walked on")); // at 270 mm
  f.steps[8].width = millimetres(900);                            // 215 at 450 mm from the narrow end
  EXPECT_TRUE(says(bare(f, StairCode::uk_private), "a winder's depth where it is walked on of 215 mm"));
}

TEST(Code, TreadsOutOfLevelAreJudgedAtBothEnds) {
  auto f = flight(StairCode::irc);
  for (auto& s : f.steps)
    s.rise = inches(7, 3, 4), s.fall_right = -inches(0, 3, 8);
  EXPECT_TRUE(bare(f, StairCode::irc).empty());
  f.steps[3].fall_right = kTick;
  EXPECT_TRUE(says(bare(f, StairCode::irc), "at step 4"));
}

TEST(Code, SolvedWidthsAreNoFinerThanTheTape) {
  const auto wide = [](Length width) {
    auto f = winding(StairCode::irc, inches(30), turn_for(inches(11), inches(42)), width);
    return says(bare(f, StairCode::irc), "R311.7.1)");
  };
  EXPECT_FALSE(wide(inches(36) - inches(0, 1, 16) + kTick));
  EXPECT_TRUE(wide(inches(36) - inches(0, 1, 16)));
}

TEST(IrcR311_7, BevelsUpToHalfAnInch) { // from memory
  const auto bevelled = [](Length bevel) {
    return with(StairCode::irc, [&](Step& s) {
      s.nosing.radius = {};
      s.nosing.bevel = bevel;
    });
  };
  EXPECT_FALSE(says(bare(bevelled(inches(0, 1, 2)), StairCode::irc), "bevelled"));
  EXPECT_TRUE(says(bare(bevelled(inches(0, 1, 2) + kTick), StairCode::irc), "bevelled"));
}

} // namespace
} // namespace treadfold
