// The published schema, judged by a validator that is not ours, against what read_job takes.
#include "samples.h"
#include "validator.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

using namespace samples;

const std::string kF = kFlight;

TEST(Schema, IsDraft7AndDescribesEveryKey) {
  const Json schema = Json::parse(job_schema());
  EXPECT_EQ(schema["$schema"], "http://json-schema.org/draft-07/schema#");
  int objects = 0, keys = 0;
  const std::function<void(const Json&)> walk = [&](const Json& node) {
    if (node.is_object() && node.contains("properties") && node["properties"].is_object()) {
      ++objects;
      EXPECT_EQ(node.value("additionalProperties", true), false) << node.dump();
      for (const auto& [key, value] : node["properties"].items()) {
        ++keys;
        EXPECT_TRUE(value.contains("description")) << key;
      }
    }
    if (node.is_structured())
      for (const auto& child : node)
        walk(child);
  };
  walk(schema);
  EXPECT_GT(objects, 20);
  EXPECT_GT(keys, 100);
}

TEST(Schema, ExamplesAndStartingJobsValidate) {
  const Validator validator(job_schema());
  for (const auto& text : example_texts())
    EXPECT_EQ(validator.complaints(parse(text)), "");
  for (const auto unit : {LengthUnit::inch, LengthUnit::millimetre, LengthUnit::centimetre})
    for (const auto side : {SideKind::wall, SideKind::skirt, SideKind::open})
      EXPECT_EQ(validator.complaints(parse(new_job({.unit = unit, .right = side}))), "");
  EXPECT_EQ(validator.complaints(small_job()), "");
}

TEST(Schema, EveryFormOfFloorMayHaveAFillInPiecesAndOpenings) {
  const Validator validator(job_schema());
  for (const auto* shape : {R"("width": "140", "length": "80")",
                            R"("front": "30", "right": "40", "back": "30", "left": "40",
                               "diagonal_from_front_left": "50")",
                            R"("front": "90", "corners": [{"along": "90", "off": "60"},
                                                          {"left_of": "0", "off": "60"}])"}) {
    const auto job = with(small_job(), "/stairs/0/floors",
                          parse(R"([{"name": "hall", "carpet": "plain",
        "fill_pieces": 2, "openings": [
          {"name": "hearth", "along": "4", "off": "4", "width": "6", "length": "5"},
          {"name": "column", "corners": [{"along": "14", "off": "4"}, {"along": "18", "off": "4"},
                                         {"along": "16", "off": "9"}]}], )" +
                                std::string(shape) + "}]"));
    EXPECT_EQ(validator.complaints(job), "") << shape;
    const auto reading = read(job);
    EXPECT_TRUE(reading.problems.empty()) << told(reading.problems);
    EXPECT_EQ(reading.job.stairs[0].floors[0].openings.size(), 2u);
  }
}

