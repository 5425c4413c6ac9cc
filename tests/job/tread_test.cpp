// Treads that are no rectangles: from readings in the file to the step's plan.
#include "samples.h"
#include "validator.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

using namespace samples;

const std::string kF = kFlight;

/// A winder 36 in wide, its left end 6 in and its right end 20 in deep from the nosing's edge; nosing 1 in.
const char* const kWinder = R"({"front": 36, "right": 20, "back": "38 5/8", "left": 6,
                                "diagonal_from_front_left": "41 3/16"})";

Json winder_at(const std::string& step, const char* tread = kWinder) {
  return with(with(small_job(), kF + "/right", "wall"), kF + "/steps", {{step, {{"tread", parse(tread)}}}});
}

std::vector<Step> good_steps(const Json& job) {
  const auto reading = read(job);
  EXPECT_TRUE(reading.problems.empty()) << told(reading.problems);
  EXPECT_EQ(Validator(job_schema()).complaints(job), "");
  return reading.job.stairs.at(0).flights.at(0).steps;
}

Problem only_problem(const Json& job) {
  const auto reading = read(job);
  EXPECT_EQ(reading.problems.size(), 1u) << told(reading.problems);
  return reading.problems.empty() ? Problem{} : reading.problems[0];
}

TEST(Tread, FourSidesAndADiagonalGiveThePlan) {
  const auto steps = good_steps(winder_at("3"));
  EXPECT_TRUE(steps[1].rectangular() && steps[3].rectangular());
  const Step& s = steps[2];
  ASSERT_EQ(s.right_side.size(), 2u);
  EXPECT_EQ(s.where, kF + "/steps/3");
  EXPECT_NEAR(s.width.inches(), 36, 0.01); // the readings are rounded to the sixteenth
  EXPECT_NEAR(s.going.inches(), 19, 0.01);
  EXPECT_NEAR(s.left_side.back().y / 25.4, 5, 0.02);
  EXPECT_NEAR(s.right_side.back().x / 25.4, 36, 0.02);
}

TEST(Tread, OffsetsFromTheFrontGiveThePlanOfAWinderAndOfAKite) {
  const Step s = good_steps(winder_at("3", R"({"front": 36, "back_right": {"along": 36, "off": 20},
                                               "back_left": {"along": 0, "off": 6}})"))[2];
  EXPECT_NEAR(s.left_side.back().y / 25.4, 5, 1e-9);
  EXPECT_NEAR(s.right_side.back().y / 25.4, 19, 1e-9);
  EXPECT_EQ(s.going, inches(19));

  // The middle of three winders in a square corner: the wall turns a foot and a half behind the riser.
  const Step kite =
      good_steps(winder_at("3", R"({"front": "41 1/2", "right_corner": {"along": "50 3/4", "off": 16},
                         "back_right": {"along": "35 3/4", "off": "24 11/16"},
                         "back_left": {"left_of": "1 1/16", "off": "3 1/2"}})"))[2];
  ASSERT_EQ(kite.right_side.size(), 3u);
  EXPECT_EQ(kite.left_side.size(), 2u);
  EXPECT_NEAR(kite.right_side[1].y / 25.4, 15, 1e-9);    // the nosing stands 1 in before the riser
  EXPECT_NEAR(kite.width.inches(), 42 + 5.0 / 16, 0.08); // a sixteenth in a short end tells so much
}

TEST(Tread, OffsetsThatMakeNoTreadAreSaidWhereTheyStand) {
  struct Case {
    const char* tread;
    const char* where;
  };
  const Case cases[] = {
      {R"({"front": 36, "back_right": {"along": 36, "off": 20}})", "/back_left"},
      {R"({"front": 36, "back_right": {"along": 36, "off": 20}, "back_left": {"along": 0}})",
       "/back_left/off"},
      {R"({"front": 36, "back_right": {"along": 36, "off": 20}, "back_left": {"along": 0, "left_of": 1, "off": 6}})",
       "/back_left/left_of"},
      {R"({"front": 36, "back_right": {"along": 36, "off": 20}, "back_left": {"along": 0, "off": 6}, "back": 38})",
       "/back"},
  };
  for (const auto& c : cases) {
    const auto job = winder_at("3", c.tread);
    EXPECT_EQ(only_problem(job).where, kF + "/steps/3/tread" + c.where) << c.tread;
    EXPECT_NE(Validator(job_schema()).complaints(job), "") << c.tread;
  }
}

