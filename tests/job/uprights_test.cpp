// Balusters and newels in the job file.
#include "samples.h"
#include "validator.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

using namespace samples;

const std::string kF = kFlight;
constexpr const char* kRow = R"({"side": "right", "shape": "square", "size": "1 1/4", "from_end": "1 1/2",
                                 "from_nosing": "2", "spacing": "4", "count": 2})";
constexpr const char* kNewel = R"({"side": "right", "shape": "round", "size": "3 1/2", "from_end": "2 1/2",
                                   "from_nosing": "3"})";

Json with_rows(const std::string& rows = std::string("[") + kRow + "]") {
  return with(small_job(), kF + "/balusters", parse(rows));
}

std::vector<Step> steps_of(const Json& job) {
  const auto reading = read(job);
  EXPECT_TRUE(reading.problems.empty()) << told(reading.problems);
  EXPECT_EQ(Validator(job_schema()).complaints(job), "");
  return reading.job.stairs[0].flights[0].steps;
}

std::string only_error(const Json& job) {
  const auto problems = read(job).problems;
  EXPECT_EQ(problems.size(), 1u) << told(problems);
  return problems.empty() ? "" : sentence(problems[0]);
}

TEST(ReadUprights, UsualTreadsHaveThemAndTheTopmostStepHasNone) {
  const auto steps = steps_of(with_rows());
  ASSERT_EQ(steps.size(), 14u);
  for (const auto& step : steps)
    EXPECT_EQ(step.uprights.size(), step.landing_edge ? 0u : 2u) << step.number;
  const auto& second = steps[0].uprights[1];
  EXPECT_EQ(second.word, "baluster");
  EXPECT_FALSE(second.round);
  EXPECT_EQ(second.width, inches(1, 1, 4));
  EXPECT_EQ(second.depth, inches(1, 1, 4));
  EXPECT_EQ(second.where, kF + "/balusters/0");
  EXPECT_NEAR(second.centre.x / 25.4, 36 + 1.25 - 1.5,
              1e-9); // small_job's tread ends 1 1/4 in past its riser
  EXPECT_NEAR(second.centre.y / 25.4, 2 - 1 + 4, 1e-9);
}

TEST(ReadUprights, ExceptionsReplaceBalustersAndNewelsEachOnTheirOwn) {
  auto job = with(with_rows(), kF + "/steps",
                  parse(std::string(R"({"1": {"newels": [)") + kNewel +
                        R"(], "balusters": []}, "2": {"rise": "7"},
                                                    "14": {"newels": [{"side": "right", "shape": "square",
                                                    "size": 3, "depth": 2, "from_end": 2, "from_nosing": 3}]}})"));
  const auto steps = steps_of(job);
  ASSERT_EQ(steps[0].uprights.size(), 1u);
  EXPECT_EQ(steps[0].uprights[0].word, "newel");
  EXPECT_TRUE(steps[0].uprights[0].round);
  EXPECT_EQ(steps[1].uprights.size(), 2u);
  ASSERT_EQ(steps[13].uprights.size(), 1u);
  EXPECT_EQ(steps[13].uprights[0].width, inches(3));
  EXPECT_EQ(steps[13].uprights[0].depth, inches(2));
}

TEST(RefuseUprights, WhatIsMissingOrAbsurdIsNamedAtItsPlaceAndBySchema) {
  struct Case {
    const char *pointer, *value; // "" removes it
  };
  const Case cases[] = {
      {"/side", ""},    {"/side", R"("middle")"}, {"/shape", ""},       {"/shape", R"("oval")"},
      {"/size", ""},    {"/from_end", ""},        {"/from_nosing", ""}, {"/count", "0"},
      {"/count", "41"}, {"/post", "1"},           {"/size", "-1"}};
  const Validator validator(job_schema());
  for (const auto& c : cases) {
    const std::string at = kF + "/balusters/0" + c.pointer, value = c.value;
    const Json job = value.empty() ? without(with_rows(), at) : with(with_rows(), at, parse(value));
    EXPECT_TRUE(says_error_at(read(job).problems, at)) << at << told(read(job).problems);
    EXPECT_NE(validator.complaints(job), "") << at << value;
  }
  EXPECT_TRUE(says_error_at(read(without(with_rows(), kF + "/balusters/0/spacing")).problems,
                            kF + "/balusters/0/spacing"));
  EXPECT_TRUE(
      says_error_at(read(with(with_rows(), kF + "/newels", parse(std::string("[") + kRow + "]"))).problems,
                    kF + "/newels/0/spacing"));
}

TEST(RefuseUprights, ARoundOneHasNoDepth) {
  auto job = with(with_rows(), kF + "/balusters/0/shape", "round");
  EXPECT_EQ(only_error(with(job, kF + "/balusters/0/depth", "1")),
            kF +
                "/balusters/0/depth: found the depth of a round baluster, expected none: its size says all.");
}

TEST(RefuseUprights, WhatDoesNotStandOnTheTreadIsSaidOnce) {
  EXPECT_EQ(
      only_error(with(with_rows(), kF + "/balusters/0/spacing", "7 1/2")),
      kF + "/balusters/0: found baluster 2 of step 1 in the nosing of the next step, expected its back 1\" "
           "or more in front of the next riser.");
  EXPECT_EQ(
      only_error(
          with(with_rows(), kF + "/balusters/0/side", "left")
              .patch(parse(
                  R"([{"op": "replace", "path": "/stairs/0/flights/0/balusters/0/from_end", "value": 0.5}])"))),
      kF + "/balusters/0: found baluster 1 of step 1 outside the tread, on the left, expected all of it on "
           "the tread.");
}

} // namespace
} // namespace treadfold
