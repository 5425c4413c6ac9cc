// Numbers and words along the edges of a view: each stands as near to its mark as the others let it, and a
// kinked line leads to it.
#pragma once

#include "sheets/page.h"
#include "sheets/running.h"

namespace treadfold {

/// A mark at `a` along an edge, which comes from a point at `from_b` across it, page coordinates.
struct EdgeMark {
  double a = 0, from_b = 0;
  std::vector<std::string> lines; // of words
  bool bold = false;
};

enum class Edge { top, left, right, bottom };

/// Words beside an edge begin this far from it, mm.
inline constexpr double kMarkWords = 6;

/// Positions as near to `wanted` (ascending) as may be by least squares, at least `gap` apart, in [least,
/// most] if they fit there.
std::vector<double> spread(const std::vector<double>& wanted, double gap, double least, double most);

/// `marks` ascending by a; `edge_b`: where the edge lies across; words keep to [least, most] along it. Words
/// at top and bottom are turned to read from the right if `turned`. Type shrinks if there are too many marks.
/// Returns how far along the edge the last words reach.
double draw_marks(Drawing& page, const std::vector<EdgeMark>& marks, Edge edge, double edge_b, double least,
                  double most, double size_mm, bool turned = false);

/// Whether the words of marks at top or bottom can stand level without being led far away from their marks.
bool fit_level(const std::vector<EdgeMark>& marks, double least, double most, double size_mm);

/// Marks of the running dimensions of `points`, in the view's page coordinates.
std::vector<EdgeMark> running_marks(const Piece& piece, const std::vector<FlatPoint>& points, bool across,
                                    LengthUnit unit, const Viewport& view);

} // namespace treadfold
