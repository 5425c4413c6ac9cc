// Running dimensions: from the top left corner of the rectangle that is cut, so that one position of the tape
// gives them all.
#pragma once

#include "cover/piece.h"
#include "units/length.h"

#include <string>
#include <vector>

namespace treadfold {

/// A distance from the cut rectangle's left or top edge. `reach_mm`: how far from the other edge the nearest
/// point with this distance lies.
struct RunningDimension {
  double at_mm = 0, reach_mm = 0;
  std::string text; // nearest 1/16 in or 1 mm; points that read alike share one
};

/// Top left corner of the rectangle to cut, flat coordinates.
FlatPoint cut_corner(const Piece& piece);
/// All four corners of that rectangle.
std::vector<FlatPoint> cut_rectangle(const Piece& piece);

/// A cut that closes inside the piece.
bool is_hole(const FlatLine& line);

/// What the knife needs: corners of the net, ends and bends of every fold, cut, seam, hem, tuck and trim
/// line. Points at which a curve only goes on are none. Of points within 1/16 in of each other, which no
/// knife can tell apart, one.
std::vector<FlatPoint> corner_points(const Piece& piece);
/// The net's corners alone.
std::vector<FlatPoint> outline_corners(const Piece& piece);

/// `points` measured across (u) or along (v) from the cut corner, ascending.
std::vector<RunningDimension> running_dimensions(const Piece& piece, const std::vector<FlatPoint>& points,
                                                 bool across, LengthUnit unit);

/// Without repeated points, nor the closing point of a ring: they would hide or invent corners.
FlatPath without_repeats(const FlatPath& path, bool closed);

} // namespace treadfold
