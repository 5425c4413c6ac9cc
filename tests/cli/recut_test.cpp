// The command recut: the rest on what is left.
#include "shell.h"

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace treadfold::test {
namespace {

struct Recut : testing::Test {
  Shell shell;
  Recut() { shell.run("treadfold new job.json --risers 13"); }
};

TEST_F(Recut, SaysInAFewLinesWhereEachPieceComesFrom) {
  const auto result = shell.run("treadfold recut job.json --cut A-12,A-11 --spoiled A-10");
  EXPECT_EQ(result.status, 0) << result.err;
  EXPECT_NE(result.out.find(": 2 cut, 1 spoiled, 11 to cut\n"), std::string::npos) << result.out;
  EXPECT_NE(result.out.find("\n  A-10 from "), std::string::npos) << result.out;
  EXPECT_EQ(result.err, "");
}

TEST_F(Recut, WritesItsSheetOnlyIntoAFolderOfItsOwn) {
  const auto result = shell.run("treadfold recut job.json --flaw '2 ft to 2 ft 1 in' -o rest");
  EXPECT_EQ(result.status, 0) << result.err;
  EXPECT_NE(result.out.find("The strokes are in rest/recut.pdf\n"), std::string::npos) << result.out;
  for (const auto* name : {"rest/recut.pdf", "rest/recut.svg"})
    EXPECT_GT(bytes_of(shell / name).size(), 1000u) << name;
  EXPECT_EQ(bytes_of(shell / "rest/recut.json"),
            shell.run("treadfold recut job.json --flaw '2 ft to 2 ft 1 in' --json").out);
  shell.run("treadfold plan job.json -o sheets");
  EXPECT_EQ(shell.run("treadfold recut job.json --spoiled A-10 -o sheets").status, 3);
  EXPECT_EQ(shell.run("treadfold plan job.json -o rest").status, 3);
  EXPECT_EQ(shell.run("ls rest/all-sheets.pdf").status, 2);
}

TEST_F(Recut, TheJobAndTheOptionsSayItAlike) {
  auto job = nlohmann::json::parse(bytes_of(shell / "job.json"), nullptr, true, true);
  job["cutting"] = {{{"carpet", job["carpets"][0]["id"]}, {"spoiled", {"A-10"}}, {"roll_length", "8 ft"}}};
  const auto said = shell.run("treadfold recut - --json <<'END'\n" + job.dump() + "\nEND\n");
  EXPECT_EQ(said.status, 0) << said.err;
  EXPECT_EQ(said.out, shell.run("treadfold recut job.json --spoiled A-10 --roll-length '8 ft' --json").out);
  EXPECT_FALSE(nlohmann::json::parse(said.out)["carpets"][0]["ways"].empty());
}

TEST_F(Recut, TakesTheWayThatIsAskedFor) {
  const auto result =
      shell.run("treadfold recut job.json --spoiled A-10 --roll-length '8 ft' --way laid_anew");
  EXPECT_EQ(result.status, 0) << result.err;
  EXPECT_NE(result.out.find("\n  all that is not cut is laid out anew: "), std::string::npos) << result.out;
  EXPECT_NE(result.out.find("\n  or: all that can stay is cut as planned: "), std::string::npos)
      << result.out;
  const auto none =
      shell.run("treadfold recut job.json --spoiled A-10 --roll-length '8 ft' --way hidden_seam");
  EXPECT_EQ(none.status, 0);
  EXPECT_NE(none.err.find("'hidden_seam', which is no way out here"), std::string::npos) << none.err;
}

TEST_F(Recut, WhatMakesNoSenseIsNamed) {
  const auto says = [&](const std::string& arguments) {
    const auto result = shell.run("treadfold recut job.json " + arguments);
    EXPECT_EQ(result.out, "");
    EXPECT_EQ(result.status, 2) << arguments;
    return result.err;
  };
  EXPECT_TRUE(
      says("--spoiled A-99").starts_with("treadfold: --spoiled: the job has no piece \"A-99\"; it has A-13"));
  EXPECT_EQ(says("--flaw '11 ft'"),
            "treadfold: --flaw: \"11 ft\" is not two lengths such as \"11 ft to 11 ft 2 in\"\n");
  EXPECT_EQ(says("--flaw '11 ft to 10 ft'"), "treadfold: --flaw: \"11 ft to 10 ft\" ends before it begins\n");
  EXPECT_EQ(says("--roll-length long"),
            "treadfold: --roll-length: \"long\" is not a length such as \"11 ft\" or \"3400 mm\"\n");
  EXPECT_EQ(says("--spoiled A-10 --way anew"), "treadfold: --way: \"anew\" is none of as_planned, laid_anew, "
                                               "other_remnant, smaller_join, hidden_seam\n");
  EXPECT_EQ(says("--spoiled A-10 --remnant stub"),
            "treadfold: --remnant: it goes with --way other_remnant\n");
  const auto nothing = shell.run("treadfold recut job.json");
  EXPECT_EQ(nothing.status, 1);
  EXPECT_NE(nothing.err.find("/cutting: found nothing, expected what is cut"), std::string::npos)
      << nothing.err;
}

} // namespace
} // namespace treadfold::test
