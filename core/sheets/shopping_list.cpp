#include "sheets/fixing_view.h"
#include "sheets/page.h"
#include "sheets/sheet_kinds.h"

#include "buy/quantity.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace treadfold {

namespace {

bool any_opening(const Plan& plan) {
  return std::any_of(plan.pieces.begin(), plan.pieces.end(),
                     [](const PlannedPiece& p) { return p.steps.empty() && !p.piece.openings.empty(); });
}

/// "3", "27.5": as many decimals as it has, two at most.
std::string count(double quantity) {
  const auto hundredths = static_cast<std::int64_t>(std::llround(quantity * 100));
  std::string text = show_milli(hundredths * 10);
  text.erase(text.find_last_not_of('0') + 1);
  if (text.back() == '.') text.pop_back();
  return text;
}

void strip_plan(Flow& flow, const Plan& plan) {
  const Takeoff& takeoff = plan.takeoff;
  if (takeoff.strip.empty()) return;
  const Reader reader = plan.job.reader();
  const LengthUnit unit = reader;
  flow.heading(
      reader.say("Tack strip: cuts from each {} length", show_length(plan.job.strip.stock_length, unit)));
  Table table{{reader.say("How many"), reader.say("Cuts"), reader.say("Left over")}, {}};
  const auto same = [](const StripStock& a, const StripStock& b) { return a.cuts == b.cuts; };
  std::vector<std::pair<const StripStock*, int>> kinds; // stock cut alike is named once
  for (const StripStock& stock : takeoff.strip) {
    bool known = false;
    for (auto& [kind, times] : kinds)
      if (same(*kind, stock)) known = true, ++times;
    if (!known) kinds.push_back({&stock, 1});
  }
  for (const auto& [stock, times] : kinds) {
    std::string cuts;
    for (const Length cut : stock->cuts)
      cuts += (cuts.empty() ? "" : " + ") + show_length(cut, unit);
    table.rows.push_back({std::to_string(times) + " ×", cuts, show_length(stock->left_over, unit)});
  }
  flow.table(table, {{{Anchor::right}, {Anchor::left, true}, {Anchor::right}}});
  const auto used = static_cast<int>(takeoff.strip.size());
  flow.paragraph(
      used == takeoff.strip_lower_bound
          ? reader.say("No fewer stock lengths will do.")
          : reader.say("{} stock lengths; fewer than {} will not do.", used, takeoff.strip_lower_bound));
}

std::string ends(const Reader& reader, const StripPiece& s) {
  const auto left = end_cut(reader, s.left_angle_deg), right = end_cut(reader, s.right_angle_deg);
  if (left.empty() && right.empty()) return reader.say("square");
  if (right.empty()) return reader.say("left at {}", left);
  if (left.empty()) return reader.say("right at {}", right);
  return reader.say("left at {}, right at {}", left, right);
}

/// Every strip of every step and floor; steps in a row with the same strip share a line.
void strip_pieces(Flow& flow, const Plan& plan) {
  const Reader reader = plan.job.reader();
  struct Run {
    std::string flight, place, length, ends;
    int first, last;
  };
  std::vector<Run> runs;
  for (const auto place : {StripPlace::tread, StripPlace::riser})
    for (const auto& flight : plan.fixings)
      for (const auto& step : flight.steps)
        for (const auto& s : step.strips) {
          if (s.place != place) continue;
          Run run{flight.flight,
                  place == StripPlace::tread ? reader.say("tread") : reader.say("riser"),
                  show_length(s.length(), reader),
                  ends(reader, s),
                  step.step,
                  step.step};
          if (!runs.empty() && runs.back().flight == run.flight && runs.back().place == run.place &&
              runs.back().length == run.length && runs.back().ends == run.ends &&
              runs.back().last + 1 == run.first)
            runs.back().last = run.last;
          else
            runs.push_back(run);
        }
  const auto& floors = plan.takeoff.floor_strips;
  if (runs.empty() && floors.empty()) return;
  flow.heading(floors.empty() ? reader.say("Tack strip: step by step")
                              : reader.say("Tack strip: step by step, and floors"));
  Table table{{reader.say("For"), reader.say("Steps"), reader.say("On the"), reader.say("Length"),
               reader.say("Ends")},
              {}};
  for (const auto& run : runs)
    table.rows.push_back(
        {run.flight,
         run.first == run.last ? std::to_string(run.first) : reader.say("{} to {}", run.first, run.last),
         run.place, run.length, run.ends});
  for (const FloorStrip& floor : floors) {
    std::string sides;
    for (const Length length : floor.lengths)
      sides += (sides.empty() ? "" : ", ") + show_length(length, plan.job.unit);
    table.rows.push_back({floor.name, "", reader.say("floor"), sides, ""});
  }
  flow.table(table, {{{Anchor::left, true}, {}, {}, {Anchor::right, !floors.empty()}, {Anchor::left, true}}});
  if (!floors.empty()) {
    std::string words = reader.say(
        "A floor's sides are named from the right one round to the left; its front takes no strip.");
    if (any_opening(plan)) words += " " + reader.say("Every side of an opening takes strip.");
    flow.paragraph(words);
  }
  flow.paragraph(
      reader.say("Lengths are over the longer edge. Two nails at least in each piece.")); // CRI 105 §11.1
}

void pad_cuts(Flow& flow, const Plan& plan) {
  const Takeoff& takeoff = plan.takeoff;
  if (takeoff.pad_cuts.empty()) return;
  const Reader reader = plan.job.reader();
  const LengthUnit unit = reader;
  flow.heading(reader.say("Cushion cuts"));
  Table table{{reader.say("For"), reader.say("Steps"), reader.say("Pieces"), reader.say("Width × length")},
              {}};
  for (std::size_t i = 0; i < takeoff.pad_cuts.size();) { // steps in a row with one size share a line
    const PadCut& first = takeoff.pad_cuts[i];
    std::size_t end = i + 1;
    while (end < takeoff.pad_cuts.size() && takeoff.pad_cuts[end].flight == first.flight &&
           takeoff.pad_cuts[end].width == first.width && takeoff.pad_cuts[end].length == first.length)
      ++end;
    std::string steps = first.step == 0 ? "" : std::to_string(first.step);
    if (end - i > 1) steps = reader.say("{} to {}", steps, takeoff.pad_cuts[end - 1].step);
    table.rows.push_back(
        {first.flight, steps, std::to_string(end - i), show_size(first.width, first.length, unit)});
    i = end;
  }
  flow.table(table, {{{Anchor::left, true}, {}, {Anchor::right}, {Anchor::left, false, true, kCutType}}});
  flow.paragraph(
      reader.say("Length used of the cushion's roll: {}. Its seams lie square to the carpet's seams or at "
                 "least {} away from them.",
                 show_length(takeoff.pad_roll_length, unit, true),
                 unit == LengthUnit::inch ? "6\"" : "150 mm")); // CRI 105 §13.1
}

} // namespace

