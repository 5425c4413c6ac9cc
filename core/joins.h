// Which steps are one piece, where the job leaves that to the layout ("join": {"at_most": k}).
//
// Guarantees
//  1. No more to buy, by area, than with 1 step in each piece, or with any one limit up to k: so long as
//     every joined piece of such a division folds back onto its steps.
//  2. Joints fall where cover_flight() may have them, and a joined piece is chosen only if it folds back.
//  3. Of ways found that buy the same: the fewest pieces, then the fewest strokes of the knife.
//  4. Same answer for the same job and options.
//  5. Bounded work a carpet: divisions are weighed until their pieces number kQuickPieces, those of a quick
//     layout counted again for each width, four times with a pattern, twice with remnants; then at most seven
//     full layouts.
#pragma once

#include "plan.h"

namespace treadfold {

inline constexpr int kQuickPieces = 4000;

struct JoinChoice {
  Job job; // with `join` and `begins` of its flights as chosen
  std::vector<StepsSingly> singly;
};

/// REQUIRES: as plan(). A carpet none of whose flights leaves it to the layout costs nothing.
JoinChoice choose_joins(const Job& job, const LayoutOptions& options);

} // namespace treadfold
