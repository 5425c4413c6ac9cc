#include "sheets/roll_view.h"
#include "sheets/sheet_kinds.h"
#include "sheets/stroke_words.h"

#include "buy/quantity.h"

#include <algorithm>

#include <fmt/format.h>

namespace treadfold {

namespace {

const Carpet* carpet_of(const Plan& plan, const std::string& id) {
  for (const Carpet& carpet : plan.job.carpets)
    if (carpet.id == id) return &carpet;
  return nullptr;
}

std::string carpet_name(const Plan& plan, const std::string& id) {
  const Carpet* carpet = carpet_of(plan, id);
  return carpet && !carpet->name.empty() ? carpet->name : id;
}

std::string run(Length x, LengthUnit unit) { return show_length(x, unit, true); }

/// Bound and comparisons are of the whole layout, so they stand beside the sum over all cuts of the roll.
void whole_order(Flow& flow, const Plan& plan, const Layout& layout) {
  const LengthUnit unit = plan.job.unit;
  Length used, to_buy;
  int cuts = 0;
  for (const RollLayout& roll : layout.rolls) {
    if (roll.remnant) continue;
    used += roll.length_used;
    to_buy += roll.length_to_buy;
    ++cuts;
  }
  if (cuts > 0) {
    std::string words =
        cuts > 1 ? fmt::format("{} cuts of the roll, {} to order in all. Length used of the roll: {}.", cuts,
                               run(to_buy, unit), run(used, unit))
                 : fmt::format("Length used of the roll: {}.", run(used, unit));
    if (layout.proved_least)
      words += fmt::format(" This is the least possible: no layout of these pieces can order less ({}).",
                           layout.bound_name);
    else if (layout.lower_bound > Length{})
      words += fmt::format(" No layout can use less than {} ({}).", run(layout.lower_bound, unit),
                           layout.bound_name);
    if (layout.whole_rows > layout.lower_bound && layout.whole_rows > Length{})
      words += fmt::format(" Whole rows by hand: {}.", run(layout.whole_rows, unit));
    if (layout.close_to_buy < layout.straight_to_buy)
      words += to_buy > layout.close_to_buy
                   ? fmt::format(" Laid close, some pieces cut out along their own sides: {} to order.",
                                 run(layout.close_to_buy, unit))
                   : fmt::format(" Laid close: cut straight from edge to edge, the order would be {}.",
                                 run(layout.straight_to_buy, unit));
    if (layout.length_without_pattern > Length{} && layout.length_without_pattern < used)
      words += fmt::format(" Without the pattern's match: {}.", run(layout.length_without_pattern, unit));
    flow.paragraph(words);
  }
  const Carpet* carpet = carpet_of(plan, layout.carpet);
  if (!carpet || !carpet->pattern) return;
  const Pattern& p = *carpet->pattern;
  std::string words = fmt::format("Pattern: repeat {} across × {} along the roll, ",
                                  show_length(p.width, unit), show_length(p.length, unit));
  words += p.drop > Length{} ? fmt::format("drop {}", show_length(p.drop, unit)) : std::string("no drop");
  bool stair = false, joined = false; // in a joined piece only the highest can have it
  for (const PlannedPiece& planned : plan.pieces) {
    if (planned.piece.carpet != layout.carpet) continue;
    stair |= !planned.piece.steps.empty();
    joined |= planned.piece.steps.size() > 1;
  }
  if (stair)
    words += fmt::format("; the same motif stands at the middle of {}, on the nosing",
                         joined ? "the highest riser of every piece" : "every riser");
  if (cuts > 1) words += ", and each cut of the roll begins on the same motif";
  flow.paragraph(words + ".");
}

void what_to_order(Flow& flow, const RollLayout& roll, LengthUnit unit) {
  if (roll.remnant)
    flow.paragraph(fmt::format("Remnant '{}', {} × {}: {} of its length used, nothing to buy.", roll.stock,
                               run(roll.width, unit), run(roll.available, unit), run(roll.length_used, unit)),
                   {kCutType, true});
  else
    flow.paragraph(fmt::format("Order {} of the {} = {}", run(roll.length_to_buy, unit), roll.stock,
                               show_area(area(roll.width, roll.length_to_buy), unit)),
                   {kHeadType, true});
}

void widths_compared(Flow& flow, const Layout& layout, LengthUnit unit) {
  if (layout.offers.size() < 2) return;
  Length chosen;
  for (const RollLayout& roll : layout.rolls)
    if (!roll.remnant) chosen = roll.width;
  flow.heading("Widths on offer");
  Table table{{"Roll width", "Used", "To order", "Area", ""}, {}};
  for (const WidthOffer& offer : layout.offers) {
    if (offer.feasible)
      table.rows.push_back({run(offer.width, unit), run(offer.length_used, unit),
                            run(offer.length_to_buy, unit),
                            show_area(area(offer.width, offer.length_to_buy), unit),
                            offer.width == chosen ? "drawn here" : ""});
    else
      table.rows.push_back({run(offer.width, unit), "", "", "", "Will not do: " + offer.why_not + "."});
  }
  flow.table(table, {{{}, {Anchor::right}, {Anchor::right}, {Anchor::right}, {Anchor::left, true}}});
}

void knife_order(Flow& flow, const RollLayout& roll, LengthUnit unit) {
  if (roll.knife_order.empty()) return;
  flow.heading("The strokes in order, " + roll.stock);
  flow.paragraph("Mark every line before the first cut.");
  std::vector<std::string> strokes;
  for (const Stroke& s : roll.knife_order)
    strokes.push_back(stroke_in_words(s, roll, "the roll's end", unit));
  flow.list(strokes, true, 4.0);
}

constexpr double kAbove = 34; // mm of words above a drawing, about

/// How a stretch lies on paper: whole on one page if its pieces stay large enough to read, else across as
/// many pages as it takes.
struct Setting {
  bool landscape = true;
  double denominator = 1;
};
constexpr double kLargeEnough = 12;
Setting setting_of(const RollLayout& roll, PaperSize paper) {
  const Length length = drawn_length(roll);
  const auto on = [&](bool landscape, Length part) {
    const Box box = content_box(blank_page(paper, landscape));
    return Setting{landscape, roll_denominator(roll, part, box.width(), box.height() - kAbove)};
  };
  const Setting across = on(true, length), upright = on(false, length);
  Setting wide = on(true, {});
  if (wide.denominator < kLargeEnough) wide = {false, kLargeEnough}; // a runner's narrow goods
  const Setting whole = upright.denominator < across.denominator ? upright : across;
  return whole.denominator <= 1.5 * wide.denominator ? whole : wide;
}

void draw_stretch(Flow& flow, const Plan& plan, const Layout& layout, const RollLayout& roll,
                  double denominator) {
  what_to_order(flow, roll, plan.job.unit);
  if (&roll == &layout.rolls.front()) whole_order(flow, plan, layout);
  if (flow.rest().height() < 0.5 * content_box(flow.page()).height()) flow.new_page(); // a long name
  const std::string scale =
      "Scale " + Viewport{{}, denominator}.name() +
      ", seen from the pile. Circles: strokes of the knife in their order. Left: running "
      "dimensions from the roll's end. In the pieces: rips from the left edge.";
  const double words = 3 * leading(kSmallType);
  const std::vector<RollPart> parts =
      roll_parts(roll, denominator, flow.rest().height() - words, content_box(flow.page()).height() - words);
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) flow.new_page();
    flow.paragraph(scale, {kSmallType});
    flow.skip(draw_roll(flow.page(), flow.rest(), plan, roll, parts[i], denominator) - flow.y());
  }
}

