// Jobs that contradict themselves or are absurd, and how that is said.
#include "samples.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

using namespace samples;

const std::string kF = kFlight;

Problem only_problem(const Json& job) {
  const auto reading = read(job);
  EXPECT_EQ(reading.problems.size(), 1u) << told(reading.problems);
  return reading.problems.empty() ? Problem{} : reading.problems[0];
}

TEST(Refuse, NewerVersionIsOneClearSentence) {
  const auto reading = read(with(with(small_job(), "/treadfold", 2), "/something_new", 1));
  ASSERT_EQ(reading.problems.size(), 1u) << told(reading.problems);
  EXPECT_EQ(sentence(reading.problems[0]),
            "/treadfold: found version 2, which is newer than this program, expected version 1 or earlier.");
}

TEST(Refuse, MissingOrStrangeVersionIsOneProblem) {
  EXPECT_EQ(only_problem(without(small_job(), "/treadfold")).where, "/treadfold");
  for (const Json& bad : {Json(0), Json(-1), Json(1.5), Json("1"), Json(nullptr)})
    EXPECT_EQ(only_problem(with(small_job(), "/treadfold", bad)).where, "/treadfold");
}

TEST(Refuse, UnknownKeysNameTheNearestKnownOne) {
  struct Case {
    std::string parent, key, nearest;
  };
  const Case cases[] = {{kF, "risser", "'risers'"},
                        {kF, "Landing Edge", "'landing_edge'"},
                        {kF, "raise", "'rise'"},
                        {kF, "widht", "'width'"},
                        {"", "carpet", "'carpets'"},
                        {"", "allowance", "'allowances'"},
                        {kF + "/nosing", "thicknes", "'thickness'"},
                        {"/carpets/0", "roll-length", "'roll_length'"},
                        {"/strip", "stock_lenght", "'stock_length'"}};
  for (const auto& c : cases) {
    const auto p = only_problem(with(small_job(), c.parent + "/" + c.key, 1));
    EXPECT_EQ(p.where, c.parent + "/" + c.key);
    EXPECT_EQ(p.found, "the unknown key '" + c.key + "'");
    EXPECT_EQ(p.expected, c.nearest);
  }
  EXPECT_NE(only_problem(with(small_job(), "/zebra", 1)).expected.find("one of 'treadfold', 'units'"),
            std::string::npos);
}

TEST(Refuse, LimitsHoldToTheTick) {
  struct Case {
    std::string pointer;
    Length least, most;
  };
  const Case cases[] = {
      {kF + "/rise", inches(3) + Length{1}, inches(15)}, // two inches more than the tread is thick
      {kF + "/going", inches(3), inches(60)},
      {kF + "/width", inches(6), kFoot * 12},
      {kF + "/nosing/projection", {}, inches(4)},
      {kF + "/nosing/thickness", inches(0, 1, 4), inches(4)},
      {kF + "/nosing/arris_radius", {}, inches(0, 1, 2)}, // half the thickness
      {kF + "/right/open/overhang", inches(0, 1, 4), inches(6)},
      {kF + "/right/open/return", {}, inches(6)},
      {kF + "/landing_edge", inches(3), inches(60)},
      {"/carpets/0/widths/0", kFoot, kFoot * 20},
      {"/carpets/0/backing", inches(0, 1, 64), inches(0, 1, 2)},
      {"/finished_floors/foot", {}, inches(6)},
      {"/carpets/0/longest_in_hand", kFoot, kFoot * 500},
      {"/allowances/side_trim", {}, inches(12)},
      {"/allowances/hem", {}, inches(1, 1, 2)}, // strip_stop
  };
  for (const auto& c : cases) {
    auto job = with(small_job(), "/allowances", Json::object());
    if (c.pointer == kF + "/nosing/thickness") // leave the riser and the arris room
      job = with(with(with(job, kF + "/rise", "9"), kF + "/nosing/arris_radius", 0), "/allowances/relief", 0);
    const auto at = [&](Length x) {
      return read(with(job, c.pointer, print_length(x, LengthUnit::inch))).problems;
    };
    EXPECT_TRUE(at(c.least).empty()) << c.pointer << " " << told(at(c.least));
    EXPECT_TRUE(at(c.most).empty()) << c.pointer << " " << told(at(c.most));
    EXPECT_TRUE(says_error_at(at(c.most + Length{1}), c.pointer)) << c.pointer;
    EXPECT_TRUE(says_error_at(at(c.least - Length{1}), c.pointer)) << c.pointer;
  }
}

