#include "sheets/working_order.h"

#include "cover/open_riser.h"
#include "sheets/fixing_view.h"
#include "sheets/upright_order.h"

#include <algorithm>
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

/// What the sentences are made from.
struct Work {
  const Plan& plan;
  const PlannedPiece& planned;
  std::vector<Instruction> out;

  const Piece& piece() const { return planned.piece; }
  std::string size(Length x) const { return show_length(x, plan.job.unit); }
  const Allowances& allow() const { return plan.job.allowances; }
  void say(std::string text) { out.push_back({std::move(text), false}); }
  void say_all(const std::vector<Instruction>& more) { out.insert(out.end(), more.begin(), more.end()); }
  void care(std::string text) { out.push_back({std::move(text), true}); }
  bool has(LineRole role) const {
    return std::any_of(piece().lines.begin(), piece().lines.end(),
                       [&](const FlatLine& l) { return l.role == role; });
  }
  bool has_seam(const char* name) const {
    return std::any_of(piece().seams.begin(), piece().seams.end(),
                       [&](const Seam& s) { return s.name.starts_with(name); });
  }
};

std::string sides(bool left, bool right) {
  return left && right ? "both ends" : left ? "the left end" : "the right end";
}
bool open_left(const Work& w) { return !w.planned.steps.front().left.closed(); }
bool open_right(const Work& w) { return !w.planned.steps.front().right.closed(); }
bool any_open(const Work& w) { return open_left(w) || open_right(w); }

bool has_strip(const Work& w, StripPlace place) {
  return std::any_of(w.planned.steps.begin(), w.planned.steps.end(), [&](const Step& step) {
    const Fixings* f = fixings_of(w.plan, w.piece(), step.number);
    return f && std::any_of(f->strips.begin(), f->strips.end(),
                            [&](const StripPiece& s) { return s.place == place; });
  });
}
bool any_strip(const Work& w) { return has_strip(w, StripPlace::tread) || has_strip(w, StripPlace::riser); }

/// "steps 4, 5 and 6" or "step 4", lowest first.
std::string names(std::vector<int> steps) {
  std::sort(steps.begin(), steps.end());
  std::string text = steps.size() == 1 ? "step " : "steps ";
  for (std::size_t i = 0; i < steps.size(); ++i)
    text += (i == 0 ? "" : i + 1 == steps.size() ? " and " : ", ") + fmt::format("{}", steps[i]);
  return text;
}

