// What is left of the goods, sorted by dye lot.
#pragma once

#include "cut/recover.h"
#include "cut/rows.h"

#include <map>
#include <set>
#include <string>
#include <vector>

namespace treadfold {

struct LeftPart {
  std::string name; // "part 1", "rest of roll 12'" …
  std::string of;   // as PartLayout::of
  GoodsPart whole;  // in the dimensions of that
  Length edge;      // from its left edge to where pieces may lie: the selvage it still has
  /// Where pieces may lie, in dimensions of the whole lot in which no two parts meet and the pattern goes on.
  rows::LoosePart usable;
};

/// Goods of one dye lot.
struct GoodsLot {
  std::string remnant;                      // of whose lot it is; "" = the roll's
  std::set<std::string> groups;             // of pieces cut from a remnant's lot: they stay with it
  std::set<std::string> kept;               // pieces that stay where they were planned
  Length width, selvage;                    // of new goods
  std::vector<LeftPart> parts;              // smallest first
  LeftPart rest;                            // of the roll, at the end of the lot's dimensions; length 0: none
  std::map<std::string, rows::Spot> motifs; // by match group: one of its motifs, in the lot's dimensions
};

/// The lots of remnants that are not the roll's, and the roll's, which comes last.
std::vector<GoodsLot> goods_left(const std::vector<CutPiece>& planned, const std::vector<CutPiece>& wanted,
                                 const Carpet& carpet, const Layout& before, const Cutting& cutting,
                                 const RecoverOptions& options);

} // namespace treadfold