TEST(Refuse, OpeningsThatAreNotClearOfTheFloorAndOfEachOther) {
  const auto problem = [](const std::string& openings, const Json& landing = {}) {
    auto job = with(small_job(), "/stairs/0/floors",
                    parse(R"([{"name": "hall", "carpet": "plain",
        "front": "100", "corners": [{"along": "100", "off": "80"}, {"along": "50", "off": "80"},
          {"along": "50", "off": "60"}, {"left_of": "0", "off": "60"}], "openings": )" +
                          openings + "}]"));
    if (!landing.is_null()) job = with(with(job, kF + "/landing", landing), kF + "/right", "wall");
    return only_problem(job);
  };
  const std::string kFloor = "/stairs/0/floors/0";
  const auto hearth = [](const char* along, const char* off, const char* width, const char* length) {
    return std::string(R"({"name": "hearth", "along": ")") + along + R"(", "off": ")" + off +
           R"(", "width": ")" + width + R"(", "length": ")" + length + R"("})";
  };
  const auto good = hearth("10", "10", "20", "20");
  for (const auto& near : {hearth("0", "10", "20", "20"), hearth("10", "1/2", "20", "20"),
                           hearth("60", "70", "60", "5"),  // over the right edge
                           hearth("10", "40", "60", "30"), // over the corner that goes in
                           hearth("10", "62", "20", "10"), // beyond it
                           hearth("49 1/2", "60 1/2", "10", "10")})
    EXPECT_EQ(problem("[" + near + "]").where, kFloor + "/openings/0") << near;
  for (const auto& other : {hearth("30 1/2", "10", "20", "20"), hearth("15", "15", "5", "5"),
                            hearth("5", "5", "40", "40"), hearth("20", "20", "30", "5")})
    EXPECT_EQ(problem("[" + good + "," + other + "]").found, "an opening that does not lie clear of 'hearth'")
        << other;
  EXPECT_EQ(problem(R"([{"name": "a", "corners": [{"along": "10", "off": "10"}, {"along": "20", "off": "20"},
                        {"along": "20", "off": "10"}, {"along": "10", "off": "20"}]}])")
                .found,
            "edges that cross");
  EXPECT_EQ(problem(R"([{"name": "a", "corners": [{"along": "10", "off": "10"}, {"along": "20", "off": "10"},
                        {"along": "30", "off": "10"}]}])")
                .found,
            "corners that enclose nothing");
  EXPECT_EQ(problem(R"([{"name": "a", "width": 9, "corners": [{"along": "10", "off": "10"},
                        {"along": "20", "off": "20"}, {"along": "20", "off": "10"}]}])")
                .where,
            kFloor + "/openings/0/width");
  EXPECT_EQ(problem(R"([{"name": "a", "along": 9, "off": 9, "width": 9}])").where,
            kFloor + "/openings/0/length");
  const Json landing{{"floor", "hall"}, {"from_left", "2"}};
  EXPECT_EQ(problem("[" + hearth("10", "4", "20", "20") + "]", landing).where, kF + "/landing/floor");
  EXPECT_EQ(problem("[" + hearth("1 1/2", "4", "90", "20") + "]", landing).where, kF + "/landing/floor");
  auto joined = landing;
  joined["joined"] = true;
  EXPECT_EQ(problem("[" + good + "]", joined).where, kF + "/landing/joined");
}

