// Which of several roll widths a floor's breadths are cut for.
#pragma once

#include "plan.h"

namespace treadfold {

/// The job with `breadths_for` of its carpets: the width whose breadths, laid out with all other pieces of
/// the carpet, buy the least by area; of those the one with the fewest pieces. A floor that the widest roll
/// covers stays whole whatever is chosen. Costs a layout for each width of a carpet that has such floors, and
/// nothing else. REQUIRES: as plan().
Job choose_breadths(Job job, const LayoutOptions& options);

} // namespace treadfold