Sheet roll_sheet(const Plan& plan, const Layout& layout) {
  const LengthUnit unit = plan.job.unit;
  const PaperSize paper = plan.job.paper;
  Sheet sheet{"roll-" + layout.carpet, "Roll layout", {}, {}};
  Flow flow(paper, !layout.rolls.empty() && setting_of(layout.rolls.front(), paper).landscape);
  flow.paragraph(carpet_name(plan, layout.carpet), {kHeadType, true});
  if (layout.rolls.empty())
    flow.warning("There is no layout of these goods: see the work order for the reason.");

  for (std::size_t i = 0; i < layout.rolls.size(); ++i) {
    const Setting setting = setting_of(layout.rolls[i], paper);
    if (i > 0) flow.new_page(setting.landscape);
    draw_stretch(flow, plan, layout, layout.rolls[i], setting.denominator);
  }
  if (!layout.rolls.empty()) flow.new_page(false);
  widths_compared(flow, layout, unit);
  if (!layout.rolls.empty()) {
    flow.heading("How to cut");
    flow.paragraph(
        "Square the roll's end first. Lengths run from that end, widths from the left edge as seen from "
        "the pile; if you cut from the back, left and right change sides. Mark each piece's number and a "
        "pile arrow on its back before it leaves the roll. Fresh blade; cut away from yourself.");
  }
  sheet.table.header = {"stretch", "stroke", "kind", "at", "from", "to", "frees"};
  for (const RollLayout& roll : layout.rolls) {
    knife_order(flow, roll, unit);
    for (std::size_t i = 0; i < roll.knife_order.size(); ++i) {
      static constexpr const char* kKinds[] = {"cross-cut", "rip", "trim", "around"};
      const Stroke& s = roll.knife_order[i];
      sheet.table.rows.push_back({roll.stock, std::to_string(i + 1), kKinds[static_cast<int>(s.kind)],
                                  print_length(s.at, unit), print_length(s.from, unit),
                                  print_length(s.to, unit), s.frees});
    }
  }
  sheet.pages = flow.finish();
  return sheet;
}

} // namespace

std::vector<Sheet> roll_sheets(const Plan& plan) {
  std::vector<Sheet> sheets;
  for (const Layout& layout : plan.layouts)
    sheets.push_back(roll_sheet(plan, layout));
  return sheets;
}

} // namespace treadfold
