// From a measured flight to its flat pieces. The derivation of the net is in docs/geometry.md.
//
// Guarantees
//  1. Unfolding keeps every length along the backing: seams' two edges agree to well under 1/64 in.
//  2. Net sizes are rounded up; a cut size is never less than net plus allowance.
//  3. Every piece lies with its pile running down the stair.
#pragma once

#include "cover/piece.h"

namespace treadfold {

struct CoverInput {
  const Carpet& carpet;
  Length pad;
  const Allowances& allowances;
  LengthUnit unit = LengthUnit::inch; // decides the rounding of cut sizes: 1/16 in or 1 mm
};

/// Pieces of one flight from the top down, `flight.join` steps at most in each and a new one with each of
/// `flight.begins`; of its runner, if it has one; of a curved starter none (cover/starter.h). Ids are
/// `prefix` + "-" + step number. REQUIRES: the flight passed the job's checks (positive sizes, r <= t/2,
/// rise > thickness + r …).
std::vector<Piece> cover_flight(const Flight& flight, const CoverInput& input, const std::string& prefix);

} // namespace treadfold
