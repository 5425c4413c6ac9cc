#include "sheets/template_page.h"

#include "sheets/corner_view.h"
#include "sheets/flat_view.h"
#include "sheets/step_sheet.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr double kRulerType = 2.6;

/// A fold is told by its pile: what goes down with the pile up goes up with the backing up.
std::string meaning_of(Pen pen, const Reader& reader) {
  if (pen == Pen::fold_under) return reader.say("fold, pile outside");
  if (pen == Pen::fold_up) return reader.say("fold, pile inside");
  return legend_words(pen, reader);
}

void add_meaning(std::vector<LegendEntry>& out, Pen pen, const Reader& reader) {
  if (std::none_of(out.begin(), out.end(), [&](const LegendEntry& e) { return e.pen == pen; }))
    out.push_back({pen, meaning_of(pen, reader)});
}

std::string letter_of(const Keys& keys, const std::string& label) {
  return std::find(keys.begin(), keys.end(), label) == keys.end() ? "" : key_letter(keys, label);
}

} // namespace

TemplateHead template_head(const Plan& plan, const PlannedPiece& planned, TemplateSide side) {
  const Piece& piece = planned.piece;
  return {piece.id,
          place_of(plan, piece),
          plan.job.reader().said(piece.kind),
          plan.job.site.title,
          side,
          plan.job.reader(),
          piece.cut_width,
          piece.cut_length,
          flat_keys(piece, corner_details(piece))};
}

std::string side_name(const TemplateHead& head) {
  return head.side == TemplateSide::backing ? head.reader.say("BACKING UP") : head.reader.say("PILE UP");
}

std::string side_words(const TemplateHead& head) {
  return head.side == TemplateSide::backing
             ? head.reader.say(
                   "To lie on the carpet's back, words up. It is the mirror image of the sheets, which show "
                   "the pile.")
             : head.reader.say("To lie on the carpet's pile, words up. It shows the piece as the sheets do.");
}

// common practice, no source
std::string knife_caution(const Reader& reader) {
  return reader.say("Knife: a fresh blade. Cut away from your body, the other hand behind it.");
}

double draw_meanings(Drawing& page, double left, double right, double top, const Template& t) {
  std::vector<LegendEntry> legend;
  add_meaning(legend, Pen::outline, t.head.reader);
  if (!t.shape.rest.empty()) add_meaning(legend, Pen::knife, t.head.reader);
  for (const auto& l : t.shape.lines)
    add_meaning(legend, l.pen, t.head.reader);
  double y = draw_legend(page, left, right, top, legend);
  if (t.head.keys.empty()) return y;
  const int columns = std::max(1, static_cast<int>((right - left) / 60));
  return draw_keys(page, {left, y + 1.5, right, y + 1.5}, columns, t.head.keys, t.head.reader);
}

void draw_ruler(Drawing& page, PagePoint start, bool down) {
  const auto at = [&](double along, double across) { // across: + to the right of a ruler that runs down
    return down ? PagePoint{start.x + across, start.y + along} : PagePoint{start.x + along, start.y - across};
  };
  const auto tick = [&](double along, double across) {
    line(page, at(along, 0), at(along, across), Pen::dimension);
  };
  const auto number = [&](double along, double across, const std::string& text) {
    PagePoint p = at(along, across);
    Type type{kRulerType, false, false, Anchor::middle};
    if (down) type.anchor = across > 0 ? Anchor::left : Anchor::right;
    p.y += down ? 0.36 * kRulerType : across > 0 ? 0 : 0.72 * kRulerType;
    write(page, p, text, type);
  };
  line(page, at(0, 0), at(kRulerLength, 0), Pen::dimension);
  for (int mm = 0; mm <= 100; mm += 10)
    tick(mm, mm % 50 == 0 ? 3 : 2);
  for (const int mm : {0, 50})
    number(mm, 3.6, std::to_string(mm));
  number(100, 3.6, "100 mm");
  for (int half = 0; half <= 8; ++half)
    tick(12.7 * half, half % 2 == 0 ? -3 : -1.6);
  for (const int inch : {0, 1, 2, 3})
    number(25.4 * inch, -3.6, std::to_string(inch));
  number(kRulerLength, -3.6, "4 in");
}

void draw_pile(Drawing& page, PagePoint top, double length, const Reader& reader) {
  const PagePoint tip{top.x, top.y + length};
  rectangle(page, {top.x - 0.4, top.y, top.x + 0.4, tip.y - 3}, Pen::none, Fill::ink);
  page.paths.push_back(
      {{tip, {tip.x - 1.7, tip.y - 5}, {tip.x + 1.7, tip.y - 5}}, true, Pen::none, Fill::ink});
  page.texts.push_back(
      {{top.x - 2.4, top.y + length / 2}, kBodyType, reader.say("pile"), Anchor::middle, true, 90, false});
}

void draw_badge(Drawing& page, WordPlacer& words, const Box& within, const std::vector<std::string>& lines,
                double size_mm, const Reader& reader) {
  const double step = leading(size_mm), shaft = std::max(12.0, step * static_cast<double>(lines.size()));
  double width = 0;
  for (const auto& text : lines)
    width = std::max(width, text_width(text, size_mm, true));
  constexpr double kArrowRoom = 8;
  const auto box = words.take_anywhere(within, width + kArrowRoom, shaft);
  if (!box) return;
  const double x = box->left + kArrowRoom - 2.5;
  draw_pile(page, {x, box->top}, shaft, reader);
  double y = box->top + 0.85 * size_mm;
  for (const auto& text : lines) {
    write(page, {box->left + kArrowRoom, y}, text, {size_mm, true});
    y += step;
  }
}

void draw_names(Drawing& page, WordPlacer& words, const std::vector<std::vector<PagePoint>>& parts,
                const TemplateLine& line, const TemplateHead& head) {
  if (line.label.empty()) return;
  const std::string letter = letter_of(head.keys, line.label);
  for (const auto& part : parts) {
    if (words.set_beside(page, part, {{}, kSmallType, head.reader.said(line.label)}, true)) continue;
    Text short_name{{}, kSmallType, letter};
    short_name.bold = true;
    if (!letter.empty()) words.set_beside(page, part, short_name, false);
  }
}

} // namespace treadfold
