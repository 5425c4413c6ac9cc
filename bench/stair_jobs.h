// Jobs of our own making, each from its number: what an installer of stairs might have on the bench in a
// year.
#pragma once

#include "cut/layout.h"
#include "measure/goods.h"

namespace treadfold::bench {

struct StairJob {
  std::vector<CutPiece> pieces;
  Carpet carpet;
};

/// 9 to 40 steps in one to three flights, some ends open, some steps winders, a third of the goods patterned,
/// rolls of one of four widths, sold by the inch to the foot.
StairJob stair_job(unsigned number);

} // namespace treadfold::bench
