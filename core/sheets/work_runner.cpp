// The working order of a runner's piece.
#include "sheets/work.h"

#include "measure/runner_band.h"

#include <cmath>
#include <fmt/format.h>

namespace treadfold {

namespace {

/// Before anything is laid. Sealing and gluing: common practice, no source; no raw edges on stairs: CRI 105,
/// older edition, §17.2.
void do_edges(Work& w, const Runner& runner) {
  const std::string edge = w.size(from_mm_up(w.piece().runner->edges_mm));
  const bool shows =
      w.planned.steps.front().landing_edge && runner.wear_shift == Length{} && runner.top == RunnerTop::shows;
  const std::string which = shows ? "both edges and the top end" : "both edges";
  switch (runner.edges) {
  case RunnerEdges::bound:
    w.say(fmt::format("Bind {}, {} in all, before it is laid. No raw edge may show.", which, edge));
    return;
  case RunnerEdges::turned:
    w.care("Hot glue burns and fumes: gloves, heat shield, open window.");
    w.say(fmt::format("Turn {} under by {} and glue them down, {} in all, before it is laid.", which,
                      w.size(runner.edge_takes), edge));
    return;
  case RunnerEdges::finished:
    if (shows) w.say("Bind the top end: it is cut, and shows.");
    return;
  case RunnerEdges::cut:
    w.say(fmt::format("Seal {} with a thin bead of latex, {} in all, and let it dry.", which, edge));
    return;
  }
}

bool winder(const Work& w) { return turns(w.planned.steps.front(), w.piece().runner->width); }

// common practice, no source
void cut_to_shape(Work& w, const Runner& runner) {
  w.care(kBlade);
  const std::string where = runner.edge_takes > Length{} ? w.size(runner.edge_takes) + " outside" : "to";
  w.say(fmt::format("Cut both edges {} the outline along a straightedge before they are done; the full-size "
                    "template shows it. Leave the back and the foot long to tuck.",
                    where));
}

void mark_winder(Work& w) {
  const auto& mark = w.piece().runner->marks.front();
  const auto bare = [&](const RunnerLine& line) {
    return fmt::format("{} bare at the left and {} at the right", w.size(from_mm(line.bare_left_mm)),
                       w.size(from_mm(line.bare_right_mm)));
  };
  w.say(fmt::format(
      "Mark the edges on step {}: on its riser {}; at the back of its tread, along the next riser, "
      "{}. Join the marks by straight lines over the tread and its nosing.",
      mark.step, bare(mark.foot), bare(mark.back)));
}

void mark_straight_steps(Work& w) {
  struct Place {
    std::string left, right;
    std::vector<int> steps;
  };
  std::vector<Place> places;
  const auto& marks = w.piece().runner->marks;
  for (auto mark = marks.rbegin(); mark != marks.rend(); ++mark) {
    const auto left = w.size(from_mm(mark->foot.bare_left_mm)),
               right = w.size(from_mm(mark->foot.bare_right_mm));
    if (places.empty() || places.back().left != left || places.back().right != right)
      places.push_back({left, right, {}});
    places.back().steps.push_back(mark->step);
  }
  for (const auto& place : places)
    w.say(fmt::format("Mark the edges on {}: {} of the riser bare at the left, {} at the right, and on "
                      "the tread in line with that.",
                      names(place.steps), place.left, place.right));
}

/// Where its edges go, on steps that are alike in it. What stays bare is finished wood.
void mark_steps(Work& w) {
  if (winder(w))
    mark_winder(w);
  else
    mark_straight_steps(w);
  const Step& step = w.planned.steps.front();
  if (!step.left.closed() || !step.right.closed())
    w.say("At an open end measure from the riser's end, not from the tread's.");
  // common practice, no source
  w.care(
      "What stays bare is finished wood: low-tack tape or a soft pencil, on the side that will be covered. "
      "Nothing glued or nailed outside the marks.");
}

// common practice, no source
void finish_top(Work& w, const Runner& runner) {
  const Step& top = w.planned.steps.front();
  if (!top.landing_edge) {
    w.say(fmt::format("Behind step {} tuck the last {} into the crotch behind the strip; the piece above "
                      "comes down onto it there.",
                      top.number, w.size(w.allow().tuck_back)));
    return;
  }
  if (runner.wear_shift > Length{}) {
    w.say(
        fmt::format("Fold the last {} under, flat, its end behind the nosing, and fasten the fold at the "
                    "landing with staples through "
                    "the fold only; part the pile. To move the runner down later, draw them, let out what is "
                    "wanted here and fold as much under at the foot.",
                    w.size(runner.wear_shift)));
    return;
  }
  if (runner.top == RunnerTop::seamed) return seam_top(w);
  w.say(fmt::format("Staple the top end to the landing every {}, just inside its edge; part the pile at each "
                    "staple.",
                    w.size(w.plan.job.supplies.staple_spacing)));
}

} // namespace

void runner_order(Work& w, const Flight& flight) {
  const auto& runner = *flight.runner;
  check_piece(w);
  if (winder(w)) cut_to_shape(w, runner);
  do_edges(w, runner);
  mark_steps(w);
  fix_strips(w);
  lay_pad(w);
  if (flight.style == CoverStyle::waterfall)
    hang_waterfall(w);
  else
    hang_wrapped(w);
  w.say("At each nosing bring both edges to their marks before the carpet is pressed home. An error carried "
        "up the stair grows.");
  finish_top(w, runner);
  w.care(kLoose);
  w.say("Look it over: both edges on their marks, no raw edge, pile down the stair, the wood as clean as it "
        "was.");
}

} // namespace treadfold
