// A step on its way into a piece: its section, its open ends, its place along the piece.
#pragma once

#include "cover/cover.h"
#include "cover/end_wrap.h"

#include <optional>

namespace treadfold {

struct StepSide {
  SideFrame frame;
  SidePlan plan;
  std::optional<EndWrap> wrap; // open
  FlatPoint foot;              // where the drop ends, local
  /// Where the piece begins at this side, local: at the end of the riser above.
  FlatPoint begin() const { return wrap ? wrap->slit().front() : plan.begin(); }
};

struct StepPart {
  const Step& step;
  Section section; // at the end where the drop is longer
  double v0 = 0;   // of the step's v = 0 within the piece
  StepSide left, right;
};

/// `steps`: highest first, all in one piece.
std::vector<StepPart> parts_of(const std::vector<const Step*>& steps, const Flight& flight,
                               const CoverInput& input);

/// v, from the upper step's v = 0, where its hem must stop: in a joined piece the carpet beside the drop's
/// foot belongs to the back corner of the step below.
double hem_end(const Section& upper, const EndWrap& below, const Allowances& allowances);

/// Level rectangles alike at their sides, with room for the hem beside the drop. REQUIRES: lower.number + 1
/// == upper.number.
bool can_join(const Step& upper, const Step& lower, const Flight& flight, const CoverInput& input);

} // namespace treadfold
