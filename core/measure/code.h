// Stair codes, to warn and never to certify. Sources: docs/sources.md, section "Stair codes".
#pragma once

#include "measure/goods.h"
#include "measure/stair.h"
#include "units/problem.h"

namespace treadfold {

/// IRC R311.7; IBC 1011.5.2 (other than dwellings); UK Approved Document K, private stair; none: no warnings.
enum class StairCode { irc, ibc, uk_private, none };

/// Warnings where a flight as built, or the carpet on it, breaks the chosen code's usual limits, plus the
/// trip warning on first and last riser after carpet. `build_up` is cushion + carpet on the treads;
/// `foot_build_up` and `landing_build_up` what will lie on the floor at the foot and on the landing.
Problems check_code(const Flight& flight, StairCode code, Length build_up, Length foot_build_up,
                    Length landing_build_up);

/// Height of the first and the last riser after carpet: h + t(tread) - t(floor) and h + t(landing) -
/// t(tread).
struct FinishedRisers {
  Length first, last;
};
FinishedRisers finished_risers(const Flight& flight, Length build_up, Length foot_build_up,
                               Length landing_build_up);

/// Problems of counting: treads against risers, sum of rises against the total rise by tape.
Problems check_count(const Flight& flight);

} // namespace treadfold
