// The flat piece to scale, as seen from the pile side, with what the knife needs: every line by its role, and
// running dimensions from the top left corner of the rectangle that is cut, so that one position of the tape
// gives them all.
//
// Guarantees
//  1. Every corner, cut and fold end of the piece has a running dimension on both edges: in the view of the
//     whole piece, or in the detail of the small corner in which it lies.
//  2. Running dimensions never touch: where the points are close, the words stand apart and a kinked line
//     leads to each.
#pragma once

#include "cover/piece.h"
#include "sheets/page.h"

namespace treadfold {

/// A distance from the cut rectangle's left or top edge. `reach_mm`: how far from the other edge the nearest
/// point with this distance lies.
struct RunningDimension {
  double at_mm = 0, reach_mm = 0;
  std::string text; // nearest 1/16 in or 1 mm; points that read alike share one
};

/// A small corner of the piece that is drawn again, larger. Flat coordinates.
struct CornerDetail {
  double u0 = 0, v0 = 0, u1 = 0, v1 = 0;
  std::string name; // "A", and what it is
  std::string what;
  bool holds(FlatPoint p) const { return p.u >= u0 && p.u <= u1 && p.v >= v0 && p.v <= v1; }
};

/// Top left corner of the rectangle to cut, flat coordinates.
FlatPoint cut_corner(const Piece& piece);
/// Corners of the net, ends and bends of every fold, cut, seam, hem, tuck and trim line. Points at which a
/// curve only goes on are none.
std::vector<FlatPoint> corner_points(const Piece& piece);
/// `points` measured across (u) or along (v) from the cut corner, ascending.
std::vector<RunningDimension> running_dimensions(const Piece& piece, const std::vector<FlatPoint>& points,
                                                 bool across, LengthUnit unit);
/// Where corners lie too close for the view of the whole piece at 1:`denominator`.
std::vector<CornerDetail> corner_details(const Piece& piece, double denominator);
double whole_view_denominator(const Piece& piece, const Box& box);
/// What draw_flat() needs of a box `width` wide and at most `most` high.
double flat_height(const Piece& piece, double width, double most);

/// Positions as near to `wanted` (ascending) as may be, at least `gap` apart, in [least, most] if they fit.
std::vector<double> spread(const std::vector<double>& wanted, double gap, double least, double most);

/// In the warning style there are no dimensions: nothing to cut by.
void draw_flat(Drawing& page, const Box& box, const Piece& piece, const std::vector<CornerDetail>& details,
               LengthUnit unit, bool warning);
void draw_corner(Drawing& page, const Box& box, const Piece& piece, const CornerDetail& detail,
                 LengthUnit unit);

/// Which line means what: the roles that this piece has, and no others.
struct LegendEntry {
  Pen pen = Pen::outline;
  std::string words;
};
std::vector<LegendEntry> legend_of(const Piece& piece);
/// Returns the y below it.
double draw_legend(Drawing& page, double left, double right, double top,
                   const std::vector<LegendEntry>& legend);

} // namespace treadfold
