// Strip and pad give way to what stands on the tread.
#pragma once

#include "cover/fixings.h"

namespace treadfold {

/// Cuts holes into the pad, and parts a tread's strip in which an upright stands. Pieces of strip shorter
/// than 1 in, too short for two nails, are left out (common practice, no source).
void leave_room(Fixings& fixings, const Step& step, Length strip_width);

} // namespace treadfold
