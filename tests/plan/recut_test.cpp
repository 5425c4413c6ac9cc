// Some pieces are cut, one is spoiled: which way out is found, and what is refused.
#include "../job/samples.h"
#include "../job/validator.h"
#include "recut.h"
#include "sheets/recut_sheet.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

using namespace samples;

/// Closed at both sides, 38 in × 20 1/8 in a step, three abreast on 12 ft goods.
Json closed_job() {
  auto job = with(small_job(), std::string(kFlight) + "/right", "wall");
  return with(job, std::string(kFlight) + "/risers", 13);
}

Plan planned(const Json& job) {
  const auto reading = read_job(job.dump());
  for (const auto& p : reading.problems)
    EXPECT_NE(p.severity, Severity::error) << sentence(p);
  return plan(reading);
}

Json cutting(const Json& more) {
  Json entry{{"carpet", "plain"}};
  entry.update(more);
  return Json::array({entry});
}

Recut of(const Json& job, const Json& more) {
  const auto recuts = recut(planned(with(job, "/cutting", cutting(more))));
  for (const auto& p : recuts.problems)
    ADD_FAILURE() << sentence(p);
  EXPECT_EQ(recuts.carpets.size(), 1u);
  return recuts.carpets.at(0);
}

std::string refused(const Json& job, const Json& more) {
  const auto recuts = recut(planned(with(job, "/cutting", cutting(more))));
  EXPECT_TRUE(recuts.carpets.empty());
  return recuts.problems.empty() ? "" : sentence(recuts.problems.front());
}

/// Pieces of the layout in the order in which they are freed, about.
std::vector<std::string> in_order(const Plan& plan) {
  std::vector<std::string> ids;
  for (const auto& roll : plan.layouts.at(0).rolls)
    for (const auto& p : roll.placements)
      ids.push_back(p.piece);
  return ids;
}

TEST(Recut, WhatTheKnifeHasLeftIsFound) {
  const auto ids = in_order(planned(closed_job())); // the last row has room for two more
  const auto r = of(closed_job(), {{"cut", {ids[1]}}, {"spoiled", {ids[0]}}});
  ASSERT_EQ(r.ways.size(), 1u);
  EXPECT_EQ(r.ways[0].how, Remedy::as_planned);
  EXPECT_EQ(r.ways[0].recovered.length_to_buy, Length{});
  EXPECT_EQ(r.to_cut.size(), 12u);
  EXPECT_EQ(r.ways[0].recovered.as_planned.size(), 11u);
}

TEST(Recut, ARollThatCameShortAsksForWhatIsMissing) {
  const auto r = of(closed_job(), {{"roll_length", "6 ft"}}); // three rows of the five
  ASSERT_FALSE(r.ways.empty());
  EXPECT_EQ(r.ways[0].recovered.length_to_buy, kFoot * 4); // 2 × 20 1/8 in, as it is sold
}

TEST(Recut, JoinedPiecesAreCutStepByStepWhereTheyHaveNoRoomWhole) {
  const auto job = with(closed_job(), std::string(kFlight) + "/join", 3);
  // Four joined pieces of about 59 in and the landing edge: in 8 ft only three of them find room. Singly,
  // four rows of 20 1/8 in and one of the landing edge do.
  const auto r = of(job, {{"roll_length", "8 ft"}});
  ASSERT_FALSE(r.ways.empty());
  const auto smaller =
      std::find_if(r.ways.begin(), r.ways.end(), [](const Way& w) { return w.how == Remedy::smaller_join; });
  ASSERT_NE(smaller, r.ways.end());
  EXPECT_EQ(&*smaller, &r.ways.front());
  EXPECT_EQ(smaller->recovered.length_to_buy, Length{});
  EXPECT_FALSE(smaller->replaced.empty());
  for (const auto& replaced : smaller->replaced) {
    EXPECT_GE(replaced.by.size(), 2u) << replaced.piece;
    for (const auto& piece : replaced.by)
      EXPECT_LT(piece.length, inches(24)) << piece.id;
  }
}

TEST(Recut, AWrappedStepIsSeamedUnderItsNosing) {
  auto job = with(closed_job(), std::string(kFlight) + "/cover", "wrapped");
  job = with(job, std::string(kFlight) + "/risers", 2);
  const auto plan = planned(job);
  const auto& piece = plan.pieces.at(1).piece; // step 1
  const auto r = of(job, {{"roll_length", "18"}});
  const auto seamed =
      std::find_if(r.ways.begin(), r.ways.end(), [](const Way& w) { return w.how == Remedy::hidden_seam; });
  ASSERT_NE(seamed, r.ways.end());
  EXPECT_EQ(seamed->recovered.length_to_buy, Length{});
  EXPECT_EQ(&*seamed, &r.ways.front());
  const auto& by = seamed->replaced.at(0).by;
  ASSERT_EQ(by.size(), 2u);
  // Both seam edges have 1/2 in to trim; no carpet is lost or won between them.
  EXPECT_LE(by[0].length + by[1].length, piece.cut_length + kInch + inches(0, 1, 8));
  EXPECT_GE(by[0].length + by[1].length, piece.cut_length + kInch);
  // Tread 10 in and nosing 1 in, its front 1 in and back under it 1 in, less the bends; 3/4 in to tuck.
  EXPECT_NEAR(by[0].length.mm() / 25.4, 10 + 1 + 1 + 1 + 0.75 + 0.5, 0.35);
}

