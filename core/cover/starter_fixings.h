// Where strip, pad, glue and staples go on a curved starter.
#pragma once

#include "cover/fixings.h"
#include "cover/starter.h"

namespace treadfold {

/// Strip along the next riser alone: the riser's band is stapled under the nosing and at the floor (common
/// practice, no source). The pad goes over the curved nosing as it goes over a straight one. Of uprights,
/// only the room in strip and pad: add_opening() does the rest.
Fixings starter_fixings(const Step& step, const StarterCover& cover, const Cushion& cushion,
                        const TackStrip& strip, const CoverInput& input);

} // namespace treadfold
