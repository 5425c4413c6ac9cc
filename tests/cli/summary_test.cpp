// What the terminal shows.
#include "shell.h"

#include <gtest/gtest.h>

namespace treadfold::test {
namespace {

/// Columns of one line of UTF-8, each letter one.
std::size_t columns(const std::string& line) {
  return static_cast<std::size_t>(std::count_if(
      line.begin(), line.end(), [](char c) { return (static_cast<unsigned char>(c) & 0xC0) != 0x80; }));
}

void expect_fits_a_screen(const std::string& text) {
  std::size_t lines = 0;
  for (std::size_t at = 0; at < text.size(); ++lines) {
    const auto end = text.find('\n', at);
    ASSERT_NE(end, std::string::npos) << "the last line is not ended";
    EXPECT_LE(columns(text.substr(at, end - at)), 80U) << text.substr(at, end - at);
    at = end + 1;
  }
  EXPECT_LE(lines, 24U) << text;
  EXPECT_GE(lines, 7U) << text;
}

TEST(Summary, OfEachExampleFitsAScreen) {
  const Shell shell;
  int examples = 0;
  for (const auto& entry : std::filesystem::directory_iterator(SOURCE_DIR "/examples")) {
    if (entry.path().extension() != ".json") continue;
    ++examples;
    const auto result = shell.run("treadfold plan " + entry.path().string() + " -o sheets");
    EXPECT_EQ(result.status, 0) << result.err;
    expect_fits_a_screen(result.out);
    for (const auto* label :
         {"Job  ", "Fit  ", "Cut  ", "Sure  ", "Carpet  ", "Buy  ", "Price  ", "Check  ", "Sheets  "})
      EXPECT_NE(result.out.find(label), std::string::npos) << entry.path() << ": no " << label;
    EXPECT_NE(result.out.find("sheets/all-sheets.pdf"), std::string::npos);
  }
  EXPECT_GE(examples, 3);
}

TEST(Summary, FitsAScreenWithLongNamesAndManyWarnings) {
  const Shell shell;
  // every step breaks the code in its own way, and the folder's name is long
  const auto result = shell.run("name=$(printf 'Ö%.0s' {1..100})\n"
                                "treadfold new job.json --risers 40 --rise 9 --going 8 --width 20\n"
                                "mkdir $name && treadfold plan job.json -o $name/$name");
  EXPECT_EQ(result.status, 0) << result.err;
  expect_fits_a_screen(result.out);
  EXPECT_NE(result.out.find("warning"), std::string::npos);
}

TEST(Summary, IsOfTheWholeOrderWhenItComesInSeveralCuts) {
  const Shell shell;
  shell.run("treadfold new job.json --risers 9 && sed -i \"s/100'/4'/\" job.json");
  const auto result = shell.run("treadfold plan job.json -o sheets");
  ASSERT_EQ(result.status, 0) << result.err;
  // From 12 ft of width three pieces of 38 in lie side by side: nine pieces are 3 rows. The 8 steps, each
  // 10 + 1 + 7 1/2 in and what bends and allowances add, are 20 13/16 in long, the landing edge 14 13/16: so
  // 3 x 20 13/16 = 62 7/16 in, in cuts of two rows and of one, sold by the foot as 4 + 2 ft.
  EXPECT_NE(result.out.find("6' 0\" of 12' 0\" roll in 2 cuts, 8.00 sq yd"), std::string::npos) << result.out;
  EXPECT_NE(result.out.find("the layout is 5' 2 7/16\" long, the least possible"), std::string::npos)
      << result.out;
  // 38 x (8 x 20 13/16 + 14 13/16) sq in of 72 x 144: 34 % are left
  EXPECT_NE(result.out.find(" 34 % waste"), std::string::npos) << result.out;
}

} // namespace
} // namespace treadfold::test
