// A flight's runner in the job: what it takes, what it is when silent, and what is refused.
#include "samples.h"
#include "validator.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

using namespace samples;

const std::string kR = std::string(kFlight) + "/runner";

Json runner_job() {
  return with(small_job(), kR, Json{{"width", "27"}, {"edges", "bound"}, {"top_end", "shows"}});
}

Runner runner_of(const Json& job) {
  const auto reading = read(job);
  EXPECT_FALSE(has_errors(reading.problems)) << told(reading.problems);
  const auto& runner = reading.job.stairs.at(0).flights.at(0).runner;
  EXPECT_TRUE(runner.has_value());
  return runner.value_or(Runner{});
}

TEST(RunnerOfJob, SaysItsWidthAndEdgesAndTheRestIsUsual) {
  const auto runner = runner_of(runner_job());
  EXPECT_EQ(runner.width, inches(27));
  EXPECT_EQ(runner.exposed_left, inches(4, 1, 2)); // in the middle of 36
  EXPECT_EQ(runner.edges, RunnerEdges::bound);
  EXPECT_EQ(runner.edge_takes, Length{});
  EXPECT_EQ(runner.strip_stop, inches(0, 3, 4));
  EXPECT_EQ(runner.wear_shift, Length{});
  const auto turned = runner_of(with(runner_job(), kR + "/edges", "turned"));
  EXPECT_EQ(turned.edge_takes, inches(1, 1, 4));
  EXPECT_EQ(turned.strip_stop, inches(1, 1, 4));
}

TEST(RunnerOfJob, MetricJobsTakeWholeMillimetres) {
  auto job = with(runner_job(), "/units", "mm");
  for (const auto& [key, value] : std::vector<std::pair<std::string, Json>>{
           {"/rise", 190},
           {"/going", 250},
           {"/width", 900},
           {"/nosing", {{"projection", 25}, {"thickness", 25}, {"profile", "square"}, {"arris_radius", 3}}},
           {"/right", "wall"},
           {"/runner/width", 700}})
    job = with(job, kFlight + key, value);
  EXPECT_EQ(runner_of(job).strip_stop, millimetres(19));
}

TEST(RunnerOfJob, IsCentredOnTheNarrowestStep) {
  const auto job = with(runner_job(), std::string(kFlight) + "/steps", Json{{"5-6", {{"width", "35"}}}});
  EXPECT_EQ(runner_of(job).exposed_left, inches(4));
}

TEST(RunnerOfJob, WhatDoesNotFitIsRefusedWhereItIsSaid) {
  struct Case {
    std::string pointer;
    Json value;
    std::string where;
  };
  const std::string f = kFlight;
  const Case cases[] = {
      {kR + "/width", "36 1/64", kR + "/width"},
      {kR + "/width", "5", kR + "/width"},
      {kR + "/exposed_left", "9 1/64", kR + "/exposed_left"},
      {kR + "/exposed_left", "-1", kR + "/exposed_left"},
      {kR + "/strip_stop", "14", kR + "/strip_stop"},
      {kR + "/edges", "raw", kR + "/edges"},
      {kR + "/longest", "6", kR + "/longest"},
      {kR + "/wear_shift", "18", kR + "/top_end"}, // its end is folded, so it cannot show too
      {kR + "/turn", "bend", kR + "/turn"},
      {f + "/join", 3, f + "/join"},
      {f + "/open_risers", true, f + "/open_risers"},
      {f + "/landing", Json{{"floor", "a"}, {"from_left", 0}}, f + "/landing"},
  };
  for (const auto& c : cases) {
    const auto reading = read(with(runner_job(), c.pointer, c.value));
    EXPECT_TRUE(says_error_at(reading.problems, c.where)) << c.pointer << "\n" << told(reading.problems);
  }
}

TEST(RunnerOfJob, FitsToTheTick) {
  EXPECT_EQ(runner_of(with(runner_job(), kR + "/width", "36")).exposed_left, Length{});
  EXPECT_EQ(runner_of(with(runner_job(), kR + "/exposed_left", "9")).exposed_left, inches(9));
}

TEST(RunnerOfJob, WhatItsEdgesCannotHaveIsRefused) {
  const auto turned = with(runner_job(), kR + "/edges", "turned");
  EXPECT_TRUE(says_error_at(read(with(turned, kR + "/binding", "tape")).problems, kR + "/binding"));
  EXPECT_TRUE(says_error_at(read(with(turned, kR + "/strip_stop", "1")).problems, kR + "/strip_stop"));
  const auto finished = with(runner_job(), kR + "/edges", "finished");
  EXPECT_TRUE(says_error_at(read(finished).problems, kR + "/edges")); // from a 12 ft roll
  EXPECT_TRUE(read(with(finished, "/carpets/0/widths", Json{"27"})).problems.empty());
  EXPECT_TRUE(says_error_at(
      read(with(with(finished, "/carpets/0/widths", Json{"27"}), kR + "/edge_takes", 1)).problems,
      kR + "/edge_takes"));
  // CRI 105, older edition, §17.2: no raw edges on stairs.
  const auto cut = read(with(runner_job(), kR + "/edges", "cut")).problems;
  ASSERT_EQ(cut.size(), 1u) << told(cut);
  EXPECT_EQ(cut[0].severity, Severity::warning);
  EXPECT_EQ(cut[0].where, kR + "/edges");
}