std::string below(const Work& w) {
  return w.planned.steps.back().number == 1 ? "the floor" : "the tread below";
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

/// One sentence for each different strip or pad, naming its steps when they are not all alike.
template <typename Tell>
void for_alike_steps(Work& w, Tell tell) {
  std::vector<std::pair<std::string, std::vector<int>>> told;
  for (auto step = w.planned.steps.rbegin(); step != w.planned.steps.rend(); ++step) {
    const Fixings* f = fixings_of(w.plan, w.piece(), step->number);
    const std::string text = f ? tell(*step, *f) : std::string();
    if (text.empty()) continue;
    const auto same = std::find_if(told.begin(), told.end(), [&](auto& t) { return t.first == text; });
    if (same != told.end())
      same->second.push_back(step->number);
    else
      told.push_back({text, {step->number}});
  }
  for (const auto& [text, steps] : told)
    w.say(w.planned.steps.size() > 1 ? capital(names(steps)) + ": " + text : capital(text));
}

std::string end_angles(const StripPiece& s) {
  const auto left = end_cut(s.left_angle_deg), right = end_cut(s.right_angle_deg);
  if (!left.empty() && left == right) return " Cut both its ends at " + left + ".";
  std::string text;
  if (!left.empty()) text += " Cut its left end at " + left + ".";
  if (!right.empty()) text += " Cut its right end at " + right + ".";
  return text;
}

void check_piece(Work& w) {
  const Piece& p = w.piece();
  w.say(fmt::format(
      "Take the piece marked {}: {} across, {} along the pile. Stroke it: the pile must lie down the "
      "stair, as the arrow shows.",
      p.id, w.size(p.cut_width), w.size(p.cut_length)));
}

void fix_strips(Work& w) {
  for (const StripPlace place : {StripPlace::tread, StripPlace::riser})
    for_alike_steps(w, [&](const Step&, const Fixings& f) {
      std::string text;
      for (const auto& s : f.strips) {
        if (s.place != place) continue;
        if (!text.empty()) text += " ";
        // CRI 105 §17.2: tread pins point to the riser, riser pins down. §11.1: at least two nails a piece.
        if (place == StripPlace::tread)
          text +=
              fmt::format("nail the tread strip, {}, {} in front of the riser behind, pins toward it; two "
                          "nails or more.",
                          w.size(s.length()), w.size(s.set_off));
        else
          text += fmt::format("nail the riser strip, {}, {} above {}, pins down.", w.size(s.length()),
                              w.size(s.set_off), w.planned.steps.size() > 1 ? "what lies below" : below(w));
        text += end_angles(s);
      }
      // common practice, no source: the riser strip stops back so that the hem lies flat.
      if (place == StripPlace::riser && !text.empty() && any_open(w))
        text += fmt::format(" It stops {} short of {}, so that the hem lies flat.",
                            w.size(w.allow().strip_stop), sides(open_left(w), open_right(w)));
      return text;
    });
}

void lay_pad(Work& w) {
  for_alike_steps(w, [&](const Step& step, const Fixings& f) {
    if (f.pad.outline.empty()) return std::string();
    // CRI 105 §17.1: the cushion goes over the nose. Staples 3-4 in apart: docs/sources.md.
    std::string text =
        fmt::format("cut the pad {} by {}. Butt it to {}, bring it over the nosing, staple every {}.",
                    w.size(f.pad.width), w.size(f.pad.length),
                    step.landing_edge ? "the landing's pad" : "the tread strip",
                    w.size(w.plan.job.supplies.staple_spacing));
    if (!f.pad.holes.empty()) text += " Cut it out round the uprights.";
    // common practice, no source: pad cut on a line from the nosing's corner to the strip.
    if (any_open(w) && !step.landing_edge)
      text += fmt::format(" At {} cut it from the nosing's corner to the strip's end.",
                          sides(open_left(w), open_right(w)));
    return text;
  });
}

// common practice, no source
constexpr const char* kBlade = "Fresh blade. Cut away from your body, the other hand behind it.";
constexpr const char* kWood = "Seat the carpet on the pins with a wooden handle, never steel.";
constexpr const char* kTrimming = "the trimming knife at about 45° in the gully";
constexpr const char* kLoose = "Loose edges trip people. Leave none, not for one night.";
// NIOSH 90-104 and HETA 82-065-1664
constexpr const char* kKnees = "Knees: pads on, change hands, and a power stretcher, not blows of the knee.";

/// Everything cut and sealed before the piece goes on the step. All of it: common practice, no source.
void cut_open_ends(Work& w) {
  const std::string where = sides(open_left(w), open_right(w));
  w.say(
      "Mark the lines of the drawing. It shows the pile side: on the backing, left and right change places.");
  w.care("Seal the raw backing with latex before the small cuts, and let it dry: small tabs fray.");
  w.care(kBlade);
  w.say(w.planned.steps.front().landing_edge
            ? "Cut along the heavy lines only. Leave the foot long to tuck, the back long for the seam."
            : "Cut along the heavy lines only. Leave the back and the foot long to tuck.");
  if (w.has_seam("back corner"))
    w.say(fmt::format(
        "At {}: slit behind the riser and cut the back corner to its W, a tab at each side and one "
        "between. Set the middle off by {}, so that the thick folds can close.",
        where, w.size(w.allow().relief)));
  if (w.has_seam("front corner"))
    w.say(fmt::format("At {}: cut out the front corner and the mitre under the lip.", where));
  if (w.has(LineRole::hem))
    w.say(fmt::format("Below it leave {} beside the riser's end for the hem, its top cut at 45°.",
                      w.size(w.allow().hem)));
  w.say_all(cut_round_uprights(w.piece(), true));
  w.say("Run a thin bead of latex along every cut edge.");
  w.care("Hot glue burns and fumes: gloves, heat shield, open window.");
  if (w.has(LineRole::hem))
    w.say(fmt::format("Fold the {} hem under itself along the riser's end and glue it.",
                      w.size(w.allow().hem)));
}

/// Where it lies across the stair must be settled before anything holds it.
void lay_in_place(Work& w) {
  const Piece& p = w.piece();
  if (any_open(w)) {
    std::string text = fmt::format("Lay it in place before anything holds it: at {} set the fold over the "
                                   "tread's end on the wood's edge.",
                                   sides(open_left(w), open_right(w)));
    if (!(open_left(w) && open_right(w)))
      text += fmt::format(" The other side then has {} to spare.",
                          w.size(open_left(w) ? p.trim_right : p.trim_left));
    w.say(text);
  } else if (p.trim_left == p.trim_right) {
    w.say(fmt::format("Lay it in place before anything holds it: centred, {} to spare at each side.",
                      w.size(p.trim_left)));
  } else {
    w.say(fmt::format("Lay it in place before anything holds it: {} to spare at the left, {} at the right.",
                      w.size(p.trim_left), w.size(p.trim_right)));
  }
}

void climb(Work& w) {
  if (w.planned.steps.size() > 1)
    w.say(fmt::format("Go up a step at a time. In each crotch push the fold {} deep into the gully with a "
                      "stair tool before you go on up.",
                      w.size(w.allow().crease)));
}

/// Over the nosing of the highest step, or of each in turn.
void over_the_nosing(Work& w, const char* how) {
  const bool landing = w.planned.steps.front().landing_edge;
  std::string to = has_strip(w, StripPlace::tread) ? "onto the pins of the tread strip" : "";
  if (landing) to += to.empty() ? "onto the landing" : ", at the top onto the landing";
  w.say(fmt::format("{}, taut{}.", how, to.empty() ? to : ", " + to));
}

void hang_waterfall(Work& w) {
  if (any_strip(w)) w.care(kWood);
  w.say(fmt::format("At the foot of step {} {}tuck its last {} into the gully at {}.",
                    w.planned.steps.back().number,
                    has_strip(w, StripPlace::riser) ? "press the carpet on the riser strip and " : "",
                    w.size(w.allow().tuck_foot), below(w)));
  w.care(kKnees);
  climb(w);
  over_the_nosing(w, "Draw it straight up to the nosing and over it");
}

void hang_wrapped(Work& w) {
  const std::string spacing = w.size(w.plan.job.supplies.staple_spacing);
  // CRI 105 §17.2: no riser strip for wrapped steps; part the pile when stapling.
  w.say(fmt::format(
      "No strip on the riser. At the foot of step {} staple every {} in the crotch at {}; part the "
      "pile at each staple.",
      w.planned.steps.back().number, spacing, below(w)));
  w.care(kKnees);
  climb(w);
  w.say(fmt::format("Draw it up the riser and staple it every {} tight under the nosing; part the pile.",
                    spacing));
  if (any_strip(w)) w.care(kWood);
  over_the_nosing(w, "Bring it round the nosing");
}

void finish_closed_sides(Work& w) {
  const Piece& p = w.piece();
  const Step& s = w.planned.steps.front();
  const auto against = [](const Side& side) { return side.kind == SideKind::wall ? "wall" : "skirt"; };
  if (s.left.closed() && s.right.closed() && p.trim_left == p.trim_right)
    w.say(fmt::format("Trim the spare {} at each side tight to the {}.", w.size(p.trim_left),
                      s.left.kind == s.right.kind
                          ? against(s.left) + std::string("s")
                          : "left " + std::string(against(s.left)) + " and right " + against(s.right)));
  else
    for (int side = 0; side < 2; ++side) {
      const Side& this_side = side ? s.right : s.left;
      if (!this_side.closed()) continue;
      w.say(fmt::format("On the {} trim the spare {} tight to the {}.", side ? "right" : "left",
                        w.size(side ? p.trim_right : p.trim_left), against(this_side)));
    }
}

void finish_back(Work& w) {
  const Step& top = w.planned.steps.front();
  if (top.landing()) {
    w.say(fmt::format(
        "Stretch it over the landing, onto the pins all round. Trim to the walls with {} and tuck "
        "the edge in behind the strip. A riser that starts on the landing: trim to its face.",
        kTrimming));
    return;
  }
  if (top.landing_edge) {
    const Fixings* f = fixings_of(w.plan, w.piece(), top.number);
    // CRI 105 §10.3.1: adhesive at least 2 3/4 in wide; the iron runs with the pile; ventilate.
    w.care("The seam iron burns and fumes: gloves, heat shield, open window.");
    w.say(fmt::format(
        "Join the back edge to the landing's carpet: seal both edges, {} of seam tape, its adhesive {} "
        "wide or more. Run the iron with the pile.",
        w.size(f && f->seam_tape > Length{} ? f->seam_tape : w.piece().net_width), w.size(inches(2, 3, 4))));
    return;
  }
  w.say(fmt::format("Behind step {} trim the back with {}, leaving {}, and tuck that in behind the strip.",
                    top.number, kTrimming, w.size(w.allow().tuck_back)));
}

// common practice, no source
void close_open_ends(Work& w) {
  w.say(fmt::format("At {} fold the carpet down over the tread's end and under its lip, and glue it there.",
                    sides(open_left(w), open_right(w))));
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

void last_look(Work& w) {
  w.care(kLoose);
  w.say("Look it over: no raw edge, seams closed, pile down the stair.");
}

/// A tread without risers. All of it: common practice, no source, but for the parted pile (CRI 105 §17.2).
void open_riser_order(Work& w) {
  const Step& step = w.planned.steps.front();
  check_piece(w);
  if (const Fixings* f = fixings_of(w.plan, w.piece(), step.number); f && !f->pad.outline.empty())
    w.say(
        fmt::format("Cut the pad {} by {}. Lay it on the tread and over its front and back edges, flush with "
                    "the underside; staple every {}.",
                    w.size(f->pad.width), w.size(f->pad.length), w.size(w.plan.job.supplies.staple_spacing)));
  if (any_open(w)) {
    w.care("Seal the raw backing with latex before the small cuts, and let it dry.");
    w.care(kBlade);
    w.say(fmt::format("Cut the flap at {} along the heavy lines.", sides(open_left(w), open_right(w))));
  }
  w.say_all(cut_round_uprights(w.piece(), any_open(w)));
  w.care(kKnees);
  w.say(
      "Lay the piece on the tread, folds over the front and back edges, pile toward the foot of the stair.");
  w.say(fmt::format(
      "Wrap it under from the back first and staple it every {} along the seam's line underneath, "
      "{} from the back edge; part the pile at each staple.",
      w.size(w.plan.job.supplies.staple_spacing),
      w.size(from_mm(step.going.mm() - underneath_seam_y(step)))));
  w.say("Draw the front round the nosing, taut. Overlap it on the back's edge underneath, cut through both, "
        "take "
        "out the spare, seal both edges, and staple them edge to edge.");
  w.say_all(close_round_uprights(w.piece(), w.size(w.plan.job.supplies.staple_spacing)));
  finish_closed_sides(w);
  if (any_open(w))
    w.say(
        fmt::format("At {} fold the flap down. Its edges are as long as those round the end: glue, edge to "
                    "edge, front and back first, then underneath. One staple at each corner; part the pile.",
                    sides(open_left(w), open_right(w))));
  last_look(w);
}

void floor_order(Work& w) {
  const Piece& p = w.piece();
  w.say(fmt::format(
      "Take the piece marked {}: {} across, {} along the pile. Lay it with the pile toward the stair "
      "below, as the arrow shows.",
      p.id, w.size(p.cut_width), w.size(p.cut_length)));
  // CRI 105 §11.1: the gully at a wall, nails, doors.
  w.say("Nail strip along the walls, pins toward the wall, two nails or more in each; none across door "
        "openings. Leave "
        "a gully a little less than the carpet is thick.");
  if (w.plan.job.cushion.thickness > Length{})
    // CRI 105 §13.1
    w.say(fmt::format("Lay the pad up to the strip, its joins square to any carpet seam or {} away from it.",
                      w.size(inches(6))));
  w.care(kKnees);
  // CRI 105 older ed. §16.5
  w.say(fmt::format("Stretch it about 1 % each way where the maker says nothing: {} across, {} along.",
                    w.size(Length{p.net_width.ticks / 100}), w.size(Length{p.net_length.ticks / 100})));
  w.care(kBlade);
  w.care(kWood);
  w.say(fmt::format("Trim the spare {} at the edges with {}, and tuck the edge.",
                    w.size(w.allow().floor_trim), kTrimming));
  const auto& stair = w.plan.job.stairs.at(static_cast<std::size_t>(p.stair_index));
  if (!stair.flights.empty())
    w.say("Where it meets the landing edge of a flight, trim to the seam and join it as that piece's sheet "
          "says.");
  w.care(kLoose);
  w.say("Look it over: no raw edge, pile toward the stair.");
}

} // namespace

std::vector<Instruction> working_order(const Plan& plan, const PlannedPiece& planned) {
  Work w{plan, planned, {}};
  const Flight* flight = flight_of(plan, planned.piece);
  if (!flight || planned.steps.empty()) {
    floor_order(w);
    return w.out;
  }
  if (planned.steps.front().open_riser) {
    open_riser_order(w);
    return w.out;
  }
  check_piece(w);
  fix_strips(w);
  lay_pad(w);
  if (any_open(w))
    cut_open_ends(w);
  else
    w.say_all(cut_round_uprights(w.piece(), false));
  lay_in_place(w);
  if (flight->style == CoverStyle::waterfall)
    hang_waterfall(w);
  else
    hang_wrapped(w);
  w.say_all(close_round_uprights(w.piece(), w.size(w.plan.job.supplies.staple_spacing)));
  if (!any_open(w) && w.piece().openings.empty()) w.care(kBlade);
  if (!planned.steps.front().landing()) finish_closed_sides(w);
  finish_back(w);
  if (any_open(w)) close_open_ends(w);
  last_look(w);
  return w.out;
}

} // namespace treadfold
