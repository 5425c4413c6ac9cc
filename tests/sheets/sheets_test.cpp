// The sheets of hand-made plans and of the examples, read as their readers would read them.
#include "hand_plan.h"
#include "legible.h"
#include "outside.h"
#include "sheets/page.h"
#include "sheets/sheet_kinds.h"
#include "sheets/sheets.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <set>
#include <sstream>

namespace treadfold {
namespace {

void expect_readable(const Sheet& sheet) {
  for (std::size_t i = 0; i < sheet.pages.size(); ++i) {
    for (const std::string& fault : faults_of(sheet.pages[i]))
      ADD_FAILURE() << sheet.name << ", page " << i + 1 << ": " << fault;
    for (const std::string& fault : struck_words(sheet.pages[i]))
      ADD_FAILURE() << sheet.name << ", page " << i + 1 << ": " << fault;
  }
}

std::vector<Sheet> whole_job_sheets(const Plan& plan) {
  std::vector<Sheet> sheets = roll_sheets(plan);
  for (const auto kind : {cutting_list, shopping_list, quote_sheet, work_order})
    sheets.push_back(kind(plan));
  for (std::size_t i = 0; i < sheets.size(); ++i)
    frame_pages(sheets[i], plan.job, static_cast<int>(i) + 1, static_cast<int>(sheets.size()));
  return sheets;
}

bool says(const Sheet& sheet, const std::string& words) {
  for (const Drawing& page : sheet.pages)
    for (const Text& text : page.texts)
      if (text.text.find(words) != std::string::npos) return true;
  return false;
}

std::string contents(const std::string& path) {
  std::ifstream in(path, std::ios::binary);
  std::stringstream all;
  all << in.rdbuf();
  return all.str();
}

/// TREADFOLD_ACCEPT=1 takes what was found as the new reference.
void expect_golden(const std::string& found, const std::string& name) {
  const std::string path = SOURCE_DIR "/tests/sheets/golden/" + name;
  if (const char* accept = std::getenv("TREADFOLD_ACCEPT"); accept && std::string(accept) == "1")
    std::ofstream(path, std::ios::binary) << found;
  EXPECT_TRUE(found == contents(path))
      << name << " differs; look at the new one, then accept it with TREADFOLD_ACCEPT=1";
}

TEST(Sheets, GoldenRollLayoutAndCuttingList) {
  const std::vector<Sheet> sheets = whole_job_sheets(by_hand::small_plan());
  expect_golden(write_svg(sheets[0].pages[0]), "roll-layout.svg");
  expect_golden(write_csv(sheets[1].table), "cutting-list.csv");
}

TEST(Sheets, OfAHandMadePlanCanBeRead) {
  for (const PaperSize paper : {PaperSize::letter, PaperSize::a4})
    for (const LengthUnit unit : {LengthUnit::inch, LengthUnit::millimetre, LengthUnit::centimetre}) {
      Plan plan = by_hand::small_plan();
      plan.job.paper = paper;
      plan.job.unit = unit;
      for (const Sheet& sheet : whole_job_sheets(plan))
        expect_readable(sheet);
    }
}

TEST(RollLayout, SaysWhatToOrderAndLeastPossibleOnlyWhenProved) {
  Plan plan = by_hand::small_plan();
  EXPECT_TRUE(says(roll_sheets(plan)[0], "Order 4' 0\" of the roll 12' 0\" = 5.33 sq yd"));
  EXPECT_TRUE(says(roll_sheets(plan)[0], "could not be less"));
  plan.layouts[0].proved_least = false;
  EXPECT_FALSE(says(roll_sheets(plan)[0], "could not be less"));
  EXPECT_TRUE(says(roll_sheets(plan)[0], "No layout can use less than"));
}

TEST(RollLayout, ShowsEveryPieceWithItsSizeLargeEnoughForArmsLength) {
  const Plan plan = by_hand::small_plan();
  const Sheet sheet = roll_sheets(plan)[0];
  for (const PlannedPiece& planned : plan.pieces) {
    const auto id = std::find_if(sheet.pages[0].texts.begin(), sheet.pages[0].texts.end(),
                                 [&](const Text& text) { return text.text == planned.piece.id; });
    ASSERT_NE(id, sheet.pages[0].texts.end()) << planned.piece.id;
    EXPECT_GE(id->size_mm, kCutType - 1e-9);
  }
  EXPECT_TRUE(says(sheet, "38\" × 21 1/2\""));
  EXPECT_TRUE(says(sheet, "38\" × 15\""));
}

TEST(RollLayout, KnifeOrderIsAListOfEveryStrokeAndACsv) {
  const Sheet sheet = roll_sheets(by_hand::small_plan())[0];
  EXPECT_TRUE(says(sheet, "Cross-cut at 21 1/2\" from the roll's end, edge to edge. Frees row 1."));
  EXPECT_TRUE(says(
      sheet,
      "Rip at 3' 2 1/2\" from the left edge, from 0\" to 21 1/2\" along the roll. Frees A-04, 38\" wide."));
  EXPECT_TRUE(says(
      sheet,
      "Trim at 3' 1/2\" from the roll's end, from 3' 2 1/2\" to 6' 4 1/2\" across. Frees A-05, 15\" long."));
  EXPECT_TRUE(says(sheet, "Frees selvage."));
  Plan plan = by_hand::small_plan();
  plan.layouts[0].rolls[0].knife_order[3].frees = "A-03 and A-05, to be trimmed";
  EXPECT_TRUE(says(roll_sheets(plan)[0], "Frees A-03, 38\" wide and"));
  ASSERT_EQ(sheet.table.rows.size(), 10u);
  EXPECT_EQ(sheet.table.rows[9],
            (std::vector<std::string>{"roll 12' 0\"", "10", "trim", "36 1/2", "38 1/2", "76 1/2", "A-05"}));
}

int times_said(const Sheet& sheet, const std::string& words) {
  int times = 0;
  for (const Drawing& page : sheet.pages)
    for (const Text& text : page.texts)
      times += text.text.find(words) != std::string::npos;
  return times;
}

TEST(RollLayout, OfSeveralCutsGivesTheTotalsOnce) {
  Plan plan = by_hand::small_plan();
  Layout& layout = plan.layouts[0];
  layout.rolls.push_back(layout.rolls[0]);
  layout.rolls[0].stock = "roll 12' 0\", cut 1 of 2";
  layout.rolls[1].stock = "roll 12' 0\", cut 2 of 2";
  layout.rolls[1].length_used = inches(30);
  layout.rolls[1].length_to_buy = kFoot * 3;
  const Sheet sheet = roll_sheets(plan)[0];
  EXPECT_TRUE(says(sheet, "Order 4' 0\" of the roll 12' 0\", cut 1 of 2"));
  EXPECT_TRUE(says(sheet, "Order 3' 0\" of the roll 12' 0\", cut 2 of 2"));
  EXPECT_TRUE(says(sheet, "2 cuts of the roll, 7' 0\" to order in all. Length used of the roll: 6' 1\"."));
  EXPECT_EQ(times_said(sheet, "Length used"), 1);
  EXPECT_EQ(times_said(sheet, "could not be less"), 1);
  EXPECT_EQ(times_said(sheet, "Mark every line before the first cut."), 2);
}

TEST(RollLayout, SaysWhatOfThePatternMeets) {
  Plan plan = by_hand::small_plan();
  EXPECT_FALSE(says(roll_sheets(plan)[0], "repeat"));
  plan.job.carpets[0].pattern = Pattern{inches(9), inches(12), inches(6)};
  const auto joined = [](const Sheet& sheet) { // lines as one text
    std::string all;
    for (const Text& text : sheet.pages[0].texts)
      all += text.text + " ";
    return all;
  };
  std::string words = joined(roll_sheets(plan)[0]);
  EXPECT_NE(words.find("repeat 9\" across × 12\" along the roll, drop 6\""), std::string::npos) << words;
  EXPECT_NE(words.find("the same motif stands at the middle of every riser, on the nosing."),
            std::string::npos)
      << words;
  plan.layouts[0].rolls.push_back(plan.layouts[0].rolls[0]);
  words = joined(roll_sheets(plan)[0]);
  EXPECT_NE(words.find("each cut of the roll begins on the same motif"), std::string::npos) << words;
}

TEST(RollLayout, SaysWhereTheSelvagesLoseARepeat) {
  // Twelve repeats of 12 in on goods of which 11 ft 11 in can be used lose one: fcimag.com, article 84819.
  Plan plan = by_hand::small_plan();
  plan.job.carpets[0].pattern = Pattern{inches(12), inches(12), {}};
  auto& roll = plan.layouts[0].rolls[0];
  const auto says_so = [&] {
    const auto sheets = roll_sheets(plan);
    std::string all;
    for (const Text& text : sheets[0].pages[0].texts)
      all += text.text + " ";
    return all.find("The width between the selvages, 11' 11\", holds fewer whole repeats: 11, not 12.") !=
           std::string::npos;
  };
  roll.selvage = inches(0, 1, 2);
  EXPECT_TRUE(says_so());
  roll.selvage = {};
  EXPECT_FALSE(says_so());
}

TEST(RollLayout, PiecesAreDrawnToScale) {
  const Sheet sheet = roll_sheets(by_hand::small_plan())[0];
  std::set<std::string> shapes;
  int pieces = 0;
  double scale = 0;
  for (const Path& path : sheet.pages[0].paths)
    if (path.fill == Fill::carpet) {
      const double w = path.points[2].x - path.points[0].x, h = path.points[2].y - path.points[0].y;
      if (scale == 0) scale = inches(38).mm() / w;
      EXPECT_NEAR(w * scale, inches(38).mm(), 1e-6);
      EXPECT_NEAR(h * scale, pieces == 4 ? inches(15).mm() : inches(21, 1, 2).mm(), 1e-6);
      ++pieces;
    }
  EXPECT_EQ(pieces, 5);
  EXPECT_NEAR(scale, std::round(scale), 1e-9);
  EXPECT_TRUE(says(sheet, "Scale 1:" + std::to_string(std::lround(scale))));
}

/// Every piece of any rows, on however many pages, with no word over another.
RC_GTEST_PROP(RollLayout, ShowsEveryPieceWhateverTheRows, ()) {
  const auto sixteenths = [](int n) { return inches(0, n, 16); };
  const int row_count = *rc::gen::inRange(1, 30);
  std::vector<std::vector<Length>> rows;
  for (int r = 0; r < row_count; ++r) {
    Length left = kFoot * 12;
    rows.emplace_back();
    for (int k = *rc::gen::inRange(1, 8); k > 0 && left > inches(10); --k) {
      const Length width = std::min(left, sixteenths(*rc::gen::inRange(10 * 16, 60 * 16)));
      rows.back().push_back(width);
      left -= width;
    }
  }
  const Length row_length = sixteenths(*rc::gen::inRange(10 * 16, 200 * 16));
  const Plan plan =
      by_hand::rows_plan(rows, row_length, *rc::gen::element(LengthUnit::inch, LengthUnit::millimetre),
                         *rc::gen::element(PaperSize::letter, PaperSize::a4));
  std::vector<Sheet> sheets = roll_sheets(plan);
  RC_ASSERT(sheets.size() == 1u);
  frame_pages(sheets[0], plan.job, 1, 1);
  std::set<std::string> shown;
  for (const Drawing& page : sheets[0].pages) {
    const std::vector<std::string> faults = faults_of(page), struck = struck_words(page);
    if (!faults.empty()) RC_FAIL(faults[0]);
    if (!struck.empty()) RC_FAIL(struck[0]);
    for (const Text& text : page.texts)
      shown.insert(text.text.substr(0, text.text.find(' ')));
  }
  for (const PlannedPiece& planned : plan.pieces)
    RC_ASSERT(shown.count(planned.piece.id) == 1u);
}

TEST(CuttingList, TellsHowSureTheCutIs) {
  Plan plan = by_hand::small_plan();
  EXPECT_FALSE(says(cutting_list(plan), "How sure")); // nothing was judged
  plan.certainty = {
      {"Main", {{"A-04", {}, {}, 0, 0.001}, {"A-03", {}, {}, 0, 0.04}}, 0.041, inches(1), inches(2)}};
  const Sheet sheet = cutting_list(plan);
  expect_readable(sheet);
  std::string words;
  for (const Text& text : sheet.pages[0].texts)
    words += text.text + " ";
  EXPECT_NE(words.find("any piece comes up short is 1 in 24. A-03 is the likeliest, 1 in 25."),
            std::string::npos);
  EXPECT_NE(words.find("1\" across and 2\" along over the net size would do"), std::string::npos);
  const auto& header = sheet.table.header;
  ASSERT_EQ(header.back(), "chance short");
  EXPECT_EQ(sheet.table.rows[1][0], "A-04");
  EXPECT_EQ(sheet.table.rows[1].back(), "1 in 1,000");
  EXPECT_EQ(sheet.table.rows[0].back(), "");
}

TEST(RollLayout, APieceThatFailedItsProofIsNotToBeCut) {
  Plan plan = by_hand::small_plan();
  plan.pieces[1].proof.passed = false;
  plan.pieces[1].proof.reason = "the front corner gapes by 1/4\"";
  for (const Sheet& sheet : whole_job_sheets(plan))
    expect_readable(sheet);
  const Sheet roll = roll_sheets(plan)[0];
  EXPECT_TRUE(says(roll, "DO NOT CUT"));
  EXPECT_TRUE(std::any_of(roll.pages[0].paths.begin(), roll.pages[0].paths.end(),
                          [](const Path& p) { return p.stroke == Pen::warning && p.fill == Fill::warning; }));
  EXPECT_TRUE(says(cutting_list(plan), "DO NOT CUT"));
  EXPECT_TRUE(says(work_order(plan), "DO NOT CUT"));
}

TEST(CuttingList, GivesSizesTrimAndPlace) {
  const Sheet sheet = cutting_list(by_hand::small_plan());
  ASSERT_EQ(sheet.table.rows.size(), 5u);
  EXPECT_EQ(sheet.table.rows[1],
            (std::vector<std::string>{"A-04", "main", "main", "4", "box step", "36", "20", "1", "1", "3/4",
                                      "3/4", "38", "21 1/2", "roll 12' 0\"", "1/2", "0", "passed", ""}));
  EXPECT_TRUE(says(sheet, "38\" × 21 1/2\""));
}

TEST(CuttingList, CutSizesStayOnOneLineAtArmsLength) {
  Plan plan = by_hand::small_plan();
  for (PlannedPiece& planned : plan.pieces) {
    planned.piece.kind = "step, open both ends";
    planned.piece.net_width = inches(100, 13, 16);
    planned.piece.cut_width = inches(102, 13, 16);
    planned.piece.cut_length = inches(122, 15, 16);
  }
  for (const auto& [unit, words] : {std::pair{LengthUnit::inch, "102 13/16\" × 122 15/16\""},
                                    std::pair{LengthUnit::millimetre, "2611 × 3123"},
                                    std::pair{LengthUnit::centimetre, "261.1 × 312.3"}}) {
    plan.job.unit = unit;
    const Sheet sheet = cutting_list(plan);
    int found = 0;
    for (const Text& text : sheet.pages[0].texts)
      if (text.text == words) found += text.size_mm >= kCutType ? 1 : 0;
    EXPECT_EQ(found, 5) << words;
    expect_readable(sheet);
  }
}

TEST(ShoppingList, CountsStockCutAlikeOnceAndOwnsUpToWhatIsNotCounted) {
  const Sheet sheet = shopping_list(by_hand::small_plan());
  EXPECT_TRUE(says(sheet, "4 ft of roll"));
  EXPECT_TRUE(says(sheet, "?"));
  EXPECT_TRUE(says(sheet, "2 ×"));
  EXPECT_TRUE(says(sheet, "24\" + 24\""));
  EXPECT_TRUE(says(sheet, "3 stock lengths; fewer than 2 will not do."));
  EXPECT_TRUE(says(sheet, "1 to 2"));
}

TEST(Quote, CarriesAllThatIsSigned) {
  const Plan plan = by_hand::small_plan();
  const Sheet sheet = quote_sheet(plan);
  for (const char* words :
       {"$269.20", "$188.44", "Repairs of treads.", "dye lot 7", "Offcuts stay with the customer.",
        "valid for 30 days", "Customer, name and signature", "Seams and the direction of the pile are shown",
        "The pieces alone measure"})
    EXPECT_TRUE(says(sheet, words)) << words;
  EXPECT_EQ(sheet.table.rows.back(), (std::vector<std::string>{"Balance when done", "", "", "", "188.44"}));
}

Money amount_in(const Sheet& quote, const std::string& what) {
  for (const auto& row : quote.table.rows)
    if (row[0] == what) return parse_money(row[4]).value();
  return {-1};
}

TEST(Quote, DoesNotShowTheCustomerWhatIsAddedToMaterials) {
  const Sheet sheet = quote_sheet(by_hand::small_plan());
  for (const char* words : {"Markup", "20 %", "$31.50", "$168.00", "$33.60"})
    EXPECT_FALSE(says(sheet, words)) << words;
  EXPECT_EQ(sheet.table.rows[0], (std::vector<std::string>{"Heather loop", "5.333", "sq yd", "", "201.60"}));
  EXPECT_EQ(sheet.table.rows[1],
            (std::vector<std::string>{"Fitting, a step", "5", "steps", "11.00", "55.00"}));
  EXPECT_EQ(amount_in(sheet, "Subtotal"), (Money{25660}));
  EXPECT_TRUE(says(sheet, "$256.60"));

  Plan plain = by_hand::small_plan();
  plain.quote.uplift = {};
  EXPECT_EQ(quote_sheet(plain).table.rows[0],
            (std::vector<std::string>{"Heather loop", "5.333", "sq yd", "31.50", "168.00"}));
}

RC_GTEST_PROP(Quote, LinesAddUpToTheSubtotalWhateverIsAdded, ()) {
  Plan plan = by_hand::small_plan();
  Quote& q = plan.quote;
  q.lines.clear();
  q.subtotal = {};
  Money material;
  for (int n = *rc::gen::inRange(1, 9), i = 0; i < n; ++i) {
    const Money amount{*rc::gen::inRange(0, 500000)};
    const bool of_goods = *rc::gen::arbitrary<bool>();
    q.lines.push_back({"line", "1", "", amount, amount, of_goods, true});
    q.subtotal += amount;
    if (of_goods) material += amount;
  }
  q.uplift = scaled(material, *rc::gen::inRange(0, 900000), 1000000);
  const Sheet sheet = quote_sheet(plan);
  Money sum;
  for (std::size_t i = 0; i < q.lines.size(); ++i) {
    const Money shown = parse_money(sheet.table.rows[i][4]).value();
    sum += shown;
    RC_ASSERT(shown >= q.lines[i].amount);
    if (!q.lines[i].material) RC_ASSERT(shown == q.lines[i].amount);
  }
  RC_ASSERT(sum == q.subtotal + q.uplift);
  RC_ASSERT(amount_in(sheet, "Subtotal") == sum);
}

TEST(WorkOrder, CarriesSiteWarningsAndCautions) {
  const Sheet sheet = work_order(by_hand::small_plan());
  for (const char* words : {"3 Weir Lane, Aldmouth", "Side door.", "Pine treads, sound.",
                            "Risers 1/2\" apart", "Knives:", "Knees:", "Asbestos:", "1978", "Trips:", "A-05"})
    EXPECT_TRUE(says(sheet, words)) << words;
  EXPECT_FALSE(says(sheet, "Hot glue")); // nothing is glued in this plan
}

RC_GTEST_PROP(Sheets, WhateverTheWordsNothingLeavesThePage, ()) {
  const auto words = [] {
    std::string text;
    for (const int n : *rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 60)))
      text += std::string(static_cast<std::size_t>(n), 'W') + " ";
    return text;
  };
  Plan plan = by_hand::small_plan();
  plan.job.site.title = words();
  plan.job.site.address = words();
  plan.job.site.notes = {words(), words()};
  plan.job.carpets[0].name = words();
  plan.pieces[0].piece.kind = words();
  plan.quote.scope = {words()};
  plan.quote.lines[0].what = words();
  plan.quote.uplift_name = words();
  plan.takeoff.lines[0].rule = words();
  plan.problems[0].found = words();
  for (const Sheet& sheet : whole_job_sheets(plan))
    for (const Drawing& page : sheet.pages) {
      const std::vector<std::string> faults = faults_of(page);
      if (!faults.empty()) RC_FAIL(sheet.name + ": " + faults[0]);
    }
}

