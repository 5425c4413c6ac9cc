// What a good job becomes.
#include "job/object_reader.h"
#include "job/upgrade.h"
#include "samples.h"
#include "validator.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

using namespace samples;

Job good(const Json& json) {
  auto reading = read(json);
  EXPECT_FALSE(has_errors(reading.problems)) << told(reading.problems);
  return reading.job;
}

TEST(ReadJob, ExamplesAndStartingJobsHaveNoProblems) {
  for (const auto& text : example_texts()) {
    ASSERT_FALSE(text.empty());
    const auto reading = read_job(text);
    EXPECT_TRUE(reading.problems.empty()) << told(reading.problems);
  }
  for (const auto unit : {LengthUnit::inch, LengthUnit::millimetre, LengthUnit::centimetre})
    for (const auto side : {SideKind::wall, SideKind::skirt, SideKind::open})
      for (const int risers : {1, 13, 400}) {
        NewJob choices;
        choices.risers = risers;
        choices.unit = unit;
        choices.left = side;
        const auto reading = read_job(new_job(choices));
        EXPECT_TRUE(reading.problems.empty()) << told(reading.problems);
        ASSERT_EQ(reading.job.stairs.size(), 1u);
        const auto& steps = reading.job.stairs[0].flights[0].steps;
        ASSERT_EQ(steps.size(), static_cast<std::size_t>(risers));
        EXPECT_EQ(steps[0].left.kind, side);
        EXPECT_EQ(reading.job.unit, unit);
      }
}

TEST(ReadJob, StartingJobKeepsTheSizesChosen) {
  const NewJob choices{9, LengthUnit::inch, inches(7, 9, 64), inches(11, 1, 3), inches(50), {}, {}};
  const auto reading = read_job(new_job(choices));
  ASSERT_TRUE(reading.problems.empty()) << told(reading.problems);
  const auto& step = reading.job.stairs[0].flights[0].steps[0];
  EXPECT_EQ(step.rise, choices.rise);
  EXPECT_EQ(step.going, choices.going);
  EXPECT_EQ(step.width, choices.width);
}

TEST(ReadJob, StartingJobNotesEveryChoice) {
  // A note stands on the line of every scalar that is a choice, but for names, goods' own sizes and blanks.
  const std::string text = new_job({});
  for (const auto* key :
       {"units", "paper", "code", "risers", "rise", "going", "width", "projection", "profile", "pile",
        "cover", "carpet", "join", "landing_edge", "widths", "sold_in", "backing", "cushion", "foot"}) {
    const auto at = text.find("\"" + std::string(key) + "\": ");
    ASSERT_NE(at, std::string::npos) << key;
    EXPECT_NE(text.substr(at, text.find('\n', at) - at).find(" // "), std::string::npos) << key;
  }
}

TEST(ReadJob, StepsAreUsualButForTheirExceptions) {
  auto json = small_job();
  json = with(json, std::string(kFlight) + "/steps",
              parse(R"({"3": {"rise": "7 3/8"}, "5-7": {"going": 11.5, "left": "skirt"},
                        "14": {"nosing": {"thickness": "1 1/2"}, "right": "wall"}})"));
  const auto job = good(json);
  const auto& steps = job.stairs[0].flights[0].steps;
  ASSERT_EQ(steps.size(), 14u);
  for (int n = 1; n <= 14; ++n) {
    const Step& s = steps[static_cast<std::size_t>(n) - 1];
    const bool middle = n >= 5 && n <= 7;
    EXPECT_EQ(s.number, n);
    EXPECT_EQ(s.rise, n == 3 ? inches(7, 3, 8) : inches(7, 1, 2));
    EXPECT_EQ(s.going, n == 14 ? inches(4) : middle ? inches(11, 1, 2) : inches(10));
    EXPECT_EQ(s.width, inches(36));
    EXPECT_EQ(s.left.kind, middle ? SideKind::skirt : SideKind::wall);
    EXPECT_EQ(s.right.kind, n == 14 ? SideKind::wall : SideKind::open);
    EXPECT_EQ(s.right.overhang, n == 14 ? Length{} : inches(1, 1, 4));
    EXPECT_EQ(s.right.return_past, n == 14 ? Length{} : inches(1));
    EXPECT_EQ(s.nosing.thickness, n == 14 ? inches(1, 1, 2) : inches(1));
    EXPECT_EQ(s.nosing.radius, inches(0, 1, 8));
    EXPECT_EQ(s.landing_edge, n == 14);
    const std::string own = n == 3 ? "/steps/3" : middle ? "/steps/5-7" : n == 14 ? "/steps/14" : "";
    EXPECT_EQ(s.where, kFlight + own);
  }
}

