// What the writers write, read back by readers that share no code with us: python's XML and CSV, qpdf,
// poppler.
#include "outside.h"
#include "sheets/drawing.h"
#include "sheets/looks.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace treadfold {
namespace {

Drawing small_page() {
  Drawing page;
  page.paths.push_back({{{20, 20}, {70, 20}, {70, 45}}, true, Pen::cut, Fill::carpet});
  page.paths.push_back({{{20, 60}, {70, 60}, {70, 80}, {20, 80}}, true, Pen::outline, Fill::offcut});
  page.paths.push_back({{{20, 90}, {120, 90}}, false, Pen::fold_under, Fill::none});
  page.texts.push_back({{20, 120}, 4.6, "27 1/2\" × 21\" <A & B> (pile)", Anchor::left, true});
  page.texts.push_back({{100, 140}, 3, "turned", Anchor::middle, false, 90, true});
  return page;
}

TEST(Svg, IsReadByAnXmlReaderAtTrueSize) {
  const std::string path = in_file(write_svg(small_page()), "page.svg");
  const CommandResult read =
      run("python3 -c \"\n"
          "import sys, xml.etree.ElementTree as E\n"
          "r = E.parse('" +
          path +
          "').getroot()\n"
          "print(r.tag, r.get('width'), r.get('height'), r.get('viewBox'))\n"
          "for t in r.iter('{http://www.w3.org/2000/svg}text'): print(t.get('x'), t.text)\n"
          "for p in r.iter('{http://www.w3.org/2000/svg}path'):\n"
          "  if p.get('class', '').startswith('f-'): print(p.get('d')[-1])\n\"");
  ASSERT_EQ(read.status, 0) << read.output;
  EXPECT_EQ(read.output, "{http://www.w3.org/2000/svg}svg 215.9mm 279.4mm 0 0 215.9 279.4\n"
                         "20 27 1/2\" × 21\" <A & B> (pile)\n100 turned\nZ\nZ\n");
}

RC_GTEST_PROP(Svg, StaysXmlWhateverTheWords, (const std::vector<std::string>& words)) {
  Drawing page;
  for (const std::string& text : words)
    page.texts.push_back({{20, 20}, 3, text});
  const std::string svg = write_svg(page);
  // Cheap here (a process a case is not): nothing but legal signs between the tags.
  std::size_t texts = 0;
  for (std::size_t at = svg.find("<text "); at != std::string::npos; at = svg.find("<text ", at + 1)) {
    const std::size_t open = svg.find('>', at) + 1, close = svg.find("</text>\n", open);
    const std::string body = svg.substr(open, close - open);
    RC_ASSERT(body.find_first_of("<>\"") == std::string::npos);
    for (const char c : body)
      RC_ASSERT(static_cast<unsigned char>(c) >= 0x20);
    ++texts;
  }
  RC_ASSERT(texts == words.size());
}

TEST(Pdf, IsSoundAndOfTheRightSize) {
  Drawing a4 = small_page();
  a4.width_mm = 210;
  a4.height_mm = 297;
  const std::string pdf = write_pdf({small_page(), a4}, "Roll layout – Élan");
  const std::string path = in_file(pdf, "two.pdf");
  const CommandResult check = run("qpdf --check " + path);
  EXPECT_EQ(check.status, 0) << check.output;
  EXPECT_NE(check.output.find("PDF Version: 1.4"), std::string::npos) << check.output;
  const std::string info = run("pdfinfo -l 2 " + path).output;
  EXPECT_NE(info.find("Pages:           2"), std::string::npos) << info;
  EXPECT_NE(info.find("Page    1 size:  612 x 792 pts (letter)"), std::string::npos) << info;
  EXPECT_NE(info.find("Page    2 size:  595.276 x 841.89 pts (A4)"), std::string::npos) << info;
  EXPECT_NE(info.find("Roll layout – Élan"), std::string::npos) << info;
  EXPECT_EQ(info.find("CreationDate"), std::string::npos) << info;
  EXPECT_NE(pdf.find("/PrintScaling /None"), std::string::npos);
  EXPECT_EQ(pdf, write_pdf({small_page(), a4}, "Roll layout – Élan"));
}

TEST(Pdf, WordsAreReadByPoppler) {
  const std::string path = in_file(write_pdf({small_page()}, "words"), "words.pdf");
  const std::string words = run("pdftotext -enc UTF-8 " + path + " -").output;
  EXPECT_NE(words.find("27 1/2\" × 21\" <A & B> (pile)"), std::string::npos) << words;
  EXPECT_NE(words.find("turned"), std::string::npos) << words;
}

/// 254 dots an inch make a dot a tenth of a millimetre.
TEST(Pdf, IsTrueToSizeInPixels) {
  Drawing page;
  page.paths.push_back({{{50, 100}, {150, 100}, {150, 120}, {50, 120}}, true, Pen::none, Fill::ink});
  const std::string path = in_file(write_pdf({page}, "size"), "size.pdf");
  const CommandResult read =
      run("pdftoppm -r 254 -gray " + path + " " + path +
          " && python3 -c \"\n"
          "d = open('" +
          path +
          "-1.pgm', 'rb').read()\n"
          "w, h = map(int, d.split()[1:3]); p = d[-w * h:]\n"
          "row = p[1100 * w:1101 * w]; col = p[1000::w]\n"
          "dark = [x for x in range(w) if row[x] < 128]; low = [y for y in range(h) if "
          "col[y] < 128]\n"
          "print(w, h, dark[0], dark[-1], low[0], low[-1])\n\" | tail -1");
  ASSERT_EQ(read.status, 0) << read.output;
  EXPECT_EQ(read.output, "2159 2794 500 1499 1000 1199\n");
}

RC_GTEST_PROP(Csv, FieldsAreQuotedByRfc4180, (const std::vector<std::string>& fields)) {
  RC_PRE(!fields.empty());
  // Reads the record back by the grammar of RFC 4180, section 2.
  const std::string csv = write_csv({fields, {}});
  std::vector<std::string> found(1);
  bool inside = false;
  for (std::size_t i = 0; i + 2 < csv.size() || inside; ++i) {
    RC_ASSERT(i < csv.size());
    const char c = csv[i];
    if (inside && c == '"' && csv[i + 1] == '"')
      found.back() += csv[++i];
    else if (c == '"')
      inside = !inside;
    else if (!inside && c == ',')
      found.emplace_back();
    else
      found.back() += c;
  }
  RC_ASSERT(found == fields);
  RC_ASSERT(csv.substr(csv.size() - 2) == "\r\n");
}

TEST(Csv, IsReadByPython) {
  const std::string path = in_file(
      write_csv({{"piece", "cut size"}, {{"A-03", "38 1/2\" × 21\""}, {"A,04", "two\r\nlines"}}}), "t.csv");
  const CommandResult read = run("python3 -c \"import csv; print(list(csv.reader(open('" + path +
                                 "', newline='', encoding='utf-8'))))\"");
  ASSERT_EQ(read.status, 0) << read.output;
  EXPECT_EQ(read.output,
            "[['piece', 'cut size'], ['A-03', '38 1/2\" × 21\"'], ['A,04', 'two\\r\\nlines']]\n");
}

TEST(Looks, EveryPenHasItsOwnDashAndItsOwnWeight) {
  std::set<std::vector<double>> dashes;
  std::vector<double> solid;
  std::set<double> weights;
  for (int i = 1; i <= static_cast<int>(kLastPen); ++i) {
    const PenLook& pen = look(static_cast<Pen>(i));
    EXPECT_TRUE(weights.insert(pen.width_mm).second) << pen.name;
    if (pen.dash_mm.empty())
      solid.push_back(pen.width_mm);
    else
      EXPECT_TRUE(dashes.insert(pen.dash_mm).second) << pen.name;
  }
  // Solid lines are told apart by weight alone: each at least 1.4 times the next.
  std::sort(solid.begin(), solid.end());
  for (std::size_t i = 0; i + 1 < solid.size(); ++i)
    EXPECT_GE(solid[i + 1], 1.4 * solid[i]);
}

/// Luma of Rec. 601: what a black-and-white printer makes of a colour.
double grey(std::string_view colour) {
  const auto part = [&](std::size_t i) {
    return std::stoi(std::string(colour.substr(i, 2)), nullptr, 16) / 255.0;
  };
  return 0.299 * part(1) + 0.587 * part(3) + 0.114 * part(5);
}

TEST(Looks, FillsAreToldApartInBlackAndWhite) {
  for (int i = 1; i <= static_cast<int>(kLastFill); ++i)
    for (int j = 1; j < i; ++j) {
      const FillLook &a = look(static_cast<Fill>(i)), &b = look(static_cast<Fill>(j));
      const bool hatch = a.hatch_mm != b.hatch_mm || (a.hatch_mm > 0 && a.hatch_deg != b.hatch_deg);
      EXPECT_TRUE(hatch || std::abs(grey(a.tone) - grey(b.tone)) >= 0.06) << a.name << " and " << b.name;
    }
}

RC_GTEST_PROP(Looks, HatchStaysInsideAndFillsEvenly, ()) {
  const double w = *rc::gen::inRange(5, 80), h = *rc::gen::inRange(5, 80), x = *rc::gen::inRange(0, 50);
  const FillLook& fill = look(*rc::gen::element(Fill::pad, Fill::wood, Fill::offcut, Fill::warning));
  const std::vector<HatchLine> lines = hatch({{x, 10}, {x + w, 10}, {x + w, 10 + h}, {x, 10 + h}}, fill);
  double length = 0;
  for (const HatchLine& l : lines) {
    for (const PagePoint p : {l.from, l.to})
      RC_ASSERT(p.x >= x - 1e-9 && p.x <= x + w + 1e-9 && p.y >= 10 - 1e-9 && p.y <= 10 + h + 1e-9);
    length += std::hypot(l.to.x - l.from.x, l.to.y - l.from.y);
  }
  // Area is length of hatch times its spacing, but for the stretch at each rim.
  RC_ASSERT(std::abs(length * fill.hatch_mm - w * h) <= 2 * fill.hatch_mm * (w + h));
}

} // namespace
} // namespace treadfold
