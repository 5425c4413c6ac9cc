// Floors wider than the roll, and floors with openings, the whole way.
#include "cut/check.h"
#include "plan.h"
#include "sheets/working_order.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>
#include <gtest/gtest.h>

using namespace treadfold;

namespace {

/// Twelve boxed steps of 42 in, and a hall of these sizes.
Plan planned(const std::string& hall, const std::string& carpet, const std::string& more = {},
             const std::string& widths = R"("12'")") {
  const auto reading = read_job(fmt::format(
      R"({{
        "treadfold": 1, "units": "in", "paper": "letter", "code": "IRC", "site": {{"title": "Test stair"}},
        "stairs": [{{
          "name": "stair",
          "flights": [{{
            "name": "flight", "risers": 12, "rise": "7 1/2", "going": "10", "width": "42",
            "nosing": {{"projection": "1", "thickness": "1 1/4", "profile": "square", "arris_radius": "1/4"}},
            "left": "wall", "right": "wall", "pile": "down", "cover": "waterfall", "carpet": "main"
          }}],
          "floors": [{{"name": "hall", "carpet": "main", {}}}]
        }}],
        "carpets": [{{
          "id": "main", "name": "main", "widths": [{}], "roll_length": "100'", "sold_in": "1\"",
          "backing": "1/8", "thickness": "3/8"{}
        }}],
        "cushion": {{"name": "pad", "thickness": "1/4", "roll_width": "6'", "roll_length": "45'"}},
        "strip": {{"stock_length": "4'"}}, "finished_floors": {{"foot": "0", "landing": "0"}}{}
      }})",
      hall, widths, carpet, more));
  for (const auto& p : reading.problems)
    EXPECT_NE(p.severity, Severity::error) << sentence(p);
  auto made = plan(reading);
  for (const auto& p : made.problems)
    EXPECT_NE(p.severity, Severity::error) << sentence(p);
  for (const auto& layout : made.layouts)
    EXPECT_EQ(check_layout(cut_pieces(made, made.job.carpets[0]), made.job.carpets[0], layout),
              std::vector<std::string>{});
  return made;
}

std::vector<const Piece*> breadths(const Plan& plan) {
  std::vector<const Piece*> found;
  for (const auto& p : plan.pieces)
    if (p.piece.breadth) found.push_back(&p.piece);
  return found;
}

const Placement& placed(const Plan& plan, const std::string& id) {
  for (const auto& roll : plan.layouts[0].rolls)
    for (const auto& p : roll.placements)
      if (p.piece == id) return p;
  throw std::runtime_error(id);
}

} // namespace

/// To buy for the hall alone.
Length for_hall(const Plan& plan) {
  std::vector<CutPiece> hall;
  for (const auto& piece : cut_pieces(plan, plan.job.carpets[0]))
    if (piece.id.starts_with("B")) hall.push_back(piece);
  Problems problems;
  const auto layout = lay_out(hall, plan.job.carpets[0], {}, problems);
  EXPECT_TRUE(problems.empty());
  return layout.offers.front().length_to_buy;
}