TEST(Floor, CornersByOffsetsMakeAnLAndBadOnesAreSaid) {
  const auto floor_job = [](const char* corners) {
    return with(
        small_job(), "/stairs/0/floors",
        Json::array({{{"name", "top"}, {"carpet", "plain"}, {"front", 80}, {"corners", parse(corners)}}}));
  };
  const auto job = floor_job(R"([{"along": 80, "off": 90}, {"along": 40, "off": 90}, {"along": 40, "off": 40},
                                 {"left_of": 20, "off": 40}, {"left_of": 20, "before": 0}])");
  EXPECT_EQ(Validator(job_schema()).complaints(job), "");
  const auto reading = read(job);
  EXPECT_TRUE(reading.problems.empty()) << told(reading.problems);
  const auto& corners = reading.job.stairs[0].floors.at(0).corners;
  ASSERT_EQ(corners.size(), 7u);
  EXPECT_NEAR(corners[5].x / 25.4, -20, 1e-9);

  for (const char* bad : {R"([{"along": 0, "off": 40}, {"along": 80, "off": 40}])",   // crosses
                          R"([{"along": 40, "before": 40}])",                         // the wrong way round
                          R"([{"along": 80, "off": 40}, {"along": 80, "off": 40}])"}) // twice the same
    EXPECT_EQ(only_problem(floor_job(bad)).where, "/stairs/0/floors/0/corners") << bad;
}

TEST(Tread, AnOpenEndsOverhangIsInTheReadings) {
  auto job = winder_at("3", R"({"front": "37 1/4", "right": "20", "back": "39 13/16", "left": "6",
                                "diagonal_from_front_left": "42 1/4"})");
  job = with(job, kF + "/right", parse(R"({"open": {"overhang": "1 1/4", "return": 1}})"));
  const Step s = good_steps(job)[2];
  EXPECT_NEAR(s.width.inches(), 36, 0.02);
  EXPECT_NEAR(s.right_side.back().y / 25.4, 19 - 1.25 * 14 / 37.25, 0.03);
}

TEST(Tread, AnExceptionsOwnSidesAndNosingCount) {
  auto job = winder_at("3");
  job = with(job, kF + "/steps/3/nosing", {{"projection", 2}});
  EXPECT_NEAR(good_steps(job)[2].going.inches(), 18, 0.01);
  job = with(job, kF + "/steps/3/left", parse(R"({"open": {"overhang": "1 1/4", "return": 1}})"));
  EXPECT_NEAR(good_steps(job)[2].width.inches(), 34.75, 0.01);
}

TEST(Tread, OfAllStepsButTheTopOneWhichKeepsItsRiser) {
  auto job = with(small_job(), kF + "/right", "wall");
  job = with(without(without(job, kF + "/going"), kF + "/width"), kF + "/tread", parse(kWinder));
  job = with(job, kF + "/steps", parse(R"({"2": {"going": 9, "width": 30}})"));
  const auto steps = good_steps(job);
  EXPECT_FALSE(steps[0].rectangular());
  EXPECT_TRUE(steps[1].rectangular());
  EXPECT_EQ(steps[1].going, inches(9));
  EXPECT_TRUE(steps[13].rectangular());
  EXPECT_EQ(steps[13].going, inches(4));
  EXPECT_EQ(steps[13].width, steps[0].width);
  EXPECT_EQ(good_steps(with(job, kF + "/steps/14", {{"width", 34}}))[13].width, inches(34));
}

TEST(Tread, RefusedBesideWidthOrGoingOnTheTopStepOrHalfReplaced) {
  struct Case {
    Json job;
    std::string where;
  };
  const auto flight = with(with(small_job(), kF + "/right", "wall"), kF + "/tread", parse(kWinder));
  const auto of_all = without(without(flight, kF + "/going"), kF + "/width");
  const Case cases[] = {
      {without(flight, kF + "/going"), kF + "/width"},
      {without(flight, kF + "/width"), kF + "/going"},
      {with(winder_at("3"), kF + "/steps/3/going", 9), kF + "/steps/3/going"},
      {with(winder_at("3"), kF + "/steps/3/width", 9), kF + "/steps/3/width"},
      {winder_at("14"), kF + "/steps/14/tread"},
      {winder_at("13-14"), kF + "/steps/13-14/tread"},
      {with(of_all, kF + "/steps", parse(R"({"2": {"going": 9}})")), kF + "/steps/2/width"},
      {with(of_all, kF + "/steps", parse(R"({"2": {"width": 9}})")), kF + "/steps/2/going"},
      {with(of_all, kF + "/tread/left", 1), kF + "/tread"}, // no triangle closes
      {with(of_all, kF + "/nosing/projection", 4), ""},
  };
  for (const auto& c : cases)
    if (!c.where.empty()) {
      EXPECT_EQ(only_problem(c.job).where, c.where) << c.job[Json::json_pointer(kF)];
    }
  const Validator validator(job_schema());
  for (int i : {0, 1, 2, 3})
    EXPECT_NE(validator.complaints(cases[i].job), "") << i;
}

