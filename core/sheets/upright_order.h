// The working order's sentences about balusters and newels.
#pragma once

#include "sheets/working_order.h"

namespace treadfold {

/// At the bench. `sealed`: the raw backing is sealed and the knife warned of already. Empty without openings.
std::vector<Instruction> cut_round_uprights(const Reader& reader, const Piece& piece, bool sealed);
/// On the stair, when the piece lies there.
std::vector<Instruction> close_round_uprights(const Reader& reader, const Piece& piece,
                                              const std::string& staple_spacing);

} // namespace treadfold
