// A curved starter in the job file.
#include "samples.h"
#include "validator.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

using namespace samples;

const std::string kF = kFlight;
constexpr const char* kHalf = R"({"round": "half", "past": "8", "along": "7", "across": "6 5/8"})";

Json with_starter(const std::string& starter) {
  return with(small_job(), kF + "/steps", parse(R"({"1": {"starter": )" + starter + "}}"));
}
Json right_half() { return with_starter(std::string(R"({"right": )") + kHalf + "}"); }

Step first_step(const Json& job) {
  const auto reading = read(job);
  EXPECT_TRUE(reading.problems.empty()) << told(reading.problems);
  EXPECT_EQ(Validator(job_schema()).complaints(job), "");
  return reading.job.stairs[0].flights[0].steps[0];
}

TEST(ReadStarter, ARoundEndReachesPastTheRiser) {
  const auto step = first_step(right_half());
  ASSERT_TRUE(step.starter);
  EXPECT_EQ(step.starter->front.right, EdgeStop::stringer);
  EXPECT_EQ(step.starter->front.left, EdgeStop::wall);
  EXPECT_TRUE(step.left.closed());
  EXPECT_EQ(step.right.kind, SideKind::open);
  EXPECT_NEAR(step.right.overhang.mm(), inches(8).mm(), 0.06); // seen from facets
  EXPECT_EQ(step.starter->closing, StarterClosing::band);
  EXPECT_EQ(step.starter->strain_limit, 0.02);
}

TEST(ReadStarter, ClosingAndGiveAreTheUsersOwn) {
  const auto step = first_step(with(with(right_half(), kF + "/steps/1/starter/closing", "cuts"),
                                    kF + "/steps/1/starter/give", "1.5 %"));
  EXPECT_EQ(step.starter->closing, StarterClosing::cuts);
  EXPECT_NEAR(step.starter->strain_limit, 0.015, 1e-12);
}

TEST(ReadStarter, OffsetsEndOnTheNextRisersLineOrAtTheRisersEnd) {
  const auto job = with_starter(R"({"offsets": [
      {"along": 0, "out": "11"}, {"along": 12, "out": 13}, {"along": 24, "out": 14}, {"along": 34, "out": 12},
      {"along": 40, "out": 6}, {"along": "41", "out": 0}]})");
  const auto step = first_step(job);
  ASSERT_TRUE(step.starter);
  EXPECT_EQ(step.starter->front.right, EdgeStop::back);
  EXPECT_EQ(step.starter->readings.offsets[4].where, kF + "/steps/1/starter/offsets/4");
  EXPECT_GT(step.right.overhang, inches(4, 15, 16));
}

TEST(ReadStarter, BadOnesAreSaidWhereTheyStand) {
  struct Case {
    Json job;
    std::string where;
    bool by_schema = true; // the schema sees it too
  };
  const auto in_starter = [&](const std::string& key, const Json& value) {
    return with(right_half(), kF + "/steps/1/starter" + key, value);
  };
  const std::string s = kF + "/steps/1/starter";
  const Case cases[] = {
      {with_starter("{}"), s},
      {in_starter("/right/round", "whole"), s + "/right/round"},
      {in_starter("/right/across", "2"), s + "/right/across", false}, // does not come round
      {in_starter("/right/along", "100"), s + "/right/along", false},
      {without(right_half(), s + "/right/past"), s + "/right/past"},
      {in_starter("/closing", "glue"), s + "/closing"},
      {in_starter("/give", "0.1 %"), s + "/give", false},
      {in_starter("/left", "round"), s + "/left"},
      {with_starter(R"({"left": "square"})"), s, false}, // the right is open
      {in_starter("/offsets", parse("[]")), s + "/offsets"},
      {with(
           right_half(), kF + "/steps/1/tread",
           parse(
               R"({"front": 36, "back_right": {"along": 36, "off": 20}, "back_left": {"along": 0, "off": 6}})")),
       s, false},
      {with(right_half(), kF + "/open_risers", true), s, false},
      {with(right_half(), kF + "/nosing",
            parse(R"({"projection": 1, "thickness": 1, "profile": "bevelled", "bevel": "1/4"})")),
       s, false},
      {with(right_half(), kF + "/steps/1/nosing", parse(R"({"projection": "1/8"})")), s, false},
      {with(small_job(), kF + "/steps",
            parse(std::string(R"({"2": {"starter": {"right": )") + kHalf + "}}}")),
       kF + "/steps/2/starter", false},
      {with_starter(std::string(R"({"left": )") + kHalf +
                    R"(, "right": {"round": "half", "past": 8, "along": 30, "across": "6 5/8"}})"),
       s, false}, // they overlap
  };
  for (const auto& c : cases) {
    const auto problems = read(c.job).problems;
    ASSERT_FALSE(problems.empty()) << c.where;
    const bool there = std::any_of(problems.begin(), problems.end(), [&](const auto& p) {
      return p.severity == Severity::error && p.where == c.where;
    });
    EXPECT_TRUE(there) << c.where << " not in:\n" << told(problems);
    if (c.by_schema) {
      EXPECT_NE(Validator(job_schema()).complaints(c.job), "") << c.where;
    }
  }
}

TEST(ReadStarter, UprightsStandOnItsLevelWoodOrAreRefused) {
  const auto newel = [&](const char* from_nosing, const char* from_end) {
    auto row = parse(R"([{"side": "right", "shape": "square", "size": 3}])");
    row[0]["from_nosing"] = from_nosing;
    row[0]["from_end"] = from_end;
    return with(right_half(), kF + "/steps/1/newels", row);
  };
  EXPECT_EQ(first_step(newel("4", "2")).uprights.size(), 1u);
  const auto problems = read(newel("1", "2")).problems;
  ASSERT_EQ(problems.size(), 1u) << told(problems);
  EXPECT_NE(problems[0].found.find("in front of the tread's level"), std::string::npos) << problems[0].found;
}

} // namespace
} // namespace treadfold
