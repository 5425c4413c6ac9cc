// The open end of a step: how the carpet runs over the tread's end, under its lip and round its back corner.
#pragma once

#include "cover/piece_builder.h"
#include "cover/section.h"

namespace treadfold {

/// All flat, local: u is ξ (outward from the riser's end), v from the step's v = 0. Faces F (front) and its
/// under-lip lie at ξ <= overhang; the end, its under-lip and the back corner's end tab lie beyond.
struct EndWrap {
  double overhang = 0;
  double end_height = 0;     // thickness + pad
  double bend_width = 0;     // π/2 · backing/2, at the end's sharp arrises
  double far_edge = 0;       // ξ of the under-lip's inner edge
  double lip_start = 0;      // ξ where the under-lip's flat begins
  FlatPath front_f, front_e; // front corner: edge of the front, edge of the end; from the tread's corner down
  FlatPath mitre_f, mitre_e; // under the lip, from the outer corner to the riser's plane
  bool back_corner = false;  // false at a landing edge, where end and under-lip run on to the seam
  double back_v = 0;         // v of the tread's back edge at the end
  double tab_top = 0;        // least v of the tabs (0 without a back corner)
  FlatPath back_t, back_et;  // tread's tab against the end's tab: from the tread's corner back
  FlatPath back_l, back_el;  // under-lip's tab against the end's tab: from the lip's corner back
  FlatPath end_tab_tip;      // the end tab's set-off edge
};

EndWrap end_wrap(const Section& section, const Step& step, const Side& side, double relief);

/// The net outline of the end from the back slit to the under-lip's inner corner at ξ = 0, local, back to
/// front.
FlatPath outline_of(const EndWrap& wrap, const Section& section);

/// Faces, seams, folds and cuts of the end. `tread`: index of the tread's face, `front_upper`/`front_flat`:
/// of the nosing's bend and the front (-1 where there is none).
void add_end(PieceBuilder& builder, const EndWrap& wrap, const Section& section, const SideFrame& frame,
             int step, int tread, int front_upper, int front_flat);

} // namespace treadfold
