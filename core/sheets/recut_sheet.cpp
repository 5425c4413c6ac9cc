#include "sheets/recut_sheet.h"

#include "sheets/page.h"
#include "sheets/roll_view.h"
#include "sheets/stroke_words.h"
#include "units/words.h"

#include <algorithm>

#include <fmt/format.h>

namespace treadfold {

namespace {

std::string run(Length x, LengthUnit unit) { return show_length(x, unit, true); }

constexpr double kLeastScale = 10, kDrawingMost = 95; // mm of paper for one part

/// A part, its strokes below it.
void draw_part(Flow& flow, const Plan& plan, const PartLayout& part) {
  const LengthUnit unit = plan.job.unit;
  const auto& layout = part.layout;
  const Length length = part.of.empty() ? layout.length_to_buy : layout.available;
  flow.need(70);
  flow.heading(layout.stock);
  flow.paragraph(fmt::format("{} wide × {} long, {}.", run(layout.width, unit), run(length, unit),
                             place_in_words(part, unit)));
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
    strokes.push_back(stroke_in_words(s, layout, part.of.empty() ? "the roll's end" : "its end", unit));
  if (strokes.empty())
    flow.paragraph(fmt::format("It is {} as it is.", layout.placements.front().piece));
  else
    flow.list(strokes, true, 4.0);
}

void where_from(Flow& flow, const Plan& plan, const Way& way, Sheet& sheet) {
  const LengthUnit unit = plan.job.unit;
  Table table{{"Piece", "Cut size", "From"}, {}};
  for (const auto& part : way.recovered.parts)
    for (const auto& p : part.layout.placements)
      table.rows.push_back({p.piece, show_size(p.width, p.length, unit), part.layout.stock});
  if (!table.rows.empty())
    flow.table(table, {{{Anchor::left, false, true}, {}, {Anchor::left, true}}, kCutType});
  for (auto row : table.rows)
    sheet.table.rows.push_back(std::move(row));
  if (!way.recovered.as_planned.empty())
    flow.paragraph("As the roll layout has them: " + joined(way.recovered.as_planned) + ".");
}

void best_way(Flow& flow, const Plan& plan, const Recut& recut, Sheet& sheet) {
  const LengthUnit unit = plan.job.unit;
  const Way& way = recut.ways.front();
  std::string words = fmt::format("{}: {}.", way.words, outcome_in_words(way, unit));
  words[0] = static_cast<char>(std::toupper(words[0]));
  flow.paragraph(words, {kHeadType, true});
  if (way.recovered.length_to_buy > Length{})
    flow.warning(
        "Ask for the same dye lot. If it cannot be had, a flight would have two shades: cut the whole "
        "flight from new goods instead.");
  where_from(flow, plan, way, sheet);
  for (const auto& r : way.replaced) {
    std::vector<std::string> by;
    for (const auto& p : r.by)
      by.push_back(fmt::format("{}, {}", p.id, show_size(p.width, p.length, unit)));
    flow.paragraph(fmt::format("Instead of {}: {}.", r.piece, joined(by)));
  }
  if (way.how == Remedy::hidden_seam)
    flow.paragraph(
        "Each seam lies where the carpet under the nosing meets the riser: trim both edges straight "
        "in place, seal them, glue them edge to edge.");
  for (const auto& part : way.recovered.parts)
    draw_part(flow, plan, part);
  if (recut.ways.size() < 2) return;
  flow.heading("Other ways");
  std::vector<std::string> others;
  for (std::size_t i = 1; i < recut.ways.size(); ++i)
    others.push_back(fmt::format("{}: {}.", recut.ways[i].words, outcome_in_words(recut.ways[i], unit)));
  flow.list(others);
}

} // namespace

std::string outcome_in_words(const Way& way, LengthUnit unit) {
  const Length to_buy = way.recovered.length_to_buy;
  return to_buy > Length{} ? fmt::format("{} more to buy", run(to_buy, unit)) : "it fits, nothing to buy";
}

std::string place_in_words(const PartLayout& part, LengthUnit unit) {
  if (part.of.empty()) return "new goods";
  std::string words = part.v > Length{} ? fmt::format("{} from the end of {}", run(part.v, unit), part.of)
                                        : "at the end of " + part.of;
  if (part.u > Length{}) words += fmt::format(", {} from its left edge", run(part.u, unit));
  return words;
}

Sheet recut_sheet(const Plan& plan, const Recuts& recuts) {
  Sheet sheet{"recut", "What is left to cut", {}, {}};
  sheet.table.header = {"piece", "cut size", "from"};
  Flow flow(plan.job.paper);
  for (const auto& recut : recuts.carpets) {
    if (recuts.carpets.size() > 1) flow.heading("Carpet " + recut.carpet);
    if (!recut.spoiled.empty()) flow.paragraph("Spoiled, to be cut again: " + joined(recut.spoiled) + ".");
    if (recut.to_cut.empty())
      flow.paragraph("Everything is cut.");
    else if (recut.ways.empty())
      flow.warning("There is no way: " + recut.why_not + ".");
    else
      best_way(flow, plan, recut, sheet);
  }
  flow.paragraph(
      "Square each part's end before you measure from it. Mark every line before the first cut, and "
      "each piece's number and a pile arrow on its back. Fresh blade; cut away from yourself.");
  sheet.pages = flow.finish();
  frame_pages(sheet, plan.job.site, 1, 1);
  return sheet;
}

} // namespace treadfold
