// The command templates: which files it writes, and what it will not do.
#include "shell.h"

#include <algorithm>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

namespace treadfold::test {
namespace {

struct Templates : testing::Test {
  Shell shell;
  Templates() { shell.run("treadfold new job.json --risers 3 --right open"); }
};

TEST_F(Templates, OfEveryPieceInEveryFormByDefault) {
  const auto result = shell.run("treadfold templates job.json");
  EXPECT_EQ(result.status, 0) << result.err;
  EXPECT_NE(result.out.find("3 pieces at full size, 12 files in job-templates"), std::string::npos)
      << result.out;
  EXPECT_NE(result.out.find("Backing up"), std::string::npos);
  EXPECT_NE(result.out.find("Print at 100 %"), std::string::npos);
  for (const auto* piece : {"a-01", "a-02", "a-03"})
    for (const auto* ending : {"-tiles.pdf", "-plotter.pdf", ".dxf", ".svg"}) {
      const auto name = std::string(piece) + "-backing-up" + ending;
      EXPECT_GT(bytes_of(shell / ("job-templates/" + name)).size(), 1000u) << name;
    }
  EXPECT_EQ(shell.run("(cat job-templates/.treadfold; echo .treadfold) | sort").out,
            shell.run("ls -A job-templates | sort").out);
}

TEST_F(Templates, OnlyThoseAskedFor) {
  EXPECT_EQ(shell
                .run("treadfold templates job.json --piece A-02 --piece A-01 --format dxf --format svg "
                     "--side pile -o here")
                .status,
            0);
  EXPECT_EQ(shell.run("ls here").out,
            "a-01-pile-up.dxf\na-01-pile-up.svg\na-02-pile-up.dxf\na-02-pile-up.svg\ntemplates.json\n");
}

// 24 ft of straight edge need no paper; a winder's slanting sides do.
TEST_F(Templates, OfARunnerOnlyItsWindersUnlessAskedFor) {
  const auto all = shell.run("treadfold templates " SOURCE_DIR "/examples/runner.json --format dxf -o here");
  EXPECT_EQ(all.status, 0) << all.err;
  EXPECT_EQ(shell.run("ls here").out,
            "b-04-backing-up.dxf\nb-05-backing-up.dxf\nb-06-backing-up.dxf\ntemplates.json\n");
  shell.run("treadfold templates " SOURCE_DIR "/examples/runner.json --piece B-01.03 --format dxf -o one");
  EXPECT_EQ(shell.run("ls one").out, "b-01-03-backing-up.dxf\ntemplates.json\n");
}

TEST_F(Templates, ListedAsJsonInTheFolderAndOnStandardOutput) {
  const auto text = shell.run("treadfold templates job.json --json").out;
  EXPECT_EQ(shell.run("ls").out, "job.json\n");
  EXPECT_EQ(shell.run("treadfold templates job.json -o here --json").out, text);
  EXPECT_EQ(bytes_of(shell / "here/templates.json"), text);
  const auto list = nlohmann::json::parse(text);
  EXPECT_EQ(list["treadfold_templates"], 1);
  EXPECT_EQ(list["side"], "backing");
  ASSERT_EQ(list["templates"].size(), 12u);
  for (const auto& entry : list["templates"]) {
    const auto file = entry["file"].get<std::string>();
    EXPECT_FALSE(bytes_of(shell / ("here/" + file)).empty()) << file;
    if (!file.ends_with(".pdf")) continue;
    const auto pages = shell.run("pdfinfo here/" + file + " | sed -n 's/^Pages: *//p'").out;
    EXPECT_EQ(std::stoi(pages), entry["pages"].get<int>()) << file;
  }
}

TEST_F(Templates, OfAPieceThatTheJobLacksNamesThoseItHas) {
  const auto result = shell.run("treadfold templates job.json --piece A-09");
  EXPECT_EQ(result.status, 2);
  EXPECT_NE(result.err.find("no piece \"A-09\"; it has A-03, A-02, A-01"), std::string::npos) << result.err;
  EXPECT_EQ(shell.run("ls").out, "job.json\n");
}

TEST_F(Templates, AndSheetsNeverTakeEachOthersFolder) {
  shell.run("treadfold plan job.json -o sheets; treadfold templates job.json -o full");
  const auto all = [&] { return shell.run("cat sheets/* full/* | sha256sum").out; };
  const auto before = all();
  const auto over_sheets = shell.run("treadfold templates job.json -o sheets");
  EXPECT_EQ(over_sheets.status, 3);
  EXPECT_NE(over_sheets.err.find("sheets holds the sheets of a plan"), std::string::npos) << over_sheets.err;
  const auto over_templates = shell.run("treadfold plan job.json -o full");
  EXPECT_EQ(over_templates.status, 3);
  EXPECT_NE(over_templates.err.find("full holds templates"), std::string::npos) << over_templates.err;
  EXPECT_EQ(all(), before);
}

TEST_F(Templates, AreNotWrittenOfAJobThatCannotBeRead) {
  const auto result = shell.run("echo '{}' | treadfold templates -");
  EXPECT_EQ(result.status, 1);
  EXPECT_NE(result.err.find("No templates were written."), std::string::npos) << result.err;
  EXPECT_EQ(shell.run("ls").out, "job.json\n");
}

} // namespace
} // namespace treadfold::test
