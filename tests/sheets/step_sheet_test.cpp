#include "legible.h"
#include "step_sample.h"

#include "sheets/flat_view.h"
#include "sheets/running.h"
#include "sheets/step_sheet.h"
#include "sheets/working_order.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <set>

namespace treadfold {
namespace {

using sample::Choices;

std::vector<Choices> all_choices() {
  std::vector<Choices> out;
  for (const bool left : {false, true})
    for (const bool right : {false, true})
      for (const CoverStyle style : {CoverStyle::waterfall, CoverStyle::wrapped})
        for (const int join : {1, 3}) {
          Choices c;
          if (left) c.left = sample::open_end();
          if (right) c.right = sample::open_end();
          c.style = style;
          c.join = join;
          c.risers = 4;
          c.unit = left ? LengthUnit::millimetre : LengthUnit::inch;
          c.paper = right ? PaperSize::a4 : PaperSize::letter;
          if (style == CoverStyle::waterfall) c.step.uprights = sample::some_uprights();
          if (join > 1) c.construction = left ? Construction::tufted : Construction::woven;
          out.push_back(c);
        }
  return out;
}

std::set<std::string> words_on(const Sheet& sheet) {
  std::set<std::string> words;
  for (const auto& page : sheet.pages)
    for (const auto& text : page.texts)
      words.insert(text.text);
  return words;
}

bool says(const Sheet& sheet, const std::string& what) {
  for (const auto& page : sheet.pages)
    for (const auto& text : page.texts)
      if (text.text.find(what) != std::string::npos) return true;
  return false;
}

std::vector<std::string> faults_of(const Plan& plan) {
  std::vector<std::string> faults;
  auto sheets = step_sheets(plan);
  int number = 0;
  for (auto& sheet : sheets) {
    frame_pages(sheet, plan.job, ++number, static_cast<int>(sheets.size()));
    for (const auto& page : sheet.pages) {
      for (const auto& fault : treadfold::faults_of(page))
        faults.push_back(sheet.name + ": " + fault);
      for (const auto& fault : struck_words(page))
        faults.push_back(sheet.name + ": " + fault);
    }
  }
  return faults;
}

TEST(StepSheets, NoWordsOverlapOrLeaveThePage) {
  for (const auto& choices : all_choices()) {
    auto plan = sample::plan_of(choices);
    sample::add_landing(plan);
    for (const auto& fault : faults_of(plan))
      ADD_FAILURE() << fault;
  }
}

RC_GTEST_PROP(StepSheets, NoWordsOverlapWhateverTheStepsMeasure, ()) {
  const auto sixteenths = [](int from, int to) { return inches(0, 1, 16) * *rc::gen::inRange(from, to + 1); };
  Choices c;
  c.risers = 2;
  c.unit = *rc::gen::element(LengthUnit::inch, LengthUnit::millimetre);
  const bool left = *rc::gen::arbitrary<bool>(), right = *rc::gen::arbitrary<bool>();
  c.style = *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped);
  c.join = *rc::gen::inRange(1, 3);
  c.step.rise = sixteenths(16 * 6, 16 * 9);
  c.step.going = sixteenths(16 * 8, 16 * 14);
  c.step.width = sixteenths(16 * 24, 16 * 60);
  c.step.nosing.projection = sixteenths(0, 24);
  c.step.nosing.thickness = sixteenths(12, 32);
  c.step.nosing.radius = Length{c.step.nosing.thickness.ticks / *rc::gen::element(2, 4, 8)};
  const auto open = [&] { return Side{SideKind::open, sixteenths(6, 32), sixteenths(0, 24)}; };
  if (left) c.left = open();
  if (right) c.right = open();
  for (const auto& fault : faults_of(sample::plan_of(c)))
    RC_FAIL(fault);
}

TEST(StepSheets, OfACurvedStarterAreLegibleAndSayInWhichOrderItsPiecesGoOn) {
  for (const auto closing : {StarterClosing::band, StarterClosing::cuts})
    for (const auto unit : {LengthUnit::inch, LengthUnit::millimetre}) {
      Choices c;
      c.unit = unit;
      c.step.uprights = {{"newel", false, {850, 110}, inches(3), inches(3), ""}};
      auto plan = sample::plan_of(c);
      sample::add_starter(plan, closing);
      for (const auto& fault : faults_of(plan))
        ADD_FAILURE() << fault;
      const auto sheets = step_sheets(plan);
      const auto last = plan.pieces.size() - 1; // the riser's band, which goes on first
      EXPECT_NE(working_order(plan, plan.pieces[last])[1].text.find(
                    closing == StarterClosing::band ? "A-01c, A-01b and A-01a" : "A-01b and A-01a"),
                std::string::npos);
      EXPECT_TRUE(says(sheets[2], "full-size template of A-01a"));
      EXPECT_TRUE(says(sheets[2], "give by 2.0 %"));
      EXPECT_TRUE(says(sheets[2], "The hole for the newel"));
    }
}

TEST(StepSheets, TheTitleNamesPieceAndStep) {
  Choices c;
  c.risers = 5;
  const auto plan = sample::plan_of(c);
  const auto sheets = step_sheets(plan);
  ASSERT_EQ(sheets.size(), 5u);
  EXPECT_EQ(sheets[0].title, "A-05   Step 5 of 5");
  EXPECT_EQ(sheets[3].title, "A-02   Step 2 of 5");
  c.join = 3;
  EXPECT_EQ(step_sheets(sample::plan_of(c))[0].title, "A-03.05   Steps 3 to 5 of 5");
}

TEST(StepSheets, OnePageForAClosedStepTwoForAnOpenEnd) {
  for (const CoverStyle style : {CoverStyle::waterfall, CoverStyle::wrapped}) {
    Choices c;
    c.style = style;
    for (const auto& sheet : step_sheets(sample::plan_of(c)))
      EXPECT_EQ(sheet.pages.size(), 1u) << sheet.title;
    c.right = sample::open_end();
    for (const auto& sheet : step_sheets(sample::plan_of(c)))
      EXPECT_EQ(sheet.pages.size(), 2u) << sheet.title;
  }
}

TEST(StepSheets, TheCutSizeIsTheLargestOfItsNumbers) {
  const auto plan = sample::plan_of({});
  const auto sheets = step_sheets(plan);
  for (std::size_t i = 0; i < sheets.size(); ++i) {
    const auto& piece = plan.pieces[i].piece;
    const auto& texts = sheets[i].pages[0].texts;
    const auto largest = std::max_element(texts.begin(), texts.end(),
                                          [](const Text& a, const Text& b) { return a.size_mm < b.size_mm; });
    EXPECT_EQ(largest->text, show_size(piece.cut_width, piece.cut_length, plan.job.unit));
    EXPECT_GE(largest->size_mm, 6);
  }
}

TEST(StepSheets, EveryRoleOfAPieceStandsInItsLegendAndNoOther) {
  for (const auto& choices : all_choices()) {
    const auto plan = sample::plan_of(choices);
    const auto sheets = step_sheets(plan);
    for (std::size_t i = 0; i < sheets.size(); ++i) {
      const auto& piece = plan.pieces[i].piece;
      std::set<Pen> present{Pen::knife}, explained;
      const Flight& flight = plan.job.stairs[0].flights[0];
      if (!flight.steps[0].left.closed() || !flight.steps[0].right.closed()) present.insert(Pen::outline);
      for (const auto& l : piece.lines)
        present.insert(pen_of(l));
      const auto words = words_on(sheets[i]);
      for (const auto& entry : legend_of(piece, plan.job.reader())) {
        explained.insert(entry.pen);
        EXPECT_TRUE(words.count(entry.words)) << sheets[i].name << ": " << entry.words;
      }
      EXPECT_EQ(present, explained) << piece.id;
    }
  }
}

/// Whoever cuts along the outline's pen must not cut off what is tucked, trimmed on the stair or seamed.
TEST(StepSheets, TheOutlinesPenRunsOnlyWhereTheBenchCuts) {
  for (const auto& choices : all_choices()) {
    auto plan = sample::plan_of(choices);
    sample::add_landing(plan);
    for (const auto& planned : plan.pieces) {
      const auto& piece = planned.piece;
      const bool on_stair = !planned.steps.empty();
      double foot = -1e9, cut = 0, whole = 0;
      for (const auto& p : piece.outline)
        foot = std::max(foot, p.v);
      for (const auto& e : edge_stretches(piece)) {
        whole += length_mm(e.points);
        if (e.pen != Pen::outline) continue;
        cut += length_mm(e.points);
        for (std::size_t i = 0; i + 1 < e.points.size(); ++i) {
          const FlatPoint m{(e.points[i].u + e.points[i + 1].u) / 2, (e.points[i].v + e.points[i + 1].v) / 2};
          const double width = plan.job.stairs[0].flights[0].steps[0].width.mm();
          EXPECT_LT(m.v, foot - 0.1) << piece.id;
          EXPECT_FALSE(std::abs(m.v) < 0.1 && m.u > 1 && m.u < width - 1) << piece.id << ", back";
          EXPECT_TRUE(!choices.left.closed() || m.u > 0.1) << piece.id;
          EXPECT_TRUE(!choices.right.closed() || m.u < width - 0.1) << piece.id;
        }
      }
      auto ring = piece.outline;
      ring.push_back(ring.front());
      EXPECT_NEAR(whole, length_mm(ring), 0.5) << piece.id; // no edge forgotten
      const bool open = on_stair && !(choices.left.closed() && choices.right.closed());
      EXPECT_EQ(cut > 100, open) << piece.id;
      EXPECT_EQ(cut == 0, !open) << piece.id;
    }
  }
}

TEST(StepSheets, DifferentRolesHaveDifferentPens) {
  std::set<Pen> pens;
  for (const LineRole role : {LineRole::fold, LineRole::cut, LineRole::seam, LineRole::hem, LineRole::tuck,
                              LineRole::trim, LineRole::strip, LineRole::glue})
    pens.insert(pen_of({role, {}, "", 1, 0}));
  pens.insert(pen_of({LineRole::fold, {}, "", -1, 0}));
  EXPECT_EQ(pens.size(), 9u);
}

/// Numbers read back from what was drawn, as millimetres.
std::vector<double> numbers_on(const Drawing& page, LengthUnit unit) {
  std::vector<double> out;
  for (const auto& text : page.texts)
    if (text.bold)
      if (const auto length = parse_length(text.text, unit)) out.push_back(length->mm());
  return out;
}
bool near_one(double x, const std::vector<double>& values, double within) {
  return std::any_of(values.begin(), values.end(), [&](double v) { return std::abs(v - x) <= within; });
}

TEST(StepSheets, EveryRunningDimensionIsACoordinateAndEveryCoordinateHasOne) {
  for (const auto& choices : all_choices()) {
    const auto plan = sample::plan_of(choices);
    const bool inch = choices.unit == LengthUnit::inch;
    const double rounding = inch ? 25.4 / 32 + 1e-3 : 0.5 + 1e-3, knife = 25.4 / 16 + 1e-3;
    for (const auto& planned : plan.pieces) {
      const auto& piece = planned.piece;
      Drawing page = blank_page(PaperSize::letter);
      const Box box{0, 0, 188, 165};
      const auto details = corner_details(piece);
      const auto keys = flat_keys(piece, details);
      draw_flat(page, box, piece, details, keys, {choices.unit});
      for (const auto& d : details)
        if (d.drawn) draw_corner(page, {0, 0, 100, 118}, piece, d, keys, {choices.unit});

      // The piece's own coordinates from the corner of the cut rectangle, worked out apart from the sheet.
      const double u0 = piece.net_origin.u - piece.trim_left.mm(),
                   v0 = piece.net_origin.v - piece.trim_back.mm();
      std::vector<double> coordinates{0, piece.cut_width.mm(), piece.cut_length.mm()};
      const auto add = [&](FlatPoint p) { coordinates.push_back(p.u - u0), coordinates.push_back(p.v - v0); };
      for (const auto& p : piece.outline)
        add(p);
      for (const auto& l : piece.lines)
        for (const auto& p : l.points)
          add(p);
      const auto numbers = numbers_on(page, choices.unit);
      EXPECT_FALSE(numbers.empty());
      for (const double n : numbers)
        EXPECT_TRUE(near_one(n, coordinates, rounding)) << piece.id << ": " << n << " mm is no coordinate";

      std::vector<FlatPoint> wanted{piece.outline.begin(), piece.outline.begin()};
      for (const auto& l : piece.lines)
        if (l.role == LineRole::fold || l.role == LineRole::cut || l.role == LineRole::hem)
          wanted.push_back(l.points.front()), wanted.push_back(l.points.back());
      for (const auto& p : wanted) {
        EXPECT_TRUE(near_one(p.u - u0, numbers, rounding + knife)) << piece.id << " u " << p.u - u0;
        EXPECT_TRUE(near_one(p.v - v0, numbers, rounding + knife)) << piece.id << " v " << p.v - v0;
      }
    }
  }
}

TEST(StepSheets, SidesThatMirrorEachOtherShareOneDetail) {
  Choices c;
  c.left = c.right = sample::open_end();
  auto plan = sample::plan_of(c);
  const auto drawn = [](const Piece& piece) {
    const auto details = corner_details(piece);
    return std::count_if(details.begin(), details.end(), [](const auto& d) { return d.drawn; });
  };
  EXPECT_EQ(drawn(plan.pieces[1].piece), 2); // front and back corner
  c.left.overhang = inches(1, 3, 8);         // no mirror image any more
  plan = sample::plan_of(c);
  EXPECT_EQ(drawn(plan.pieces[1].piece), 4);
}

TEST(StepSheets, AFailedProofGivesItsReasonAndNothingToCutBy) {
  auto plan = sample::plan_of({});
  plan.pieces[0].proof = {};
  plan.pieces[0].proof.reason = "the seam at the front corner stands open";
  const auto sheet = step_sheets(plan)[0];
  EXPECT_TRUE(says(sheet, "DO NOT CUT"));
  EXPECT_TRUE(says(sheet, "the seam at the front corner"));
  for (const auto& page : sheet.pages)
    EXPECT_TRUE(numbers_on(page, plan.job.unit).empty());
  EXPECT_FALSE(says(sheet, "In this order"));
  EXPECT_FALSE(says(step_sheets(plan)[1], "DO NOT CUT"));
}

} // namespace
} // namespace treadfold