TEST(RunnerOfJob, ATopEndIsSaidUnlessAShiftFoldsIt) {
  const auto silent = without(runner_job(), kR + "/top_end");
  EXPECT_TRUE(says_error_at(read(silent).problems, kR + "/top_end"));
  EXPECT_EQ(runner_of(with(silent, kR + "/wear_shift", "25 1/2")).wear_shift, inches(25, 1, 2));
  // More than the landing edge holds flat is warned of.
  const auto deep = with(silent, std::string(kFlight) + "/landing_edge", "8");
  EXPECT_TRUE(read(with(deep, kR + "/wear_shift", "8")).problems.empty());
  const auto warned = read(with(deep, kR + "/wear_shift", "8 1/64")).problems;
  ASSERT_EQ(warned.size(), 1u) << told(warned);
  EXPECT_EQ(warned[0].severity, Severity::warning);
  EXPECT_EQ(warned[0].where, kR + "/wear_shift");
}

Json winding_job() {
  return with(runner_job(), std::string(kFlight) + "/steps",
              Json{{"5",
                    {{"tread",
                      {{"front", "36"},
                       {"back_right", {{"along", "36"}, {"off", "24"}}},
                       {"back_left", {{"along", "0"}, {"off", "6"}}}}}}},
                   {"6", {{"width", "40"}}}});
}

TEST(RunnerOfJob, AWinderAsksHowItTurns) {
  const auto silent = read(winding_job()).problems;
  EXPECT_TRUE(says_error_at(silent, kR + "/turn")) << told(silent);
  const auto seam = with(winding_job(), kR + "/turn", "seam");
  EXPECT_FALSE(has_errors(read(seam).problems)) << told(read(seam).problems);
  const auto shifted = read(with(without(seam, kR + "/top_end"), kR + "/wear_shift", "18")).problems;
  EXPECT_TRUE(says_error_at(shifted, kR + "/wear_shift")) << told(shifted);
  const auto finished =
      read(with(with(seam, kR + "/edges", "finished"), "/carpets/0/widths", Json{"27"})).problems;
  EXPECT_TRUE(says_error_at(finished, kR + "/edges")) << told(finished);
}

// A runner cannot lie where something stands, nor over a foot that no crease takes up.
TEST(RunnerOfJob, WhatStandsInItsWayIsRefused) {
  const auto newel = Json{{"4",
                           {{"newels", Json::array({Json{{"side", "right"},
                                                         {"shape", "square"},
                                                         {"size", "3"},
                                                         {"from_end", "7"},
                                                         {"from_nosing", "4"}}})}}}};
  const auto reading = read(with(runner_job(), std::string(kFlight) + "/steps", newel));
  EXPECT_TRUE(says_error_at(reading.problems, kR + "/width")) << told(reading.problems);
  const auto starter = Json{
      {"1",
       {{"starter", {{"right", {{"round", "half"}, {"past", "8"}, {"along", "7"}, {"across", "6 5/8"}}}}}}}};
  const auto curved = read(with(runner_job(), std::string(kFlight) + "/steps", starter));
  EXPECT_TRUE(says_error_at(curved.problems, kR)) << told(curved.problems);
}

// The carpet stays clear of the open ends, so what is said of hems there does not matter.
TEST(RunnerOfJob, OpenEndsAreNotWrapped) {
  const auto job = with(runner_job(), "/allowances", Json{{"hem", "5"}});
  EXPECT_FALSE(has_errors(read(job).problems));
  EXPECT_TRUE(has_errors(read(without(job, kR)).problems));
}

// In one strip nothing is cut to shape, so finished edges stay.
TEST(RunnerOfJob, AWinderIsTurnedByFoldingToo) {
  const auto fold = with(winding_job(), kR + "/turn", "fold");
  EXPECT_EQ(runner_of(fold).turn, RunnerTurn::fold);
  EXPECT_EQ(runner_of(with(fold, kR + "/turn", "seam")).turn, RunnerTurn::seam);
  const auto finished = with(with(fold, kR + "/edges", "finished"), "/carpets/0/widths", Json{"27"});
  EXPECT_FALSE(has_errors(read(finished).problems)) << told(read(finished).problems);
  const auto shifted = read(with(without(fold, kR + "/top_end"), kR + "/wear_shift", "18")).problems;
  EXPECT_TRUE(says_error_at(shifted, kR + "/wear_shift")) << told(shifted);
  EXPECT_EQ(Validator(job_schema()).complaints(fold), "");
}

TEST(RunnerOfJob, SchemaTakesWhatTheReaderTakes) {
  const Validator validator(job_schema());
  EXPECT_EQ(validator.complaints(runner_job()), "");
  for (const auto& [key, value] : std::vector<std::pair<std::string, Json>>{
           {"edges", "raw"}, {"top_end", "open"}, {"turn", "bend"}, {"breadth", "27"}, {"width", nullptr}}) {
    const auto job = with(runner_job(), kR + "/" + key, value);
    EXPECT_TRUE(has_errors(read(job).problems)) << key;
    EXPECT_NE(validator.complaints(job), "") << key;
  }
}

} // namespace
} // namespace treadfold
