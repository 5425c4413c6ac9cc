// Any one value dropped, renamed or garbled: the job reads, or the problem stands at a place that can be
// found.
#include "samples.h"
#include "validator.h"

#include <gtest/gtest.h>
#include <set>

namespace treadfold {
namespace {

using namespace samples;
using Pointer = Json::json_pointer;

std::vector<std::string> all_places(const Json& job) {
  std::vector<std::string> places;
  const Json leaves = job.flatten(); // their parents follow from them
  for (const auto& [pointer, value] : leaves.items())
    for (Pointer p(pointer); !p.empty(); p = p.parent_pointer())
      places.push_back(p.to_string());
  std::sort(places.begin(), places.end());
  places.erase(std::unique(places.begin(), places.end()), places.end());
  return places;
}

/// The place exists, or its parent does and it is missing there. A default of the allowances may be what does
/// not fit, with no allowances said at all.
bool can_be_found(const Json& job, const std::string& where) {
  const Pointer p(where);
  if (job.contains(p) || where.starts_with("/allowances/")) return true;
  return job.contains(p.parent_pointer()) && job[p.parent_pointer()].is_object();
}

void expect_findable(const Json& job, const JobReading& reading, const std::string& what) {
  for (const auto& p : reading.problems) {
    ASSERT_TRUE(can_be_found(job, p.where)) << what << ": " << sentence(p);
    ASSERT_FALSE(p.found.empty() || p.expected.empty()) << what;
  }
}

class EachExample : public testing::TestWithParam<int> {
protected:
  Json job = parse(example_texts()[static_cast<std::size_t>(GetParam())]);
  Validator validator{job_schema()};

  /// The schema is the looser of the two: what it refuses, the reader refuses.
  void expect_agreement(const Json& changed, const JobReading& reading, const std::string& what) {
    if (has_errors(reading.problems)) return;
    ASSERT_EQ(validator.complaints(changed), "") << what;
  }
};

TEST_P(EachExample, AnyValueDroppedReadsOrIsMissedAtItsPlace) {
  int missed = 0;
  for (const auto& place : all_places(job)) {
    const Json changed = without(job, place);
    const auto reading = read(changed);
    expect_findable(changed, reading, "without " + place);
    expect_agreement(changed, reading, "without " + place);
    missed += says_error_at(reading.problems, place) ? 1 : 0;
  }
  EXPECT_GT(missed, 30);
}

TEST_P(EachExample, AnyValueMadeNullIsRefusedAtItsPlace) {
  for (const auto& place : all_places(job)) {
    const Json changed = with(job, place, nullptr);
    const auto reading = read(changed);
    EXPECT_TRUE(says_error_at(reading.problems, place)) << place << "\n" << told(reading.problems);
    expect_findable(changed, reading, "null at " + place);
  }
}

TEST_P(EachExample, AnyValueGarbledReadsOrIsRefusedWhereItCanBeFound) {
  const std::vector<Json> garbage = {true,
                                     -3,
                                     0,
                                     1,
                                     12.345678,
                                     1e300,
                                     9007199254740993,
                                     "",
                                     "abc",
                                     "3",
                                     "-1 in",
                                     "5 %",
                                     std::string(1, '\0'),
                                     Json::array(),
                                     Json::object(),
                                     Json::array({1}),
                                     {{"x", 1}},
                                     {{"open", 1}},
                                     std::string(2000, 'x')};
  for (const auto& place : all_places(job))
    for (const auto& value : garbage) {
      const Json changed = with(job, place, value);
      const auto reading = read(changed);
      const std::string what = place + " = " + value.dump().substr(0, 40);
      expect_findable(changed, reading, what);
      expect_agreement(changed, reading, what);
    }
}

TEST_P(EachExample, AnyKeyMisspeltIsNamed) {
  for (const auto& place : all_places(job)) {
    const Pointer p(place);
    const Pointer parent = p.parent_pointer();
    const bool step_number = !parent.empty() && parent.back() == "steps";
    if (!job[parent].is_object() || step_number || place == "/treadfold") continue; // no version, no reading
    const Json value = job[p];
    const std::string misspelt = place + "q";
    const Json changed = with(without(job, place), misspelt, value);
    const auto problems = read(changed).problems;
    EXPECT_TRUE(says_error_at(problems, misspelt)) << misspelt;
    for (const auto& problem : problems) {
      if (problem.where != misspelt) continue;
      EXPECT_EQ(problem.expected, "'" + p.back() + "'");
    }
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, EachExample, testing::Range(0, 3));

} // namespace
} // namespace treadfold
