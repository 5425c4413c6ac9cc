// The sheets in Spanish: every phrase has its Spanish, and on the sheets of the examples no English is left.
#include "legible.h"
#include "sheets/lettering.h"
#include "sheets/recut_sheet.h"
#include "sheets/sheets.h"
#include "sheets/step_sheet.h"
#include "sheets/template_page.h"
#include "text/phrases.h"
#include "text/sentence.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <set>
#include <sstream>

namespace treadfold {
namespace {

namespace fs = std::filesystem;
using Words = std::set<std::string>;

std::string contents(const fs::path& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream all;
  all << in.rdbuf();
  return all.str();
}

// ---- the phrases in the sources

/// The string literals of a source; those side by side are one.
Words literals(const std::string& source) {
  Words found;
  std::string literal;
  bool open = false; // a literal that may go on
  const auto end = [&] {
    if (open) found.insert(literal);
    literal.clear(), open = false;
  };
  for (std::size_t i = 0; i < source.size(); ++i) {
    const char c = source[i];
    if (source.compare(i, 2, "//") == 0 || source.compare(i, 8, "#include") == 0) {
      i = source.find('\n', i);
    } else if (c == '\'') {
      end();
      i = source.find('\'', source[i + 1] == '\\' ? i + 3 : i + 2);
    } else if (c == '"') {
      open = true;
      for (++i; source[i] != '"'; ++i)
        literal += source[i] == '\\' ? source[++i] : source[i];
    } else if (c != ' ' && c != '\n') {
      end();
    }
  }
  return found;
}

bool has_word(const std::string& text) {
  return std::any_of(text.begin(), text.end(), [](char c) { return c >= 'a' && c <= 'z'; });
}

/// All that the sheets can say; not the writers, which know no words.
Words said_by_sheets() {
  const Words writers{"csv.cpp", "dxf.cpp", "files.cpp", "lettering.cpp", "looks.cpp",
                      "looks.h", "pdf.cpp", "svg.cpp",   "page.h"};
  Words all = literals(contents(SOURCE_DIR "/core/text/reader.cpp"));
  for (const auto& entry : fs::directory_iterator(SOURCE_DIR "/core/sheets")) {
    const auto name = entry.path().filename().string();
    if (!writers.contains(name) && (name.ends_with(".cpp") || name.ends_with(".h")))
      all.merge(literals(contents(entry.path())));
  }
  return all;
}

TEST(Spanish, HasEveryPhraseOfTheSheetsAndNoOther) {
  const Words not_shown{" and ",
                        ", to be trimmed",
                        "{:.0f}°",
                        ", left",
                        ", right",
                        ", step",
                        "back corner",
                        "baluster",
                        "corner",
                        "free back",
                        "front corner",
                        "newel",
                        "relief cut",
                        "seam to the landing",
                        "seam to the floor",
                        "slit",
                        "slit ",
                        "step",
                        "wear shift", // names that the plan has
                        "-backing-up",
                        "-pile-up",
                        "-plotter.pdf",
                        "-tiles.pdf",
                        ".dxf",
                        ".svg",
                        "cutting-list",
                        "quote",
                        "recut",
                        "roll-",
                        "sheet",
                        "shopping-list",
                        "step-",
                        "work-order", // names of files
                        "mm",
                        "cm",
                        "m",
                        "m²",
                        "sq",
                        "ft",
                        " (in)",
                        " (mm)",
                        " (cm)",
                        "100 mm",
                        "150 mm",
                        "4 in", // lengths
                        "abcdefghijklmnopqrstuvwxyz",
                        "a pen that no line of a piece is drawn with"};
  const Words said = said_by_sheets();
  Words in_book;
  for (const Phrase& phrase : sheet_phrases()) {
    EXPECT_TRUE(in_book.emplace(phrase.english).second) << "twice: " << phrase.english;
    EXPECT_TRUE(said.contains(std::string(phrase.english))) << "no sheet says: " << phrase.english;
  }
  for (const auto& phrase : said)
    EXPECT_TRUE(in_book.contains(phrase) || not_shown.contains(phrase) || !has_word(phrase))
        << "no Spanish for: " << phrase;
}

/// The places of a format by their number, each with what it says of the form: {1: ":.1f"}.
std::multimap<int, std::string> places(std::string_view format) {
  std::multimap<int, std::string> out;
  int next = 0;
  for (std::size_t i = 0; i < format.size(); ++i) {
    if (format[i] != '{') continue;
    const auto form = format.find_first_not_of("0123456789", i + 1), close = format.find('}', i);
    if (form == std::string_view::npos || (format[form] != '}' && format[form] != ':')) continue;
    const auto number = format.substr(i + 1, form - i - 1);
    out.emplace(number.empty() ? next++ : std::stoi(std::string(number)), format.substr(form, close - form));
  }
  return out;
}

TEST(Spanish, HasEachValueOnceAndInItsForm) {
  for (const Phrase& phrase : sheet_phrases())
    EXPECT_EQ(places(phrase.english), places(phrase.spanish)) << phrase.english;
  for (const Phrase& phrase : room_phrases()) { // whose values are formatted when they are matched
    std::multimap<int, std::string> numbered;
    for (const auto& [number, form] : places(phrase.english))
      numbered.emplace(number, "");
    EXPECT_EQ(numbered, places(phrase.spanish)) << phrase.english;
  }
}

TEST(Spanish, CanBePrinted) {
  for (const auto book : {sheet_phrases(), room_phrases()})
    for (const Phrase& phrase : book)
      EXPECT_EQ(printable(phrase.spanish), phrase.spanish);
}

TEST(Spanish, IsMatchedBackToItsFormat) {
  const auto said = [](const std::string& sentence) {
    return Reader{LengthUnit::inch, Language::spanish}.said(sentence);
  };
  EXPECT_EQ(said("tread past the riser's end, left"), "huella más allá de la contrahuella, lado izquierdo");
  EXPECT_EQ(said("remnant 'at least 3' is used too"), "se usa además el retazo 'at least 3'");
  EXPECT_EQ(said("Ordered: 4.00 sq yd. The pieces alone measure 3.50 sq yd."),
            "Pedido: 4.00 yd². Las piezas solas miden 3.50 yd².");
  EXPECT_EQ(said("1 in 4,700"), "1 en 4,700");
  EXPECT_EQ(said("Grandmother's stair"), "Grandmother's stair");
  EXPECT_EQ(Reader{}.said("at least 3"), "at least 3");
}

// ---- nothing in English on a sheet

/// In small letters, without what belongs to no word; a word all in capitals names a layer.
Words words_of(std::string_view text) {
  Words out;
  std::string word;
  const auto letter = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || c == '_' || (c & 0x80) != 0;
  };
  for (std::size_t i = 0; i <= text.size(); ++i) {
    if (i < text.size() && letter(text[i])) {
      word += text[i];
      continue;
    }
    if (word.size() > 1 && has_word(word)) {
      if (word[0] >= 'A' && word[0] <= 'Z') word[0] = static_cast<char>(word[0] - 'A' + 'a');
      out.insert(word);
    }
    word.clear();
  }
  return out;
}

/// Of both books, but for what is Spanish too.
Words english_words() {
  Words english, spanish;
  for (const auto book : {sheet_phrases(), room_phrases()})
    for (const Phrase& phrase : book) {
      english.merge(words_of(phrase.english));
      spanish.merge(words_of(phrase.spanish));
    }
  for (const auto& word : spanish)
    english.erase(word);
  return english;
}

/// The user's own, which stay.
Words words_of_job(const Job& job) {
  Words own;
  const auto add = [&](const std::string& text) { own.merge(words_of(text)); };
  const Site& s = job.site;
  for (const auto& text : {s.title, s.customer, s.address, s.contact, s.installer, s.installer_contact,
                           s.date, job.cushion.name, job.terms.offcuts})
    add(text);
  for (const auto* list : {&s.access, &s.notes, &job.terms.scope, &job.terms.exclusions})
    std::for_each(list->begin(), list->end(), add);
  for (const auto& stair : job.stairs) {
    add(stair.name);
    for (const auto& flight : stair.flights)
      add(flight.name);
    for (const auto& floor : stair.floors)
      add(floor.name);
  }
  for (const auto& carpet : job.carpets) {
    add(carpet.name + " " + carpet.dye_lot);
    for (const auto& remnant : carpet.remnants)
      add(remnant.name + " " + remnant.dye_lot);
  }
  for (const auto& rate : job.terms.rates)
    add(rate.what);
  return own;
}

class SpanishExample : public testing::TestWithParam<const char*> {
protected:
  SpanishExample() {
    auto reading = read_job(contents(std::string(SOURCE_DIR "/examples/") + GetParam()));
    reading.job.language = Language::spanish;
    plan_ = plan(reading);
    english_ = english_words();
    for (const auto& word : words_of_job(plan_.job))
      english_.erase(word);
  }

