// A piece at full size, as the side that is up shows it: what every form of template draws.
#pragma once

#include "cover/piece.h"
#include "sheets/page.h"

namespace treadfold {

/// Carpet is marked and cut on its back, so a template that is to lie there is the mirror image of the
/// sheets, which show the pile.
enum class TemplateSide { backing, pile };

/// mm at true size; x right, y down, from the top left corner of the rectangle that is cut from the roll. The
/// pile leans down the page on either side.
struct TemplateLine {
  std::vector<PagePoint> points;
  bool closed = false;
  Pen pen = Pen::outline;
  std::string layer; // "FOLD-PILE-OUT"
  std::string label; // as on the piece's sheet: "over the nosing"; may be empty
};

struct TemplateShape {
  double width_mm = 0, height_mm = 0; // of the rectangle
  TemplateLine outline;               // along which to cut (template_outline.h)
  TemplateLine net, rectangle;        // closed
  std::vector<TemplateLine> rest;     // of the rectangle, where the outline is not: what falls off
  std::vector<TemplateLine> lines;    // all others, slits and holes among them
  Box face;                           // of the largest face: where words and the arrow have room
};
TemplateShape template_shape(const Piece& piece, TemplateSide side);

} // namespace treadfold
