// Where a runner lies on each step of its flight.
#pragma once

#include "measure/stair.h"

namespace treadfold {

/// The part of a step between two lines up the stair, as a step in a frame of its own, whose origin is `left`
/// along the riser from the whole step's left end. No part: width 0.
struct StepBand {
  Step step;
  Length left;
};

/// A step turns if its next riser is not parallel to its own, by more than 1/16 in over the runner's width;
/// less than that a crease takes up.
bool turns(const Step& step, Length runner_width);

/// Whether the flight has a runner that is to be folded round a step that turns. Where it lies is then told
/// by cover/folded_course.h.
bool folds_round(const Flight& flight);

struct RunnerStep {
  StepBand under;                 // the runner, closed at both sides
  StepBand bare_left, bare_right; // beside it; their outer sides are the step's own
  Length left_behind;             // from the left end of the step's back, along it
  bool turns = false;
  bool narrow_left = false; // turns, and its narrow side is the left
};

/// By step, from the bottom. Up a run of straight steps the runner is straight and `exposed_left` from the
/// left at its top. A step that turns has it as far from its narrow side as straight steps have, and runs to
/// its place on the next riser. REQUIRES: flight.runner.
std::vector<RunnerStep> runner_steps(const Flight& flight);

/// Whether the runner lies on the step, along its riser, its nosing's edge and its back; with kLeastBare at
/// each side where the step is no rectangle.
inline constexpr Length kLeastBare = inches(0, 1, 8);
bool lies_on(const Step& step, const RunnerStep& runner);

/// What the runner covers of the steps with these numbers, as steps between walls, in the order asked for.
/// REQUIRES: flight.runner.
std::vector<Step> runner_bands(const Flight& flight, const std::vector<int>& numbers);

/// Width of the narrowest step that does not turn; of the narrowest of all if all do.
Length narrowest_straight(const Flight& flight, Length runner_width);

} // namespace treadfold
