// The working order of a runner's piece.
#include "sheets/work.h"

#include "measure/runner_band.h"

#include <algorithm>
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
  const std::string which = shows ? w.reader.say("both edges and the top end") : w.reader.say("both edges");
  switch (runner.edges) {
  case RunnerEdges::bound:
    w.say("Bind {}, {} in all, before it is laid. No raw edge may show.", which, edge);
    return;
  case RunnerEdges::turned:
    w.care("Hot glue burns and fumes: gloves, heat shield, open window.");
    w.say("Turn {} under by {} and glue them down, {} in all, before it is laid.", which,
          w.size(runner.edge_takes), edge);
    return;
  case RunnerEdges::finished:
    if (shows) w.say("Bind the top end: it is cut, and shows.");
    return;
  case RunnerEdges::cut:
    w.say("Seal {} with a thin bead of latex, {} in all, and let it dry.", which, edge);
    return;
  }
}

bool turns_under(const Work& w, const Step& step) { return turns(step, w.piece().runner->width); }

bool folded(const Work& w) {
  const auto& flight = w.plan.job.stairs.at(static_cast<std::size_t>(w.piece().stair_index))
                           .flights.at(static_cast<std::size_t>(w.piece().flight_index));
  return folds_round(flight);
}

/// A strip with lines that lie askew.
bool goes_round(const Work& w) {
  const auto& steps = w.planned.steps;
  return folded(w) &&
         (!w.piece().runner->pleats.empty() ||
          std::any_of(steps.begin(), steps.end(), [&](const Step& s) { return turns_under(w, s); }));
}

/// A piece of its own, joined in the crotches.
bool winder(const Work& w) { return !folded(w) && turns_under(w, w.planned.steps.front()); }

// common practice, no source
void cut_to_shape(Work& w, const Runner& runner) {
  w.care(kBlade);
  if (runner.edge_takes > Length{})
    w.say("Cut both edges {} outside the outline along a straightedge before they are done; the full-size "
          "template shows it. Leave the back and the foot long to tuck.",
          w.size(runner.edge_takes));
  else
    w.say("Cut both edges to the outline along a straightedge before they are done; the full-size template "
          "shows it. Leave the back and the foot long to tuck.");
}

void mark_winder(Work& w) {
  const auto& mark = w.piece().runner->marks.front();
  const auto bare = [&](const RunnerLine& line) {
    return w.reader.say("{} bare at the left and {} at the right", w.size(from_mm(line.bare_left_mm)),
                        w.size(from_mm(line.bare_right_mm)));
  };
  w.say("Mark the edges on step {}: on its riser {}; at the back of its tread, along the next riser, "
        "{}. Join the marks by straight lines over the tread and its nosing.",
        mark.step, bare(mark.foot), bare(mark.back));
}

/// A sentence for each that reads otherwise, with its steps, lowest first.
class Alike {
public:
  void add(const std::string& text, int step) {
    const auto same = std::find_if(all_.begin(), all_.end(), [&](const auto& a) { return a.first == text; });
    if (same == all_.end())
      all_.push_back({text, {step}});
    else
      same->second.push_back(step);
  }
  const std::vector<std::pair<std::string, std::vector<int>>>& all() const { return all_; }

private:
  std::vector<std::pair<std::string, std::vector<int>>> all_;
};

/// Under a strip that leans the edges lie elsewhere over the nosing than on riser and back.
void mark_folded(Work& w) {
  const auto bare = [&](const RunnerLine& line) {
    return w.reader.list({w.size(from_mm(line.bare_left_mm)), w.size(from_mm(line.bare_right_mm))});
  };
  const auto& marks = w.piece().runner->marks;
  Alike alike;
  for (std::size_t i = marks.size(); i-- > 0;)
    if (turns_under(w, w.planned.steps[i]))
      alike.add(w.reader.say("at the foot of the riser {}; along the nosing {}; at the back of the tread, "
                             "along the next riser, {}",
                             bare(marks[i].foot), bare(marks[i].nosing), bare(marks[i].back)),
                marks[i].step);
  for (const auto& [text, steps] : alike.all())
    w.say("Mark the edges on {}, bare at the left and at the right: {}.", names(w.reader, steps), text);
}

void mark_straight_steps(Work& w) {
  struct Place {
    std::string left, right;
    std::vector<int> steps;
  };
  std::vector<Place> places;
  const auto& marks = w.piece().runner->marks;
  for (auto mark = marks.rbegin(); mark != marks.rend(); ++mark) {
    if (turns_under(w, w.planned.steps[static_cast<std::size_t>(marks.rend() - mark) - 1])) continue;
    const auto left = w.size(from_mm(mark->foot.bare_left_mm)),
               right = w.size(from_mm(mark->foot.bare_right_mm));
    if (places.empty() || places.back().left != left || places.back().right != right)
      places.push_back({left, right, {}});
    places.back().steps.push_back(mark->step);
  }
  for (const auto& place : places)
    w.say("Mark the edges on {}: {} of the riser bare at the left, {} at the right, and on "
          "the tread in line with that.",
          names(w.reader, place.steps), place.left, place.right);
}