// Rooms of 15 by 16, 20 and 21 ft are published as 20, 27 and 28 ft of 12 ft goods, their fills from four and
// from three pieces (docs/sources.md), with nothing to trim anywhere.
TEST(Breadths, RoomsTakeNoMoreThanPublishedWhereSeamsAreNotTrimmed) {
  struct Case {
    const char *room, *long_as;
    int fill_pieces;
    Length published, ours;
  };
  // A pattern that the roll holds in whole repeats is matched at the roll's edges. The second and third are
  // beaten: the fill need not be a foot wider, nor in whole feet.
  for (const auto& c : {Case{"15 by 16", "16'", 4, kFoot * 20, kFoot * 20},
                        Case{"15 by 20", "20'", 3, kFoot * 27, kFoot * 26 + inches(8)},
                        Case{"15 by 21", "21'", 4, kFoot * 28, kFoot * 26 + inches(3)}}) {
    const auto plan =
        planned(fmt::format(R"("width": "15'", "length": "{}", "fill_pieces": {})", c.long_as, c.fill_pieces),
                R"(, "pattern": {"width": "12", "length": "1", "match": "set"})",
                R"(, "allowances": {"floor_trim": "0"})");
    EXPECT_EQ(for_hall(plan), c.ours) << c.room;
    EXPECT_LE(c.ours, c.published);
  }
}

// Half an inch to trim at each side of each seam: the same fill of 3 ft, and so four across, no longer fits.
TEST(Breadths, ARoomTakesMoreWhereSeamsAreTrimmed) {
  const auto room = [](int fill_pieces) {
    return for_hall(planned(fmt::format(R"("width": "15'", "length": "16'", "fill_pieces": {})", fill_pieces),
                            "", R"(, "allowances": {"floor_trim": "0"})"));
  };
  EXPECT_GT(room(4), room(3));
  EXPECT_EQ(room(3), kFoot * 21 + inches(5));
}

TEST(Breadths, MatchAcrossTheirSeams) {
  for (const char* match : {R"("set")", R"("half-drop")", R"({"drop": "7"})"}) {
    const auto plan =
        planned(R"("width": "31'", "length": "10'", "fill_pieces": 2)",
                fmt::format(R"(, "selvage": "1/2", "pattern": {{"width": "9", "length": "18", "match": {}}})",
                            match));
    const auto& pattern = *plan.job.carpets[0].pattern;
    const auto pieces = breadths(plan);
    ASSERT_EQ(pieces.size(), 4u);
    // Where on the goods the hall's front left corner would lie, were each breadth the whole hall.
    const auto corner = [&](const Piece& p) {
      const auto& at = placed(plan, p.id);
      return std::pair(at.u.mm() + p.trim_left.mm() - p.net_origin.u,
                       at.v.mm() + p.trim_back.mm() - p.net_origin.v);
    };
    const auto [u, v] = corner(*pieces[0]);
    for (const auto* piece : pieces) {
      const auto [other_u, other_v] = corner(*piece);
      const double columns = (other_u - u) / pattern.width.mm();
      const double rows = (other_v - v - std::round(columns) * pattern.drop.mm()) / pattern.length.mm();
      const double sixteenth = 25.4 / 16;
      EXPECT_NEAR(columns, std::round(columns), sixteenth / pattern.width.mm()) << piece->id;
      EXPECT_NEAR(rows, std::round(rows), sixteenth / pattern.length.mm()) << piece->id;
    }
  }
}

TEST(Breadths, AreCutForTheWidthThatBuysTheLeast) {
  const auto hall = [](const char* widths) {
    return planned(R"("width": "17' 4\"", "length": "20'")", "", "", widths);
  };
  const auto narrow = hall(R"("9'")"), wide = hall(R"("12'")"), either = hall(R"("12'", "9'")");
  const auto area = [](const Plan& plan) { return plan.layouts[0].offers.front().area_m2; };
  EXPECT_LT(area(narrow), area(wide));
  EXPECT_DOUBLE_EQ(area(either), area(narrow));
  EXPECT_EQ(either.job.carpets[0].breadths_for, kFoot * 9);
  // A floor that the wider roll covers is not seamed to save carpet.
  EXPECT_TRUE(breadths(planned(R"("width": "11'", "length": "20'")", "", "", R"("12'", "9'")")).empty());
}

TEST(Breadths, AreBoughtAndLaidWithTheirSeams) {
  const auto whole = planned(R"("width": "11'", "length": "20'")", "");
  const auto plan = planned(R"("width": "15'", "length": "20'")", "");
  const auto line = [](const Plan& p, const std::string& item) {
    return *std::find_if(p.takeoff.lines.begin(), p.takeoff.lines.end(),
                         [&](const auto& l) { return l.item == item; });
  };
  EXPECT_EQ(line(whole, "Seaming tape").need, "3' 6\" of taped seam"); // at the landing's edge
  EXPECT_EQ(line(plan, "Seaming tape").need, "23' 6\" of taped seam");
  EXPECT_TRUE(breadths(whole).empty());
  ASSERT_EQ(breadths(plan).size(), 2u);
  const auto said = [&](const Plan& p, const std::string& id, const std::string& words) {
    for (const auto& planned : p.pieces)
      if (planned.piece.id == id)
        for (const auto& step : working_order(p, planned))
          if (step.text.find(words) != std::string::npos) return true;
    return false;
  };
  EXPECT_TRUE(said(plan, "B-1", "Lap it 1\" over B-2, and cut both at once along the seam."));
  EXPECT_FALSE(said(plan, "B-1", "Match the pattern"));
  EXPECT_FALSE(said(whole, "B", "seam tape"));
}

namespace {

constexpr const char* kStairwell =
    R"("width": "11' 6\"", "length": "12'",
       "openings": [{"name": "well", "along": "4'", "off": "3'", "width": "5'", "length": "6'"}])";

std::string words(const Plan& plan, const PlannedPiece& piece) {
  std::string all;
  for (const auto& instruction : working_order(plan, piece))
    all += instruction.text + "\n";
  return all;
}

} // namespace

TEST(FloorOpenings, StepsLieInThemWhereOutlinesAreLaid) {
  const auto rectangles = planned(kStairwell, R"(, "laid": "close")");
  const auto outlines = planned(kStairwell, R"(, "laid": "outlines")");
  const auto& layout = outlines.layouts[0];
  EXPECT_LT(layout.outlines_to_buy, rectangles.layouts[0].close_to_buy);
  const auto& hall = placed(outlines, "B");
  ASSERT_EQ(hall.outline.holes.size(), 1u);
  // 5 by 6 ft less 3 in at every side, and a sixteenth.
  EXPECT_EQ(covered_area({}, {}, {hall.outline.holes[0]}),
            (inches(54) - inches(0, 1, 8)).ticks * (inches(66) - inches(0, 1, 8)).ticks);
}

TEST(FloorOpenings, AreNoneOfTheNetAndNamedOnTheSheet) {
  const auto with = planned(kStairwell, ""), without = planned(R"("width": "11' 6\"", "length": "12'")", "");
  EXPECT_NEAR(without.quote.net_area_m2 - with.quote.net_area_m2, 30 * 0.3048 * 0.3048, 1e-9);
  EXPECT_EQ(with.layouts[0].offers[0].length_to_buy, without.layouts[0].offers[0].length_to_buy);
  for (const auto& piece : with.pieces)
    EXPECT_EQ(words(with, piece).find("Cut out for well") != std::string::npos, piece.piece.id == "B");
}

TEST(FloorOpenings, OnASeamTakeNoTape) {
  const auto hall = [](const std::string& more) {
    return planned(R"("width": "20'", "length": "12'")" + more, "");
  };
  const auto seams = [](const Plan& plan) {
    std::vector<FloorPart> parts;
    for (const auto* piece : breadths(plan))
      parts.push_back(*piece->breadth);
    return seams_mm(parts);
  };
  const auto whole = hall("");
  const auto open =
      hall(R"(, "openings": [{"name": "well", "along": "9'", "off": "3'", "width": "5'", "length": "6'"}])");
  EXPECT_NEAR(seams(whole) - seams(open), 6 * 304.8, 1e-6);
}