TEST(ReadJob, HalfRoundRadiusIsHalfTheThicknessAlsoInExceptions) {
  const std::string flight = kFlight;
  auto json = with(small_job(), flight + "/nosing",
                   parse(R"({"projection": "1", "thickness": "1 1/8", "profile": "half-round"})"));
  json = with(json, flight + "/steps", parse(R"({"2": {"nosing": {"thickness": "1 1/2"}},
                        "3": {"nosing": {"profile": "square", "arris_radius": "1/4"}}})"));
  const auto job = good(json);
  const auto& steps = job.stairs[0].flights[0].steps;
  EXPECT_EQ(steps[0].nosing.radius, inches(0, 9, 16));
  EXPECT_TRUE(steps[0].nosing.half_round());
  EXPECT_EQ(steps[1].nosing.radius, inches(0, 3, 4));
  EXPECT_EQ(steps[2].nosing.radius, inches(0, 1, 4));

  json = with(small_job(), flight + "/steps", parse(R"({"4": {"nosing": {"profile": "half-round"}}})"));
  EXPECT_TRUE(good(json).stairs[0].flights[0].steps[3].nosing.half_round());
}

TEST(ReadJob, BevelledNosingsHaveABevelAndNoRadius) {
  const auto json =
      with(small_job(), std::string(kFlight) + "/nosing",
           parse(R"({"projection": "1", "thickness": "1 1/8", "profile": "bevelled", "bevel": "3/8"})"));
  const auto nosing = good(json).stairs[0].flights[0].steps[0].nosing;
  EXPECT_EQ(nosing.bevel, inches(0, 3, 8));
  EXPECT_EQ(nosing.radius, Length{});
}

TEST(ReadJob, OpenRisersAreAllButTheLandingsFace) {
  const auto json = with(small_job(), std::string(kFlight) + "/open_risers", true);
  const auto steps = good(json).stairs[0].flights[0].steps;
  for (const auto& step : steps)
    EXPECT_EQ(step.open_riser, !step.landing_edge);
}

TEST(ReadJob, AFlightArrivesAtALandingOfItsStair) {
  auto json = with(small_job(), "/stairs/0/floors",
                   parse(R"([{"name": "top", "carpet": "plain", "width": "80", "length": "40"}])"));
  for (const char* side : {"/left", "/right"})
    json = with(json, std::string(kFlight) + side, "wall");
  const std::string at = std::string(kFlight) + "/landing";
  const auto arrival = good(with(json, at, parse(R"({"floor": "top", "from_left": "8", "joined": true})")))
                           .stairs[0]
                           .flights[0]
                           .arrival;
  ASSERT_TRUE(arrival.has_value());
  EXPECT_EQ(arrival->from_left, inches(8));
  EXPECT_TRUE(arrival->joined);

  struct Case {
    const char* value;
    const char* key;
  };
  const Case cases[] = {{R"({"floor": "tip", "from_left": 0})", "/floor"},
                        {R"({"floor": "top", "from_left": "60"})", "/from_left"}};
  for (const auto& c : cases) {
    const auto reading = read_job(with(json, at, parse(c.value)).dump());
    ASSERT_EQ(reading.problems.size(), 1U) << c.value;
    EXPECT_EQ(reading.problems[0].where, at + c.key);
  }
}

