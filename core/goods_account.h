// What becomes of the goods that are ordered.
#pragma once

#include "plan.h"

namespace treadfold {

/// Of what is bought from the roll for one layout, in square metres; remnants are not in it. The parts add up
/// to `ordered`.
struct GoodsAccount {
  double ordered = 0;
  double net = 0;     // seen, or against the step
  double trims = 0;   // of the pieces as cut: folded under, tucked in or trimmed off
  double pattern = 0; // the length that the match costs
  double beside = 0;  // between and beside the pieces
  double selvage = 0;
  double sold = 0; // up to the next length that is sold
};

GoodsAccount goods_account(const Plan& plan, const Layout& layout);

} // namespace treadfold