TEST(Recut, ARemnantOfTheRollsLotServes) {
  auto job = with(closed_job(), "/carpets/0/dye_lot", "L4");
  job = with(job, std::string(kFlight) + "/risers", 12); // four full rows: a step less would not shorten them
  job = with(job, "/carpets/0/remnants",
             Json::array({{{"name", "stub"}, {"width", "39"}, {"length", "21"}, {"dye_lot", "L4"}}}));
  const auto plan = planned(job);
  ASSERT_EQ(plan.layouts.at(0).rolls.size(), 1u) << "the remnant does not shorten the order";
  const auto ids = in_order(plan);
  const auto r = of(job, {{"spoiled", {ids[0]}}});
  ASSERT_FALSE(r.ways.empty());
  EXPECT_EQ(r.ways[0].how, Remedy::other_remnant);
}

TEST(Recut, TheWayThatIsAskedForIsTaken) {
  const Json short_roll{{"roll_length", "6 ft"}};
  const auto best = of(closed_job(), short_roll);
  ASSERT_GE(best.ways.size(), 2u);
  EXPECT_EQ(best.taken, 0u);
  for (const auto& way : best.ways) {
    auto asking = short_roll;
    asking["way"] = word(way.how);
    const auto r = of(closed_job(), asking);
    ASSERT_EQ(r.ways.size(), best.ways.size());
    EXPECT_EQ(r.ways[r.taken].how, way.how);
    for (std::size_t i = 0; i < r.ways.size(); ++i)
      EXPECT_EQ(r.ways[i].words, best.ways[i].words) << "the same ways, in the same order";
  }
}

TEST(Recut, AWayThatIsAskedForIsTriedThoughOneBeforeItFits) {
  const auto ids = in_order(planned(closed_job()));
  const auto r = of(closed_job(), {{"cut", {ids[1]}}, {"spoiled", {ids[0]}}, {"way", "laid_anew"}});
  ASSERT_EQ(r.ways.size(), 2u);
  EXPECT_EQ(r.ways[0].how, Remedy::as_planned);
  EXPECT_EQ(r.taken, 1u);
  EXPECT_LT(r.ways[1].recovered.as_planned.size(), r.ways[0].recovered.as_planned.size());
}

TEST(Recut, OfTwoRemnantsTheOneThatIsNamedIsTaken) {
  auto job = with(closed_job(), "/carpets/0/dye_lot", "L4");
  job = with(job, std::string(kFlight) + "/risers", 12);
  const auto remnant = [](const char* name) {
    return Json{{"name", name}, {"width", "39"}, {"length", "21"}, {"dye_lot", "L4"}};
  };
  job = with(job, "/carpets/0/remnants", Json::array({remnant("near"), remnant("far")}));
  const auto ids = in_order(planned(job));
  const auto r = of(job, {{"spoiled", {ids[0]}}, {"way", "other_remnant"}, {"remnant", "far"}});
  EXPECT_EQ(r.ways[r.taken].remnant, "far");
  EXPECT_EQ(r.ways[r.taken].recovered.parts.at(0).of, "far");
  EXPECT_EQ(of(job, {{"spoiled", {ids[0]}}, {"way", "other_remnant"}}).ways[0].remnant, "near");
}

TEST(Recut, AWayThatIsNoneIsSaidAndTheBestTaken) {
  const auto recuts = recut(
      planned(with(closed_job(), "/cutting", cutting({{"roll_length", "6 ft"}, {"way", "hidden_seam"}}))));
  ASSERT_EQ(recuts.problems.size(), 1u);
  EXPECT_EQ(recuts.problems[0].severity, Severity::warning);
  EXPECT_EQ(
      sentence(recuts.problems[0]),
      "/cutting/0/way: found 'hidden_seam', which is no way out here, expected a way that there is; the best "
      "is taken: all that can stay is cut as planned.");
  ASSERT_EQ(recuts.carpets.size(), 1u);
  EXPECT_EQ(recuts.carpets[0].taken, 0u);
}

TEST(Recut, TheSheetIsOfTheWayThatIsTaken) {
  const auto rows = [](const char* way) {
    const auto plan =
        planned(with(closed_job(), "/cutting", cutting({{"roll_length", "6 ft"}, {"way", way}})));
    const auto recuts = recut(plan);
    const auto& taken = recuts.carpets.at(0).ways.at(recuts.carpets[0].taken);
    EXPECT_EQ(std::string(word(taken.how)), way);
    std::size_t placed = 0;
    for (const auto& part : taken.recovered.parts)
      placed += part.layout.placements.size();
    const auto sheet = recut_sheet(plan, recuts);
    EXPECT_EQ(sheet.table.rows.size(), placed);
    return sheet.table.rows;
  };
  EXPECT_NE(rows("as_planned"), rows("laid_anew"));
}

