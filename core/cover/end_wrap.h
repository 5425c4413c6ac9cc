// The open end of a step: how the carpet runs over the tread's end, under its lip and round its back corner.
#pragma once

#include "cover/section.h"
#include "cover/side_plan.h"

namespace treadfold {

/// Flat, local to the side. The front and its under-lip are in (x, v); the end and all that hangs from it in
/// the end's (ξ, t), ξ measured round the end; the back corner's tabs in the back line's (η, β), β measured
/// round the tread's or the under-lip's back edge. In a rectangle x = ξ = η and v = back_y - t.
struct EndWrap {
  SidePlan plan;
  double overhang = 0, return_past = 0;
  double end_height = 0;     // thickness + pad
  double bend_width = 0;     // π/2 · backing/2, at the end's sharp arrises
  double far_edge = 0;       // ξ of the under-lip's inner edge
  double lip_start = 0;      // ξ where the under-lip's flat begins
  FlatPath front_f, front_e; // front corner: edge of the front, edge of the end; from the tread's corner down
  FlatPath mitre_f, mitre_e; // under the lip, from the outer corner to the riser's plane
  bool back_corner = false;  // false at a landing edge, where end and under-lip run on to the seam
  double free_back = 0;      // > 0: the back is no envelope but a sheet of its own as far as the next riser
  double slit_eta = 0;       // of the stringer's face on the tread's back edge
  double corner_eta = 0;     // of the carpet's outer corner on the back
  double end_back = 0;       // t at which the end's flat ends: the fold of the end tab, or the seam
  double corner_rad = 0;     // how far the end tab turns round the back
  double tab_beta = 0;       // the tabs' far edge
  FlatPath back_t, back_et;  // tread's tab against the end's tab: from the tread's corner back
  FlatPath back_l, back_el;  // under-lip's tab against the end's tab: from the lip's corner back
  FlatPath end_tab_tip;      // the end tab's set-off edge
  // Free back: back_t and back_et are its corner with the end, and end_back the corner's t.
  double back_far = 0;                 // β of the sheet's inner edge under the lip
  FlatPath back_mitre_t, back_mitre_e; // under the lip, from the outer corner to the stringer's

  /// To (x, v).
  FlatPoint from_end(FlatPoint p) const { return plan.flat(plan.from_end(p.u, p.v)); }
  FlatPoint from_back(FlatPoint p) const { return plan.flat(plan.from_back(p.u, p.v)); }
  /// The back line's coordinates on the under-lip, which lies upside down beyond the end.
  FlatPoint from_lip_back(FlatPoint p) const { return from_end(on_lip(plan.from_back(p.u, p.v))); }
  /// A point of the plan where the under-lip covers it, in (ξ, t).
  FlatPoint on_lip(PlanPoint p) const { return {far_edge - plan.xi(p), plan.t(p)}; }
  FlatPath from_end(const FlatPath& path) const;
  FlatPath from_back(const FlatPath& path) const;
  FlatPath from_lip_back(const FlatPath& path) const;
  /// The tread's slit behind the riser, from the next riser's end to the tabs' far edge, in (x, v).
  FlatPath slit() const;
};

/// REQUIRES: at a landing edge, a rectangle.
EndWrap end_wrap(const Section& section, const Step& step, Hand hand, double relief);

/// The net outline of the end from the back slit to the under-lip's inner corner at x = 0, in (x, v), back to
/// front.
FlatPath outline_of(const EndWrap& wrap, const Section& section);

/// Faces, seams, folds and cuts of the end. `tread`: index of the tread's face; `front`: of the faces over
/// the front down to the lower bend, from the top.
void add_end(PieceBuilder& builder, const EndWrap& wrap, const Section& section, const SideFrame& frame,
             int step, int tread, const std::vector<int>& front);

} // namespace treadfold