TEST(Schema, BrokenJobsAreRefusedByTheReaderAndTheSchema) {
  const Validator validator(job_schema());
  struct Case {
    std::string pointer;
    const char* value; // "" removes it
  };
  const Case cases[] = {
      {"/treadfold", ""},
      {"/treadfold", "2"},
      {"/units", ""},
      {"/units", R"("inch")"},
      {"/paper", R"("A4")"},
      {"/code", R"("irc")"},
      {"/site/title", R"("  ")"},
      {"/site/title", R"("two\nlines")"},
      {"/site/access", R"("by the gate")"},
      {"/site/email", R"("x")"},
      {"/stairs", "[]"},
      {"/stairs/0/flights", "[]"},
      {kF + "/risers", "0"},
      {kF + "/risers", "401"},
      {kF + "/risers", "13.5"},
      {kF + "/risers", R"("13")"},
      {kF + "/rise", ""},
      {kF + "/rise", "-3"},
      {kF + "/rise", R"("-3")"},
      {kF + "/rise", R"("about 7")"},
      {kF + "/rise", "null"},
      {kF + "/rise", "[7]"},
      {kF + "/nosing", R"({"projection": 1, "thickness": 1, "profile": "square"})"},
      {kF + "/nosing", R"({"projection": 1, "thickness": 1, "profile": "half-round", "arris_radius": 0})"},
      {kF + "/nosing/profile", R"("bevel")"},
      {kF + "/nosing", R"({"projection": 1, "thickness": 1, "profile": "bevelled"})"},
      {kF + "/nosing",
       R"({"projection": 1, "thickness": 1, "profile": "square", "arris_radius": 0, "bevel": 1})"},
      {kF + "/open_risers", R"("yes")"},
      {kF + "/landing", R"({"floor": "hall"})"},
      {kF + "/landing", R"({"floor": "hall", "from_left": 0, "joined": 1})"},
      {kF + "/left", ""},
      {kF + "/left", R"("open")"},
      {kF + "/left", R"({"open": {"overhang": 1}})"},
      {kF + "/left", R"({"open": {"overhang": 1, "return": 1, "post": 1}})"},
      {kF + "/pile", ""},
      {kF + "/pile", R"("up")"},
      {kF + "/cover", ""},
      {kF + "/cover", R"("draped")"},
      {kF + "/carpet", ""},
      {kF + "/join", "0"},
      {kF + "/join", "7"},
      {kF + "/join", R"("best")"},
      {kF + "/join", "{}"},
      {kF + "/join", R"({"at_most": 0})"},
      {kF + "/join", R"({"at_most": 7})"},
      {kF + "/join", R"({"at_most": 2.5})"},
      {kF + "/join", R"({"at_most": 2, "least": 1})"},
      {kF + "/treads_counted", "-1"},
      {kF + "/steps", R"({"0": {}})"},
      {kF + "/steps", R"({"a": {}})"},
      {kF + "/steps", R"({"3": {"raise": 7}})"},
      {kF + "/steps", "[]"},
      {"/stairs/0/floors", R"([{"name": "f", "carpet": "plain", "width": 90}])"},
      {"/stairs/0/floors", R"([{"name": "f", "carpet": "plain", "width": 9, "length": 9, "front": 9}])"},
      {"/stairs/0/floors", R"([{"name": "f", "carpet": "plain", "front": 9, "right": 9, "back": 9,
                                "left": 9}])"},
      {"/carpets", "[]"},
      {"/carpets/0/widths", "[]"},
      {"/carpets/0/widths", R"("12 ft")"},
      {"/carpets/0/sold_in", ""},
      {"/carpets/0/pattern", R"({"width": 9, "length": 9})"},
      {"/carpets/0/pattern", R"({"width": 9, "length": 9, "match": "drop"})"},
      {"/carpets/0/remnants", R"([{"width": 90, "length": 90}])"},
      {"/cushion", ""},
      {"/cushion", "null"},
      {"/cushion", R"("some")"},
      {"/cushion", R"({"thickness": "3/8"})"},
      {"/strip", "{}"},
      {"/strip/end_angle", "20"},
      {"/finished_floors", ""},
      {"/allowances", R"({"hems": 1})"},
      {"/tolerances", R"({"eye": "1/4"})"},
      {"/tolerances", R"({"knife": "sharp"})"},
      {"/supplies", R"({"sticks_per_box": 0})"},
      {"/terms", "{}"},
      {"/terms", R"({"currency": "$", "markup": 20, "margin": 20})"},
      {"/terms", R"({"currency": "$", "tax": "a lot"})"},
      {"/terms", R"({"currency": "$", "tax": -1})"},
      {"/terms", R"({"currency": "$", "rates": [{"what": "a", "per": "yard", "rate": 1}]})"},
      {"/terms", R"({"currency": "$", "rates": [{"what": "a", "per": "foot", "rate": 1}]})"},
      {"/terms", R"({"currency": "$", "rates": [{"what": "a", "per": "step", "rate": 1, "of": "strip"}]})"},
      {"/terms", R"({"currency": "$", "rates": [{"what": "a", "per": "step", "rate": "1.234"}]})"},
      {"/terms", R"({"currency": "$", "valid_days": 0})"},
      {"/surprise", "1"},
  };
  for (const auto& c : cases) {
    const std::string value = c.value;
    const Json job =
        value.empty() ? without(small_job(), c.pointer) : with(small_job(), c.pointer, parse(value));
    EXPECT_TRUE(has_errors(read(job).problems)) << c.pointer << " " << value;
    EXPECT_NE(validator.complaints(job), "") << c.pointer << " " << value;
  }
}

TEST(Schema, EveryWayToWriteALengthValidates) {
  const Validator validator(job_schema());
  for (const Json& length :
       {Json("36 1/2"), Json("36-1/2\""), Json("3' 1/2\""), Json("3 ft 2 in"), Json("36.5"), Json("700 mm"),
        Json("68 cm"), Json("1.2 m"), Json("36½"), Json(36), Json(36.25), Json(" 36 ")}) {
    const Json job = with(small_job(), kF + "/width", length);
    EXPECT_TRUE(read(job).problems.empty()) << length << told(read(job).problems);
    EXPECT_EQ(validator.complaints(job), "") << length;
  }
}

} // namespace
} // namespace treadfold
