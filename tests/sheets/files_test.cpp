// The names of the files in which a plan's sheets are handed over.
#include "sheets/files.h"

#include <gtest/gtest.h>

namespace treadfold {
namespace {

std::vector<std::string> names(const std::vector<Sheet>& sheets) {
  std::vector<std::string> out;
  for (const auto& file : sheet_files(sheets))
    out.push_back(file.name);
  return out;
}

Sheet sheet(const std::string& name, std::size_t pages = 1) {
  return {name, "Title", std::vector<Drawing>(pages), {}};
}

using Names = std::vector<std::string>;

} // namespace

TEST(Files, AnSvgAPageAPdfASheetACsvATable) {
  auto list = sheet("list", 2);
  list.table.header = {"a"};
  EXPECT_EQ(names({list}), (Names{"list.svg", "list-2.svg", "list.pdf", "list.csv", "all-sheets.pdf"}));
}

TEST(Files, NoTwoHaveOneName) {
  EXPECT_EQ(names({sheet("roll"), sheet("roll")}),
            (Names{"roll.svg", "roll.pdf", "roll-b.svg", "roll-b.pdf", "all-sheets.pdf"}));
  EXPECT_EQ(names({sheet("Roll"), sheet("roll")}),
            (Names{"Roll.svg", "Roll.pdf", "roll-b.svg", "roll-b.pdf", "all-sheets.pdf"}));
  EXPECT_EQ(names({sheet("all-sheets")}), (Names{"all-sheets.svg", "all-sheets-b.pdf", "all-sheets.pdf"}));
}

TEST(Files, ANameIsOfLettersDigitsDashAndUnderscore) {
  EXPECT_EQ(names({sheet("../a b.c")}), (Names{"---a-b-c.svg", "---a-b-c.pdf", "all-sheets.pdf"}));
}

TEST(Files, EachIsWrittenFromItsSheet) {
  auto list = sheet("list", 2);
  list.pages[1].width_mm = 100;
  list.table = {{"a"}, {{"1"}}};
  const std::vector<Sheet> sheets{sheet("roll"), list};
  std::vector<Drawing> all(3);
  all[2].width_mm = 100;
  for (const auto& [name, bytes] :
       std::vector<std::pair<std::string, std::string>>{{"roll.svg", write_svg({})},
                                                        {"list-2.svg", write_svg(list.pages[1])},
                                                        {"list.pdf", write_pdf(list.pages, "Title")},
                                                        {"list.csv", "a\r\n1\r\n"},
                                                        {"all-sheets.pdf", write_pdf(all, "Job")}}) {
    bool found = false;
    for (const auto& file : sheet_files(sheets))
      if (file.name == name) {
        found = true;
        EXPECT_EQ(write_sheet_file(file, sheets, "Job"), bytes) << name;
      }
    EXPECT_TRUE(found) << name;
  }
}

} // namespace treadfold
