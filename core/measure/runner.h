// A runner: a strip of carpet up the middle of a flight, bare wood at each side of it. Round winders it goes
// in a piece a winder, cut to shape and joined in the crotches, or in one strip, folded in them.
#pragma once

#include "units/length.h"

#include <optional>
#include <string>

namespace treadfold {

/// Bound: tape or yarn over a cut edge. Turned: folded under itself and glued. Finished: the goods come with
/// their edges done, as wide as the runner. Cut: sealed and left as cut.
enum class RunnerEdges { bound, turned, finished, cut };

/// The top end: it lies on the bare landing and shows, or is seamed to the landing's carpet.
enum class RunnerTop { shows, seamed };

/// How it goes round winders.
enum class RunnerTurn { seam, fold };

struct Runner {
  Length width;        // w, finished, edge to edge
  Length exposed_left; // bare wood from the riser's left end to the runner, on every straight step
  RunnerEdges edges = RunnerEdges::bound;
  std::string binding; // what it is bound with, as the order calls it; "" = not said
  Length edge_takes;   // goods that each edge takes beyond w
  Length strip_stop;   // strip and cushion stop this far inside each edge
  RunnerTop top = RunnerTop::shows;
  RunnerTurn turn = RunnerTurn::seam;
  Length wear_shift;             // folded under at the top, to move the runner down by when it is worn
  std::optional<Length> longest; // of a piece that can be handled
  std::string where;
};

} // namespace treadfold
