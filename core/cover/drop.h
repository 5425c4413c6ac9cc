// From the nosing to the crotch: the drop of a waterfall, or the riser of a wrapped step.
#pragma once

#include "cover/step_part.h"

namespace treadfold {

/// Where a side's edge passes the station v below the nosing, local.
FlatPoint side_point(const StepSide& side, const Section& section, double v);

/// Sets both sides' foot. Where the crotch is not parallel to the nosing the drop of a waterfall is no plane
/// but two triangles, folded a little along a diagonal from the nosing's end over the shallow side to the
/// deep side's foot.
void set_foot(StepPart& part);

/// Faces from the station `from` to the foot, below `parent`; returns one that ends there.
int add_drop(PieceBuilder& builder, const StepPart& part, const char* name, double from, int parent,
             Turn turn);

} // namespace treadfold
