// A landing's floor and the flight that arrives at it.
#pragma once

#include "measure/stair.h"

namespace treadfold {

/// The top step of a flight with the whole landing for a tread, for a piece that covers both. The sides run
/// from the riser's ends along the landing's edges to the ends of the edge opposite.
/// REQUIRES: the riser lies on the floor's front edge; both sides closed; a counter-clockwise outline.
Step landing_step(const Step& edge, const Floor& floor, const Arrival& arrival);

/// The floor without the landing edge, which the flight's top piece covers: `edge.going` deep behind the
/// riser.
Floor without_edge(const Floor& floor, const Step& edge, const Arrival& arrival);

} // namespace treadfold
