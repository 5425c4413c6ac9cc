// The working order of one piece, in plain words, for someone who has not done it before.
#pragma once

#include "plan.h"

#include <string>
#include <vector>

namespace treadfold {

/// One thing to do, or one caution, which stands just before the step at which it bites and has no number.
struct Instruction {
  std::string text;
  bool caution = false;
};

/// The flight of the piece; null for a floor piece.
const Flight* flight_of(const Plan& plan, const Piece& piece);
/// The fixings of one of the piece's steps; null where the plan has none.
const Fixings* fixings_of(const Plan& plan, const Piece& piece, int step);

/// In the order of doing. Every size in it is the plan's own.
std::vector<Instruction> working_order(const Plan& plan, const PlannedPiece& planned);

} // namespace treadfold
