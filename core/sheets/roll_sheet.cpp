#include "sheets/join_words.h"
#include "sheets/roll_view.h"
#include "sheets/sheet_kinds.h"
#include "sheets/stroke_words.h"

#include "buy/quantity.h"
#include "cut/because.h"
#include "goods_account.h"

#include <algorithm>
#include <cmath>

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

/// Repeats that the goods are said to have across, but that no piece can use; empty if none is lost.
std::string lost_repeats(const Layout& layout, const Pattern& pattern, const Reader& reader) {
  const auto roll =
      std::find_if(layout.rolls.begin(), layout.rolls.end(), [](const auto& r) { return !r.remnant; });
  if (roll == layout.rolls.end()) return {};
  const Length usable = roll->width - roll->selvage * 2;
  const auto whole = usable.ticks / pattern.width.ticks, said = roll->width.ticks / pattern.width.ticks;
  if (whole == said) return {};
  return reader.say("The width between the selvages, {}, holds fewer whole repeats: {}, not {}.",
                    run(usable, reader), whole, said);
}

/// Bound and comparisons are of the whole layout, so they stand beside the sum over all cuts of the roll.
void whole_order(Flow& flow, const Plan& plan, const Layout& layout) {
  const Reader reader = plan.job.reader();
  const LengthUnit unit = reader;
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
        cuts > 1 ? reader.say("{} cuts of the roll, {} to order in all. Length used of the roll: {}.", cuts,
                              run(to_buy, unit), run(used, unit))
                 : reader.say("Length used of the roll: {}.", run(used, unit));
    const auto why = reader.said(because(layout.bound_name));
    if (layout.proved_least)
      words += " " + reader.say("With these pieces the order could not be less: {}.", why);
    else if (layout.lower_bound > Length{})
      words += " " + reader.say("No layout can use less than {}: {}.", run(layout.lower_bound, unit), why);
    if (layout.whole_rows > layout.lower_bound && layout.whole_rows > Length{})
      words += " " + reader.say("Whole rows by hand: {}.", run(layout.whole_rows, unit));
    if (layout.close_to_buy < layout.straight_to_buy)
      words += " " + (to_buy > layout.close_to_buy
                          ? reader.say("Laid close, some pieces cut out along their own sides: {} to order.",
                                       run(layout.close_to_buy, unit))
                          : reader.say("Cut straight from edge to edge, the order would be {}.",
                                       run(layout.straight_to_buy, unit)));
    if (layout.outlines_to_buy < layout.close_to_buy)
      words += " " + reader.say("Laid by outlines: cut out as rectangles, the order would be {}.",
                                run(layout.close_to_buy, unit));
    if (layout.length_without_pattern > Length{} && layout.length_without_pattern < used)
      words += " " + reader.say("Without the pattern's match: {}.", run(layout.length_without_pattern, unit));
    if (const auto joins = joins_in_words(plan, layout); !joins.empty()) words += " " + joins;
    flow.paragraph(words);
  }
  const Carpet* carpet = carpet_of(plan, layout.carpet);
  if (!carpet || !carpet->pattern) return;
  const Pattern& p = *carpet->pattern;
  const auto width = show_length(p.width, unit), length = show_length(p.length, unit);
  std::string words =
      p.drop > Length{} ? reader.say("Pattern: repeat {} across × {} along the roll, drop {}", width, length,
                                     show_length(p.drop, unit))
                        : reader.say("Pattern: repeat {} across × {} along the roll, no drop", width, length);
  bool stair = false, joined = false; // in a joined piece only the highest can have it
  for (const PlannedPiece& planned : plan.pieces) {
    if (planned.piece.carpet != layout.carpet) continue;
    stair |= !planned.piece.steps.empty();
    joined |= planned.piece.steps.size() > 1;
  }
  if (stair && carpet->pattern_flows)
    words += "; " + reader.say("it runs on from each straight step into the next below");
  else if (stair)
    words += "; " +
             (joined ? reader.say("the same motif stands at the middle of the highest riser of every piece, "
                                  "on the nosing")
                     : reader.say("the same motif stands at the middle of every riser, on the nosing"));
  if (cuts > 1) words += ", " + reader.say("and each cut of the roll begins on the same motif");
  words += ".";
  if (const auto lost = lost_repeats(layout, p, reader); !lost.empty()) words += " " + lost;
  flow.paragraph(words);
}

void what_to_order(Flow& flow, const RollLayout& roll, const Reader& reader) {
  const LengthUnit unit = reader;
  if (roll.remnant)
    flow.paragraph(reader.say("Remnant '{}', {} × {}: {} of its length used, nothing to buy.", roll.stock,
                              run(roll.width, unit), run(roll.available, unit), run(roll.length_used, unit)),
                   {kCutType, true});
  else
    flow.paragraph(reader.say("Order {} of the {} = {}", run(roll.length_to_buy, unit),
                              reader.said(roll.stock),
                              reader.said(show_area(area(roll.width, roll.length_to_buy), unit))),
                   {kHeadType, true});
}