TEST(Recut, WhatCannotBeSoIsRefusedWhereItIsSaid) {
  const auto job = closed_job();
  const auto ids = in_order(planned(job));
  EXPECT_EQ(refused(job, {{"cut", {"A-77"}}}),
            "/cutting/0/cut/0: found 'A-77', expected a piece of carpet 'plain', such as " + ids[0] + ".");
  EXPECT_EQ(refused(job, {{"cut", {"A-02"}}, {"spoiled", {"A-02"}}}),
            "/cutting/0/spoiled/0: found A-02 again, expected each piece once: it is good or it is spoiled.");
  EXPECT_EQ(
      refused(job, {{"spoiled",
                     Json::array({{{"piece", "A-02"}, {"sound_width", "40"}, {"sound_length", "9"}}})}}),
      "/cutting/0/spoiled/0: found more sound than A-02 was large, expected no more than 3' 2\" × 20 1/8\".");
  EXPECT_EQ(refused(job, {{"of", "the other"}, {"roll_length", "9 ft"}}),
            "/cutting/0/of: found 'the other', expected one of 'roll 12' 0\"'.");
  const auto short_of = refused(job, {{"cut", {ids.back()}}, {"roll_length", "3 ft"}});
  EXPECT_TRUE(short_of.starts_with("/cutting/0/roll_length: found 3' 0\", expected at least ")) << short_of;
  EXPECT_EQ(sentence(recut(planned(job)).problems.at(0)),
            "/cutting: found nothing, expected what is cut and what is spoiled, one entry a carpet.");
}

TEST(Recut, TheReaderNamesWhatIsWrong) {
  const auto complaint = [](const Json& more) {
    const auto problems = read(with(closed_job(), "/cutting", cutting(more))).problems;
    return problems.empty() ? "" : sentence(problems.front());
  };
  EXPECT_EQ(complaint({{"cut", {7}}}),
            "/cutting/0/cut/0: found 7, expected a piece's number, such as \"A-05\".");
  EXPECT_EQ(complaint({{"flaws", Json::array({{{"from", "11 ft"}, {"to", "10 ft"}}})}}),
            "/cutting/0/flaws/0/to: found 10' 0\", expected more than from, 11' 0\".");
  EXPECT_EQ(complaint({{"spoild", {"A-01"}}}).substr(0, 19), "/cutting/0/spoild: ");
  EXPECT_EQ(complaint({{"way", "anew"}}),
            "/cutting/0/way: found 'anew', expected one of 'as_planned', 'laid_anew', 'other_remnant', "
            "'smaller_join', 'hidden_seam'.");
  EXPECT_EQ(complaint({{"way", "laid_anew"}, {"remnant", "stub"}}),
            "/cutting/0/remnant: found 'stub', expected a remnant only beside \"way\": \"other_remnant\".");
  auto twice = cutting(Json::object());
  twice.push_back(twice[0]);
  EXPECT_EQ(sentence(read(with(closed_job(), "/cutting", twice)).problems.at(0)),
            "/cutting/1/carpet: found 'plain', expected one entry a carpet.");
}

TEST(Recut, ThePlanItselfHeedsNoCutting) {
  const auto job = closed_job();
  EXPECT_EQ(plan_json(planned(with(job, "/cutting", cutting({{"cut", {"A-02"}}})))), plan_json(planned(job)));
}

TEST(Recut, IsWrittenAsItsSchemaSays) {
  const auto first = in_order(planned(closed_job())).front();
  const auto with_cutting =
      with(closed_job(), "/cutting",
           cutting({{"spoiled", {first}},
                    {"roll_length", "5 ft"},
                    {"way", "laid_anew"},
                    {"flaws", Json::array({{{"from", "2 ft"}, {"to", "2 ft 1 in"}}})}}));
  EXPECT_EQ(Validator(job_schema()).complaints(with_cutting), "");
  const auto plan = planned(with_cutting);
  const auto recuts = recut(plan);
  ASSERT_EQ(recuts.carpets.size(), 1u);
  const auto json = Json::parse(recut_json(recuts));
  EXPECT_EQ(Validator(recut_schema()).complaints(json), "");
  EXPECT_GE(json["carpets"][0]["ways"].size(), 2u);
  // What it shares with plan.json is the same there.
  const auto ours = Json::parse(recut_schema())["definitions"],
             theirs = Json::parse(plan_schema())["definitions"];
  for (const auto* name : {"placement", "stroke", "offcut", "roll", "problem"})
    EXPECT_EQ(ours[name], theirs[name]) << name;
  const auto sheet = recut_sheet(plan, recuts);
  EXPECT_GE(sheet.pages.size(), 1u);
  const auto& recut = recuts.carpets[0];
  EXPECT_EQ(json["carpets"][0]["taken"], recut.taken);
  EXPECT_EQ(sheet.table.rows.size() + recut.ways[recut.taken].recovered.as_planned.size(),
            recut.to_cut.size());
}

} // namespace
} // namespace treadfold
