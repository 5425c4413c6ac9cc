// The rest of the pieces on what is left of the goods: one is spoiled, the roll came short, there is a flaw.
//
// Guarantees (tests/cut/recover_test.cpp looks at them on the whole goods, without this code)
//  1. Every wanted piece is either left where it was planned or placed once more.
//  2. Nothing lies over what is cut already, over a flaw, over another piece, or beyond the goods in hand,
//     but for what is bought.
//  3. Nothing lies across a stroke that is made already.
//  4. The pattern goes on as the pieces cut before have it; pieces come from the dye lot of their group.
#pragma once

#include "cut/cutting.h"

#include <string>
#include <vector>

namespace treadfold {

/// A part of the goods and what is cut from it; dimensions from its own end and left edge.
struct PartLayout {
  RollLayout layout; // a remnant, but for what is bought
  std::string of;    // the stretch that it is a part of, the spoiled piece, or the remnant; "" = to be bought
  Length u, v;       // its corner there
};

struct Recovered {
  std::vector<std::string> as_planned; // where they were to be cut before
  std::vector<PartLayout> parts;       // smaller ones first, the rest of the roll and what is bought last
  Length length_to_buy;                // as the goods are sold; 0: it fits
  std::string why_not;                 // there is no way, from new goods neither; then nothing is placed
};

struct RecoverOptions {
  /// Nothing is moved that can stay: only what was spoiled or lost is placed anew. Else only pieces stay that
  /// the knife order has freed already.
  bool keep_plan = false;
  std::vector<Remnant> more; // beside what the plan uses, of the roll's dye lot
  int work = 500;
  unsigned seed = 1;
  LengthUnit unit = LengthUnit::inch;
};

/// `planned`: pieces of the layout `before`. `wanted`: those still to be cut, spoiled ones included; not
/// necessarily the same, but of the same groups.
/// REQUIRES: before.rolls not empty; cutting names pieces and a stretch of it.
Recovered recover(const std::vector<CutPiece>& planned, const std::vector<CutPiece>& wanted,
                  const Carpet& carpet, const Layout& before, const Cutting& cutting,
                  const RecoverOptions& options);

} // namespace treadfold
