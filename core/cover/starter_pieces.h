// One piece of a curved starter at a time.
#pragma once

#include "cover/turn_over.h"

namespace treadfold {

/// A piece and the edges at which it meets others.
struct StarterPart {
  Piece piece;
  std::vector<TurnedStretch> upper, lower;
  FlatPath left, right; // ends of a band, from its upper edge to its lower
};

/// `blank`: a piece with its name, id and step, and nothing else. The cap on the tread, over the nosing to
/// its seam with a band, or turned over with relief cuts.
StarterPart starter_cap(const StarterShape& shape, const CoverInput& input, Piece blank);

struct BandKind {
  double off = 0;               // of its plumb part, in plan from the nosing's edge
  double top_z = 0, foot_z = 0; // of its plumb part
  bool over = false;            // on over the nosing's bend to its seam with the cap
  bool under = false;           // on under the nosing
};
StarterPart starter_band(const StarterShape& shape, const CoverInput& input, Piece blank,
                         const BandKind& kind, FacetRange range);

/// How far the carpet may have to run on past an end that is not square to what the edge stops at.
Length end_wedge(const StarterShape& shape, Hand hand);

/// Sizes from outline and trims, and what they are made of: the first item of `along` takes what the others
/// leave.
void itemise(Piece& piece, LengthUnit unit, const char* across, std::vector<SizeItem> along, const char* back,
             const char* foot);

} // namespace treadfold
