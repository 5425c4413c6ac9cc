#include "outside.h"
#include "sheets/drawing.h"
#include "sheets/lettering.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <cstdlib>
#include <vector>

namespace treadfold {
namespace {

TEST(Lettering, DecimalsAreShortAndPlain) {
  EXPECT_EQ(decimal(0), "0");
  EXPECT_EQ(decimal(-0.0001), "0");
  EXPECT_EQ(decimal(12.5), "12.5");
  EXPECT_EQ(decimal(-0.04), "-0.04");
  EXPECT_EQ(decimal(215.9), "215.9");
  EXPECT_EQ(decimal(1e6), "1000000");
}

RC_GTEST_PROP(Lettering, DecimalsReadBackWithinHalfAThousandth, (int thousands)) {
  const double x = thousands / 7.0;
  RC_ASSERT(std::abs(std::strtod(decimal(x).c_str(), nullptr) - x) <= 0.0005 * (1 + 1e-9));
}

TEST(Lettering, SignsOutsideTheFaceBecomeTheirNearestLikeness) {
  EXPECT_EQ(win_ansi("½ × 3″"), "\xBD \xD7 3\"");
  EXPECT_EQ(win_ansi("\xE2\x82\xAC"), "\x80"); // euro
  EXPECT_EQ(win_ansi("\xE6\xA2\xAF"), "?");    // a Chinese sign
  EXPECT_EQ(win_ansi("a\tb\nc"), "a b c");
  EXPECT_EQ(win_ansi("\xFFx\xC3"), "?x?"); // not UTF-8
  EXPECT_EQ(printable("naïve – “so”…"), "naïve – “so”…");
}

RC_GTEST_PROP(Lettering, WhateverComesInPrintableTextComesOut, (const std::string& bytes)) {
  const std::string once = printable(bytes);
  RC_ASSERT(printable(once) == once);
  RC_ASSERT(text_width(bytes, 4, false) == text_width(once, 4, false));
}

/// Widths as poppler's own tables of the fourteen standard faces have them.
TEST(Lettering, WidthsAreThoseOfPopplersStandardFaces) {
  for (const bool bold : {false, true}) {
    constexpr int kTimes = 40;
    Drawing page;
    std::vector<std::string> words;
    for (int code = 0x21; code < 0x100; ++code) {
      std::string sign;
      if (code >= 0x80) sign += static_cast<char>(0xC0 | (code >> 6));
      sign += static_cast<char>(code < 0x80 ? code : 0x80 | (code & 0x3F));
      if (win_ansi(sign)[0] != static_cast<char>(code) || code == 0xA0 || code == 0xAD)
        continue; // poppler reads these two as space and hyphen
      std::string word = "H";
      for (int i = 0; i < kTimes; ++i)
        word += sign;
      words.push_back(word + "H");
      const double y = 4 + 2.5 * static_cast<double>(words.size() % 100);
      page.texts.push_back({{20 + 60.0 * static_cast<double>(words.size() / 100), y}, 1, words.back()});
      page.texts.back().bold = bold;
    }
    ASSERT_EQ(words.size(), 94u + 94u);
    const CommandResult read =
        run("pdftotext -bbox " + in_file(write_pdf({page}, "widths"), "widths.pdf") + " -");
    ASSERT_EQ(read.status, 0) << read.output;

    for (const std::string& word : words) {
      std::string shown;
      for (const char c : word)
        shown += c == '&'    ? "&amp;"
                 : c == '<'  ? "&lt;"
                 : c == '>'  ? "&gt;"
                 : c == '"'  ? "&quot;"
                 : c == '\'' ? "&apos;"
                             : std::string(1, c);
      const std::size_t end = read.output.find(">" + shown + "</word>");
      ASSERT_NE(end, std::string::npos) << word;
      const std::string tag = read.output.substr(read.output.rfind("<word", end), 200);
      const auto value = [&](const std::string& name) {
        return std::strtod(tag.c_str() + tag.find(name + "=\"") + name.size() + 2, nullptr);
      };
      EXPECT_NEAR((value("xMax") - value("xMin")) * 25.4 / 72, text_width(word, 1, bold), 0.006) << word;
    }
  }
}

} // namespace
} // namespace treadfold
