// Where strip, pad, glue and staples go on one step, in the step's frame.
#pragma once

#include "cover/piece.h"

namespace treadfold {

enum class StripPlace { tread, riser };

/// One length of tack strip. from…to, its extremes, along the step from the riser's left end (riser), or
/// along the next riser from that riser's left end (tread); `set_off` from the riser face (tread) or above
/// the tread below (riser). End angles at the corners away from the riser: 90 = square; less: mitred at an
/// open end so that the strip follows the pad's cut; more: a side that opens toward the riser, where the
/// strip is longer.
struct StripPiece {
  StripPlace place = StripPlace::tread;
  Length from, to, set_off;
  double left_angle_deg = 90, right_angle_deg = 90;
  Length length() const { return to - from; }
};

/// The pad's outline on the flat: x across, y along the step and over the nose, from the tread strip (y = 0);
/// on a tread that is no rectangle, from the line of its deepest point.
struct PadPiece {
  std::vector<PlanPoint> outline;            // mm
  double riser_y = 0;                        // where the face of the step's own riser lies, y
  std::vector<std::vector<PlanPoint>> holes; // cut out for uprights; they may reach over the outline
  Length width, length;                      // bounding size, to cut from the roll
};

struct Fixings {
  int step = 0;
  std::vector<StripPiece> strips;
  PadPiece pad;      // empty outline when there is no cushion
  Length hot_melt;   // bead along hems, under-lips and back corners
  Length latex;      // raw and sealed cut edges
  Length staple_run; // stapled length: under the nosing (wrapped), pad edges, corners
  Length seam_tape;  // seams taped: landing edge to floor piece
};

Fixings fixings(const Step& step, CoverStyle style, const Cushion& cushion, const TackStrip& strip,
                const Carpet& carpet, const Allowances& allowances);

/// Adds what an opening of the step's piece takes: latex on the edges of hole and slit, staples along both
/// sides of the slit (common practice, no source).
void add_opening(Fixings& fixings, const Opening& opening);

} // namespace treadfold
