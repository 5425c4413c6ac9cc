// The pages of a template: its notes, its tiles, and the one long page.
//
// Guarantees
//  1. Whatever is a line of the piece is drawn at true size.
//  2. Every page says which side is up, which way the pile runs and that it is to be printed unscaled, and
//  has
//     a ruler of 100 mm and one of 4 in.
#pragma once

#include "plan.h"
#include "sheets/line_roles.h"
#include "sheets/template_tiles.h"
#include "sheets/template_words.h"

namespace treadfold {

/// What every page says.
struct TemplateHead {
  std::string id, place, kind, site;
  TemplateSide side = TemplateSide::backing;
  Reader reader;
  Length cut_width, cut_length;
  Keys keys; // letters of lines, as on the piece's sheet
};
TemplateHead template_head(const Plan& plan, const PlannedPiece& planned, TemplateSide side);

/// "BACKING UP", and what that means for whoever lays it down.
std::string side_name(const TemplateHead& head);
std::string side_words(const TemplateHead& head);
/// The caution that stands wherever a template says cut.
std::string knife_caution(const Reader& reader);

struct Template {
  TemplateHead head;
  TemplateShape shape;
};

/// What each pen means, and the letters. Returns the y below.
double draw_meanings(Drawing& page, double left, double right, double top, const Template& t);
/// 100 mm with its ticks on one side, 4 in with theirs on the other, from `start` to the right or down.
void draw_ruler(Drawing& page, PagePoint start, bool down);
inline constexpr double kRulerLength = 101.6, kRulerHalf = 6.2; // mm: along, and to each side
/// Along the pile, thick, in no pen that a line of the piece has; takes up 7 mm to the left of `top`.
void draw_pile(Drawing& page, PagePoint top, double length, const Reader& reader);
/// Arrow of the pile, id and side within `within`, where they touch nothing; nothing if there is no room.
void draw_badge(Drawing& page, WordPlacer& words, const Box& within, const std::vector<std::string>& lines,
                double size_mm, const Reader& reader);
/// Names beside lines, or their letters.
void draw_names(Drawing& page, WordPlacer& words, const std::vector<std::vector<PagePoint>>& parts,
                const TemplateLine& line, const TemplateHead& head);

/// A first page that tells how to join the others, then the tiles row by row.
std::vector<Drawing> tiled_pages(const Template& t, PaperSize paper);
/// The whole at true size on one page as large as it takes.
Drawing long_page(const Template& t);
/// The same for a plotter: on several pages to be joined if one were longer than a PDF may be, 5.08 m.
std::vector<Drawing> plotter_pages(const Template& t);
/// For machines: lines on their layers, the rectangle and the net outline closed, few words.
Drawing machine_drawing(const Template& t);

} // namespace treadfold
