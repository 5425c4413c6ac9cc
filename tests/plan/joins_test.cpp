// Joins left to the layout: what is chosen, that it buys no more than any one limit, and what is told of it.
#include "../job/samples.h"
#include "../job/validator.h"
#include "join_ways.h"
#include "joins.h"
#include "recut.h"
#include "sheets/sheets.h"

#include <numeric>

#include <gtest/gtest.h>
#include <rapidcheck.h>

namespace treadfold {
namespace {

using namespace samples;

Json at_most(int k) { return {{"at_most", k}}; }

/// One flight between walls on 12 ft goods, sold by the inch: three steps abreast.
Json closed_job(int risers, const Json& join) {
  auto job = with(small_job(), std::string(kFlight) + "/right", "wall");
  job = with(job, "/carpets/0/sold_in", "1");
  job = with(job, std::string(kFlight) + "/risers", risers);
  return with(job, std::string(kFlight) + "/join", join);
}

Plan planned(const Json& job, int work = 2000) {
  const auto reading = read(job);
  EXPECT_FALSE(has_errors(reading.problems)) << told(reading.problems);
  PlanOptions options;
  options.layout.work = work;
  return plan(reading, options);
}

double bought_m2(const Plan& plan) {
  double area = 0;
  for (const auto& layout : plan.layouts)
    for (const auto& roll : layout.rolls)
      if (!roll.remnant) area += roll.width.mm() * roll.length_to_buy.mm() * 1e-6;
  return area;
}

std::vector<int> sizes(const Plan& plan) {
  std::vector<int> sizes;
  for (const auto& planned : plan.pieces)
    sizes.push_back(static_cast<int>(planned.steps.size()));
  return sizes;
}

bool warns_at(const Plan& plan, const std::string& where) {
  return std::any_of(plan.problems.begin(), plan.problems.end(),
                     [&](const Problem& p) { return p.severity == Severity::warning && p.where == where; });
}

TEST(WaysToDivide, AreAsSaid) {
  EXPECT_EQ(even_sizes(5, 2), (PieceSizes{2, 2, 1}));
  EXPECT_EQ(ways_to_divide(3, 2), (std::vector<PieceSizes>{{1, 1, 1}, {2, 1}, {1, 2}}));
  EXPECT_EQ(ways_to_divide(1, 6), (std::vector<PieceSizes>{{1}}));
}

TEST(WaysToDivide, AddUpWithNoneTwiceAndTheEvenOnesAmongThem) {
  for (const int steps : {1, 2, 7, 14, 20, 21, 60})
    for (int most = 1; most <= 6; ++most) {
      auto ways = ways_to_divide(steps, most);
      for (const auto& way : ways) {
        EXPECT_EQ(std::accumulate(way.begin(), way.end(), 0), steps);
        EXPECT_LE(*std::max_element(way.begin(), way.end()), most);
        EXPECT_GE(*std::min_element(way.begin(), way.end()), 1);
      }
      for (int limit = 1; limit <= most; ++limit)
        EXPECT_NE(std::find(ways.begin(), ways.end(), even_sizes(steps, limit)), ways.end())
            << steps << " by " << limit << " of " << most;
      std::sort(ways.begin(), ways.end());
      EXPECT_EQ(std::adjacent_find(ways.begin(), ways.end()), ways.end());
    }
}

// Three abreast in one row: a piece of two steps would ask for two rows' length.
TEST(Joins, StepsStayOnTheirOwnWhereThatIsLeast) {
  const auto best = planned(closed_job(3, at_most(3)));
  EXPECT_EQ(sizes(best), (std::vector<int>{1, 1, 1}));
  EXPECT_LT(bought_m2(best), bought_m2(planned(closed_job(3, 2))));
  EXPECT_EQ(best.job.stairs[0].flights[0].join, 1);
}

// Five steps: singly two rows of three places. One joined piece, of the two shortest, beside two columns of a
// step on a step or of as many joined, needs what two allowances less make.
TEST(Joins, AreChosenWhereTheyBuyLess) {
  const auto best = planned(closed_job(6, at_most(2)));
  EXPECT_LT(bought_m2(best), bought_m2(planned(closed_job(6, 1))));
  EXPECT_EQ(best.job.stairs[0].flights[0].join, 2);
}

// Thirteen steps at most three to a piece: 3, 3, 3, 3, 1 lie in two rows of three steps' length; mixed sizes
// lie in three columns of four and five steps.
TEST(Joins, SizesMayDifferWithinAFlight) {
  const auto best = planned(closed_job(13, at_most(3)));
  for (int limit = 1; limit <= 3; ++limit)
    EXPECT_LT(bought_m2(best), bought_m2(planned(closed_job(13, limit)))) << limit;
}

TEST(Joins, AtMostOneIsEveryStepOnItsOwn) {
  const auto pieces = [](const Plan& plan) { return Json::parse(plan_json(plan))["pieces"]; };
  EXPECT_EQ(pieces(planned(closed_job(7, at_most(1)))), pieces(planned(closed_job(7, 1))));
}

Json random_job(bool& remnant) {
  const auto pick = [](int least, int most) { return *rc::gen::inRange(least, most + 1); };
  const auto sixteenths = [&](int least, int most) {
    const int n = pick(least * 16, most * 16);
    return std::to_string(n / 16) + " " + std::to_string(n % 16) + "/16";
  };
  auto job = closed_job(pick(1, 8), at_most(pick(2, 4)));
  const std::string flight = kFlight;
  job = with(job, flight + "/width", sixteenths(26, 44));
  job = with(job, flight + "/going", sixteenths(9, 12));
  if (pick(0, 1)) job = with(job, flight + "/cover", "wrapped");
  if (pick(0, 2) == 0)
    job = with(job, flight + "/right", parse(R"({"open": {"overhang": "1 1/4", "return": "1"}})"));
  if (pick(0, 2) == 0) job = with(job, flight + "/steps", parse(R"({"1": {"width": "47"}})"));
  if (pick(0, 1)) {
    auto second = job[Json::json_pointer(flight)];
    second["name"] = "second", second["risers"] = pick(1, 4), second["width"] = sixteenths(26, 44);
    second["join"] = pick(0, 1) ? at_most(pick(1, 3)) : Json(pick(1, 3));
    second.erase("steps");
    job["stairs"][0]["flights"].push_back(second);
  }
  if (pick(0, 1)) job = with(job, "/carpets/0/widths", parse(R"(["12 ft", "13' 2"])"));
  if (pick(0, 1)) job = with(job, "/carpets/0/sold_in", "6");
  if (pick(0, 3) == 0)
    job = with(job, "/carpets/0/pattern", parse(R"({"width": "9", "length": "12", "match": "set"})"));
  if (pick(0, 3) == 0) job = with(job, "/carpets/0/roll_length", "16 ft");
  remnant = pick(0, 3) == 0;
  if (remnant)
    job = with(job, "/carpets/0/remnants",
               Json::array({{{"name", "stub"}, {"width", "5 ft"}, {"length", "6 ft"}, {"dye_lot", "L"}}}));
  return job;
}

/// The job with one limit for every flight that leaves it open.
Json limited(Json job, int limit) {
  for (auto& flight : job["stairs"][0]["flights"])
    if (flight["join"].is_object()) flight["join"] = std::min(limit, flight["join"]["at_most"].get<int>());
  return job;
}

TEST(Joins, BuyNoMoreThanAnyOneLimitAndCoverEachStepOnce) {
  constexpr int kWork = 50;
  const bool passed = rc::check([] {
    bool remnant = false;
    const auto job = random_job(remnant);
    RC_LOG(job.dump());
    const auto best = planned(job, kWork);
    for (std::size_t f = 0; f < best.job.stairs[0].flights.size(); ++f) {
      const auto& flight = best.job.stairs[0].flights[f];
      std::vector<int> covered;
      for (const auto& planned : best.pieces) {
        if (planned.piece.flight_index != static_cast<int>(f)) continue;
        RC_ASSERT(static_cast<int>(planned.steps.size()) <= flight.join_at_most.value_or(flight.join));
        RC_ASSERT(static_cast<int>(planned.steps.size()) <= flight.join);
        for (const auto& step : planned.steps)
          covered.push_back(step.number);
      }
      std::vector<int> all(flight.steps.size());
      std::iota(all.rbegin(), all.rend(), 1);
      RC_ASSERT(covered == all);
    }
    RC_ASSERT(!has_errors(best.problems));
    for (int limit = 1; limit <= 4; ++limit) {
      const auto even = planned(limited(job, limit), kWork);
      if (!has_errors(even.problems)) RC_ASSERT(bought_m2(best) <= bought_m2(even) + 1e-9);
    }
    RC_ASSERT(plan_json(best) == plan_json(planned(job, kWork)));
    RC_ASSERT(Validator(job_schema()).complaints(job) == "");
    RC_ASSERT(Validator(plan_schema()).complaints(Json::parse(plan_json(best))) == "");
  });
  EXPECT_TRUE(passed);
}

// What depends on joining is asked of what was chosen, not of what could have been.
TEST(Joins, WarningsAreOfTheChosen) {
  const auto shallow = [](int risers) {
    auto job = with(closed_job(risers, at_most(3)), "/allowances", parse(R"({"crease": "1/16"})"));
    return with(
        job, "/cushion",
        parse(R"({"name": "pad", "thickness": "3/8", "roll_width": "6 ft", "roll_length": "45 ft"})"));
  };
  EXPECT_TRUE(warns_at(planned(shallow(6)), "/allowances/crease"));
  EXPECT_FALSE(warns_at(planned(shallow(3)), "/allowances/crease")); // single steps are least
}

TEST(Joins, AreToldOnTheRollSheetAndInThePlan) {
  const auto best = planned(closed_job(6, at_most(2))), single = planned(closed_job(6, 1));
  const auto saved = single.layouts[0].rolls[0].length_to_buy - best.layouts[0].rolls[0].length_to_buy;
  std::string words;
  for (const auto& sheet : draw_sheets(best))
    if (sheet.name == "roll-plain")
      for (const auto& text : sheet.pages.at(0).texts)
        words += text.text + " ";
  std::string list;
  for (const int size : sizes(best))
    list += (list.empty() ? "" : ", ") + std::to_string(size);
  EXPECT_NE(words.find("Steps joined " + list + ": " + show_length(saved, LengthUnit::inch, true)),
            std::string::npos)
      << words;
  const auto json = Json::parse(plan_json(best));
  EXPECT_EQ(json["stairs"][0]["flights"][0]["join_at_most"], 2);
  EXPECT_EQ(json["stairs"][0]["flights"][0]["join"], 2);
  EXPECT_EQ(json["layouts"][0]["singly"]["length_to_buy_mm"],
            Json::parse(plan_json(single))["layouts"][0]["rolls"][0]["length_to_buy_mm"]);
  EXPECT_FALSE(Json::parse(plan_json(single))["layouts"][0].contains("singly"));
}

TEST(Joins, ChosenOnesAreCutStepByStepWhereTheyHaveNoRoomWhole) {
  auto job = closed_job(13, at_most(3));
  const auto before = planned(job);
  const auto& roll = before.layouts[0].rolls[0];
  job = with(job, "/cutting", Json::array({{{"carpet", "plain"}, {"roll_length", "7 ft 6"}}}));
  const auto recuts = recut(planned(job));
  ASSERT_EQ(told(recuts.problems), "");
  ASSERT_GT(roll.length_used, inches(90));
  bool smaller = false;
  for (const auto& way : recuts.carpets.at(0).ways)
    for (const auto& replaced : way.replaced) {
      smaller |= way.how == Remedy::smaller_join;
      const auto whole = std::find_if(before.pieces.begin(), before.pieces.end(),
                                      [&](const auto& p) { return p.piece.id == replaced.piece; });
      ASSERT_NE(whole, before.pieces.end());
      EXPECT_EQ(replaced.by.size(), whole->steps.size());
    }
  EXPECT_TRUE(smaller);
}

TEST(Joins, WhatCannotBeALimitIsNamed) {
  const auto complaint = [](const Json& join) {
    const auto problems = read(closed_job(6, join)).problems;
    return problems.size() == 1 ? sentence(problems.front()) : told(problems);
  };
  const std::string at = std::string(kFlight) + "/join";
  EXPECT_EQ(complaint(at_most(0)), at + "/at_most: found 0, expected a whole number from 1 to 6.");
  EXPECT_EQ(complaint(at_most(7)), at + "/at_most: found 7, expected a whole number from 1 to 6.");
  EXPECT_EQ(complaint({{"at_most", "three"}}),
            at + "/at_most: found 'three', expected a whole number from 1 to 6.");
  EXPECT_EQ(complaint(Json::object()), at + "/at_most: found nothing, expected a whole number from 1 to 6.");
  EXPECT_EQ(complaint(7), at + ": found 7, expected a whole number from 1 to 6.");
  EXPECT_EQ(complaint("best"),
            at + ": found 'best', expected a whole number from 1 to 6, alone or as 'at_most'.");
  EXPECT_EQ(complaint({{"at_most", 3}, {"most", 3}}),
            at + "/most: found the unknown key 'most', expected 'at_most'.");
}

} // namespace
} // namespace treadfold