TEST(Refuse, FloorsWhoseEdgesMeetInACorner) {
  const auto found = [](const std::string& corners) {
    return only_problem(with(small_job(), "/stairs/0/floors", parse(R"([{"name": "hall", "carpet": "plain",
        "front": "100", "corners": )" + corners + "}]")))
        .found;
  };
  // A corner on another edge; edges that cross in a corner.
  EXPECT_EQ(found(R"([{"along": "100", "off": "50"}, {"along": "50", "off": "0"},
                      {"left_of": "0", "off": "50"}])"),
            "edges that cross");
  EXPECT_EQ(found(R"([{"along": "50", "off": "50"}, {"along": "100", "off": "100"},
                      {"left_of": "0", "off": "100"}, {"along": "50", "off": "50"}])"),
            "edges that cross");
}

TEST(Refuse, MetricLimitsAreWholeMillimetresAsTold) {
  auto job = parse(new_job({.risers = 13, .unit = LengthUnit::millimetre}));
  EXPECT_TRUE(read(with(job, kF + "/going", 76)).problems.empty()); // 3 in = 76.2 mm
  const auto problem = only_problem(with(job, kF + "/going", 75));
  EXPECT_NE(problem.expected.find("76 mm"), std::string::npos) << problem.expected;
}

TEST(Refuse, HugeCountsGetOneSentence) {
  const auto p = only_problem(with(small_job(), kF + "/risers", 10000));
  EXPECT_EQ(sentence(p), kF + "/risers: found 10000, expected a whole number from 1 to 400.");
  EXPECT_TRUE(read(with(small_job(), kF + "/risers", 400)).problems.empty());

  Json job = small_job();
  for (int i = 1; i <= 5; ++i) {
    Json flight = job[Json::json_pointer(kF)];
    flight["name"] = "flight " + std::to_string(i);
    flight["risers"] = 400;
    job["stairs"][0]["flights"].push_back(flight);
  }
  EXPECT_EQ(only_problem(job).where, "/stairs"); // 14 + 5 × 400
}

TEST(Refuse, StepExceptionsOutsideTheFlightOrTwice) {
  for (const auto* key : {"0", "15", "13-15", "7-5", "03", "x", "", "1-", "-3", "1-2-3", "3 ", "99999999999"})
    EXPECT_EQ(only_problem(with(small_job(), kF + "/steps", {{key, Json::object()}})).where,
              kF + "/steps/" + key);
  EXPECT_EQ(only_problem(with(small_job(), kF + "/steps", parse(R"({"3-5": {"rise": 7}, "5": {"rise": 7}})")))
                .found,
            "step 5 in both '3-5' and '5'");
  EXPECT_EQ(only_problem(with(small_job(), kF + "/steps", parse(R"({"14": {"going": 9}})"))).where,
            kF + "/steps/14/going");
}

TEST(Refuse, ExceptionsAreCheckedWithWhatTheyLeaveAsUsual) {
  struct Case {
    const char* exception;
    std::string where;
  };
  const Case cases[] = {
      {R"({"rise": "1 3/4"})", "/rise"},
      {R"({"nosing": {"thickness": "1/4", "arris_radius": "3/16"}})", "/nosing/arris_radius"},
      {R"({"nosing": {"profile": "half-round", "arris_radius": "1/8"}})", "/nosing/arris_radius"},
      {R"({"nosing": {"profile": "bevelled"}})", "/nosing/bevel"},
      {R"({"nosing": {"profile": "bevelled", "bevel": "2 7/8"}})", "/nosing/bevel"},
      {R"({"nosing": {"bevel": "1/4"}})", "/nosing/bevel"},
  };
  auto job = with(small_job(), "/allowances", {{"relief", 0}});
  for (const auto& c : cases)
    EXPECT_EQ(only_problem(with(job, kF + "/steps", {{"2", parse(c.exception)}})).where,
              kF + "/steps/2" + c.where);
  job = with(job, kF + "/nosing", parse(R"({"projection": 1, "thickness": 1, "profile": "half-round"})"));
  for (const auto* nosing : {R"({"arris_radius": "1/8"})", R"({"profile": "square"})"})
    EXPECT_EQ(only_problem(with(job, kF + "/steps", {{"2", {{"nosing", parse(nosing)}}}})).where,
              kF + "/steps/2/nosing/arris_radius");
}