TEST(ReadJob, NumbersAreInTheJobsUnitAndTextsSayTheirOwn) {
  struct Case {
    const char* unit;
    double number;
  };
  for (const auto& [unit, number] : {Case{"in", 7.5}, Case{"mm", 190.5}, Case{"cm", 19.05}}) {
    auto json = with(small_job(), "/units", unit);
    json = with(json, "/stairs/0/flights/0", parse(R"({
      "name": "m", "risers": 2, "rise": 0, "going": "10 in", "width": "1 m",
      "nosing": {"projection": "1 in", "thickness": "1 in", "profile": "half-round"},
      "left": "wall", "right": "wall", "pile": "down", "cover": "wrapped", "carpet": "plain"})"));
    json = with(json, "/stairs/0/flights/0/rise", number);
    const auto job = good(with(json, "/carpets/0/backing", "1/8 in").patch(parse(R"([
      {"op": "replace", "path": "/carpets/0/thickness", "value": "1/2 in"}])")));
    EXPECT_EQ(job.stairs[0].flights[0].steps[0].rise, inches(7, 1, 2)) << unit;
    EXPECT_EQ(job.stairs[0].flights[0].steps[0].width, millimetres(1000));
    EXPECT_EQ(job.stairs[0].flights[0].style, CoverStyle::wrapped);
  }
}

TEST(ReadJob, AllowancesDefaultToCommonPracticeNoSource) {
  auto a = good(small_job()).allowances;
  EXPECT_EQ(a.side_trim, inches(1));
  EXPECT_EQ(a.open_side_trim, inches(0, 1, 2));
  EXPECT_EQ(a.tuck_back, inches(0, 3, 4));
  EXPECT_EQ(a.tuck_foot, inches(0, 3, 4));
  EXPECT_EQ(a.gully, inches(0, 1, 4));
  EXPECT_EQ(a.hem, inches(1, 1, 4));
  EXPECT_EQ(a.strip_stop, inches(1, 1, 2));
  EXPECT_EQ(a.crease, inches(0, 1, 4));
  EXPECT_EQ(a.relief, inches(0, 1, 4));
  EXPECT_EQ(a.floor_trim, inches(3));

  NewJob metric;
  metric.unit = LengthUnit::millimetre;
  const auto job = read_job(new_job(metric)).job;
  a = job.allowances;
  EXPECT_EQ(a.side_trim, millimetres(25));
  EXPECT_EQ(a.open_side_trim, millimetres(13));
  EXPECT_EQ(a.tuck_back, millimetres(19));
  EXPECT_EQ(a.gully, millimetres(6));
  EXPECT_EQ(a.hem, millimetres(32));
  EXPECT_EQ(a.strip_stop, millimetres(38));
  EXPECT_EQ(a.floor_trim, millimetres(76));
}

// Common practice, no source: a tape and a knife are good to 1/16 to 1/8 in.
TEST(ReadJob, TolerancesAreTheUsualOnesOrTheUsersOwn) {
  auto t = good(small_job()).tolerances;
  EXPECT_EQ(t.tape, inches(0, 1, 16));
  EXPECT_EQ(t.knife, inches(0, 1, 16));
  EXPECT_EQ(t.spread, inches(0, 1, 8));
  t = good(with(small_job(), "/tolerances", {{"tape", "1/8"}, {"spread", 0}})).tolerances;
  EXPECT_EQ(t.tape, inches(0, 1, 8));
  EXPECT_EQ(t.knife, inches(0, 1, 16));
  EXPECT_EQ(t.spread, Length{});
  NewJob metric;
  metric.unit = LengthUnit::millimetre;
  t = read_job(new_job(metric)).job.tolerances;
  EXPECT_EQ(t.tape, millimetres(2));
  EXPECT_EQ(t.spread, millimetres(3));
}

TEST(ReadJob, StripDefaultsAreTheLeastOfCri105Section11_1) {
  const auto strip = good(small_job()).strip;
  EXPECT_EQ(strip.width, inches(1));
  EXPECT_EQ(strip.thickness, inches(0, 1, 4));
}

TEST(ReadJob, LandingEdgeDefaultsByUnit) {
  EXPECT_EQ(good(small_job()).stairs[0].flights[0].steps.back().going, inches(4));
  auto text = new_job({.risers = 3, .unit = LengthUnit::centimetre});
  auto json = without(parse(text), std::string(kFlight) + "/landing_edge");
  EXPECT_EQ(good(json).stairs[0].flights[0].steps.back().going, millimetres(100));
}

TEST(ReadJob, FloorsAreRectanglesOrSolvedFromTheTape) {
  const auto job = good(with(small_job(), "/stairs/0/floors", parse(R"([
      {"name": "hall", "carpet": "plain", "width": "60", "length": "80", "fill_pieces": 3},
      {"name": "top", "carpet": "plain", "front": "30", "right": "40", "back": "30", "left": "40",
       "diagonal_from_front_left": "50"}])")));
  EXPECT_EQ(job.stairs[0].floors[0].fill_pieces, 3);
  EXPECT_EQ(job.stairs[0].floors[1].fill_pieces, 1);
  const auto& floors = job.stairs[0].floors;
  ASSERT_EQ(floors.size(), 2u);
  ASSERT_EQ(floors[0].corners.size(), 4u);
  EXPECT_EQ(floors[0].corners[2].x, 60 * 25.4);
  EXPECT_EQ(floors[0].corners[2].y, 80 * 25.4);
  ASSERT_EQ(floors[1].corners.size(), 4u);
  EXPECT_NEAR(floors[1].corners[2].x, 30 * 25.4, 1e-6);
  EXPECT_NEAR(floors[1].corners[2].y, 40 * 25.4, 1e-6);
}

TEST(ReadJob, OpeningsOfAFloorAreRectanglesOrCornersEitherWayRound) {
  const auto job = good(with(small_job(), "/stairs/0/floors", parse(R"([
      {"name": "hall", "carpet": "plain", "width": "12'", "length": "10'", "openings": [
        {"name": "hearth", "along": "3'", "off": "6'", "width": "4'", "length": "2'"},
        {"name": "column", "corners": [{"along": "2'", "off": "2'"}, {"along": "2'", "off": "3'"},
                                       {"along": "3'", "off": "2'"}]}]}])")));
  const auto& openings = job.stairs[0].floors[0].openings;
  ASSERT_EQ(openings.size(), 2u);
  const auto at = [](std::int64_t x_ft, std::int64_t y_ft) {
    return PlanPoint{(kFoot * x_ft).mm(), (kFoot * y_ft).mm()};
  };
  EXPECT_EQ(openings[0].name, "hearth");
  EXPECT_EQ(openings[0].corners, (std::vector<PlanPoint>{at(3, 6), at(7, 6), at(7, 8), at(3, 8)}));
  EXPECT_EQ(openings[1].corners, (std::vector<PlanPoint>{at(2, 2), at(2, 3), at(3, 2)}));
}

TEST(ReadJob, GoodsHaveADirectionUnlessTheyAreSaidToHaveNone) {
  EXPECT_TRUE(good(small_job()).carpets[0].directional);
  EXPECT_FALSE(good(with(small_job(), "/carpets/0/directional", false)).carpets[0].directional);
}

TEST(ReadJob, TapeReadingsThatDisagreeAreAWarningAtTheFloor) {
  const auto reading = read(with(small_job(), "/stairs/0/floors", parse(R"([
      {"name": "top", "carpet": "plain", "front": "30", "right": "40", "back": "30", "left": "40",
       "diagonal_from_front_left": "50", "diagonal_from_front_right": "53"}])")));
  ASSERT_EQ(reading.problems.size(), 1u) << told(reading.problems);
  EXPECT_EQ(reading.problems[0].severity, Severity::warning);
  EXPECT_EQ(reading.problems[0].where, "/stairs/0/floors/0");
}

TEST(ReadJob, WhatIsInHandAtOnceNeedNotBeSaid) {
  EXPECT_FALSE(good(small_job()).carpets[0].in_hand);
  EXPECT_EQ(good(with(small_job(), "/carpets/0/longest_in_hand", "12'")).carpets[0].in_hand, kFoot * 12);
}

TEST(ReadJob, PatternsAreLattices) {
  const auto drop_of = [](const char* match) {
    return good(with(small_job(), "/carpets/0/pattern",
                     parse(R"({"width": "9", "length": "12", "match": )" + std::string(match) + "}")))
        .carpets[0]
        .pattern->drop;
  };
  EXPECT_EQ(drop_of(R"("set")"), Length{});
  EXPECT_EQ(drop_of(R"("half-drop")"), inches(6));
  EXPECT_EQ(drop_of(R"({"drop": "4"})"), inches(4));
  EXPECT_FALSE(good(small_job()).carpets[0].pattern.has_value());
  for (const bool flows : {false, true}) {
    const auto job =
        with(small_job(), "/carpets/0/pattern",
             {{"width", "9"}, {"length", "12"}, {"match", "set"}, {"motif", flows ? "flows" : "nosings"}});
    EXPECT_EQ(good(job).carpets[0].pattern_flows, flows);
  }
}

TEST(ReadJob, TermsAreWholeCentsAndPartsPerMillion) {
  const auto t = good(with(small_job(), "/terms", parse(R"({
      "currency": "$", "markup": "17.25 %", "tax": 6.25, "deposit": "30%", "valid_days": 14,
      "rates": [
        {"what": "Goods", "per": "square_yard", "of": "carpet_ordered", "rate": "1,234.50", "material": true},
        {"what": "Labour", "per": "hour", "quantity": "1.125", "rate": 52, "taxable": false},
        {"what": "Ends", "per": "step", "kind": "one_open", "rate": 12.5},
        {"what": "Haul", "per": "lump", "rate": "40"}]})")))
                     .terms;
  EXPECT_EQ(t.uplift, Uplift::markup);
  EXPECT_EQ(t.uplift_ppm, 172'500);
  EXPECT_EQ(t.tax_ppm, 62'500);
  EXPECT_EQ(t.deposit_ppm, 300'000);
  EXPECT_EQ(t.valid_days, 14);
  ASSERT_EQ(t.rates.size(), 4u);
  EXPECT_EQ(t.rates[0].rate.cents, 123'450);
  EXPECT_EQ(t.rates[0].of, RateOf::carpet_ordered);
  EXPECT_TRUE(t.rates[0].material && t.rates[0].taxable);
  EXPECT_EQ(t.rates[1].quantity_milli, 1125);
  EXPECT_FALSE(t.rates[1].taxable);
  EXPECT_EQ(t.rates[2].kind, StepKind::one_open);
  EXPECT_EQ(t.rates[2].rate.cents, 1250);
  EXPECT_EQ(t.rates[3].quantity_milli, 1000);
}

TEST(ReadJob, UpliftWithoutMaterialsIsAWarning) {
  const auto reading = read(with(small_job(), "/terms", parse(R"({"currency": "$", "margin": 20})")));
  ASSERT_EQ(reading.problems.size(), 1u) << told(reading.problems);
  EXPECT_EQ(reading.problems[0].severity, Severity::warning);
  EXPECT_EQ(reading.problems[0].where, "/terms/margin");
}

TEST(ParseDecimal, KeepsItsPlacesOrRefuses) {
  EXPECT_EQ(parse_decimal("12.5", 3), 12'500);
  EXPECT_EQ(parse_decimal("12.", 3), 12'000);
  EXPECT_EQ(parse_decimal(".125", 3), 125);
  EXPECT_EQ(parse_decimal("1.5000", 3), 1'500);
  EXPECT_EQ(parse_decimal("0", 4), 0);
  for (const auto* bad : {"", ".", "1.2345", "-1", "1e3", "1.2.3", " 1", "12a", "99999999999999999999"})
    EXPECT_EQ(parse_decimal(bad, 3), std::nullopt) << bad;
}

// The chain itself, with upgrades made up for the test: version 1 has no earlier one.
void rename_rise(Node& root) { root.keys[1] = "height"; }
void drop_height(Node& root) {
  ASSERT_EQ(root.keys[1], "height");
  root.keys.pop_back();
  root.items.pop_back();
}

TEST(Upgrades, RunInOrderFromTheFilesVersion) {
  const Upgrade chain[] = {rename_rise, drop_height};
  Findings findings;
  auto first = parse_tree(R"({"treadfold": 1, "rise": 2})", findings);
  EXPECT_TRUE(bring_up_to_date(*first, chain, findings));
  EXPECT_EQ(first->keys.size(), 1u);
  auto second = parse_tree(R"({"treadfold": 2, "height": 2})", findings);
  EXPECT_TRUE(bring_up_to_date(*second, chain, findings));
  EXPECT_EQ(second->keys.size(), 1u);
  auto third = parse_tree(R"({"treadfold": 3, "rise": 2})", findings);
  EXPECT_TRUE(bring_up_to_date(*third, chain, findings));
  EXPECT_EQ(third->keys.size(), 2u);
  EXPECT_TRUE(findings.take().empty());
  auto newer = parse_tree(R"({"treadfold": 4, "rise": 2})", findings);
  EXPECT_FALSE(bring_up_to_date(*newer, chain, findings));
  EXPECT_EQ(findings.take().size(), 1u);
}

TEST(Upgrades, TheNewestVersionIsTheOneRead) {
  EXPECT_EQ(upgrades().size() + 1, static_cast<std::size_t>(kJobVersion));
}

TEST(Carpets, ConstructionSetsTheUsualFoldAndTheUserHisOwn) {
  const auto carpet = [](const char* more, const char* units = "in") {
    auto json = with(small_job(), "/units", units);
    const auto members = parse(more);
    for (const auto& [key, value] : members.items())
      json = with(json, "/carpets/0/" + key, value);
    const auto reading = read(json);
    EXPECT_FALSE(has_errors(reading.problems)) << told(reading.problems);
    EXPECT_EQ(Validator(job_schema()).complaints(json), "");
    return reading.job.carpets.at(0);
  };
  const auto silent = carpet("{}");
  EXPECT_EQ(silent.construction, Construction::unknown);
  EXPECT_FALSE(silent.min_fold_radius);
  // common practice, no source
  EXPECT_EQ(carpet(R"({"construction": "tufted"})").min_fold_radius, inches(0, 1, 8));
  EXPECT_EQ(carpet(R"({"construction": "woven"})").min_fold_radius, inches(0, 1, 16));
  const auto own = carpet(R"({"construction": "woven", "min_fold_radius": "3/16"})");
  EXPECT_EQ(own.construction, Construction::woven);
  EXPECT_EQ(own.min_fold_radius, inches(0, 3, 16));
  EXPECT_TRUE(own.fold_radius_told);
  EXPECT_EQ(carpet(R"({"min_fold_radius": "0"})").min_fold_radius, Length{});
  for (const auto* wrong : {R"("knitted")", R"(true)"}) {
    const auto json = with(small_job(), "/carpets/0/construction", parse(wrong));
    EXPECT_TRUE(says_error_at(read(json).problems, "/carpets/0/construction")) << wrong;
    EXPECT_NE(Validator(job_schema()).complaints(json), "");
  }
  EXPECT_TRUE(says_error_at(read(with(small_job(), "/carpets/0/min_fold_radius", "2 1/16")).problems,
                            "/carpets/0/min_fold_radius"));
}

} // namespace
} // namespace treadfold
