// The bottom step with a curved front: its flat pieces. Derivation and figures: docs/geometry.md.
//
// Pieces: the cap on the tread; the band round the nosing, unless the cap's own edge is cut and turned over
// it; the band on the riser. With no projection one band serves nosing and riser.
//
// Guarantees
//  1. Bands are developable: flat they are as long as the curve on which their backing lies, and they give
//  only
//     where the nosing's bend or underside runs along the curve.
//  2. Cap and band are closed one radian over the nosing's bend, where both must give alike, 0.1585·r/R, and
//     their two flat edges are of one length: no other seam asks less of both.
//  3. A cap that is cut gives no more than the job's limit where it is whole.
//  4. Pile runs down the stair on the cap and down the rise on the bands.
#pragma once

#include "cover/cover.h"
#include "cover/starter_facets.h"

namespace treadfold {

/// Two edges of two pieces that meet on the step.
struct PieceSeam {
  std::size_t piece_a = 0, piece_b = 0; // of StarterCover::pieces
  Seam seam;
  bool under_nosing = false; // where it is not seen
};

struct StarterCover {
  std::vector<Piece> pieces; // cap, nosing bands, riser bands
  std::vector<PieceSeam> seams;
};

/// Ids are `prefix` + "-" + step number + a, b, c … REQUIRES: step.starter; the step passed the job's checks.
StarterCover cover_starter(const Step& step, const Flight& flight, const CoverInput& input,
                           const std::string& prefix);

} // namespace treadfold
