// What a carpet's backing takes: how tight it folds, and which of its cut edges fray.
//
// Folds are judged at the back of the backing, as it lies on wood or pad, and only those over more than 45°
// with the pile outside: over the nosing (the arris' radius and the pad), under it and under an open end's
// lip (the arris' radius; on a waterfall as far as the drop turns there). A hem lies double, so it is as
// thick as twice the fold's radius, and must be no thicker than the strip beside it.
#pragma once

#include "cover/piece.h"
#include "units/problem.h"

namespace treadfold {

/// Warnings, one for each place and radius in a flight, where a fold is tighter than the carpet's
/// min_fold_radius, with what can be done: round the arris, as far as stair codes and the board allow
/// (IRC R311.7.5.3 and IBC 1011.5.5: 9/16 in; ADA 504: 1/2 in, which is taken), or cut and seam. None where
/// that radius is not known.
Problems check_folds(const Flight& flight, const Carpet& carpet, Length pad, const TackStrip& strip,
                     LengthUnit unit);

/// Can the edge be folded under itself and lie flat beside the strip?
bool takes_hem(const Carpet& carpet, const TackStrip& strip);

/// The job's allowances as this carpet can follow them: with no hem where it takes none. The drop then ends
/// flush with the riser's end, and its edge is bound.
Allowances allowances_for(const Allowances& allowances, const Carpet& carpet, const TackStrip& strip);

/// Edges to seal because the goods fray, besides those that are sealed on any goods: of woven ones all four
/// as the piece comes from the roll, and those trimmed on the stair (common practice, no source).
Length fraying_edges(const Piece& piece, const Carpet& carpet);

} // namespace treadfold