TEST(Refuse, ContradictionsAreSaidWhereTheyStand) {
  struct Case {
    std::string pointer;
    const char* value;
    std::string where;
  };
  const Case cases[] = {
      {"/terms", R"({"currency": "$", "markup": 0, "margin": 0})", "/terms/margin"},
      {kF + "/nosing/profile", R"("half-round")", kF + "/nosing/arris_radius"},
      {"/carpets/0/backing", R"("9/16 in")", "/carpets/0/backing"},
      {"/carpets/0/sold_in", R"("101 ft")", "/carpets/0/sold_in"},
      {"/carpets/0/least_order", R"("101 ft")", "/carpets/0/least_order"},
      {"/carpets/0/widths", R"(["12 ft", "144"])", "/carpets/0/widths/1"},
      {"/carpets/0/pattern", R"({"width": 9, "length": 12, "match": {"drop": 12}})",
       "/carpets/0/pattern/match/drop"},
      {"/carpets/0/pattern", R"({"width": 9, "length": 12, "match": "set", "motif": "flow"})",
       "/carpets/0/pattern/motif"},
      {kF + "/carpet", R"("plane")", kF + "/carpet"},
      {"/carpets/1", R"({"id": "plain", "name": "Other", "widths": [144], "roll_length": "90 ft",
                         "sold_in": 12, "backing": "1/8", "thickness": "1/2"})",
       "/carpets/1/id"},
      {"/carpets/0/remnants", R"([{"name": "a", "width": 90, "length": 40},
                                  {"name": "a", "width": 80, "length": 40}])",
       "/carpets/0/remnants/1/name"},
      {"/stairs/0/floors", R"([{"name": "main", "carpet": "plain", "width": 90, "length": 40}])",
       "/stairs/0/floors/0/name"},
      {"/stairs/0/floors", R"([{"name": "f", "carpet": "plain", "width": 90, "length": 40, "front": 9}])",
       "/stairs/0/floors/0/front"},
      {"/stairs/0/floors", R"([{"name": "f", "carpet": "plain", "width": 90}])", "/stairs/0/floors/0/length"},
      {"/stairs/0/floors",
       R"([{"name": "f", "carpet": "plain", "width": 90, "length": 40, "fill_pieces": 0}])",
       "/stairs/0/floors/0/fill_pieces"},
      {"/stairs/0/floors",
       R"([{"name": "f", "carpet": "plain", "front": 9, "right": 9, "back": 9, "left": 9}])",
       "/stairs/0/floors/0/diagonal_from_front_left"},
      {"/allowances", R"({"hem": "2 in"})", "/allowances/hem"},
      {"/allowances", R"({"relief": "3/4"})", "/allowances/relief"},
      {"/tolerances", R"({"tape": "2 1/16 in"})", "/tolerances/tape"},
      {"/terms", R"({"currency": "$", "rates": [{"what": "a", "per": "hour", "rate": 1}]})",
       "/terms/rates/0/quantity"},
      {"/terms", R"({"currency": "$", "rates": [{"what": "a", "per": "step", "rate": 1, "of": "strip"}]})",
       "/terms/rates/0/of"},
      {"/terms", R"({"currency": "$", "rates": [{"what": "a", "per": "foot", "rate": 1}]})",
       "/terms/rates/0/of"},
      {"/terms", R"({"currency": "$", "rates": [{"what": "a", "per": "lump", "rate": 1, "kind": "any"}]})",
       "/terms/rates/0/kind"},
      {"/terms", R"({"currency": "$", "rates":
                     [{"what": "a", "per": "square_yard", "rate": 1, "of": "strip"}]})",
       "/terms/rates/0/of"},
  };
  for (const auto& c : cases)
    EXPECT_EQ(only_problem(with(small_job(), c.pointer, parse(c.value))).where, c.where) << c.value;
  EXPECT_EQ(only_problem(with(small_job(), kF + "/carpet", "plane")).expected, "'plain'");
}