Sheet shopping_list(const Plan& plan) {
  const Reader reader = plan.job.reader();
  Sheet sheet{"shopping-list", reader.say("Shopping list"), {}, {}};
  sheet.table.header = {reader.say("item"), reader.say("quantity"), reader.say("unit"), reader.say("need"),
                        reader.say("how it was counted")};
  Flow flow(plan.job.paper);
  Table table{{reader.say("Item"), reader.say("Buy"), reader.say("Needed"), reader.say("How it was counted")},
              {}};
  for (const TakeoffLine& line : plan.takeoff.lines) {
    const std::string number = line.counted ? count(line.quantity) : "";
    const auto item = reader.said(line.item), unit = reader.said(line.unit), need = reader.said(line.need),
               rule = reader.said(line.rule);
    table.rows.push_back({item, line.counted ? number + " " + unit : "?", need, rule});
    sheet.table.rows.push_back({item, number, unit, need, rule});
  }
  flow.table(
      table,
      {{{Anchor::left, true}, {Anchor::left, false, true}, {Anchor::left, true}, {Anchor::left, true}}});
  for (const TakeoffLine& line : plan.takeoff.lines)
    if (!line.counted) {
      flow.paragraph(reader.say("A “?” was not counted, because the job gives no coverage figure for it."));
      break;
    }
  strip_pieces(flow, plan);
  strip_plan(flow, plan);
  pad_cuts(flow, plan);
  sheet.pages = flow.finish();
  return sheet;
}

} // namespace treadfold
