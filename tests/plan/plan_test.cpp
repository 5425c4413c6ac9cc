// The whole way, on the examples and on a stair of 14 steps with one open side.
#include "cut/check.h"
#include "plan.h"
#include "sheets/sheets.h"
#include "sheets/working_order.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <sstream>

#include <fmt/format.h>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>

using namespace treadfold;

namespace {

constexpr double kSixtyFourth_mm = 25.4 / 64;

std::string example(const std::string& name) {
  std::ifstream file(std::string(SOURCE_DIR) + "/examples/" + name);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

Plan planned(const std::string& text) {
  const auto reading = read_job(text);
  for (const auto& p : reading.problems)
    EXPECT_NE(p.severity, Severity::error) << sentence(p);
  return plan(reading);
}

/// `text` with the first `from` after `after` replaced.
std::string changed(std::string text, const std::string& after, const std::string& from,
                    const std::string& to) {
  const auto start = text.find(after);
  EXPECT_NE(start, std::string::npos) << after;
  const auto at = text.find(from, start);
  EXPECT_NE(at, std::string::npos) << from;
  return text.replace(at, from.size(), to);
}

class Examples : public testing::TestWithParam<const char*> {};

} // namespace

TEST_P(Examples, IsPlannedAndProved) {
  const auto p = planned(example(GetParam()));
  EXPECT_FALSE(has_errors(p.problems));
  ASSERT_FALSE(p.pieces.empty());
  for (const auto& piece : p.pieces) {
    EXPECT_TRUE(piece.proof.passed) << piece.piece.id << ": " << piece.proof.reason;
    EXPECT_LE(piece.proof.widest_gap_mm, kSixtyFourth_mm);
  }
}

TEST_P(Examples, EveryPieceLiesOnTheRollOnceAndTheLayoutKeepsItsPromises) {
  const auto p = planned(example(GetParam()));
  std::size_t placed = 0;
  for (const auto& layout : p.layouts) {
    const auto carpet = std::find_if(p.job.carpets.begin(), p.job.carpets.end(),
                                     [&](const auto& c) { return c.id == layout.carpet; });
    ASSERT_NE(carpet, p.job.carpets.end());
    for (const auto& roll : layout.rolls) {
      placed += roll.placements.size();
      if (!roll.remnant) {
        EXPECT_GE(roll.length_to_buy, layout.lower_bound);
      }
      for (const auto& placement : roll.placements) {
        const auto piece = std::find_if(p.pieces.begin(), p.pieces.end(),
                                        [&](const auto& q) { return q.piece.id == placement.piece; });
        ASSERT_NE(piece, p.pieces.end());
        EXPECT_EQ(placement.width, piece->piece.cut_width); // never turned
        EXPECT_EQ(placement.length, piece->piece.cut_length);
      }
    }
  }
  EXPECT_EQ(placed, p.pieces.size());
}

TEST_P(Examples, LayoutPassesTheCheckerThatSharesNothingWithTheSearch) {
  const auto p = planned(example(GetParam()));
  for (const auto& layout : p.layouts) {
    const auto carpet = std::find_if(p.job.carpets.begin(), p.job.carpets.end(),
                                     [&](const auto& c) { return c.id == layout.carpet; });
    for (const auto& fault : check_layout(cut_pieces(p, *carpet), *carpet, layout))
      ADD_FAILURE() << fault;
  }
}

TEST_P(Examples, GivesTheSameAnswerTwice) {
  const auto text = example(GetParam());
  EXPECT_EQ(plan_json(planned(text)), plan_json(planned(text)));
}

TEST_P(Examples, HasASheetForEveryPieceAndTheRest) {
  const auto p = planned(example(GetParam()));
  const auto sheets = draw_sheets(p);
  EXPECT_GE(sheets.size(), p.pieces.size() + 5); // roll, cutting list, shopping list, quote, work order
  for (const auto& sheet : sheets)
    EXPECT_FALSE(sheet.pages.empty()) << sheet.name;
}

double steps_under(const Plan& p, const std::string& id) {
  for (const auto& planned : p.pieces)
    if (planned.piece.id == id) return static_cast<double>(planned.steps.size());
  return 0;
}

TEST_P(Examples, IsSureEnoughOfItsCut) {
  const auto p = planned(example(GetParam()));
  ASSERT_EQ(p.certainty.size(), p.job.stairs.size());
  std::size_t judged = 0;
  for (const auto& stair : p.certainty) {
    EXPECT_LT(stair.chance, kShortChance);
    const bool runners = std::all_of(p.pieces.begin(), p.pieces.end(), [](const auto& piece) {
      return piece.piece.runner.has_value(); // as wide as they are cut
    });
    EXPECT_EQ(stair.least_across > Length{}, !runners);
    EXPECT_GT(stair.least_along, Length{});
    judged += stair.pieces.size();
    for (const auto& piece : stair.pieces)
      for (const auto* demands : {&piece.across, &piece.along})
        for (const auto& demand : *demands) {
          EXPECT_GE(demand.cut, demand.need) << piece.piece;
          EXPECT_GE(demand.deviation, p.job.tolerances.knife.mm() / 2)
              << piece.piece; // that alone at the datum
          // A reading shared by the steps under a long runner counts once for each.
          EXPECT_LT(demand.deviation, std::max(10.0, 2.0 * steps_under(p, piece.piece))) << piece.piece;
        }
  }
  EXPECT_EQ(judged, p.pieces.size());
}

INSTANTIATE_TEST_SUITE_P(All, Examples,
                         testing::Values("box-stair.json", "open-stair.json", "grand-stair.json",
                                         "winding-stair.json", "runner.json", "folded-runner.json"),
                         [](const auto& job) {
                           std::string name = job.param;
                           name = name.substr(0, name.find_first_of("-."));
                           return name;
                         });

// The least allowance told is enough when it is used, and with half of it the plan warns.
TEST(Certainty, AllowancesTooSmallAreWarnedOf) {
  const auto warned = [](const Plan& p) {
    return std::count_if(p.problems.begin(), p.problems.end(), [](const Problem& problem) {
      return problem.where == "/allowances" && problem.found.find("comes up short") != std::string::npos;
    });
  };
  auto reading = read_job(example("box-stair.json"));
  const auto usual = plan(reading);
  EXPECT_EQ(warned(usual), 0);
  const auto& least = usual.certainty[0];
  auto& allowances = reading.job.allowances;
  const auto cut_to = [&](Length across, Length along) {
    allowances.side_trim = {(across.ticks + 1) / 2};
    allowances.tuck_back = {(along.ticks + 1) / 2};
    allowances.tuck_foot = along - allowances.tuck_back;
    return plan(reading);
  };
  EXPECT_EQ(warned(cut_to(least.least_across, least.least_along)), 0);
  EXPECT_EQ(warned(cut_to({least.least_across.ticks / 2}, least.least_along)), 1);
}

TEST(FourteenStepsWithOneOpenSide, EveryRequiredFaceIsCoveredExactlyOnce) {
  const auto p = planned(example("open-stair.json"));
  std::size_t steps = 0, faces = 0;
  for (const auto& piece : p.pieces) {
    steps += piece.steps.size();
    for (const auto& face : piece.proof.coverage) {
      ++faces;
      EXPECT_GE(face.once, 0.999) << piece.piece.id << ' ' << face.face;
      EXPECT_LE(face.none, 0.001) << piece.piece.id << ' ' << face.face;
    }
  }
  EXPECT_EQ(steps, 14u);
  EXPECT_GT(faces, 14u * 8);
}

TEST(RunnerStair, IsBoundBoughtAndPricedByItsEdges) {
  const auto p = planned(example("runner.json"));
  double edges = 0;
  std::size_t steps = 0;
  for (const auto& piece : p.pieces) {
    ASSERT_TRUE(piece.piece.runner.has_value());
    EXPECT_FALSE(piece.proof.kept_bare.empty());
    for (const auto& face : piece.proof.kept_bare)
      EXPECT_EQ(face.none, 1) << face.face;
    steps += piece.piece.steps.size();
    if (piece.piece.flight_index == 1) edges += piece.piece.runner->edges_mm;
  }
  EXPECT_EQ(steps, 23u);
  EXPECT_EQ(p.takeoff.binding, from_mm_up(edges)); // the front flight's goods come with finished edges
  EXPECT_TRUE(std::any_of(p.takeoff.lines.begin(), p.takeoff.lines.end(),
                          [](const auto& l) { return l.item == "Binding, 'cotton tape, flax'"; }));
  EXPECT_TRUE(std::any_of(p.quote.lines.begin(), p.quote.lines.end(),
                          [](const auto& l) { return l.what.starts_with("Binding") && l.amount.cents > 0; }));
}

// One strip of goods with finished edges: nothing to bind, and each winder is charged as a step.
TEST(FoldedRunnerStair, IsBoughtByItsLengthAndPricedByItsSteps) {
  const auto p = planned(example("folded-runner.json"));
  ASSERT_EQ(p.pieces.size(), 1u);
  const auto& piece = p.pieces[0].piece;
  EXPECT_EQ(piece.steps.size(), 11u);
  EXPECT_EQ(piece.runner->pleats.size(), 4u); // three winders and the step above them
  EXPECT_EQ(p.takeoff.binding, Length{});
  ASSERT_EQ(p.layouts.size(), 1u);
  EXPECT_EQ(p.layouts[0].rolls.at(0).length_used, piece.cut_length);
  EXPECT_TRUE(std::any_of(p.quote.lines.begin(), p.quote.lines.end(),
                          [](const auto& l) { return l.what.starts_with("Fitting") && l.quantity == "11"; }));
  // No strip on a riser that has folds before it, and staples through them instead.
  const auto riser_strips = [&](int step) {
    const auto& strips = p.fixings[0].steps[static_cast<std::size_t>(step - 1)].strips;
    return std::count_if(strips.begin(), strips.end(),
                         [](const auto& s) { return s.place == StripPlace::riser; });
  };
  for (int step = 1; step <= 11; ++step)
    EXPECT_EQ(riser_strips(step), step >= 5 && step <= 8 ? 0 : 1) << step;
}

TEST(FoldedRunnerStair, WhatCannotBeFoldedIsAnErrorAndHasNoPiece) {
  const auto p = planned(changed(example("folded-runner.json"), "\"runner\"", "\"exposed_left\": \"5 1/2\"",
                                 "\"exposed_left\": \"1\""));
  EXPECT_TRUE(p.pieces.empty());
  EXPECT_TRUE(has_errors(p.problems));
  EXPECT_FALSE(draw_sheets(p).empty());
}

TEST(RunnerStair, AShiftOfSeveralPiecesIsWarnedOf) {
  const auto has_warning = [](const Plan& p) {
    return std::any_of(p.problems.begin(), p.problems.end(), [](const auto& problem) {
      return problem.severity == Severity::warning && problem.where.ends_with("/runner/wear_shift");
    });
  };
  const auto text = example("runner.json");
  EXPECT_FALSE(has_warning(planned(text)));
  EXPECT_TRUE(has_warning(
      planned(changed(text, "\"runner\"", "\"wear_shift\"", "\"longest\": \"10'\", \"wear_shift\""))));
}

TEST(Plan, TreadsCountedForRisersAreSaid) {
  const auto problems = planned(changed(example("box-stair.json"), "treads_counted", "12", "13")).problems;
  EXPECT_TRUE(std::any_of(problems.begin(), problems.end(), [](const auto& p) {
    return p.where.find("/stairs/0/flights/0") == 0 && p.expected.find("12") != std::string::npos;
  }));
}

// Mutation of a measure changes what it should and nothing else: one step's rise, and only that step's piece.
TEST(Plan, OneHigherRiseChangesOnlyItsOwnPiece) {
  const auto text = example("box-stair.json");
  const auto before = planned(text), after = planned(changed(text, "\"13\": {\"rise\"", "7 5/8", "7 3/4"));
  ASSERT_EQ(before.pieces.size(), after.pieces.size());
  for (std::size_t i = 0; i < before.pieces.size(); ++i) {
    const auto &a = before.pieces[i].piece, &b = after.pieces[i].piece;
    EXPECT_EQ(a.id, b.id);
    EXPECT_EQ(a.net_width, b.net_width);
    if (a.steps == std::vector<int>{13})
      EXPECT_GT(b.net_length, a.net_length);
    else
      EXPECT_EQ(a.net_length, b.net_length) << a.id;
  }
}

TEST(Plan, AHigherTaxChangesThePriceAndNoPiece) {
  const auto text = example("box-stair.json");
  const auto before = planned(text), after = planned(changed(text, "\"tax\"", "6.25", "7.25"));
  EXPECT_GT(after.quote.total, before.quote.total);
  EXPECT_EQ(after.quote.subtotal, before.quote.subtotal);
  EXPECT_EQ(after.layouts[0].rolls[0].length_to_buy, before.layouts[0].rolls[0].length_to_buy);
}

TEST(Plan, WiderCarpetThanEveryRollIsAProblemWithItsPiece) {
  const auto reading =
      read_job(changed(example("box-stair.json"), "widths", "[\"12'\", \"15'\"]", "[\"3'\"]"));
  const auto p = plan(reading);
  EXPECT_TRUE(has_errors(p.problems));
  EXPECT_EQ(p.pieces.size(), 13u);
  EXPECT_TRUE(p.layouts.empty() || p.layouts[0].rolls.empty());
}

/// Where on the pattern, in mm within one repeat, a piece has the middle of its highest step and the back of
/// that step's tread, as the net lies on the roll.
struct OnPattern {
  const PlannedPiece* piece;
  double u, v;
};
std::vector<OnPattern> on_pattern(const Plan& p) {
  const auto& pattern = *p.job.carpets[0].pattern;
  std::vector<OnPattern> all;
  for (const auto& piece : p.pieces)
    for (const auto& roll : p.layouts[0].rolls)
      for (const auto& placed : roll.placements) {
        if (placed.piece != piece.piece.id || piece.steps.empty()) continue;
        const auto& net = piece.piece;
        const double u =
            placed.u.mm() + net.trim_left.mm() + piece.steps.front().width.mm() / 2 - net.net_origin.u;
        const double v = placed.v.mm() + net.trim_back.mm() - net.net_origin.v;
        const double columns = std::floor(u / pattern.width.mm() + 1e-6);
        all.push_back({&piece, u - columns * pattern.width.mm(), v - columns * pattern.drop.mm()});
      }
  return all;
}

constexpr double kGrid = 25.4 / 16; // places are rounded to the tape's marks

// The half-drop pattern of the hall stair: seen from the pieces as folded, the motif keeps its place on every
// nosing.
TEST(PatternedStair, EveryNosingHasTheSameMotif) {
  const auto p = planned(example("open-stair.json"));
  const auto& pattern = *p.job.carpets[0].pattern;
  const auto all = on_pattern(p);
  ASSERT_EQ(all.size(), 14u);
  const auto nosing = [](const OnPattern& at) {
    const auto& step = at.piece->steps.front();
    return at.v + (step.going + step.nosing.projection - step.nosing.radius).mm();
  };
  for (const auto& at : all) {
    EXPECT_NEAR(std::remainder(at.u - all[0].u, pattern.width.mm()), 0, kGrid);
    EXPECT_NEAR(std::remainder(nosing(at) - nosing(all[0]), pattern.length.mm()), 0, kGrid);
  }
}

// Where it flows, the pattern goes on at the back of each tread where it stopped at the foot of the step
// above: by the sizes as they are itemised, of steps on their own and of joined ones.
TEST(PatternedStair, ThePatternFlowsFromStepToStep) {
  for (const char* join : {"1", "3"}) {
    const auto flowing =
        changed(example("open-stair.json"), "\"pattern\"", "\"match\"", "\"motif\": \"flows\", \"match\"");
    const auto p = planned(changed(flowing, "\"carpet\": \"trellis\"", "\"carpet\": \"trellis\"",
                                   fmt::format("\"join\": {}, \"carpet\": \"trellis\"", join)));
    EXPECT_TRUE(check_layout(cut_pieces(p, p.job.carpets[0]), p.job.carpets[0], p.layouts[0]).empty());
    EXPECT_TRUE(std::none_of(p.problems.begin(), p.problems.end(),
                             [](const auto& q) { return q.where.ends_with("/join"); }));
    const auto& pattern = *p.job.carpets[0].pattern;
    const auto all = on_pattern(p);
    ASSERT_EQ(all.size(), *join == '1' ? 14u : 6u);
    double along = 0; // down the stair
    for (const auto& at : all) {
      EXPECT_NEAR(std::remainder(at.u - all[0].u, pattern.width.mm()), 0, kGrid);
      EXPECT_NEAR(std::remainder(at.v - all[0].v - along, pattern.length.mm()), 0, 2 * kGrid)
          << at.piece->piece.id << ", join " << join;
      for (const auto& item : at.piece->piece.along)
        if (item.what.find("to t") != 0 && item.what != "rounded up" && item.what.find("back corner") != 0)
          along += item.mm;
    }
    EXPECT_GT(along, 3000);
  }
}

TEST(PatternedStair, JoinedStepsAreWarnedOf) {
  const auto p = planned(changed(example("open-stair.json"), "\"carpet\": \"trellis\"",
                                 "\"carpet\": \"trellis\"", "\"join\": 2, \"carpet\": \"trellis\""));
  EXPECT_TRUE(std::any_of(p.problems.begin(), p.problems.end(),
                          [](const auto& q) { return q.where.ends_with("/join"); }));
}

TEST(Plan, AThickPadWithAShortTuckIsWarnedOf) {
  const auto p = planned(
      changed(example("box-stair.json"), "\"cushion\"", "\"thickness\": \"3/8\"", "\"thickness\": \"3/4\""));
  EXPECT_TRUE(std::any_of(p.problems.begin(), p.problems.end(),
                          [](const auto& q) { return q.where == "/allowances/tuck_back"; }));
}

namespace {

/// The open stair in goods of this construction, or with more said of them.
Plan in_goods(const std::string& more) {
  return planned(changed(example("open-stair.json"), "\"carpets\"", "\"backing\"", more + "\"backing\""));
}

bool warns(const Plan& p, const std::string& what) {
  return std::any_of(p.problems.begin(), p.problems.end(),
                     [&](const Problem& q) { return q.found.find(what) != std::string::npos; });
}

/// plan.json without what construction may change: latex, the lines that buy it, and warnings.
nlohmann::json all_but_handling(const Plan& p) {
  auto json = nlohmann::json::parse(plan_json(p));
  for (auto& flight : json.at("fixings"))
    for (auto& step : flight.at("steps"))
      EXPECT_EQ(step.erase("latex_mm"), 1u);
  for (const char* key : {"problems", "takeoff", "quote"})
    EXPECT_EQ(json.erase(key), 1u) << key;
  return json;
}

Length latex(const Plan& p) {
  Length sum;
  for (const auto& flight : p.fixings)
    for (const auto& step : flight.steps)
      sum += step.latex;
  return sum;
}

} // namespace

TEST(Handling, ConstructionChangesLatexAndWordsAndNothingElse) {
  const auto unknown = in_goods(""), tufted = in_goods(R"("construction": "tufted", )"),
             woven = in_goods(R"("construction": "woven", )");
  EXPECT_EQ(all_but_handling(unknown), all_but_handling(tufted));
  EXPECT_EQ(all_but_handling(unknown), all_but_handling(woven));
  EXPECT_EQ(latex(unknown), latex(tufted));
  Length rectangles;
  for (const auto& planned : woven.pieces)
    if (!planned.steps.empty()) rectangles += (planned.piece.cut_width + planned.piece.cut_length) * 2;
  EXPECT_GT(latex(woven), latex(tufted) + rectangles);
  ASSERT_EQ(woven.takeoff.lines.size(), tufted.takeoff.lines.size());
  for (std::size_t i = 0; i < woven.takeoff.lines.size(); ++i) {
    const auto &w = woven.takeoff.lines[i], &t = tufted.takeoff.lines[i];
    EXPECT_EQ(w.item, t.item);
    EXPECT_EQ(w.quantity == t.quantity, w.item.find("Latex") == std::string::npos) << w.item;
  }
}

TEST(Handling, ABackingThatTakesNoHemHasNoneAndIsToldToBeBound) {
  const auto soft = in_goods(R"("min_fold_radius": "1/8", )"),
             stiff = in_goods(R"("min_fold_radius": "9/64", )");
  EXPECT_FALSE(warns(soft, "a hem "));
  EXPECT_TRUE(warns(stiff, "a hem 5/16\" thick"));
  const auto hems = [](const Plan& p) {
    int count = 0;
    for (const auto& planned : p.pieces) {
      EXPECT_TRUE(planned.proof.passed) << planned.piece.id << ": " << planned.proof.reason;
      for (const auto& line : planned.piece.lines)
        count += line.role == LineRole::hem ? 1 : 0;
    }
    return count;
  };
  EXPECT_GT(hems(soft), 0);
  EXPECT_EQ(hems(stiff), 0);
  const auto text_of = [](const Plan& p) {
    std::string text;
    for (const auto& i : working_order(p, p.pieces.at(1)))
      text += i.text + "\n";
    return text;
  };
  EXPECT_EQ(text_of(soft).find("it has no hem, so bind that edge"), std::string::npos);
  EXPECT_NE(text_of(stiff).find("it has no hem, so bind that edge"), std::string::npos);
  EXPECT_EQ(text_of(stiff).find("hem lies flat"), std::string::npos);
  EXPECT_LT(text_of(stiff).find("Hot glue"), text_of(stiff).find("glue it there"));
}

TEST(Handling, TheWorkOrderSaysWhatEachBackingNeeds) {
  const auto says = [](const Plan& p, const std::string& what) {
    for (const auto& sheet : draw_sheets(p))
      if (sheet.name == "work-order")
        for (const auto& page : sheet.pages)
          for (const auto& text : page.texts)
            if (text.text.find(what) != std::string::npos) return true;
    return false;
  };
  EXPECT_FALSE(says(in_goods(""), "The backing"));
  EXPECT_TRUE(says(in_goods(R"("construction": "woven", )"), "woven: seal all four edges"));
  EXPECT_TRUE(says(in_goods(R"("construction": "tufted", )"), "tufted: seal the backing"));
}
