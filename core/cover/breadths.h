// A floor that no roll covers in one piece: breadths side by side.
#pragma once

#include "measure/stair.h"

#include <optional>
#include <vector>

namespace treadfold {

/// What of the floor one piece covers, counter-clockwise, and on which of its sides the next piece meets it.
struct FloorPart {
  std::vector<PlanPoint> corners;
  /// Within it, counter-clockwise; those on a seam are hollows of the corners.
  std::vector<FloorOpening> openings{};
  bool fill = false; // of the last breadth, which need not be as wide as the roll
  bool seam_left = false, seam_right = false, seam_back = false, seam_front = false;
};

struct BreadthRule {
  Length usable;                // across the roll
  Length edge_trim, seam_trim;  // more than the net, at a wall and at a seam
  std::optional<Length> repeat; // across the roll, to be matched at the seams
  int fill_pieces = 1;          // the fill is cut in so many, one behind the other
  Length grid;                  // seams lie on multiples of it from the floor's leftmost corner
};

/// The floor from left to right, each breadth from front to back: as wide as the roll gives, of a pattern so
/// many repeats that every breadth begins alike, and the fill. Where seams cut a corner off, or a floor has
/// arms, a breadth may be several parts. One part where the roll covers the floor, where it has no room for
/// one repeat, and where the outline crosses itself. REQUIRES: usable > both trims.
std::vector<FloorPart> in_breadths(const Floor& floor, const BreadthRule& rule);

/// Length of the seams along the parts' edges, mm: each once.
double seams_mm(const std::vector<FloorPart>& parts);

} // namespace treadfold
