// The section of one covered step, straight up the stair: where the backing's middle runs over the bare wood.
//
// The pad lies on the tread and over the nosing's front and is trimmed flush with the underside; on the riser
// and under the lip the backing lies on the wood. So the upper bend turns at r + pad + backing/2, the lower
// one at r + backing/2. Derivation and figure: docs/geometry.md.
#pragma once

#include "measure/stair.h"

#include <vector>

namespace treadfold {

/// All mm and radians, in the step's frame (y into the stair, z up). v is the length along the backing from
/// the line v = 0 at the tread's back.
struct Section {
  double half_backing = 0;
  double pad = 0, thickness = 0; // of cushion, of tread board
  double back_y = 0; // y of v = 0: the next riser's face; inside a joined piece half a backing before it
  double tread_z = 0, lip_z = 0;               // backing above the tread, below the board's underside
  double top_radius = 0, top_y = 0, top_z = 0; // upper bend: radius and axis
  double bevel = 0; // the upper bend's second half turns about an axis that far forward and down
  double low_radius = 0, low_y = 0, low_z = 0; // lower bend
  double turn = 0;    // of the lower bend on the drop: π/2 when wrapped, less on a waterfall
  double inner_y = 0; // where an under-lip meets the riser's plane
  bool under = false; // wrapped, with a nosing to go under
  // Stations along the piece:
  double v_nose = 0;                   // upper bend begins
  double v_bevel = 0, v_bevel_end = 0; // its two halves part and meet; alike without a bevel
  double v_front = 0;                  // it ends, the front's flat begins
  double v_low = 0;                    // lower bend begins
  double v_leave = 0;                  // the drop leaves the nosing
  double v_lip = 0;                    // a full lower bend ends, the under-lip begins
  double v_inner = 0;                  // under-lip at the riser's plane
  double v_foot = 0;                   // the crotch below
};

struct SectionInput {
  const Step& step;
  CoverStyle style = CoverStyle::waterfall;
  double pad = 0, backing = 0; // mm
  bool joined_back = false;    // more of the same piece above
  double foot_z =
      0; // height of the foot above the wood below: 0, or the tread's backing inside a joined piece
};

/// Waterfall: taut over the nosing and straight to the crotch. With t, r, pad and backing all 0 the piece is
/// T + sqrt(R² + n²) long; wrapped T + R + n, less 0.429 r for each rounded corner (docs/sources.md, nose
/// geometry). REQUIRES: rise > thickness + radius, 0 <= radius <= thickness/2.
Section section_of(const SectionInput& input);

/// y of the backing's middle at the station v, 0 … v_foot.
double y_at(const Section& section, double v);

/// A point of the front surface at height z and its length along the backing from v_nose.
struct FrontPoint {
  double z = 0, y = 0, s = 0;
};
/// The front from the tread's level to the underside of the lip, fine enough to draw; holds the heights in
/// `also`.
std::vector<FrontPoint> front_points(const Section& section, const std::vector<double>& also);

} // namespace treadfold
