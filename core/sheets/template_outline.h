// The edge along which a piece is cut, as it goes to the stair: net where the bench cuts it, and out to the
// rectangle where it is left long to tuck, to trim or to seam.
//
// Guarantees
//  1. The outline lies within the rectangle and holds the net outline.
//  2. Every edge that the bench cuts is on it, or is a slit.
//  3. It nowhere turns back on itself: what is cut without waste is a slit, not an edge.
#pragma once

#include "cover/piece.h"

namespace treadfold {

struct CutOutline {
  FlatPath outline;            // closed by its first point
  std::vector<FlatLine> slits; // cuts of the bench that are no edge of it; one that ends where it begins is
                               // a hole
};
CutOutline cut_outline(const Piece& piece);

/// Is `p` on the path, within 0.01 mm?
bool lies_on(FlatPoint p, const FlatPath& path, bool closed);

/// The parts of `path` that do not run along the closed `ring`, or, if `along`, those that do.
std::vector<FlatPath> parts(const FlatPath& path, const FlatPath& ring, bool along);

} // namespace treadfold
