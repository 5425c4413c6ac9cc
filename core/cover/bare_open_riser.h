// The bare wood of a tread without risers: a board that is covered on every face but its housed ends.
#pragma once

#include "cover/bare_step.h"

namespace treadfold {

void add_open_riser(BareFaceList& faces, const Step& step, const BareFaceInput& input);

} // namespace treadfold
