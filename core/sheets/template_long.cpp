#include "sheets/lettering.h"
#include "sheets/template_page.h"

#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr double kPaper = 15;  // mm of paper around the piece
constexpr double kNotes = 175; // width of the notes
constexpr double kRulersRoom = 8 + 4 * kRulerHalf;

Path shifted(const TemplateLine& line, double by) {
  Path path{line.points, line.closed, line.pen, Fill::none, line.layer};
  for (auto& p : path.points)
    p = {p.x + by, p.y + by};
  return path;
}

double notes_below(Drawing& page, double left, double right, double top, const Template& t) {
  const auto& head = t.head;
  const Reader& reader = head.reader;
  double y = paragraph(page, left, right, top, head.id + "   " + head.place, {kTitleType, true}) + 1;
  const std::string what = head.kind + (head.site.empty() ? "" : ", " + head.site);
  y = paragraph(page, left, right, y, what, {kBodyType}) + 1.5;
  y = paragraph(page, left, right, y, side_name(head) + ". " + side_words(head), {kCutType, true}) + 1.5;
  y = paragraph(
          page, left, right, y,
          reader.say(
              "Print at 100 %, no scaling. Measure both rulers, across and down: 100 mm and 4 in to the "
              "tick. If one is off, do not cut by this print."),
          {kCutType, true, true}) +
      1.5;
  const double diagonal = steady::hypot(head.cut_width.mm(), head.cut_length.mm());
  y = paragraph(
          page, left, right, y,
          reader.say("The rectangle measures {}, from corner to corner {}. What is to be tucked, trimmed or "
                     "seamed on the stair is left long in the outline.",
                     show_size(head.cut_width, head.cut_length, reader),
                     show_length(from_mm(diagonal), reader)),
          {kBodyType}) +
      1.5;
  y = paragraph(page, left, right, y, knife_caution(reader), {kBodyType, true}) + 2;
  y = draw_meanings(page, left, right, y, t) + 4;
  draw_ruler(page, {left + 2, y + kRulerHalf}, false);
  return y + 2 * kRulerHalf;
}

} // namespace

Drawing long_page(const Template& t) {
  const auto& shape = t.shape;
  Drawing page;
  page.width_mm = std::max(shape.width_mm, kNotes + kRulersRoom) + 2 * kPaper;
  const Box below{kPaper, shape.height_mm + 2 * kPaper, kPaper + kNotes, 0};
  WordPlacer words({kPaper, kPaper, kPaper + shape.width_mm, kPaper + shape.height_mm});
  const auto draw = [&](const TemplateLine& l) {
    page.paths.push_back(shifted(l, kPaper));
    words.keep_off(page.paths.back().points, l.closed);
  };
  for (const auto& l : shape.rest)
    draw(l);
  draw(shape.outline);
  for (const auto& l : shape.lines)
    draw(l);
  const Box face{shape.face.left + kPaper, shape.face.top + kPaper, shape.face.right + kPaper,
                 shape.face.bottom + kPaper};
  const Box inside{face.left + 0.1 * face.width(), face.top + 0.1 * face.height(), face.right, face.bottom};
  draw_badge(page, words, inside, {t.head.id + "   " + t.head.place, side_name(t.head)},
             std::clamp(face.height() / 15, kTitleType, 2 * kTitleType), t.head.reader);
  for (const auto& l : shape.lines) {
    auto path = shifted(l, kPaper).points;
    if (l.closed) path.push_back(path.front());
    draw_names(page, words, {path}, l, t.head);
  }
  const double foot = notes_below(page, below.left, below.right, below.top, t);
  const double ruler_x = below.right + 4 + 2 * kRulerHalf;
  draw_ruler(page, {ruler_x, below.top + 2}, true);
  page.height_mm = std::max(foot, below.top + 4 + kRulerLength) + kPaper;
  return page;
}

Drawing machine_drawing(const Template& t) {
  const auto& head = t.head;
  const auto& shape = t.shape;
  Drawing page;
  page.width_mm = shape.width_mm;
  page.height_mm = shape.height_mm;
  const auto draw = [&](const TemplateLine& l) { page.paths.push_back(shifted(l, 0)); };
  draw(shape.rectangle);
  draw(shape.net);
  for (const auto& l : shape.lines)
    if (l.pen != Pen::cut) draw(l);
  for (const auto& l : shape.lines) // what is inside is cut while the piece still hangs on
    if (l.pen == Pen::cut) draw(l);
  draw(shape.outline);
  const Box& face = shape.face;
  const double x = face.left + 0.12 * face.width(), y = face.top + 0.2 * face.height(),
               shaft = std::min(0.6 * face.height(), 60.0);
  page.paths.push_back({{{x, y}, {x, y + shaft}}, false, Pen::dimension, Fill::none, "PILE"});
  page.paths.push_back({{{x - 4, y + shaft - 10}, {x, y + shaft}, {x + 4, y + shaft - 10}},
                        false,
                        Pen::dimension,
                        Fill::none,
                        "PILE"});
  const std::vector<std::string> notes{
      head.id + "  " + head.place,
      head.side == TemplateSide::backing ? head.reader.say("BACKING UP: mirror image of the pile side")
                                         : side_name(head),
      head.reader.say("Arrow: pile"),
      head.reader.say("Units: millimetres. RECTANGLE measures {} x {}", decimal(shape.width_mm),
                      decimal(shape.height_mm)),
      head.reader.say("Cut CUT-OUTLINE and CUT-INSIDE; the other layers are for marking"),
      head.reader.say("Keep hands clear of the moving knife")};
  const double size = std::clamp(face.height() / 14, 3.0, 8.0);
  for (std::size_t i = 0; i < notes.size(); ++i)
    write(page, {x + 10, y + size * (1 + 1.4 * static_cast<double>(i))}, notes[i], {size});
  return page;
}

} // namespace treadfold