class Example : public testing::TestWithParam<const char*> {};

TEST_P(Example, SheetsCanBeReadAndAreSoundPdfs) {
  const JobReading reading = read_job(contents(std::string(SOURCE_DIR "/examples/") + GetParam()));
  ASSERT_FALSE(has_errors(reading.problems));
  const Plan planned = plan(reading);
  const std::vector<Sheet> sheets = draw_sheets(planned);
  std::set<std::string> names;
  std::vector<Drawing> all;
  for (const Sheet& sheet : sheets) {
    EXPECT_TRUE(names.insert(sheet.name).second) << sheet.name;
    for (const Drawing& page : sheet.pages)
      for (const std::string& fault : faults_of(page))
        ADD_FAILURE() << sheet.name << ": " << fault;
    all.insert(all.end(), sheet.pages.begin(), sheet.pages.end());
  }
  EXPECT_EQ(sheets.size(), planned.layouts.size() + 1 + planned.pieces.size() + 3);
  for (const Sheet& sheet : whole_job_sheets(planned))
    expect_readable(sheet);

  const std::string path = in_file(write_pdf(all, planned.job.site.title), std::string(GetParam()) + ".pdf");
  const CommandResult check = run("qpdf --check " + path);
  EXPECT_EQ(check.status, 0) << check.output;
  const CommandResult info = run("pdfinfo -l " + std::to_string(all.size()) + " " + path);
  EXPECT_NE(info.output.find("Pages:           " + std::to_string(all.size()) + "\n"), std::string::npos);
  const char* size = planned.job.paper == PaperSize::a4 ? "(A4)" : "(letter)";
  std::istringstream lines(info.output);
  std::size_t right_size = 0;
  for (std::string text; std::getline(lines, text);)
    if (text.rfind("Page ", 0) == 0 && text.find(" size:") != std::string::npos)
      right_size += text.find(size) != std::string::npos;
  EXPECT_EQ(right_size, all.size()) << info.output;
  const std::string words = run("pdftotext -enc UTF-8 " + path + " -").output;
  for (const PlannedPiece& one : planned.pieces)
    EXPECT_NE(words.find(one.piece.id), std::string::npos);
  EXPECT_NE(words.find(planned.job.site.title), std::string::npos);
}

