// Which cut edges are sealed before what, by the goods' construction. All of it: common practice, no source;
// that no raw edge stays on a stair and net cuts are sealed: CRI 105, older edition, §17.2.
#pragma once

#include "plan.h"

namespace treadfold {

/// Of the piece's goods; unknown where the job does not say.
Construction construction_of(const Plan& plan, const Piece& piece);

/// As the piece comes from the roll; "" where that needs nothing.
std::string seal_from_the_roll(const Reader& reader, Construction construction);
/// Before tabs, mitres and slits are cut.
std::string seal_before_small_cuts(const Reader& reader, Construction construction);
/// Of what is trimmed on the stair; "" where that needs nothing.
std::string seal_trimmed(const Reader& reader, Construction construction);

/// All that a carpet's backing asks for, for the work order; "" where nothing is known of it.
std::string handling_of(const Carpet& carpet, const Reader& reader);

} // namespace treadfold
