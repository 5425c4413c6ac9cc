#include "legible.h"
#include "sheets/page.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

namespace treadfold {
namespace {

/// Words as users write them: mostly short, now and then without a space for long.
rc::Gen<std::string> prose() {
  return rc::gen::map(rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 90)),
                      [](const std::vector<int>& v) {
                        std::string text;
                        for (const int length : v)
                          text += std::string(static_cast<std::size_t>(length), 'm') + " ";
                        return text;
                      });
}

std::string without_spaces(const std::string& text) {
  std::string out;
  for (const char c : text)
    if (c != ' ') out += c;
  return out;
}

RC_GTEST_PROP(Page, WrappedLinesFitAndLoseNothing, ()) {
  const std::string text = *prose();
  const double width = *rc::gen::inRange(5, 180);
  std::string joined;
  for (const std::string& words : wrap(text, width, 4)) {
    RC_ASSERT(text_width(words, 4, false) <= width);
    joined += words;
  }
  RC_ASSERT(without_spaces(joined) == without_spaces(text));
}

RC_GTEST_PROP(Page, ShortenedTextFits, ()) {
  const std::string text = *prose();
  RC_ASSERT(text_width(shortened(text, 40, 4), 4, false) <= 40);
}

RC_GTEST_PROP(Page, FlowNeverLeavesThePageNorOverlaps, ()) {
  Flow flow(*rc::gen::element(PaperSize::letter, PaperSize::a4));
  const int parts = *rc::gen::inRange(1, 12);
  for (int i = 0; i < parts; ++i) {
    const std::string text = *prose();
    switch (*rc::gen::inRange(0, 5)) {
    case 0:
      flow.heading(text);
      break;
    case 1:
      flow.paragraph(text);
      break;
    case 2:
      flow.list({text, "and", text}, true);
      break;
    case 3:
      flow.warning(text);
      break;
    default: {
      const int rows = *rc::gen::inRange(0, 60);
      Table table{{"piece", "what", "size"}, {}};
      for (int r = 0; r < rows; ++r)
        table.rows.push_back({"A-" + std::to_string(r), r == 7 ? text : "box", "38\""});
      flow.table(table, {{{}, {Anchor::left, *rc::gen::arbitrary<bool>()}, {Anchor::right}}});
    }
    }
  }
  Sheet sheet{"s", "Title", flow.finish(), {}};
  Job job;
  job.site.title = *prose();
  job.site.date = *prose();
  frame_pages(sheet, job, 1, 1);
  for (const Drawing& page : sheet.pages) {
    const std::vector<std::string> faults = faults_of(page), struck = struck_words(page);
    if (!faults.empty()) RC_FAIL(faults[0]);
    if (!struck.empty()) RC_FAIL(struck[0]);
  }
}

RC_GTEST_PROP(Page, DimensionWordsNeverTouchTheirLine, ()) {
  Drawing page = blank_page(PaperSize::letter);
  const bool vertical = *rc::gen::arbitrary<bool>();
  const double span = *rc::gen::inRange(1, 900) / 10.0, aside = *rc::gen::element(-8.0, 8.0);
  const double a = 60, b = 90;
  const PagePoint from = vertical ? PagePoint{b, a} : PagePoint{a, b};
  const PagePoint to = vertical ? PagePoint{b, a + span} : PagePoint{a + span, b};
  const Box took = dimension(page, {from, to, vertical, b + aside, "38 1/2\""});
  RC_ASSERT(struck_words(page).empty());
  RC_ASSERT(page.texts.size() == 1u);
  for (const PagePoint p : covered_by(page.texts[0]))
    RC_ASSERT(p.x >= took.left && p.x <= took.right && p.y >= took.top && p.y <= took.bottom);
}

TEST(Page, FitTakesTheLargestRoundScaleAndCentres) {
  const Viewport view = fit({20, 30, 120, 130}, 0, 0, 950, 400);
  EXPECT_EQ(view.name(), "1:10");
  EXPECT_NEAR(view.at(475, 200).x, 70, 1e-9);
  EXPECT_NEAR(view.at(475, 200).y, 80, 1e-9);
  EXPECT_EQ(fit({0, 0, 100, 100}, 0, 0, 40, 40).name(), "1:1");
  EXPECT_EQ(fit({0, 0, 100, 100}, 0, 0, 21000, 40).name(), "1:300");
}

TEST(Page, SizesAreNotBrokenOverLines) {
  for (const char* size : {"9' 2 1/2\"", "2 1/2\"", "617 mm", "12.5 m²", "3' 0\""}) {
    const std::string text = std::string("used up to ") + size + " of it";
    for (double width = 30; width < 80; width += 0.5) {
      bool whole = false;
      for (const std::string& words : wrap(text, width, 4))
        whole = whole || words.find(size) != std::string::npos;
      EXPECT_TRUE(whole) << size << " in " << width;
    }
  }
}

/// The checks themselves must be able to fail.
TEST(Legible, SeesOverlapsStrokesAndTheEdge) {
  Drawing page;
  page.texts.push_back({{50, 50}, 5, "over"});
  EXPECT_TRUE(faults_of(page).empty());
  page.texts.push_back({{52, 52}, 5, "under", Anchor::left, false, 90});
  EXPECT_EQ(faults_of(page).size(), 1u);
  page.texts.pop_back();
  page.paths.push_back({{{40, 48.5}, {90, 48.5}}, false, Pen::hairline, Fill::none});
  EXPECT_EQ(struck_words(page).size(), 1u);
  page.paths[0] = {{{40, 52}, {90, 52}}, false, Pen::hairline, Fill::none};
  EXPECT_TRUE(struck_words(page).empty());
  page.texts[0].at.x = 5;
  EXPECT_EQ(faults_of(page).size(), 1u);
}

} // namespace
} // namespace treadfold
