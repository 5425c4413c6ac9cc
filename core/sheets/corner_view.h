// The small corners of a piece, drawn again larger.
#pragma once

#include "cover/piece.h"
#include "sheets/line_roles.h"

#include <optional>

namespace treadfold {

/// A corner of the piece that is too small in the view of the whole. Flat coordinates.
struct CornerDetail {
  double u0 = 0, v0 = 0, u1 = 0, v1 = 0;
  std::string name; // "A"; a left corner that only mirrors a right one has that one's name and is not drawn
  std::string what; // "back corner, right"
  bool drawn = true;
  std::optional<double> mirror; // u of the left corner's mirrored point is mirror - u
  bool holds(FlatPoint p) const { return p.u >= u0 && p.u <= u1 && p.v >= v0 && p.v <= v1; }
};

/// Where edges meet that are cut to fit each other, from the back to the foot. Left corners that only mirror
/// a right one are not drawn.
std::vector<CornerDetail> corner_details(const Piece& piece);

/// Labels of the lines inside the details that are drawn, without repeats.
Keys keys_of(const Piece& piece, const std::vector<CornerDetail>& details);

/// 1:this the detail would be drawn in the box; beyond any scale if it could not be read there.
double corner_denominator(const Box& box, const Piece& piece, const CornerDetail& detail, LengthUnit unit);
/// Running dimensions at top and left, a mirrored left corner's at the bottom; lines named by their keys.
/// Returns the y below what it drew.
double draw_corner(Drawing& page, const Box& box, const Piece& piece, const CornerDetail& detail,
                   const Keys& keys, const Reader& reader);

} // namespace treadfold