// Every line of a folded strip as a tape reads it along either edge, but at a wedge's point only once.
TEST(FoldedRunnerSheet, TellsEachLineAtBothEdges) {
  const Plan planned = plan(read_job(contents(SOURCE_DIR "/examples/folded-runner.json")));
  const Piece& piece = planned.pieces.at(0).piece;
  std::multiset<std::string> words;
  for (const Sheet& sheet : draw_sheets(planned))
    if (sheet.name == "step-a-01-11")
      for (const auto& page : sheet.pages)
        for (const auto& text : page.texts)
          words.insert(text.text);
  const double zero = piece.net_origin.v + (piece.net_length + piece.trim_foot).mm();
  const auto at = [&](FlatPoint p, const std::string& word) {
    return show_length(from_mm(zero - p.v), LengthUnit::inch, true) + " " + word;
  };
  for (const auto& mark : piece.runner->marks)
    for (const auto* end : {&mark.nosing.left, &mark.nosing.right})
      EXPECT_GE(words.count(at(*end, "nosing " + std::to_string(mark.step))), 1u) << mark.step;
  ASSERT_EQ(piece.runner->pleats.size(), 4u);
  for (const auto& pleat : piece.runner->pleats) {
    const auto above = std::to_string(pleat.step), below = std::to_string(pleat.step - 1);
    const auto last = pleat.creases.size() - 1;
    for (std::size_t k = 0; k <= last; ++k) {
      const auto word = k == 0       ? "foot " + above
                        : k == last  ? "back " + below
                        : k % 2 == 1 ? "top"
                                     : "crotch";
      EXPECT_GE(words.count(at(pleat.creases[k][1], word)), 1u) << above << ' ' << word;
    }
    EXPECT_EQ(words.count(at(pleat.creases[0][0], "foot " + above + ", back " + below)), 1u) << above;
  }
}

INSTANTIATE_TEST_SUITE_P(Sheets, Example,
                         testing::Values("box-stair.json", "open-stair.json", "grand-stair.json",
                                         "winding-stair.json", "runner.json", "folded-runner.json"));

} // namespace
} // namespace treadfold
