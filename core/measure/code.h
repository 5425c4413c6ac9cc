// Stair codes, to warn and never to certify. Sources: docs/sources.md, section "Stair codes". Headroom,
// handrails and guards are not measured and not judged.
//
// Guarantees
//  1. A value exactly at its limit passes; one tick beyond warns.
//  2. A warning names the steps it is about, the limit and the paragraph it comes from; equal values share
//     one warning.
//
// What is measured: rise between the tops of bare treads. Tread depth from nosing to nosing, which is the
// step's going where its nosing and the next one's project alike; the landing edge has none. Width of the
// riser. Codes measure bare wood, as we do; what carpet does to the first and last riser is told apart.
#pragma once

#include "measure/goods.h"
#include "measure/stair.h"
#include "units/problem.h"

namespace treadfold {

/// IRC R311.7; IBC 1011.5.2 (other than dwellings); UK Approved Document K, private stair; none: no warnings.
enum class StairCode { irc, ibc, uk_private, none };

/// Depth of the tread at `index` from its nosing to the next one's. REQUIRES: not the landing edge.
Length tread_depth(const Flight& flight, std::size_t index);

/// Warnings where a flight as built breaks the chosen code's usual limits, plus the trip warning when carpet
/// leaves its risers more than 3/8 in apart. Lengths are told in the code's own unit. `build_up` is cushion +
/// carpet on the treads; `foot_build_up` and `landing_build_up` what will lie on the floor at the foot and on
/// the landing.
Problems check_code(const Flight& flight, StairCode code, Length build_up, Length foot_build_up,
                    Length landing_build_up);

/// Height of the first and the last riser after carpet: h + t(tread) - t(floor) and h + t(landing) -
/// t(tread).
struct FinishedRisers {
  Length first, last;
};
FinishedRisers finished_risers(const Flight& flight, Length build_up, Length foot_build_up,
                               Length landing_build_up);

/// Problems of counting. An error when the treads counted are not one fewer than the risers, or the rises
/// differ from the total rise by half a riser or more: a step is missing or is one too many. A warning when
/// they differ by more than 1/16 in a riser. `unit`: in which lengths are told.
Problems check_count(const Flight& flight, LengthUnit unit = LengthUnit::inch);

/// Warnings about treads that differ from what a step usually is, and whose pieces follow them all the same:
/// more than 1/8 in out of square (a winder is not meant to be square); more than 3/16 in out of level from
/// end to end (common practice, no source). And where the back of a tread that is no rectangle is not as long
/// as the riser behind it, to 1/4 in: a reading is wrong. A longer one may stand free at an open end.
Problems check_treads(const Flight& flight, LengthUnit unit = LengthUnit::inch);

/// Warnings where an open end meets a riser that does not continue it: another width, or a closed side
/// behind. The back corner is drawn for a riser in line with the step's own.
Problems check_ends(const Flight& flight, LengthUnit unit = LengthUnit::inch);

} // namespace treadfold