  void expect_spanish(const std::string& text, const std::string& where) const {
    for (const auto& word : words_of(text))
      EXPECT_FALSE(english_.contains(word)) << where << ": " << text;
  }
  void expect_spanish(const Sheet& sheet) const {
    expect_spanish(sheet.title, sheet.name);
    for (const Drawing& page : sheet.pages)
      expect_spanish(page, sheet.name);
    expect_spanish(sheet.table.header, sheet.name);
    for (const auto& row : sheet.table.rows)
      expect_spanish(row, sheet.name);
  }
  void expect_spanish(const std::vector<std::string>& row, const std::string& where) const {
    for (const auto& cell : row)
      expect_spanish(cell, where);
  }
  void expect_spanish(const Drawing& page, const std::string& where) const {
    for (const Text& text : page.texts)
      expect_spanish(text.text, where);
  }

  Plan plan_;
  Words english_;
};

TEST_P(SpanishExample, HasNoEnglishOnItsSheets) {
  for (const Sheet& sheet : draw_sheets(plan_))
    expect_spanish(sheet);
}

TEST_P(SpanishExample, HasNoEnglishOnItsTemplates) {
  for (const auto& planned : plan_.pieces)
    for (const auto side : {TemplateSide::backing, TemplateSide::pile}) {
      const Template t{template_head(plan_, planned, side), template_shape(planned.piece, side)};
      for (const Drawing& page : tiled_pages(t, plan_.job.paper))
        expect_spanish(page, planned.piece.id);
      expect_spanish(long_page(t), planned.piece.id);
      expect_spanish(machine_drawing(t), planned.piece.id);
    }
}

TEST_P(SpanishExample, HasNoEnglishOnWhatIsLeftToCut) {
  for (const Layout& layout : plan_.layouts) {
    const auto& first = layout.rolls.at(0);
    Cutting cutting;
    cutting.carpet = layout.carpet;
    for (const auto& p : first.placements) { // all before it are cut
      cutting.spoiled = {{p.piece, {}, {}}};
      Plan begun = plan_;
      begun.job.cuttings = {cutting};
      expect_spanish(recut_sheet(begun, recut(begun)));
      cutting.cut.push_back(p.piece);
    }
  }
}

TEST_P(SpanishExample, CanBeRead) {
  for (const PaperSize paper : {PaperSize::letter, PaperSize::a4}) {
    plan_.job.paper = paper;
    for (const Sheet& sheet : draw_sheets(plan_))
      for (std::size_t i = 0; i < sheet.pages.size(); ++i) {
        for (const auto& fault : faults_of(sheet.pages[i]))
          ADD_FAILURE() << sheet.name << ", page " << i + 1 << ": " << fault;
        for (const Text& text : sheet.pages[i].texts)
          EXPECT_EQ(text.text.find("…"), std::string::npos) << sheet.name << ": " << text.text;
      }
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, SpanishExample,
                         testing::Values("box-stair.json", "folded-runner.json", "grand-stair.json",
                                         "open-stair.json", "runner.json", "winding-stair.json"),
                         [](const auto& one) {
                           std::string name = one.param;
                           std::replace_if(
                               name.begin(), name.end(), [](char c) { return c == '-' || c == '.'; }, '_');
                           return name;
                         });

} // namespace
} // namespace treadfold
