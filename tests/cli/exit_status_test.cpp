// Exit status and what is said, for everything that a user can do right or wrong.
#include "shell.h"

#include <gtest/gtest.h>

namespace treadfold::test {
namespace {

using testing::Test;

/// One clear sentence: one line, said to the user, that has `words` in it.
void expect_one_sentence(const std::string& text, const std::string& words) {
  EXPECT_EQ(std::count(text.begin(), text.end(), '\n'), 1) << text;
  EXPECT_NE(text.find(words), std::string::npos) << text;
}

TEST(ExitStatus, IsZeroWhenDone) {
  const Shell shell;
  for (const auto* commands :
       {"treadfold --version", "treadfold --help", "treadfold new job.json", "treadfold check job.json",
        "treadfold plan job.json", "treadfold plan - --json <job.json", "treadfold templates job.json",
        "treadfold templates - --json --piece A-02 <job.json", "treadfold schema", "treadfold schema plan",
        "treadfold schema recut", "treadfold recut job.json --spoiled A-02",
        "treadfold new - | treadfold check -"}) {
    const auto result = shell.run(commands);
    EXPECT_EQ(result.status, 0) << commands << "\n" << result.err;
    EXPECT_FALSE(result.out.empty()) << commands;
    EXPECT_EQ(result.err, "") << commands;
  }
}

TEST(ExitStatus, IsZeroForWarningsAlone) {
  const Shell shell;
  // a rise of 9 in is over every code's limit, and the code is the job's default or irc
  const auto result = shell.run("treadfold new job.json --rise 9 --going 9 && treadfold check job.json");
  EXPECT_NE(result.out.find("warning: "), std::string::npos) << result.out;
  EXPECT_EQ(result.status, 0);
}

TEST(ExitStatus, IsOneForAJobWithErrors) {
  const Shell shell;
  for (const auto* job : {"", "{", "[]", "{}", "null", "\"text\"", "\\xff\\xfe{}", "{\"treadfold\": 99}"}) {
    for (const auto* command : {"check", "plan", "check --json", "plan --json"}) {
      const auto commands = std::string("printf '") + job + "' >job.json; treadfold " + command + " job.json";
      const auto result = shell.run(commands);
      EXPECT_EQ(result.status, 1) << commands << "\n" << result.out << result.err;
      EXPECT_NE((result.out + result.err).find("error"), std::string::npos) << commands;
    }
    EXPECT_FALSE(std::filesystem::exists(shell / "job-sheets")) << job;
  }
}

TEST(ExitStatus, IsTwoForWrongArguments) {
  const Shell shell;
  for (const auto* commands : {"treadfold",
                               "treadfold frobnicate",
                               "treadfold plan",
                               "treadfold check",
                               "treadfold new",
                               "treadfold schema other",
                               "treadfold plan a b",
                               "treadfold templates",
                               "treadfold templates job.json --format jpeg",
                               "treadfold templates job.json --side edge",
                               "treadfold check --frob a",
                               "treadfold new job.json --risers 0",
                               "treadfold new job.json --risers many",
                               "treadfold new job.json --rise nonsense",
                               "treadfold new job.json --rise=-7",
                               "treadfold new job.json --rise 0",
                               "treadfold new job.json --going 0mm",
                               "treadfold new job.json --width '900 m'",
                               "treadfold new job.json --units furlong",
                               "treadfold new job.json --left ditch"}) {
    const auto result = shell.run(commands);
    EXPECT_EQ(result.status, 2) << commands << "\n" << result.out;
    expect_one_sentence(result.err, "treadfold: ");
  }
  EXPECT_FALSE(std::filesystem::exists(shell / "job.json"));
}

TEST(NewJob, SaysOfEachSizeThatMakesNoStairWhatItMayBe) {
  const Shell shell;
  const auto one = shell.run("treadfold new job.json --rise 400");
  EXPECT_EQ(one.status, 2);
  expect_one_sentence(one.err, "treadfold: --rise: found '400', expected a length from ");
  const auto two = shell.run("treadfold new job.json --rise 400 --width 9000");
  EXPECT_EQ(two.status, 2);
  EXPECT_EQ(std::count(two.err.begin(), two.err.end(), '\n'), 2) << two.err;
  for (const auto* words : {"treadfold: --rise: found ", "\ntreadfold: --width: found "})
    EXPECT_NE(two.err.find(words), std::string::npos) << two.err;
  EXPECT_EQ(two.err.find('?'), std::string::npos) << two.err;
  EXPECT_TRUE(two.err.ends_with(".\n")) << two.err;
  EXPECT_EQ(two.out, "");
  EXPECT_FALSE(std::filesystem::exists(shell / "job.json"));
}

TEST(ExitStatus, IsThreeForAJobThatCannotBeRead) {
  const Shell shell;
  expect_one_sentence(shell.run("treadfold plan absent.json").err, "absent.json: No such file");
  expect_one_sentence(shell.run("mkdir folder; treadfold plan folder").err, "folder: Is a directory");
  expect_one_sentence(shell.run("treadfold check - <&-").err, "standard input: ");
  EXPECT_EQ(shell.run("treadfold plan absent.json").status, 3);
  EXPECT_EQ(shell.run("treadfold plan folder").status, 3);
  EXPECT_EQ(shell.run("treadfold check - <&-").status, 3);
}

TEST(ExitStatus, IsThreeWhenStandardOutputIsFull) {
  const Shell shell;
  shell.run("treadfold new job.json");
  for (const auto* commands :
       {"treadfold schema >/dev/full", "treadfold --help >/dev/full", "treadfold check job.json >/dev/full",
        "treadfold new - >/dev/full", "treadfold plan job.json --json >/dev/full"}) {
    const auto result = shell.run(commands);
    EXPECT_EQ(result.status, 3) << commands;
    expect_one_sentence(result.err, "standard output");
  }
}

TEST(Input, ThatNeverEndsIsRefused) {
  const Shell shell;
  const auto result = shell.run("timeout 60 treadfold check - </dev/zero");
  EXPECT_EQ(result.status, 1) << result.err;
  EXPECT_EQ(std::count(result.out.begin(), result.out.end(), '\n'), 2) << result.out.substr(0, 2000);
}

TEST(Input, MayComeSlowlyAndIsThenWaitedForInWords) {
  const Shell shell;
  shell.run("treadfold new job.json");
  const auto result = shell.run("(sleep 1.5; cat job.json) | treadfold check -");
  EXPECT_EQ(result.status, 0);
  expect_one_sentence(result.err, "waiting for the job on standard input");
}

TEST(NewJob, ReplacesAFileOnlyIfForced) {
  const Shell shell;
  shell.run("echo mine >job.json");
  const auto refused = shell.run("treadfold new job.json");
  EXPECT_EQ(refused.status, 3);
  expect_one_sentence(refused.err, "--force");
  EXPECT_EQ(bytes_of(shell / "job.json"), "mine\n");
  EXPECT_EQ(shell.run("treadfold new job.json --force").status, 0);
  EXPECT_EQ(bytes_of(shell / "job.json"), shell.run("treadfold new -").out);
  EXPECT_EQ(shell.run("ls -A").out, "job.json\n");
}

TEST(NewJob, HasTheSizesAsked) {
  const Shell shell;
  const auto result =
      shell.run("treadfold new - --risers 15 --rise '7 5/8' --going 250mm --width \"3' 1\\\"\" "
                "--left skirt --right open | treadfold plan - --json");
  ASSERT_EQ(result.status, 0) << result.err;
  for (const auto* words : {"\"number\": 15", "\"rise_mm\": 193.675", "\"going_mm\": 250.0",
                            "\"width_mm\": 939.8", "\"kind\": \"skirt\"", "\"kind\": \"open\""})
    EXPECT_NE(result.out.find(words), std::string::npos) << words;
  EXPECT_EQ(result.out.find("\"number\": 16"), std::string::npos);
}

TEST(Terminal, IsNotObeyedByTextOfTheJob) {
  const Shell shell;
  shell.run(R"(printf '{"treadfold": 1, "\\u001b[31mred": 1, "\\u009b2J": 2}' >job.json)");
  const auto result = shell.run("treadfold check job.json");
  EXPECT_EQ(result.status, 1);
  EXPECT_NE(result.out.find("31mred"), std::string::npos) << result.out;
  EXPECT_EQ(result.out.find('\x1b'), std::string::npos);
  EXPECT_EQ(result.out.find("\xc2\x9b"), std::string::npos);
}

TEST(Arguments, MayBeNamedLikeACommand) {
  const Shell shell;
  EXPECT_EQ(shell.run("treadfold new plan && treadfold check plan && treadfold plan plan -o new").status, 0);
}

} // namespace
} // namespace treadfold::test