/// For the customer who asks why so much.
void where_goods_go(Flow& flow, const Plan& plan, const Layout& layout, const Reader& reader) {
  const GoodsAccount account = goods_account(plan, layout);
  if (account.ordered <= 0) return;
  flow.heading(reader.say("Where the goods go"));
  Table table{{"", reader.say("Area"), reader.say("Share")}, {}};
  const auto row = [&](const std::string& what, double m2) {
    if (m2 * 200 >= account.ordered)
      table.rows.push_back({what, reader.said(show_area(area_from_m2(m2), reader)),
                            fmt::format("{} %", std::lround(100 * m2 / account.ordered))});
  };
  row(reader.say("On the stair and the floors"), account.net);
  row(reader.say("Of the pieces, to tuck in, to fold under and to trim off"), account.trims);
  row(reader.say("So that the pattern matches"), account.pattern);
  row(reader.say("Left over beside and between the pieces"), account.beside);
  row(reader.say("Selvage"), account.selvage);
  row(reader.say("Up to the next length that is sold"), account.sold);
  row(reader.say("Ordered"), account.ordered);
  flow.table(table, {{{}, {Anchor::right}, {Anchor::right}}});
}

void widths_compared(Flow& flow, const Layout& layout, const Reader& reader) {
  const LengthUnit unit = reader;
  if (layout.offers.size() < 2) return;
  Length chosen;
  for (const RollLayout& roll : layout.rolls)
    if (!roll.remnant) chosen = roll.width;
  flow.heading(reader.say("Widths on offer"));
  Table table{{reader.say("Roll width"), reader.say("Used"), reader.say("To order"), reader.say("Area"), ""},
              {}};
  for (const WidthOffer& offer : layout.offers) {
    if (offer.feasible)
      table.rows.push_back({run(offer.width, unit), run(offer.length_used, unit),
                            run(offer.length_to_buy, unit),
                            reader.said(show_area(area(offer.width, offer.length_to_buy), unit)),
                            offer.width == chosen ? reader.say("drawn here") : ""});
    else
      table.rows.push_back(
          {run(offer.width, unit), "", "", "", reader.say("Will not do: {}.", reader.said(offer.why_not))});
  }
  flow.table(table, {{{}, {Anchor::right}, {Anchor::right}, {Anchor::right}, {Anchor::left, true}}});
}

void knife_order(Flow& flow, const RollLayout& roll, const Reader& reader) {
  if (roll.knife_order.empty()) return;
  flow.heading(reader.say("The strokes in order, {}", reader.said(roll.stock)));
  flow.paragraph(reader.say("Mark every line before the first cut."));
  std::vector<std::string> strokes;
  for (const Stroke& s : roll.knife_order)
    strokes.push_back(stroke_in_words(s, roll, false, reader));
  flow.list(strokes, true, 4.0);
}

std::string kind_of(const Stroke& stroke, const Reader& reader) {
  switch (stroke.kind) {
  case Stroke::Kind::cross_cut:
    return reader.say("cross-cut");
  case Stroke::Kind::rip:
    return reader.say("rip");
  case Stroke::Kind::trim:
    return reader.say("trim");
  case Stroke::Kind::around:
    return reader.say("around");
  }
  return "";
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
  const Reader reader = plan.job.reader();
  what_to_order(flow, roll, reader);
  if (&roll == &layout.rolls.front()) whole_order(flow, plan, layout);
  if (flow.rest().height() < 0.5 * content_box(flow.page()).height()) flow.new_page(); // a long name
  std::string scale =
      reader.say("Scale {}, seen from the pile. Circles: strokes of the knife in their order. Left: running "
                 "dimensions from the roll's end. In the pieces: rips from the left edge.",
                 Viewport{{}, denominator}.name());
  if (std::any_of(roll.placements.begin(), roll.placements.end(), [](const auto& p) { return p.turned; }))
    scale += " " + reader.say("Turned: half round, as goods without direction allow.");
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
  const Reader reader = plan.job.reader();
  const LengthUnit unit = reader;
  const PaperSize paper = plan.job.paper;
  Sheet sheet{"roll-" + layout.carpet, reader.say("Roll layout"), {}, {}};
  Flow flow(paper, !layout.rolls.empty() && setting_of(layout.rolls.front(), paper).landscape);
  flow.paragraph(carpet_name(plan, layout.carpet), {kHeadType, true});
  if (layout.rolls.empty())
    flow.warning(reader.say("There is no layout of these goods: see the work order for the reason."));

  for (std::size_t i = 0; i < layout.rolls.size(); ++i) {
    const Setting setting = setting_of(layout.rolls[i], paper);
    if (i > 0) flow.new_page(setting.landscape);
    draw_stretch(flow, plan, layout, layout.rolls[i], setting.denominator);
  }
  if (!layout.rolls.empty()) flow.new_page(false);
  where_goods_go(flow, plan, layout, reader);
  widths_compared(flow, layout, reader);
  if (!layout.rolls.empty()) {
    flow.heading(reader.say("How to cut"));
    flow.paragraph(reader.say(
        "Square the roll's end first. Lengths run from that end, widths from the left edge as seen from "
        "the pile; if you cut from the back, left and right change sides. Mark each piece's number and a "
        "pile arrow on its back before it leaves the roll. Fresh blade; cut away from yourself."));
  }
  sheet.table.header = {reader.say("stretch"), reader.say("stroke"), reader.say("kind"), reader.say("at"),
                        reader.say("from"),    reader.say("to"),     reader.say("frees")};
  for (const RollLayout& roll : layout.rolls) {
    knife_order(flow, roll, reader);
    for (std::size_t i = 0; i < roll.knife_order.size(); ++i) {
      const Stroke& s = roll.knife_order[i];
      sheet.table.rows.push_back({reader.said(roll.stock), std::to_string(i + 1), kind_of(s, reader),
                                  print_length(s.at, unit), print_length(s.from, unit),
                                  print_length(s.to, unit), reader.said(s.frees)});
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
