// Fold a flat piece back onto its step and see whether it fits. Shares nothing with the unfolding but the
// Piece.
#pragma once

#include "cover/piece.h"
#include "cover/space.h"

namespace treadfold {

/// The piece's faces in the frame of its highest step, each as a strip of planar quads/polygons fine enough
/// to draw: for sheets and viewers.
struct FoldedFace {
  std::string name;
  int step = 0;
  std::vector<std::vector<Point3>> polygons;
};
std::vector<FoldedFace> fold(const Piece& piece, const std::vector<Step>& steps);

/// Shares of a bare face's area (0…1) covered by exactly one layer, by more, by none.
struct Coverage {
  std::string face; // "tread, step 2"
  double once = 0, more = 0, none = 0;
  double filled = 0; // of where uprights stand, the share with carpet
};

struct Proof {
  double widest_gap_mm = 0; // between points that must meet when folded: of seams, of foot and crotch
  std::string widest_seam;
  double worst_length_mismatch_mm = 0; // between the two flat edges of a seam
  std::vector<Coverage> coverage;
  std::vector<Coverage> kept_bare; // beside a runner: must be covered by none
  bool hems_clear = true;          // of the riser's strip
  /// The most that carpet must give, as a share of its length, where no flat piece lies smoothly on the wood;
  /// 0 where the piece is developable. Measured on the folded piece.
  double worst_strain = 0;
  std::string worst_strain_at;
  bool passed = false;
  std::string reason; // why not, in one sentence
};

/// `steps`: the steps the piece covers, highest first, as measured. `pad`: cushion thickness.
Proof prove(const Piece& piece, const std::vector<Step>& steps, CoverStyle style, Length pad,
            const Carpet& carpet, const Allowances& allowances);

/// What is cut must be what is folded: the outline holds every face and nothing else, and the rectangle holds
/// the outline and its trims. "", or what is wrong.
std::string outline_fault(const Piece& piece);

/// Carpet comes round an upright only by a slit from its hole to an edge, or to a hole that has such a slit.
/// "", or what is wrong.
std::string slit_fault(const Piece& piece);

} // namespace treadfold
