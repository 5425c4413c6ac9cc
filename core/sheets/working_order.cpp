#include "sheets/working_order.h"

#include "cover/open_riser.h"
#include "sheets/sealing.h"
#include "sheets/upright_order.h"
#include "sheets/work.h"

#include <algorithm>
#include <array>
#include <fmt/format.h>

namespace treadfold {

const Flight* flight_of(const Plan& plan, const Piece& piece) {
  if (piece.flight_index < 0) return nullptr;
  return &plan.job.stairs.at(static_cast<std::size_t>(piece.stair_index))
              .flights.at(static_cast<std::size_t>(piece.flight_index));
}

const Fixings* fixings_of(const Plan& plan, const Piece& piece, int step) {
  if (piece.flight_index < 0) return nullptr;
  std::size_t index = static_cast<std::size_t>(piece.flight_index); // over all stairs
  for (int s = 0; s < piece.stair_index; ++s)
    index += plan.job.stairs.at(static_cast<std::size_t>(s)).flights.size();
  if (index >= plan.fixings.size()) return nullptr;
  for (const auto& f : plan.fixings[index].steps)
    if (f.step == step) return &f;
  return nullptr;
}

namespace {

// common practice, no source
constexpr const char* kGlue = "Hot glue burns and fumes: gloves, heat shield, open window.";

/// Everything cut and sealed before the piece goes on the step. All of it: common practice, no source.
void cut_open_ends(Work& w) {
  const std::string where = open_ends(w);
  w.say(
      "Mark the lines of the drawing. It shows the pile side: on the backing, left and right change places.");
  w.add(seal_before_small_cuts(w.reader, construction_of(w.plan, w.piece())), true);
  w.care(kBlade);
  if (w.planned.steps.front().landing_edge)
    w.say("Cut along the heavy lines only. Leave the foot long to tuck, the back long for the seam.");
  else
    w.say("Cut along the heavy lines only. Leave the back and the foot long to tuck.");
  if (w.has_seam("back corner"))
    w.say("At {}: slit behind the riser and cut the back corner to its W, a tab at each side and one "
          "between. Set the middle off by {}, so that the thick folds can close.",
          where, w.size(w.allow().relief));
  if (w.has_seam("front corner"))
    w.say("At {}: cut out the front corner and the mitre under the lip.", where);
  if (w.has(LineRole::hem))
    w.say("Below it leave {} beside the riser's end for the hem, its top cut at 45°.", w.size(w.allow().hem));
  else
    w.say("Below it cut the drop flush with the riser's end: it has no hem, so bind that edge.");
  w.say_all(cut_round_uprights(w.reader, w.piece(), true));
  w.say("Run a thin bead of latex along every cut edge.");
  if (!w.has(LineRole::hem)) return;
  w.care(kGlue);
  w.say("Fold the {} hem under itself along the riser's end and glue it.", w.size(w.allow().hem));
}

/// Where it lies across the stair must be settled before anything holds it.
void lay_in_place(Work& w) {
  const Piece& p = w.piece();
  if (any_open(w)) {
    std::string text = w.reader.say("Lay it in place before anything holds it: at {} set the fold over the "
                                    "tread's end on the wood's edge.",
                                    open_ends(w));
    if (!(open_left(w) && open_right(w)))
      text += " " + w.reader.say("The other side then has {} to spare.",
                                 w.size(open_left(w) ? p.trim_right : p.trim_left));
    w.add(text);
  } else if (p.trim_left == p.trim_right) {
    w.say("Lay it in place before anything holds it: centred, {} to spare at each side.",
          w.size(p.trim_left));
  } else {
    w.say("Lay it in place before anything holds it: {} to spare at the left, {} at the right.",
          w.size(p.trim_left), w.size(p.trim_right));
  }
}

void tell_out_of_level(Work& w) {
  for (auto step = w.planned.steps.rbegin(); step != w.planned.steps.rend(); ++step)
    if (const Length fall = step->fall_right; fall.ticks != 0)
      w.say("Step {} is out of level, its riser {} higher at the {} end. The foot of the piece slopes "
            "to match: do not square it.",
            step->number, w.size(fall < Length{} ? -fall : fall),
            fall < Length{} ? w.reader.say("left") : w.reader.say("right"));
}

void trim_both_sides(Work& w, bool left_wall, bool right_wall) {
  const auto spare = w.size(w.piece().trim_left);
  if (left_wall && right_wall)
    w.say("Trim the spare {} at each side tight to the walls.", spare);
  else if (left_wall)
    w.say("Trim the spare {} at each side tight to the left wall and right skirt.", spare);
  else if (right_wall)
    w.say("Trim the spare {} at each side tight to the left skirt and right wall.", spare);
  else
    w.say("Trim the spare {} at each side tight to the skirts.", spare);
}

void finish_closed_sides(Work& w) {
  const Piece& p = w.piece();
  w.add(seal_trimmed(w.reader, construction_of(w.plan, p)));
  const Step& s = w.planned.steps.front();
  if (s.left.closed() && s.right.closed() && p.trim_left == p.trim_right)
    trim_both_sides(w, s.left.kind == SideKind::wall, s.right.kind == SideKind::wall);
  else
    for (int side = 0; side < 2; ++side) {
      const Side& this_side = side ? s.right : s.left;
      if (!this_side.closed()) continue;
      const auto hand = side ? w.reader.say("right") : w.reader.say("left");
      const auto spare = w.size(side ? p.trim_right : p.trim_left);
      if (this_side.kind == SideKind::wall)
        w.say("On the {} trim the spare {} tight to the wall.", hand, spare);
      else
        w.say("On the {} trim the spare {} tight to the skirt.", hand, spare);
    }
}

void finish_back(Work& w) {
  const Step& top = w.planned.steps.front();
  if (top.landing()) {
    w.say("Stretch it over the landing, onto the pins all round. Trim to the walls with {} and tuck "
          "the edge in behind the strip. A riser that starts on the landing: trim to its face.",
          w.reader.say(kTrimming));
    return;
  }
  if (top.landing_edge) {
    seam_top(w);
    return;
  }
  w.say("Behind step {} trim the back with {}, leaving {}, and tuck that in behind the strip.", top.number,
        w.reader.say(kTrimming), w.size(w.allow().tuck_back));
}

// common practice, no source
void close_open_ends(Work& w) {
  if (!w.has(LineRole::hem)) w.care(kGlue); // else said where the hem is glued
  w.say("At {} fold the carpet down over the tread's end and under its lip, and glue it there.",
        open_ends(w));
  if (w.has_seam("front corner"))
    w.say("Front corner: end's edge to front's edge, they are equally long. Glue, close the mitre under the "
          "lip, one "
          "staple; part the pile.");
  if (w.has_seam("free back"))
    w.say("Back, beside the riser above: fold it down over the board's back edge and under, as far as the "
          "slit. "
          "Its corner with the end: edge to edge, glue, one staple; part the pile.");
  if (w.has_seam("back corner"))
    w.say("Back corner, like an envelope: top tab in, bottom tab in, the end's tab over both. Glue, hold "
          "until it "
          "sets, one staple; part the pile.");
}

/// A tread without risers. All of it: common practice, no source, but for the parted pile (CRI 105 §17.2).
void open_riser_order(Work& w) {
  const Step& step = w.planned.steps.front();
  check_piece(w);
  if (const Fixings* f = fixings_of(w.plan, w.piece(), step.number); f && !f->pad.outline.empty())
    w.say("Cut the pad {} by {}. Lay it on the tread and over its front and back edges, flush with "
          "the underside; staple every {}.",
          w.size(f->pad.width), w.size(f->pad.length), w.size(w.plan.job.supplies.staple_spacing));
  if (any_open(w)) {
    w.add(seal_before_small_cuts(w.reader, construction_of(w.plan, w.piece())), true);
    w.care(kBlade);
    w.say("Cut the flap at {} along the heavy lines.", open_ends(w));
  }
  w.say_all(cut_round_uprights(w.reader, w.piece(), any_open(w)));
  w.care(kKnees);
  w.say(
      "Lay the piece on the tread, folds over the front and back edges, pile toward the foot of the stair.");
  w.say("Wrap it under from the back first and staple it every {} along the seam's line underneath, "
        "{} from the back edge; part the pile at each staple.",
        w.size(w.plan.job.supplies.staple_spacing),
        w.size(from_mm(step.going.mm() - underneath_seam_y(step))));
  w.say("Draw the front round the nosing, taut. Overlap it on the back's edge underneath, cut through both, "
        "take "
        "out the spare, seal both edges, and staple them edge to edge.");
  w.say_all(close_round_uprights(w.reader, w.piece(), w.size(w.plan.job.supplies.staple_spacing)));
  finish_closed_sides(w);
  if (any_open(w))
    w.say("At {} fold the flap down. Its edges are as long as those round the end: glue, edge to "
          "edge, front and back first, then underneath. One staple at each corner; part the pile.",
          open_ends(w));
  last_look(w);
}

bool patterned(const Work& w) {
  const auto& carpets = w.plan.job.carpets;
  return std::any_of(carpets.begin(), carpets.end(),
                     [&](const Carpet& c) { return c.id == w.piece().carpet && c.pattern; });
}

/// The floor's pieces that meet this one in a seam.
std::string beside(const Work& w) {
  const Piece& here = w.piece();
  const auto reach = [](const Piece& p) {
    const FlatPoint a = p.net_origin;
    return std::array{a.u, a.u + p.net_width.mm(), a.v, a.v + p.net_length.mm()};
  };
  const auto [left, right, back, front] = reach(here);
  std::string ids;
  for (const auto& [p, steps, proof] : w.plan.pieces) {
    if (p.id == here.id || p.stair_index != here.stair_index || p.floor_index != here.floor_index) continue;
    const auto [l, r, b, f] = reach(p);
    constexpr double kNear = 1; // mm
    if (l < right + kNear && left < r + kNear && b < front + kNear && back < f + kNear)
      ids += (ids.empty() ? "" : ", ") + p.id;
  }
  return ids;
}

/// CRI 105 §10.3.1: adhesive at least 2 3/4 in wide; the iron runs with the pile; ventilate. That both edges
/// are cut at once: common practice, no source.
void seam_breadth(Work& w) {
  const Piece& p = w.piece();
  const FloorPart& part = *p.breadth;
  const Length lap = (part.seam_left ? p.trim_left : part.seam_right ? p.trim_right : p.trim_back) * 2;
  if (patterned(w)) w.say("Match the pattern along the whole seam before you cut it.");
  w.care(kBlade);
  if (lap > Length{})
    w.say("Lap it {} over {}, and cut both at once along the seam. Seal both edges.", w.size(lap), beside(w));
  else
    w.say("Butt it to {}, roll edge to roll edge. Seal both edges.", beside(w));
  w.care("The seam iron burns and fumes: gloves, heat shield, open window.");
  w.say("Lay seam tape under the seam, its adhesive {} wide or more. Run the iron with the pile, and let it "
        "cool before you stretch.",
        w.size(inches(2, 3, 4)));
}

/// Common practice, no source.
void cut_out_openings(Work& w) {
  std::vector<std::string> names;
  for (const auto& opening : w.piece().openings)
    if (std::find(names.begin(), names.end(), opening.what) == names.end()) names.push_back(opening.what);
  if (names.empty()) return;
  w.care("Cover or rail off a stairwell before you work near it: you go backwards, on your knees.");
  w.care(kBlade);
  w.say("Cut out for {}, as drawn, but {} smaller on every side; that much is trimmed in place. Where it "
        "stands up, slit on from it to the nearest edge, and seal the slit as a seam.",
        w.reader.list(names), w.size(w.allow().floor_trim));
}

void floor_order(Work& w) {
  const Piece& p = w.piece();
  w.say("Take the piece marked {}: {} across, {} along the pile. Lay it with the pile toward the stair "
        "below, as the arrow shows.",
        p.id, w.size(p.cut_width), w.size(p.cut_length));
  w.add(seal_from_the_roll(w.reader, construction_of(w.plan, p)));
  // CRI 105 §11.1: the gully at a wall, nails, doors.
  w.say("Nail strip along the walls, pins toward the wall, two nails or more in each; none across door "
        "openings. Leave "
        "a gully a little less than the carpet is thick.");
  if (w.plan.job.cushion.thickness > Length{})
    // CRI 105 §13.1
    w.say("Lay the pad up to the strip, its joins square to any carpet seam or {} away from it.",
          w.size(inches(6)));
  cut_out_openings(w);
  if (p.breadth) seam_breadth(w);
  w.care(kKnees);
  // CRI 105 older ed. §16.5
  if (p.breadth)
    w.say("When all of the floor is seamed, stretch it about 1 % each way where the maker says nothing.");
  else
    w.say("Stretch it about 1 % each way where the maker says nothing: {} across, {} along.",
          w.size(Length{p.net_width.ticks / 100}), w.size(Length{p.net_length.ticks / 100}));
  w.care(kBlade);
  w.care(kWood);
  w.add(seal_trimmed(w.reader, construction_of(w.plan, p)));
  w.say("Trim the spare {} at the edges with {}, and tuck the edge.", w.size(w.allow().floor_trim),
        w.reader.say(kTrimming));
  const auto& stair = w.plan.job.stairs.at(static_cast<std::size_t>(p.stair_index));
  if (!stair.flights.empty())
    w.say("Where it meets the landing edge of a flight, trim to the seam and join it as that piece's sheet "
          "says.");
  w.care(kLoose);
  w.say("Look it over: no raw edge, pile toward the stair.");
}

} // namespace

std::vector<Instruction> working_order(const Plan& plan, const PlannedPiece& planned) {
  Work w{plan, planned, plan.job.reader()};
  const Flight* flight = flight_of(plan, planned.piece);
  if (!flight || planned.steps.empty()) {
    floor_order(w);
    return w.out;
  }
  if (planned.piece.runner) {
    runner_order(w, *flight);
    return w.out;
  }
  if (planned.steps.front().open_riser) {
    open_riser_order(w);
    return w.out;
  }
  if (planned.steps.front().starter) {
    starter_order(w);
    return w.out;
  }
  check_piece(w);
  tell_out_of_level(w);
  fix_strips(w);
  lay_pad(w);
  if (any_open(w))
    cut_open_ends(w);
  else
    w.say_all(cut_round_uprights(w.reader, w.piece(), false));
  lay_in_place(w);
  if (flight->style == CoverStyle::waterfall)
    hang_waterfall(w);
  else
    hang_wrapped(w);
  w.say_all(close_round_uprights(w.reader, w.piece(), w.size(w.plan.job.supplies.staple_spacing)));
  if (!any_open(w) && w.piece().openings.empty()) w.care(kBlade);
  if (!planned.steps.front().landing()) finish_closed_sides(w);
  finish_back(w);
  if (any_open(w)) close_open_ends(w);
  last_look(w);
  return w.out;
}

} // namespace treadfold