TEST(Tread, ShapesNoStepHasAreSaidAtTheTread) {
  // One inch of the narrow end's depth lies before the riser.
  const auto p = only_problem(winder_at("3", R"({"front": 36, "right": 20, "back": "40 5/8", "left": "1 1/8",
                                                 "diagonal_from_front_left": "41 3/16"})"));
  EXPECT_EQ(p.where, kF + "/steps/3/tread");
  EXPECT_NE(p.found.find("a left end 1/8\" deep behind the riser"), std::string::npos) << p.found;
  // The same readings fit until a side opens whose overhang leaves no riser.
  auto job = winder_at("3", R"({"front": 8, "right": 9, "back": 8, "left": 9,
                                "diagonal_from_front_left": "12 1/16"})");
  EXPECT_TRUE(read(job).problems.empty());
  job = with(job, kF + "/left", parse(R"({"open": {"overhang": 3, "return": 1}})"));
  EXPECT_EQ(only_problem(job).where, kF + "/steps/3/tread");
  EXPECT_NE(only_problem(job).found.find("a riser of 5\""), std::string::npos);
}

TEST(Tread, SixReadingsThatDoNotAgreeNameTheWorst) {
  const auto p = only_problem(winder_at("3", R"({"front": 36, "right": 11, "back": 36, "left": 11,
      "diagonal_from_front_left": "37 5/8", "diagonal_from_front_right": "39 5/8"})"));
  EXPECT_EQ(p.severity, Severity::warning);
  EXPECT_EQ(p.where, kF + "/steps/3/tread");
  EXPECT_NE(p.found.find("check first the diagonal front right to back left, read as 39 5/8\""),
            std::string::npos)
      << p.found;
  // By the parallelogram's law: 2 (36² + 11²) = 2834, less 37 5/8 squared, is 37.66 squared.
  EXPECT_NE(p.expected.find("about 37 11/16\""), std::string::npos) << p.expected;
}

TEST(Tread, OutOfLevelIsTheRiseAtEitherEnd) {
  auto job = with(small_job(), kF + "/rise_right", "7 5/8");
  job = with(job, kF + "/steps", parse(R"({"3": {"rise": "7 1/4"}, "5": {"rise_right": 7},
                                           "6": {"rise": 7, "rise_right": "7 1/16"}})"));
  const auto steps = good_steps(job);
  EXPECT_EQ(steps[0].fall_right, inches(0, 1, 8));
  EXPECT_EQ(steps[2].fall_right, Length{}); // it says its rise, and no other at the right
  EXPECT_EQ(steps[4].fall_right, -inches(0, 1, 2));
  EXPECT_EQ(steps[5].fall_right, inches(0, 1, 16));
  EXPECT_EQ(steps[13].fall_right, inches(0, 1, 8));
}

TEST(Tread, OutOfLevelByTwoInchesAtMost) {
  const auto at = [](Length right) {
    return with(small_job(), kF + "/rise_right", print_length(right, LengthUnit::inch));
  };
  EXPECT_TRUE(read(at(inches(9, 1, 2))).problems.empty());
  EXPECT_TRUE(read(at(inches(5, 1, 2))).problems.empty());
  EXPECT_EQ(only_problem(at(inches(9, 1, 2) + Length{1})).where, kF + "/rise_right");
  EXPECT_EQ(only_problem(at(inches(5, 1, 2) - Length{1})).where, kF + "/rise_right");
}

// Each reading moves what it must and no other step.
TEST(Tread, AReadingChangedChangesItsStepOnly) {
  const auto before = good_steps(winder_at("3"));
  for (const auto* key : {"front", "right", "back", "left", "diagonal_from_front_left"}) {
    auto job = winder_at("3");
    auto& reading = job[Json::json_pointer(kF + "/steps/3/tread/" + key)];
    reading = reading.is_number() ? Json(reading.get<double>() + 0.5) : Json("39 1/16");
    const auto after = good_steps(job);
    for (std::size_t i = 0; i < before.size(); ++i) {
      if (i == 2) continue;
      EXPECT_TRUE(after[i].rectangular());
      EXPECT_EQ(after[i].width, before[i].width);
      EXPECT_EQ(after[i].going, before[i].going);
    }
    const double moved = std::abs(after[2].left_side.back().x - before[2].left_side.back().x) +
                         std::abs(after[2].left_side.back().y - before[2].left_side.back().y) +
                         std::abs(after[2].right_side.back().x - before[2].right_side.back().x) +
                         std::abs(after[2].right_side.back().y - before[2].right_side.back().y) +
                         std::abs((after[2].width - before[2].width).mm());
    EXPECT_GT(moved, 5) << key;
    EXPECT_EQ(after[2].rise, before[2].rise);
  }
}

} // namespace
} // namespace treadfold
