#include "measure/code.h"

#include <fmt/format.h>

namespace treadfold {

namespace {

const char* kExpected =
    "an end and the riser behind it in line; fit the back corner on the stair before cutting its slit";

std::string open_sides(const Step& step) {
  return !step.left.closed() && !step.right.closed() ? "both sides"
         : step.left.closed()                        ? "the right"
                                                     : "the left";
}

} // namespace

Problems check_ends(const Flight& flight, LengthUnit unit) {
  Problems problems;
  for (std::size_t i = 0; i + 1 < flight.steps.size(); ++i) {
    const auto &step = flight.steps[i], &behind = flight.steps[i + 1];
    if ((step.left.closed() && step.right.closed()) || step.starter) continue;
    const auto what = fmt::format("step {} open on {}", step.number, open_sides(step));
    const bool closes =
        (!step.left.closed() && behind.left.closed()) || (!step.right.closed() && behind.right.closed());
    if (closes && !behind.landing_edge)
      problems.push_back({Severity::warning,
                          flight.where,
                          what + " with a closed side behind it",
                          kExpected,
                          {step.number}});
    else if (step.rectangular() && behind.rectangular() &&
             step.width < behind.width) // a wider tread's free back is covered
      problems.push_back({Severity::warning,
                          flight.where,
                          fmt::format("{}, {} wide, with a riser of {} behind it", what,
                                      show_length(step.width, unit), show_length(behind.width, unit)),
                          kExpected,
                          {step.number}});
  }
  return problems;
}

} // namespace treadfold
