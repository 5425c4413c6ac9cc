#include "sheets/template_shape.h"

#include "sheets/line_roles.h"
#include "sheets/running.h"
#include "sheets/template_outline.h"

#include <algorithm>
#include <cassert>

namespace treadfold {
namespace {

const char* layer_of(Pen pen) {
  switch (pen) {
  case Pen::outline:
    return "CUT-OUTLINE";
  case Pen::cut:
    return "CUT-INSIDE";
  case Pen::knife:
    return "RECTANGLE";
  case Pen::fold_under:
    return "FOLD-PILE-OUT";
  case Pen::fold_up:
    return "FOLD-PILE-IN";
  case Pen::seam:
    return "SEAM";
  case Pen::hem:
    return "HEM";
  case Pen::tuck:
    return "TUCK";
  case Pen::trim:
    return "TRIM";
  case Pen::strip:
    return "STRIP";
  case Pen::glue:
    return "GLUE";
  default:
    assert(false && "a pen that no line of a piece is drawn with");
    return "";
  }
}

/// From the piece's flat frame to the template's.
struct OnPage {
  FlatPoint corner;
  double width_mm = 0;
  bool mirrored = false;

  PagePoint at(FlatPoint p) const {
    const double x = p.u - corner.u;
    return {mirrored ? width_mm - x : x, p.v - corner.v};
  }
  TemplateLine line(const FlatPath& path, bool closed, Pen pen, const std::string& label = "") const {
    TemplateLine out{{}, closed, pen, layer_of(pen), label};
    for (const auto& p : path)
      out.points.push_back(at(p));
    return out;
  }
};

/// A path that ends where it begins is a ring.
TemplateLine line_or_ring(const OnPage& laid, FlatPath path, Pen pen, const std::string& label) {
  path = without_repeats(path, false);
  const bool ring = path.size() > 3 && distance_mm(path.front(), path.back()) < 1e-6;
  if (ring) path.pop_back();
  return laid.line(path, ring, pen, label);
}

Box largest_face(const Piece& piece, const OnPage& laid) {
  Box largest;
  for (const auto& face : piece.faces) {
    if (face.hidden || face.bend_rad != 0) continue;
    Box box{1e12, 1e12, -1e12, -1e12};
    for (const auto& p : face.outline) {
      const PagePoint q = laid.at(p);
      box = {std::min(box.left, q.x), std::min(box.top, q.y), std::max(box.right, q.x),
             std::max(box.bottom, q.y)};
    }
    if (box.width() * box.height() > largest.width() * largest.height()) largest = box;
  }
  return largest;
}

} // namespace

TemplateShape template_shape(const Piece& piece, TemplateSide side) {
  const OnPage laid{cut_corner(piece), piece.cut_width.mm(), side == TemplateSide::backing};
  const auto cut = cut_outline(piece);
  const auto rectangle = cut_rectangle(piece);
  TemplateShape shape;
  shape.width_mm = piece.cut_width.mm();
  shape.height_mm = piece.cut_length.mm();
  shape.outline = laid.line(cut.outline, true, Pen::outline);
  shape.rectangle = laid.line(rectangle, true, Pen::knife);
  shape.net = laid.line(without_repeats(piece.outline, true), true, Pen::outline);
  shape.net.layer = "NET-OUTLINE";
  auto around = rectangle;
  around.push_back(rectangle.front());
  for (const auto& path : parts(around, cut.outline, false))
    shape.rest.push_back(laid.line(path, false, Pen::knife));

  for (const auto& edge : edge_stretches(piece))
    if (edge.pen != Pen::none && edge.pen != Pen::outline)
      shape.lines.push_back(laid.line(edge.points, false, edge.pen));
  for (const auto& l : piece.lines)
    if (l.role != LineRole::cut)
      shape.lines.push_back(line_or_ring(laid, l.points, pen_of(l), short_label(l.label)));
  for (const auto& slit : cut.slits)
    shape.lines.push_back(line_or_ring(laid, slit.points, Pen::cut, short_label(slit.label)));
  std::erase_if(shape.lines, [](const TemplateLine& l) { return l.points.size() < 2; });
  shape.face = largest_face(piece, laid);
  return shape;
}

} // namespace treadfold
