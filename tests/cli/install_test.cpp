// What `cmake --install` puts into an empty folder works from there.
#include "shell.h"

#include <gtest/gtest.h>

namespace treadfold::test {
namespace {

TEST(Install, PutsAWorkingCommandItsManualAndItsCompletionIntoAnEmptyFolder) {
  const Shell shell;
  const auto installed = shell.run("cmake --install " BUILD_DIR " --prefix $PWD/usr");
  ASSERT_EQ(installed.status, 0) << installed.err;
  EXPECT_EQ(shell.run("cd usr && find . -path ./share/treadfold -prune -o -type f -print | sort").out,
            "./bin/treadfold\n"
            "./share/bash-completion/completions/treadfold\n"
            "./share/man/man1/treadfold.1\n");
  const auto planned =
      shell.run("PATH=$PWD/usr/bin:/usr/bin:/bin; treadfold new job.json && treadfold plan job.json");
  EXPECT_EQ(planned.status, 0) << planned.err;
  EXPECT_EQ(shell.run("mandoc -T lint -W warning usr/share/man/man1/treadfold.1").out, "");
}

std::string complete(const Shell& shell, const std::string& words) {
  return shell
      .run("source " SOURCE_DIR "/cli/treadfold.bash; COMP_WORDS=(" + words +
           "); COMP_CWORD=$((${#COMP_WORDS[@]} - 1)); _treadfold; echo ${COMPREPLY[@]}")
      .out;
}

TEST(Completion, KnowsCommandsOptionsAndJobs) {
  const Shell shell;
  shell.run("touch hall.json hall.txt; mkdir house");
  EXPECT_EQ(complete(shell, "treadfold ''"),
            "plan templates recut check new serve schema --help --version\n");
  EXPECT_EQ(complete(shell, "treadfold pl"), "plan\n");
  EXPECT_EQ(complete(shell, "treadfold plan h"), "hall.json house\n");
  EXPECT_EQ(complete(shell, "treadfold plan -o h"), "house\n");
  EXPECT_EQ(complete(shell, "treadfold new --left ''"), "wall skirt open\n");
  EXPECT_EQ(complete(shell, "treadfold templates --side ''"), "backing pile\n");
  EXPECT_EQ(complete(shell, "treadfold serve h"), "hall.json house\n");
  EXPECT_EQ(complete(shell, "treadfold schema ''"), "job plan fold recut --help\n");
}

/// Every long option of the command's help.
std::string options_of(const Shell& shell, const std::string& command) {
  return shell
      .run("treadfold " + command + " --help | grep -o -E -e '(^  |,)--[a-z]+' | sed 's/^[ ,]*//' | sort")
      .out;
}

TEST(Manual, AndCompletionNameEveryOption) {
  const Shell shell;
  for (const std::string command : {"plan", "templates", "recut", "check", "new", "serve", "schema"}) {
    const auto options = options_of(shell, command);
    ASSERT_NE(options.find("--help"), std::string::npos) << command;
    for (std::size_t at = 0; at < options.size(); at = options.find('\n', at) + 1) {
      const auto option = options.substr(at, options.find('\n', at) - at);
      EXPECT_NE(complete(shell, "treadfold " + command + " " + option).find(option), std::string::npos)
          << command << " " << option;
      if (option == "--help") continue;
      const auto named =
          "mandoc -T ascii " SOURCE_DIR "/cli/treadfold.1 | sed 's|.\\x08||g' | grep -q -e " + option;
      EXPECT_EQ(shell.run(named).status, 0) << command << " " << option;
    }
  }
}

} // namespace
} // namespace treadfold::test
