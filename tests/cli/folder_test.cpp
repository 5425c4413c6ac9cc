// The promises of cli/files.h: sheets appear whole or not at all, and nothing of the user's is replaced.
#include "shell.h"

#include <gtest/gtest.h>

#include <unistd.h>

namespace treadfold::test {
namespace {

/// Names and contents of all files, to compare a folder before and after.
std::string contents(const Shell& shell, const std::string& folder) {
  return shell.run("cd " + folder + " && find . -type f -exec sha256sum {} + | sort -k 2").out;
}

/// A shell with a job and a folder of its sheets, and a second job whose sheets are others.
struct TwoJobs : testing::Test {
  Shell shell;
  TwoJobs() {
    EXPECT_EQ(shell
                  .run("treadfold new job.json --risers 4; treadfold new other.json --risers 3 --right open; "
                       "treadfold plan job.json -o sheets; treadfold plan other.json -o others")
                  .status,
              0);
  }
};

using Folder = TwoJobs;

TEST_F(Folder, HoldsEverySheetInEveryForm) {
  const auto listed = shell.run("cd sheets && find . -type f | sort");
  EXPECT_EQ(listed.out,
            shell.run("cd sheets && (echo .treadfold; cat .treadfold) | sed 's|^|./|' | sort").out);
  const auto count = [&](const std::string& pattern) {
    return std::stoi(shell.run("ls sheets/" + pattern + " | wc -l").out);
  };
  EXPECT_EQ(shell
                .run("cd sheets && for f in *.svg; do xmllint=1; head -c 5 $f | grep -q '<?xml\\|<svg' || "
                     "echo $f; done")
                .out,
            "");
  EXPECT_EQ(shell.run("cd sheets && for f in *.pdf; do head -c 5 $f | grep -q '%PDF-' || echo $f; done").out,
            "");
  // every sheet but all-sheets is there as PDF and as SVG, one SVG a page
  EXPECT_EQ(shell
                .run("cd sheets && for f in *.pdf; do [ $f = all-sheets.pdf ] || [ -e ${f%.pdf}.svg ] || "
                     "echo $f; done")
                .out,
            "");
  EXPECT_EQ(std::stoi(shell.run("pdfinfo sheets/all-sheets.pdf | sed -n 's/^Pages: *//p'").out),
            count("*.svg"));
  EXPECT_GE(count("step*.svg"), 4);
  EXPECT_GE(count("*.csv"), 1);
}

TEST_F(Folder, IsReplacedByTheNextRunAndHoldsNothingOfTheFirst) {
  shell.run("echo mine >sheets/notes.txt; mkdir sheets/photos");
  EXPECT_EQ(shell.run("treadfold plan other.json -o sheets/").status, 0);
  EXPECT_EQ(shell.run("rm sheets/notes.txt && rmdir sheets/photos").status, 0);
  EXPECT_EQ(contents(shell, "sheets"), contents(shell, "others"));
}

TEST_F(Folder, IsSaidToHaveHeldAnotherJobsSheets) {
  EXPECT_EQ(shell.run("sed -i 's/\"Stair carpet\"/\"Mill Lane\"/' other.json").status, 0);
  const auto other = shell.run("treadfold plan other.json -o sheets");
  EXPECT_EQ(other.status, 0);
  EXPECT_EQ(other.err,
            "treadfold: the sheets in sheets were of another job, Stair carpet; they are replaced\n");
  EXPECT_EQ(shell.run("treadfold plan other.json -o sheets").err, "") << "the same job again";
  shell.run("sed -i 's/\"customer\": \"\"/\"customer\": \"A. Sample\"/' other.json");
  EXPECT_NE(shell.run("treadfold plan other.json -o sheets --json").err.find("another job, Mill Lane;"),
            std::string::npos);
  EXPECT_NE(shell.run("treadfold plan job.json -o sheets").err.find("another job, Mill Lane, A. Sample;"),
            std::string::npos);
  shell.run("echo nonsense >sheets/plan.json");
  const auto mended = shell.run("treadfold plan job.json -o sheets");
  EXPECT_EQ(mended.status, 0);
  EXPECT_EQ(mended.err, "");
}

TEST_F(Folder, TakesTheNameOfTheJobIfNotNamed) {
  EXPECT_EQ(shell.run("treadfold plan job.json").status, 0);
  EXPECT_EQ(contents(shell, "job-sheets"), contents(shell, "sheets"));
  EXPECT_EQ(shell.run("treadfold plan - <job.json -o a/b/c").status, 0);
  EXPECT_EQ(contents(shell, "a/b/c"), contents(shell, "sheets"));
  EXPECT_EQ(shell.run("mkdir d && cd d && treadfold plan ../job.json -o .").status, 0);
  EXPECT_EQ(contents(shell, "d"), contents(shell, "sheets"));
}

TEST_F(Folder, KeepsAFileOfTheUsersThatIsInTheWay) {
  const auto result =
      shell.run("mkdir mine && echo precious >mine/plan.json && treadfold plan job.json -o mine");
  EXPECT_EQ(result.status, 3);
  EXPECT_NE(result.err.find("mine/plan.json is in the way"), std::string::npos) << result.err;
  EXPECT_EQ(shell.run("ls -A mine; cat mine/plan.json").out, "plan.json\nprecious\n");
}

TEST_F(Folder, MayNotBeAFile) {
  const auto before = contents(shell, ".");
  const auto result = shell.run("treadfold plan job.json -o other.json");
  EXPECT_EQ(result.status, 3);
  EXPECT_NE(result.err.find("other.json is a file"), std::string::npos) << result.err;
  EXPECT_EQ(shell.run("treadfold plan job.json -o other.json/sheets").status, 3);
  EXPECT_EQ(contents(shell, "."), before);
}

TEST_F(Folder, IsAsItWasWhenTheDiskWillTakeNoMore) {
  const auto before = contents(shell, ".");
  // with the signal ignored, a file over the limit of 1 kB fails as on a full disk
  const std::string limit = "trap '' XFSZ; ulimit -f 1; ";
  for (const auto* folder : {"sheets", "fresh"}) {
    const auto result = shell.run(limit + "treadfold plan other.json -o " + folder + " >/dev/null");
    EXPECT_EQ(result.status, 3);
    EXPECT_NE(result.err.find("File too large"), std::string::npos) << result.err;
  }
  EXPECT_EQ(shell.run("ls -A").out, "job.json\nother.json\nothers\nsheets\n");
  EXPECT_EQ(contents(shell, "."), before);
}

TEST_F(Folder, IsAsItWasWhenTheDiskIsFull) {
  if (shell.run("mkdir disk && mount -t tmpfs -o size=48k treadfold disk").status != 0)
    GTEST_SKIP() << "only who may mount can make a full disk";
  EXPECT_EQ(shell.run("mkdir disk/sheets && echo old >disk/sheets/old.txt").status, 0);
  for (const auto* folder : {"disk/sheets", "disk/fresh"}) {
    const auto result = shell.run(std::string("treadfold plan job.json -o ") + folder);
    EXPECT_EQ(result.status, 3);
    EXPECT_NE(result.err.find("No space left"), std::string::npos) << result.err;
  }
  EXPECT_EQ(shell.run("cd disk && find . -type f").out, "./sheets/old.txt\n");
  EXPECT_EQ(shell.run("umount disk").status, 0);
}

TEST_F(Folder, ThatCannotBeWrittenIsNamed) {
  const std::string as_user = geteuid() == 0 ? "chmod 755 .; setpriv --reuid=65534 --clear-groups " : "";
  const auto result = shell.run("mkdir locked; chmod 555 locked; " + as_user +
                                "$(command -v treadfold) plan job.json -o locked");
  EXPECT_EQ(result.status, 3);
  EXPECT_NE(result.err.find("locked: Permission denied"), std::string::npos) << result.err;
  EXPECT_EQ(shell.run("ls -A locked").out, "");
}

TEST_F(Folder, GetsItsOldSheetsBackWhenOneCannotBeReplaced) {
  // a folder in the place of the last sheet: the sheets before it have been replaced when that is noticed
  shell.run("rm sheets/all-sheets.pdf; mkdir sheets/all-sheets.pdf");
  const auto before = contents(shell, "sheets");
  const auto result = shell.run("treadfold plan other.json -o sheets");
  EXPECT_EQ(result.status, 3);
  EXPECT_NE(result.err.find("all-sheets.pdf"), std::string::npos) << result.err;
  EXPECT_EQ(contents(shell, "sheets"), before);
}

TEST_F(Folder, IsWholeOrAbsentWheneverTheProgramIsKilled) {
  const auto whole = contents(shell, "others");
  int absent = 0, there = 0;
  for (int ms = 0; ms <= 60 || (there == 0 && ms < 5000); ms += ms < 60 ? 3 : 100) {
    shell.run("rm -rf fresh; treadfold plan other.json -o fresh & sleep " + std::to_string(ms / 1000.0) +
              "; kill -9 $!; wait $!");
    if (std::filesystem::exists(shell / "fresh")) {
      ++there;
      EXPECT_EQ(contents(shell, "fresh"), whole) << "killed after " << ms << " ms";
    } else {
      ++absent;
    }
  }
  EXPECT_GT(absent, 0);
  EXPECT_GT(there, 0);
}

TEST_F(Folder, HoldsOnlyWholeSheetsWheneverTheProgramIsKilledWhileItReplacesThem) {
  const auto one = contents(shell, "sheets"), other = contents(shell, "others");
  for (int ms = 0; ms <= 60; ms += 3) {
    shell.run("treadfold plan other.json -o sheets & sleep " + std::to_string(ms / 1000.0) +
              "; kill -9 $!; wait $!; "
              "rm -rf sheets/.treadfold-*");
    const auto mixed = shell.run("cd sheets && sha256sum *.pdf *.svg *.csv *.json").out;
    for (std::size_t at = 0; at < mixed.size(); at = mixed.find('\n', at) + 1) {
      const auto hash = mixed.substr(at, 64);
      EXPECT_TRUE(one.find(hash) != std::string::npos || other.find(hash) != std::string::npos)
          << mixed.substr(at, mixed.find('\n', at) - at);
    }
    EXPECT_EQ(shell.run("treadfold plan job.json -o sheets").status, 0) << "the next run puts it right";
    EXPECT_EQ(contents(shell, "sheets"), one);
  }
}

TEST_F(Folder, IsClearedOfHalfWrittenSheetsWhenAskedToStop) {
  for (int ms = 0; ms <= 60; ms += 3) {
    shell.run("treadfold plan other.json -o fresh & sleep " + std::to_string(ms / 1000.0) +
              "; kill -TERM $!; wait $!");
    EXPECT_EQ(shell.run("rm -rf fresh; ls -A").out, "job.json\nother.json\nothers\nsheets\n");
  }
}

} // namespace
} // namespace treadfold::test
