// What comes on a roll: the carpet, as the installer describes it.
#pragma once

#include "units/length.h"

#include <optional>
#include <string>
#include <vector>

namespace treadfold {

/// A repeat as a lattice on the roll: motifs lie at (i·width, i·drop + j·length), i and j whole.
/// Set match: drop = 0. Half-drop: drop = length/2.
struct Pattern {
  Length width;  // Rw, across the roll
  Length length; // Rl, along the roll
  Length drop;   // 0 <= drop < length
};

/// Carpet left from another job. Its width and length are usable, not nominal.
struct Remnant {
  std::string name;
  Length width, length;
  std::string dye_lot; // "" = not known, so never mixed with other carpet in one flight
  std::string where;
};

/// How the pile is held: tufts stuck into a backing, or woven with it.
enum class Construction { unknown, tufted, woven };

/// How pieces lie on the goods: so that straight strokes free them all; as close as their rectangles go,
/// though some are then cut out around; or as close as their true outlines go, for those who cut to
/// templates.
enum class Laid { straight, close, outlines };

struct Carpet {
  std::string id, name;
  Construction construction = Construction::unknown;
  std::vector<Length> roll_widths; // nominal widths on offer
  Length selvage;                  // lost at each side of the roll
  Length roll_length;              // longest single cut that can be had
  std::optional<Length> in_hand;   // of what straight strokes free across the roll, no longer is handled
  Length sold_in;                  // order lengths are whole multiples of this
  Length least_order;
  Length backing;   // b, thickness of the backing alone
  Length thickness; // with pile
  /// The tightest fold the backing takes, at its back; nothing where neither it nor the construction is
  /// known.
  std::optional<Length> min_fold_radius;
  bool fold_radius_told = false; // by the user; else usual for the construction
  std::optional<Pattern> pattern;
  bool directional = true;    // else a piece looks the same turned half round
  bool pattern_flows = false; // on from each straight step into the next; else its motif is on every nosing
  std::string dye_lot;        // of the roll on offer; "" = not known
  /// Floors that no roll covers are divided for this one of roll_widths; nothing: for the widest.
  std::optional<Length> breadths_for;
  std::vector<Remnant> remnants;
  Laid laid = Laid::straight;
  std::string where;
};

/// Cushion (pad). thickness 0: no cushion, carpet straight on the wood.
struct Cushion {
  std::string name;
  Length thickness;
  Length roll_width, roll_length;
  std::string where;
};

/// Tack strip, in stock lengths.
struct TackStrip {
  Length width, thickness;
  Length stock_length;
  int pieces_per_case = 100;
  double end_angle_deg = 55; // of the tread strip's cut at an open end
  std::string where;
};

/// What the hand adds to the net size, and the fixing sizes that practice sets (docs/sources.md).
struct Allowances {
  Length side_trim;      // at each closed side
  Length open_side_trim; // at each open end
  Length tuck_back;      // behind the tread, into the gully
  Length tuck_foot;      // below the drop or riser
  Length gully;          // between riser face and tread strip; also riser strip above the tread
  Length hem;            // folded under itself at a riser's open end
  Length strip_stop;     // riser strip stops this far from an open end
  Length crease;         // depth of the fold pushed into a crotch inside a joined piece
  Length relief;         // set-off in the middle of a back corner
  Length floor_trim;     // at each edge of a floor piece
};

} // namespace treadfold
