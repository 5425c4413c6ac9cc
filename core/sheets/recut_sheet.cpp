#include "sheets/recut_sheet.h"

#include "sheets/page.h"
#include "sheets/roll_view.h"
#include "sheets/stroke_words.h"
#include "sheets/work.h"
#include "units/words.h"

#include <algorithm>

#include <fmt/format.h>

namespace treadfold {

namespace {

std::string run(Length x, LengthUnit unit) { return show_length(x, unit, true); }

constexpr double kLeastScale = 10, kDrawingMost = 95; // mm of paper for one part

/// A part, its strokes below it.
void draw_part(Flow& flow, const Plan& plan, const PartLayout& part) {
  const Reader reader = plan.job.reader();
  const LengthUnit unit = reader;
  const auto& layout = part.layout;
  const Length length = part.of.empty() ? layout.length_to_buy : layout.available;
  flow.need(70);
  flow.heading(reader.said(layout.stock));
  flow.paragraph(reader.say("{} wide × {} long, {}.", run(layout.width, unit), run(length, unit),
                            place_in_words(part, reader)));
  const Box page = content_box(flow.page());
  const double scale =
      std::max(kLeastScale, roll_denominator(layout, drawn_length(layout), page.width(), kDrawingMost));
  flow.need(drawn_length(layout).mm() / scale + 12);
  const auto parts = roll_parts(layout, scale, flow.rest().height(), page.height());
  for (std::size_t i = 0; i < parts.size(); ++i) {
    if (i > 0) flow.new_page();
    flow.skip(draw_roll(flow.page(), flow.rest(), plan, layout, parts[i], scale) - flow.y());
  }
  std::vector<std::string> strokes;
  for (const Stroke& s : layout.knife_order)
    strokes.push_back(stroke_in_words(s, layout, !part.of.empty(), reader));
  if (strokes.empty())
    flow.paragraph(reader.say("It is {} as it is.", layout.placements.front().piece));
  else
    flow.list(strokes, true, 4.0);
}

void where_from(Flow& flow, const Plan& plan, const Way& way, Sheet& sheet) {
  const Reader reader = plan.job.reader();
  Table table{{reader.say("Piece"), reader.say("Cut size"), reader.say("From")}, {}};
  for (const auto& part : way.recovered.parts)
    for (const auto& p : part.layout.placements)
      table.rows.push_back({p.piece, show_size(p.width, p.length, reader), reader.said(part.layout.stock)});
  if (!table.rows.empty())
    flow.table(table, {{{Anchor::left, false, true}, {}, {Anchor::left, true}}, kCutType});
  for (auto row : table.rows)
    sheet.table.rows.push_back(std::move(row));
  if (!way.recovered.as_planned.empty())
    flow.paragraph(reader.say("As the roll layout has them: {}.", joined(way.recovered.as_planned)));
}

void taken_way(Flow& flow, const Plan& plan, const Recut& recut, Sheet& sheet) {
  const Reader reader = plan.job.reader();
  const auto told = [&](const Way& one) {
    return fmt::format("{}: {}.", reader.said(one.words), outcome_in_words(one, reader));
  };
  const Way& way = recut.ways[recut.taken];
  flow.paragraph(capital(told(way)), {kHeadType, true});
  if (way.recovered.length_to_buy > Length{})
    flow.warning(
        reader.say("Ask for the same dye lot. If it cannot be had, a flight would have two shades: cut the "
                   "whole flight from new goods instead."));
  where_from(flow, plan, way, sheet);
  for (const auto& r : way.replaced) {
    std::vector<std::string> by;
    for (const auto& p : r.by)
      by.push_back(fmt::format("{}, {}", p.id, show_size(p.width, p.length, reader)));
    flow.paragraph(reader.say("Instead of {}: {}.", r.piece, joined(by)));
  }
  if (way.how == Remedy::hidden_seam)
    flow.paragraph(
        reader.say("Each seam lies where the carpet under the nosing meets the riser: trim both edges "
                   "straight in place, seal them, glue them edge to edge."));
  for (const auto& part : way.recovered.parts)
    draw_part(flow, plan, part);
  if (recut.ways.size() < 2) return;
  flow.heading(reader.say("Other ways"));
  std::vector<std::string> others;
  for (std::size_t i = 0; i < recut.ways.size(); ++i)
    if (i != recut.taken) others.push_back(told(recut.ways[i]));
  flow.list(others);
}

} // namespace

std::string outcome_in_words(const Way& way, const Reader& reader) {
  const Length to_buy = way.recovered.length_to_buy;
  return to_buy > Length{} ? reader.say("{} more to buy", run(to_buy, reader))
                           : reader.say("it fits, nothing to buy");
}

std::string place_in_words(const PartLayout& part, const Reader& reader) {
  if (part.of.empty()) return reader.say("new goods");
  const auto of = reader.said(part.of);
  std::string words = part.v > Length{} ? reader.say("{} from the end of {}", run(part.v, reader), of)
                                        : reader.say("at the end of {}", of);
  if (part.u > Length{}) words += ", " + reader.say("{} from its left edge", run(part.u, reader));
  return words;
}

Sheet recut_sheet(const Plan& plan, const Recuts& recuts) {
  const Reader reader = plan.job.reader();
  Sheet sheet{"recut", reader.say("What is left to cut"), {}, {}};
  sheet.table.header = {reader.say("piece"), reader.say("cut size"), reader.say("from")};
  Flow flow(plan.job.paper);
  for (const auto& recut : recuts.carpets) {
    if (recuts.carpets.size() > 1) flow.heading(reader.say("Carpet {}", recut.carpet));
    if (!recut.spoiled.empty())
      flow.paragraph(reader.say("Spoiled, to be cut again: {}.", joined(recut.spoiled)));
    if (recut.to_cut.empty())
      flow.paragraph(reader.say("Everything is cut."));
    else if (recut.ways.empty())
      flow.warning(reader.say("There is no way: {}.", reader.said(recut.why_not)));
    else
      taken_way(flow, plan, recut, sheet);
  }
  flow.paragraph(reader.say(
      "Square each part's end before you measure from it. Mark every line before the first cut, and "
      "each piece's number and a pile arrow on its back. Fresh blade; cut away from yourself."));
  sheet.pages = flow.finish();
  frame_pages(sheet, plan.job, 1, 1);
  return sheet;
}

} // namespace treadfold