TEST(Refuse, HemAndStripStopOverHalfTheNarrowestOpenStep) {
  auto job = with(small_job(), kF + "/steps", parse(R"({"4": {"width": 8}})"));
  EXPECT_TRUE(read(with(job, "/allowances", {{"strip_stop", 4}, {"hem", 4}})).problems.empty());
  const auto reading = read(with(job, "/allowances", {{"strip_stop", "4 1/8"}, {"hem", "4 1/8"}}));
  EXPECT_TRUE(says_error_at(reading.problems, "/allowances/hem"));
  EXPECT_TRUE(says_error_at(reading.problems, "/allowances/strip_stop"));
  // Closed steps have no hem to fit.
  EXPECT_TRUE(read(with(with(job, kF + "/right", "wall"), "/allowances", {{"strip_stop", 5}, {"hem", 5}}))
                  .problems.empty());
}

TEST(Refuse, AllProblemsAtOnce) {
  auto job = small_job();
  const std::vector<std::string> places = {
      "/paper",          "/site/titel",      "/site/title",     kF + "/rise",           kF + "/right",
      kF + "/cover",     kF + "/risers",     kF + "/steps/x",   "/carpets/0/widths",    "/carpets/0/backing",
      "/cushion",        "/strip/end_angle", "/terms/currency", "/terms/rates/0/rate",  "/terms/deposit",
      "/allowances/hem", kF + "/pile",       "/supplies/glue",  "/finished_floors/foot"};
  job = with(job, "/paper", "A5");
  job = with(job, "/site", {{"titel", "x"}});
  job = with(job, kF + "/rise", -3);
  job = with(job, kF + "/right", "open");
  job = with(job, kF + "/cover", true);
  job = without(job, kF + "/risers");
  job = with(job, kF + "/steps", {{"x", Json::object()}});
  job = with(job, "/carpets/0/widths", Json::array());
  job = with(job, "/carpets/0/backing", "an eighth");
  job = with(job, "/cushion", 7);
  job = with(job, "/strip/end_angle", 120);
  job = with(job, "/terms",
             parse(R"({"deposit": "120 %", "rates": [{"what": "a", "per": "lump", "rate": "x"}]})"));
  job = with(job, "/allowances", {{"hem", "13 in"}});
  job = without(job, kF + "/pile");
  job = with(job, "/supplies", {{"glue", 1}});
  job = without(job, "/finished_floors/foot");
  const auto problems = read(job).problems;
  EXPECT_EQ(problems.size(), places.size()) << told(problems);
  for (const auto& place : places)
    EXPECT_TRUE(says_error_at(problems, place)) << place << "\n" << told(problems);
}

TEST(Refuse, WithoutUnitsOtherProblemsAreStillFound) {
  auto job = without(small_job(), "/units");
  job = with(job, kF + "/going", "ten");
  const auto problems = read(job).problems;
  EXPECT_EQ(problems.size(), 2u) << told(problems);
  EXPECT_TRUE(says_error_at(problems, "/units"));
  EXPECT_TRUE(says_error_at(problems, kF + "/going"));
}

TEST(Refuse, ABrokenFileCannotBuryItsReader) {
  Json job = small_job();
  for (int i = 0; i < 5000; ++i)
    job["unknown_" + std::to_string(i)] = i;
  const auto problems = read(job).problems;
  ASSERT_EQ(problems.size(), 201u);
  EXPECT_EQ(problems.back().found, "4800 more problems");
}

TEST(Refuse, LongOrOddTextIsShownShort) {
  const auto p = only_problem(with(small_job(), "/paper", std::string(3000, 'a') + "é"));
  EXPECT_LT(p.found.size(), 70u);
  const auto q = only_problem(with(small_job(), "/site/title", "two\nlines\x7f"));
  EXPECT_EQ(q.found, "'two?lines?'");
}

} // namespace
} // namespace treadfold
