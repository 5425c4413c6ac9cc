// The working order of a curved starter: its riser band goes on first, then strip, pad and the nosing's band,
// the cap last. All of it: common practice, no source, but for the parted pile (CRI 105 §17.2).
#include "sheets/sealing.h"
#include "sheets/upright_order.h"
#include "sheets/work.h"

#include <fmt/format.h>

namespace treadfold {

namespace {

enum class StarterPiece { cap, nosing_band, riser_band };

/// In the order of hanging, the step's pieces; the plan has them from the cap down.
std::vector<const Piece*> pieces_of(const Work& w) {
  std::vector<const Piece*> pieces;
  for (const auto& planned : w.plan.pieces) {
    const auto& p = planned.piece;
    if (p.part >= 0 && p.stair_index == w.piece().stair_index && p.flight_index == w.piece().flight_index)
      pieces.insert(pieces.begin(), &p);
  }
  return pieces;
}

StarterPiece what(const Piece& piece) {
  if (!piece.hanging) return StarterPiece::cap;
  const bool at_floor = std::any_of(piece.lines.begin(), piece.lines.end(),
                                    [](const auto& l) { return l.role == LineRole::tuck; });
  return at_floor ? StarterPiece::riser_band : StarterPiece::nosing_band;
}

bool has_nosing_band(const Work& w) {
  const auto pieces = pieces_of(w);
  return std::any_of(pieces.begin(), pieces.end(),
                     [](const auto* p) { return what(*p) == StarterPiece::nosing_band; });
}

bool turns_over(const Work& w) { return w.planned.steps.front().starter->closing == StarterClosing::cuts; }

void place_among_others(Work& w) {
  const auto pieces = pieces_of(w);
  std::vector<std::string> order;
  for (const auto* piece : pieces)
    order.push_back(piece->id);
  w.say("The step has {} pieces. Hang them in this order: {}.", pieces.size(), w.reader.list(order));
}

void cut_by_template(Work& w, const std::string& lines) {
  w.say("Lay the full-size template of {} on the backing, its pile arrow with the pile; "
        "mark {}.",
        w.piece().id, lines);
  w.care("Seal the raw backing with latex along the marks, and let it dry.");
  w.care(kBlade);
  w.say("Cut along the heavy lines. Leave long what is marked to tuck or trim.");
  if (const auto& relief = w.piece().relief)
    w.say("Cut the {} relief cuts, each a narrow V {} deep, to its point and no deeper.", relief->count,
          w.size(from_mm(relief->depth_mm)));
}

/// Strip and pad must be on before the carpet that goes over them.
void strip_and_pad(Work& w) {
  fix_strips(w);
  const auto before = w.out.size();
  lay_pad(w);
  if (w.out.size() > before)
    w.say("Slit the pad's edge about every {} round the curve, so that it lies flat over the nosing.",
          w.size(w.plan.job.unit == LengthUnit::inch ? inches(2) : millimetres(50)));
}

std::string every(const Work& w) { return w.size(w.plan.job.supplies.staple_spacing); }

/// Where no flat piece lies smoothly it says by how much.
void ease_in(Work& w) {
  const double strain = w.planned.proof.worst_strain;
  if (strain >= 0.001)
    w.say("Round the curve it must give by {:.1f} % of its length ({}): ease it in evenly, do not stretch "
          "it.",
          100 * strain, w.reader.said(w.planned.proof.worst_strain_at));
}

void trim_ends(Work& w) {
  w.add(seal_trimmed(w.reader, construction_of(w.plan, w.piece())));
  w.say("Trim the spare at the ends, {} at the left and {} at the right, tight to wall or stringer.",
        w.size(w.piece().trim_left), w.size(w.piece().trim_right));
}

void hang_riser_band(Work& w) {
  cut_by_template(w, w.reader.say("its upper edge and its foot"));
  w.care(kKnees);
  if (w.planned.steps.front().nosing.projection > Length{})
    w.say("Hold it to the riser, pile down, and work it round from the middle: not stretched sideways. "
          "Staple its upper edge every {} close up under the nosing; part the pile at each staple.",
          every(w));
  else
    w.say("Hold it to the riser, pile down, and work it round from the middle: not stretched sideways. "
          "Staple its upper edge every {} along the line marked; part the pile at each staple.",
          every(w));
  w.say("Smooth it down, staple it every {} in the crotch at the floor, and tuck the last {} or trim it "
        "to the floor.",
        every(w), w.size(w.allow().tuck_foot));
  trim_ends(w);
}

void hang_nosing_band(Work& w) {
  strip_and_pad(w);
  cut_by_template(w, w.reader.say("both edges and the cuts"));
  w.care(kKnees);
  w.say("Hold it round the nosing, pile down, its upper edge on a line marked where the cap's edge will "
        "come. Work "
        "from the middle of the curve.");
  if (w.piece().relief)
    w.say("Fold its lower edge under the nosing, tooth beside tooth, none over another; staple it every {} "
          "over the "
          "riser band's edge; part the pile.",
          every(w));
  else
    w.say(
        "Fold its lower edge under the nosing; staple it every {} over the riser band's edge; part the pile.",
        every(w));
  ease_in(w);
  trim_ends(w);
}

void close_cap(Work& w) {
  if (!turns_over(w)) {
    w.care("Hot glue burns and fumes: gloves, heat shield, open window.");
    w.say("Glue the cap's edge to the band's, edge to edge over the nosing, from the middle of the curve "
          "outward; "
          "pick the pile free and hold until it sets.");
    return;
  }
  w.care("Hot glue burns and fumes: gloves, heat shield, open window.");
  w.say("From the middle of the curve outward fold the edge over the nosing{}, glue it{} and staple it "
        "every {}; part the pile.",
        w.piece().relief ? w.reader.say(", tooth beside tooth") : "",
        has_nosing_band(w) || w.planned.steps.front().nosing.projection == Length{}
            ? ""
            : w.reader.say(" underneath"),
        every(w));
}

void hang_cap(Work& w) {
  if (!has_nosing_band(w)) strip_and_pad(w);
  cut_by_template(w, w.reader.say("its edge, the slit at the stringer and all cuts"));
  w.say_all(cut_round_uprights(w.reader, w.piece(), true));
  w.say("Run a thin bead of latex along every cut edge.");
  w.say("Lay it on the tread, pile toward the foot of the stair, its edge to the curve all round.");
  close_cap(w);
  ease_in(w);
  w.care(kWood);
  w.say("Stretch it back onto the pins of the tread strip. Trim the back with {}, leaving {}, and tuck that "
        "in behind the strip.",
        w.reader.say(kTrimming), w.size(w.allow().tuck_back));
  w.say_all(close_round_uprights(w.reader, w.piece(), every(w)));
  trim_ends(w);
}

} // namespace

void starter_order(Work& w) {
  check_piece(w);
  place_among_others(w);
  switch (what(w.piece())) {
  case StarterPiece::cap:
    hang_cap(w);
    break;
  case StarterPiece::nosing_band:
    hang_nosing_band(w);
    break;
  case StarterPiece::riser_band:
    hang_riser_band(w);
    break;
  }
  last_look(w);
}

} // namespace treadfold
