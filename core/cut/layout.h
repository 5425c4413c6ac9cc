// Pieces of one orientation on a roll of fixed width: where each lies, how much to buy, and how the knife
// goes.
//
// Guarantees (cut/check.h tests them without sharing code with the search)
//  1. Placements never overlap; of those laid by their outlines, the outlines do not.
//  2. Nothing leaves the roll's usable width, and nothing starts before the roll's end.
//  3. No piece is turned, but by half where the goods have no direction.
//  4. Pieces of one match group lie on one lattice of the pattern, each with the phase it asked for.
//  5. length_to_buy >= length_used >= lower_bound.
//  6. The strokes of knife_order separate every piece; where the carpet is laid straight, all go from
//     edge to edge of what is in hand.
//  7. Never longer than whole rows cut by hand; on patterned goods so long as the order is one cut.
//  8. Where the carpet is laid straight, no stroke across the roll frees more of it than the user will have
//  in hand, or than the longest piece.
//  9. No group (flight, floor) is cut from two dye lots, and no match group from a remnant and something
//  else.
#pragma once

#include "measure/goods.h"
#include "units/length.h"
#include "units/problem.h"

#include <string>
#include <vector>

namespace treadfold {

/// A corner of an outline.
struct GoodsPoint {
  Length u, v;
  friend bool operator==(const GoodsPoint&, const GoodsPoint&) = default;
};

using GoodsRing = std::vector<GoodsPoint>;

/// A polygon, counter-clockwise (u to the right, v up), and what of it is left out, either way round.
struct GoodsOutline {
  GoodsRing ring;
  std::vector<GoodsRing> holes{};
  bool empty() const { return ring.empty(); }
  friend bool operator==(const GoodsOutline&, const GoodsOutline&) = default;
};

/// A rectangle to cut; u across the roll, v along it.
struct CutPiece {
  std::string id;
  Length width, length;
  std::string group;    // flight or floor: never two dye lots within one
  bool matched = false; // keeps the pattern's phase with its match group
  std::string match_group;
  Length phase_u,
      phase_v; // motif's place within the piece: (u0+phase_u, v0+phase_v) lies on the group's lattice
  /// What of the rectangle is needed, from its corner; it touches all four sides. Empty: all of it.
  GoodsOutline outline{};
};

struct Placement {
  std::string piece;
  Length u, v; // the corner nearest to the roll's end and left edge
  Length width, length;
  GoodsOutline outline{}; // of a piece laid by it, on the goods; empty: the rectangle
  bool turned = false;    // half round
};

/// What is covered of the goods, in ticks²: a rectangle, or the outline in it if there is one.
std::int64_t covered_area(Length width, Length length, const GoodsOutline& outline);

/// One straight stroke of the knife, or a piece cut out along its own four sides. Dimensions run from the
/// roll's end (cross-cut) or the left edge (rip).
struct Stroke {
  enum class Kind { cross_cut, rip, trim, around } kind = Kind::cross_cut;
  Length at;       // v of a cross-cut or trim, u of a rip; around: v of the piece's nearest side
  Length from, to; // extent: u for cross-cuts, trims and around, v for rips
  std::string
      frees; // what comes loose: "row 2", piece id, "A-03, to be trimmed", "offcut", "waste", "selvage"
};

struct Offcut {
  Length u, v, width, length;
};

/// One stretch of goods: the roll as ordered, or a remnant.
struct RollLayout {
  std::string stock; // "roll 12'" or the remnant's name
  bool remnant = false;
  Length width;     // nominal
  Length selvage;   // at each side; placements keep clear of it
  Length available; // remnant: its length; roll: the longest cut that can be had
  std::vector<Placement> placements;
  Length length_used;
  Length length_to_buy; // rounded up to how the goods are sold; 0 for a remnant
  std::vector<Stroke> knife_order;
  std::vector<Offcut> offcuts;
};

struct WidthOffer {
  Length width;
  Length length_used, length_to_buy; // from the roll: what remnants serve is not in them
  double area_m2 = 0;                // to buy
  bool feasible = true;
  std::string why_not;
};

/// All of one goods. The bound is valid for what the roll must supply, at the chosen width, and laid by
/// outlines for those; it is proved
/// least if no layout of those pieces could be bought shorter, as the goods are sold.
struct Layout {
  std::string carpet;
  /// Remnants used first, then the roll (absent if the remnants serve; several, "roll 12', cut 1 of 2" …, if
  /// it is longer than the longest cut that can be had).
  std::vector<RollLayout> rolls;
  std::vector<WidthOffer> offers; // every width tried, least area to buy first
  Length lower_bound;
  std::string bound_name; // "area", "pieces that cannot lie side by side", "dual feasible function k = 3" …
  bool proved_least = false;
  Length length_without_pattern; // what the same pieces would need with no match; equals length_used if none
  Length whole_rows;             // what whole rows by hand would need with the same pattern, for comparison
  /// To buy from the roll at the width chosen, however the carpet is to be laid; each no more than the one
  /// before.
  Length straight_to_buy, close_to_buy, outlines_to_buy;
  double net_area_m2 = 0; // of the cut rectangles
};

struct LayoutOptions {
  int work = 2000; // orders tried beyond the fixed ones; same answer for the same work and seed
  unsigned seed = 1;
  bool use_remnants = true;
  LengthUnit unit = LengthUnit::inch; // of lengths in names and problems
};

/// Layout of `pieces` on the goods on offer. Errors: a piece wider than every roll, longer than the longest
/// cut, a pattern that cannot be kept. Warning: the order needs more than one cut. Pieces are placed all or
/// none: with errors the layout has no rolls. A remnant is used only if that shortens the order; it is taken
/// to lie with its pattern free, so it serves whole match groups. roll_length 0: no limit. REQUIRES: sizes >
/// 0, ids of pieces and names of remnants unique.
Layout lay_out(const std::vector<CutPiece>& pieces, const Carpet& carpet, const LayoutOptions& options,
               Problems& problems);

/// Whole rows by hand: as many pieces side by side as fit, each row as long as its longest piece, given
/// order.
Length whole_rows(const std::vector<CutPiece>& pieces, Length usable_width);

/// A length below which no layout of the pieces exists; `name` says which argument gave it.
/// REQUIRES: no piece wider than usable_width.
struct LowerBound {
  Length length;
  std::string name;
};
LowerBound lower_bound(const std::vector<CutPiece>& pieces, Length usable_width);

} // namespace treadfold