/// Where its edges go, on steps that are alike in it. What stays bare is finished wood.
void mark_steps(Work& w) {
  if (winder(w)) {
    mark_winder(w);
  } else {
    mark_straight_steps(w);
    mark_folded(w);
  }
  const Step& step = w.planned.steps.front();
  if (!step.left.closed() || !step.right.closed())
    w.say("At an open end measure from the riser's end, not from the tread's.");
  // common practice, no source
  w.care(
      "What stays bare is finished wood: low-tack tape or a soft pencil, on the side that will be covered. "
      "Nothing glued or nailed outside the marks.");
}

/// On the bench. common practice, no source
void mark_folds(Work& w) {
  w.say("Lay it pile down. Mark both edges at the lengths on this sheet, a tape along each from the foot "
        "end, and join the two marks of each line with chalk: the lines lie askew. The back is the sheet's "
        "mirror image.");
  const auto& pleats = w.piece().runner->pleats;
  if (std::any_of(pleats.begin(), pleats.end(), [](const RunnerPleat& p) { return p.snip_mm > 0; }))
    w.say("Snip the narrow edge along each line \"back\" as far as the table says, no further, and seal both "
          "sides of the cut with latex.");
}

// common practice, no source
void fold_pleats(Work& w, const Runner& runner) {
  const auto& carpets = w.plan.job.carpets;
  const auto carpet =
      std::find_if(carpets.begin(), carpets.end(), [&](const Carpet& c) { return c.id == w.piece().carpet; });
  const auto& pleats = w.piece().runner->pleats;
  Alike folds, layers;
  for (auto p = pleats.rbegin(); p != pleats.rend(); ++p) {
    const auto& reader = w.reader;
    const auto side = p->narrow_left ? reader.say("left") : reader.say("right");
    const auto depth = w.size(from_mm_up(p->depth_mm));
    auto text = p->tucks == 2 ? reader.say("bring the line \"back\" of the tread below into the crotch. Fold "
                                           "what is above it up against "
                                           "the riser to the line \"top\" and down again to the crotch, and "
                                           "so once more: {} deep at the "
                                           "{} edge, nothing at the other.",
                                           depth, side)
                              : reader.say("bring the line \"back\" of the tread below into the crotch. Fold "
                                           "what is above it up against "
                                           "the riser to the line \"top\" and down again to the crotch: {} "
                                           "deep at the {} edge, nothing "
                                           "at the other.",
                                           depth, side);
    if (p->snip_mm > 0)
      text +=
          " " +
          reader.say("Turn the corners at the {} in behind the folds, so that none shows beside the riser.",
                     side);
    folds.add(text, p->step);
    const auto count = 2 * p->tucks * (runner.edges == RunnerEdges::turned ? 2 : 1);
    layers.add(carpet == carpets.end() ? reader.say("{} layers at the {} edge", count, side)
                                       : reader.say("{} layers, {} thick, at the {} edge", count,
                                                    w.size(carpet->thickness * count), side),
               p->step);
  }
  for (const auto& [text, steps] : folds.all())
    w.say("{}: {} Staple through the folds in the crotch every {}, pile parted; then go on up the riser over "
          "them.",
          steps.size() == 1 ? w.reader.say("At the riser of {}", names(w.reader, steps))
                            : w.reader.say("At the risers of {}", names(w.reader, steps)),
          text, w.size(w.plan.job.supplies.staple_spacing));
  for (const auto& [text, steps] : layers.all())
    w.care("Folded behind {} lie {}: press them flat, so that the riser's carpet stands nowhere "
           "past the nosing.",
           names(w.reader, steps), text);
}

// common practice, no source
void finish_top(Work& w, const Runner& runner) {
  const Step& top = w.planned.steps.front();
  if (!top.landing_edge) {
    w.say("Behind step {} tuck the last {} into the crotch behind the strip; the piece above "
          "comes down onto it there.",
          top.number, w.size(w.allow().tuck_back));
    return;
  }
  if (runner.wear_shift > Length{}) {
    w.say("Fold the last {} under, flat, its end behind the nosing, and fasten the fold at the "
          "landing with staples through "
          "the fold only; part the pile. To move the runner down later, draw them, let out what is "
          "wanted here and fold as much under at the foot.",
          w.size(runner.wear_shift));
    return;
  }
  if (runner.top == RunnerTop::seamed) return seam_top(w);
  w.say("Staple the top end to the landing every {}, just inside its edge; part the pile at each "
        "staple.",
        w.size(w.plan.job.supplies.staple_spacing));
}

} // namespace

void runner_order(Work& w, const Flight& flight) {
  const auto& runner = *flight.runner;
  check_piece(w);
  if (winder(w)) cut_to_shape(w, runner);
  do_edges(w, runner);
  if (goes_round(w)) mark_folds(w);
  mark_steps(w);
  fix_strips(w);
  lay_pad(w);
  if (flight.style == CoverStyle::waterfall)
    hang_waterfall(w);
  else
    hang_wrapped(w);
  fold_pleats(w, runner);
  w.say("At each nosing bring both edges to their marks before the carpet is pressed home. An error carried "
        "up the stair grows.");
  finish_top(w, runner);
  w.care(kLoose);
  w.say("Look it over: both edges on their marks, no raw edge, pile down the stair, the wood as clean as it "
        "was.");
}

} // namespace treadfold
