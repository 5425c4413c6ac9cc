// How far the cutting of a layout has come.
#pragma once

#include "cut/layout.h"

#include <optional>
#include <string>
#include <vector>

namespace treadfold {

/// A fault of the goods, from edge to edge of a roll; lengths along it from its end.
struct Flaw {
  Length from, to;
};

/// A piece that will not do. What of it is sound still serves for smaller ones.
struct SpoiledPiece {
  std::string piece;
  Length sound_width, sound_length; // 0: nothing
};

/// A way out when something befell the goods, the least trouble first.
enum class Remedy {
  as_planned,    // nothing moves but what was lost
  laid_anew,     // all that is not cut is laid out anew
  other_remnant, // of the roll's dye lot, which the plan left alone
  smaller_join,  // joined pieces not yet cut are cut step by step
  hidden_seam    // pieces not yet cut are seamed under their nosing
};

/// Of one carpet.
struct Cutting {
  std::string carpet;
  std::vector<std::string> cut; // and good
  std::vector<SpoiledPiece> spoiled;
  std::string of;                    // the stretch of goods that is spoken of next; "" = the first roll
  std::optional<Length> roll_length; // as it came, if not as ordered
  std::vector<Flaw> flaws;
  std::optional<Remedy> way; // the one to be taken, if not the best
  std::string remnant;       // of Remedy::other_remnant; "" = the first that there is
  std::string where;
};

/// What is in hand of one stretch of goods, in its own dimensions: u from the left edge, v from its end.
struct GoodsPart {
  Length u, v, width, length;
};

/// Whether the part is that piece, cut on every side; of an outline, the rectangle stands for it.
bool is_cut_to(const GoodsPart& part, const Placement& piece);

/// The parts after the first strokes of its knife order: all of what was bought, pieces included.
/// REQUIRES: strokes <= roll.knife_order.size().
std::vector<GoodsPart> parts_after(const RollLayout& roll, std::size_t strokes);

/// The fewest strokes of the knife order after which all of these pieces that lie on the roll are free.
std::size_t strokes_to_free(const RollLayout& roll, const std::vector<std::string>& pieces);

} // namespace treadfold
