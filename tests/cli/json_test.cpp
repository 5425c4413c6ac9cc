// plan.json and the CSV sheets, read by readers that are not ours.
#include "shell.h"

#include "../job/validator.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace treadfold::test {
namespace {

using nlohmann::json;

/// The published schema, and no key beyond it: what is written is documented.
json closed(json schema) {
  if (schema.is_object() && schema.contains("properties")) schema["additionalProperties"] = false;
  if (schema.is_structured())
    for (auto& part : schema)
      part = closed(part);
  return schema;
}

std::vector<std::filesystem::path> examples() {
  std::vector<std::filesystem::path> found;
  for (const auto& entry : std::filesystem::directory_iterator(SOURCE_DIR "/examples"))
    if (entry.path().extension() == ".json") found.push_back(entry.path());
  EXPECT_GE(found.size(), 3U);
  return found;
}

TEST(PlanJson, IsWhatItsSchemaSays) {
  const Shell shell;
  const Validator schema(closed(json::parse(shell.run("treadfold schema plan").out)).dump());
  for (const auto& example : examples()) {
    const auto plan = json::parse(shell.run("treadfold plan --json " + example.string()).out);
    EXPECT_EQ(schema.complaints(plan), "") << example;
    EXPECT_FALSE(plan["pieces"].empty());
    EXPECT_FALSE(plan["layouts"][0]["rolls"].empty());
  }
}

TEST(PlanJson, IsRefusedByItsSchemaWhenAKeyIsMissingOrOneTooMany) {
  const Shell shell;
  const Validator schema(closed(json::parse(shell.run("treadfold schema plan").out)).dump());
  const auto plan = json::parse(shell.run("treadfold plan --json " + examples().front().string()).out);
  for (const auto* pointer :
       {"/quote/total_cents", "/pieces/0/proof/passed", "/layouts/0/rolls/0/width_mm"}) {
    auto broken = plan;
    auto& parent = broken[json::json_pointer(pointer).parent_pointer()];
    parent.erase(json::json_pointer(pointer).back());
    EXPECT_NE(schema.complaints(broken), "") << pointer;
  }
  auto broken = plan;
  broken["pieces"][0]["colour"] = "red";
  EXPECT_NE(schema.complaints(broken), "");
}

TEST(PlanJson, IsTheSameOnStandardOutputAsInTheFolderAndTheSameEachTime) {
  const Shell shell;
  for (const auto& example : examples()) {
    shell.run("treadfold plan -o sheets " + example.string());
    EXPECT_EQ(bytes_of(shell / "sheets/plan.json"),
              shell.run("treadfold plan --json " + example.string()).out);
    shell.run("treadfold plan -o again " + example.string() + "; diff -r sheets again >difference");
    EXPECT_EQ(bytes_of(shell / "difference"), "");
    shell.run("rm -r again");
  }
}

TEST(FoldJson, IsWhatItsSchemaSaysAndFitsItsPlan) {
  const Shell shell;
  const Validator schema(closed(json::parse(shell.run("treadfold schema fold").out)).dump());
  for (const auto& example : examples()) {
    shell.run("treadfold plan -o sheets " + example.string());
    const auto plan = json::parse(bytes_of(shell / "sheets/plan.json")),
               fold = json::parse(bytes_of(shell / "sheets/fold.json"));
    EXPECT_EQ(schema.complaints(fold), "") << example;
    ASSERT_EQ(fold["pieces"].size(), plan["pieces"].size());
    EXPECT_EQ(fold["fractions"].front(), 0);
    EXPECT_EQ(fold["fractions"].back(), 1);
    for (std::size_t i = 0; i < plan["pieces"].size(); ++i) {
      const auto& piece = plan["pieces"][i];
      EXPECT_EQ(fold["pieces"][i]["piece"], piece["id"]);
      const auto& shape = fold["shapes"].at(fold["pieces"][i]["shape"].get<std::size_t>());
      EXPECT_EQ(shape["faces"].size(), piece["faces"].size());
      EXPECT_EQ(shape["faces"].back()["to"].get<std::size_t>() * 3, shape["triangles"].size());
      EXPECT_EQ(shape["lines"].size(), piece["lines"].size());
      ASSERT_EQ(shape["positions_mm"].size(), fold["fractions"].size());
      const auto vertices = shape["flat_mm"].size() / 2;
      for (const auto& positions : shape["positions_mm"])
        EXPECT_EQ(positions.size(), 3 * vertices);
      for (const auto& index : shape["triangles"])
        EXPECT_LT(index.get<std::size_t>(), vertices);
      for (const auto& line : shape["lines"])
        for (const auto& index : line["vertices"])
          EXPECT_LT(index.get<std::size_t>(), vertices);
    }
  }
}

// A stair of many steps has few kinds of them.
TEST(FoldJson, PiecesAlikeShareAShapeAndItCanBeLeftOut) {
  const Shell shell;
  const auto out = shell.run("treadfold new - --risers 14 --right open | treadfold plan - -o sheets && "
                             "treadfold plan --no-fold -o without " SOURCE_DIR "/examples/box-stair.json");
  EXPECT_EQ(out.status, 0) << out.err;
  const auto fold = json::parse(bytes_of(shell / "sheets/fold.json"));
  EXPECT_EQ(fold["pieces"].size(), 14U);
  EXPECT_EQ(fold["shapes"].size(), 2U); // the step and the landing edge
  EXPECT_TRUE(std::filesystem::exists(shell / "without/plan.json"));
  EXPECT_FALSE(std::filesystem::exists(shell / "without/fold.json"));
}

TEST(PlanJson, AddsUpWithinItself) {
  const Shell shell;
  for (const auto& example : examples()) {
    const auto plan = json::parse(shell.run("treadfold plan --json " + example.string()).out);
    std::size_t placed = 0;
    for (const auto& layout : plan["layouts"]) {
      EXPECT_LE(layout["lower_bound_mm"], layout["rolls"].back()["length_used_mm"]);
      for (const auto& roll : layout["rolls"])
        placed += roll["placements"].size();
    }
    EXPECT_EQ(placed, plan["pieces"].size()) << example;
    const auto& quote = plan["quote"];
    EXPECT_EQ(quote["total_cents"].get<long>(),
              quote["deposit_cents"].get<long>() + quote["balance_cents"].get<long>());
  }
}

TEST(ProblemsJson, CountsWhatItLists) {
  const Shell shell;
  const auto clean = json::parse(shell.run("treadfold new - | treadfold check - --json").out);
  EXPECT_EQ(clean["errors"], 0);
  const auto broken = json::parse(shell.run("echo '{\"frob\": 1}' | treadfold check - --json").out);
  std::size_t errors = 0;
  for (const auto& problem : broken["problems"]) {
    EXPECT_FALSE(problem["sentence"].get<std::string>().empty());
    errors += problem["severity"] == "error";
  }
  EXPECT_GT(errors, 0U);
  EXPECT_EQ(broken["errors"], errors);
}

TEST(Sheets, AreReadByOtherReaders) {
  const Shell shell;
  for (const auto& example : examples()) {
    shell.run("treadfold plan -o sheets " + example.string());
    const auto result = shell.run(R"(python3 - sheets <<'END'
import csv, glob, json, sys, xml.dom.minidom
folder = sys.argv[1]
json.load(open(folder + "/plan.json", encoding="utf-8"))
tables = glob.glob(folder + "/*.csv")
assert tables
for name in tables:
    rows = list(csv.reader(open(name, newline="", encoding="utf-8"), strict=True))
    assert len(rows) > 1 and all(len(row) == len(rows[0]) for row in rows), name
for name in glob.glob(folder + "/*.svg"):
    assert xml.dom.minidom.parse(name).documentElement.tagName == "svg", name
END
for f in sheets/*.pdf; do qpdf --check "$f" >/dev/null || exit 1; done)");
    EXPECT_EQ(result.status, 0) << example << "\n" << result.err;
  }
}

} // namespace
} // namespace treadfold::test
