#include "sheets/working_order.h"

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
  void care(std::string text) { out.push_back({std::move(text), true}); }
  bool has(LineRole role) const {
    return std::any_of(piece().lines.begin(), piece().lines.end(),
                       [&](const FlatLine& l) { return l.role == role; });
  }
};

std::string sides(bool left, bool right) {
  return left && right ? "both ends" : left ? "the left end" : "the right end";
}
bool open_left(const Work& w) { return !w.planned.steps.front().left.closed(); }
bool open_right(const Work& w) { return !w.planned.steps.front().right.closed(); }
bool any_open(const Work& w) { return open_left(w) || open_right(w); }

/// "steps 4, 5 and 6" or "step 4", lowest first.
std::string names(std::vector<int> steps) {
  std::sort(steps.begin(), steps.end());
  std::string text = steps.size() == 1 ? "step " : "steps ";
  for (std::size_t i = 0; i < steps.size(); ++i)
    text += (i == 0 ? "" : i + 1 == steps.size() ? " and " : ", ") + fmt::format("{}", steps[i]);
  return text;
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
  std::string text;
  if (s.left_angle_deg < 90) text += fmt::format(" Cut its left end at {:.0f}°.", s.left_angle_deg);
  if (s.right_angle_deg < 90) text += fmt::format(" Cut its right end at {:.0f}°.", s.right_angle_deg);
  return text;
}

void check_piece(Work& w) {
  const Piece& p = w.piece();
  w.say(
      fmt::format("Take the piece marked {}: {} across, {} along the pile. Stroke it: the pile must lie the "
                  "way of the arrow, down the stair.",
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
          text += fmt::format("nail the tread strip, {} long, {} in front of the riser behind, pins toward "
                              "that riser. Two nails or more.",
                              w.size(s.length()), w.size(s.set_off));
        else
          text += fmt::format("nail the riser strip, {} long, {} above the tread or floor below, pins down.",
                              w.size(s.length()), w.size(s.set_off));
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
  for_alike_steps(w, [&](const Step&, const Fixings& f) {
    if (f.pad.outline.empty()) return std::string();
    // CRI 105 §17.1: the cushion goes over the nose. Staples 3-4 in apart: FACTS §2.
    std::string text =
        fmt::format("cut the pad {} by {}. Butt it to the tread strip, bring it over the nosing, staple it "
                    "every {}.",
                    w.size(f.pad.width), w.size(f.pad.length), w.size(w.plan.job.supplies.staple_spacing));
    // common practice, no source: pad cut on a line from the nosing's corner to the strip.
    if (any_open(w))
      text += fmt::format(" At {} cut it on the line from the nosing's corner to the strip.",
                          sides(open_left(w), open_right(w)));
    return text;
  });
}

/// Everything cut and sealed before the piece goes on the step. All of it: common practice, no source.
void cut_open_ends(Work& w) {
  const std::string where = sides(open_left(w), open_right(w));
  w.say(
      "Mark the lines of the drawing. It shows the pile side: on the backing, left and right change places.");
  w.care("Seal the raw backing with latex where the small cuts come, and let it dry. Small tabs fray.");
  w.care("Put in a fresh blade. Cut away from your body, the other hand behind the blade.");
  w.say(fmt::format("At {}: cut the back corner to its W, two tabs and a point between them. Take the middle "
                    "{} deeper, so that the bent backing has room.",
                    where, w.size(w.allow().relief)));
  w.say(fmt::format("At {}: cut out the front corner and its mitre below the lip.", where));
  if (w.has(LineRole::hem))
    w.say(fmt::format("Cut down beside the riser's end, leaving {} for the hem. Cut the hem's top at 45°.",
                      w.size(w.allow().hem)));
  w.say("Run a thin bead of latex along every cut edge.");
  w.care("Hot glue burns: gloves on, the heat shield under the iron or gun, a window open.");
  if (w.has(LineRole::hem))
    w.say(fmt::format("Fold the hem, {}, under itself and glue it down along the riser's end.",
                      w.size(w.allow().hem)));
}

// common practice, no source; NIOSH 90-104 and HETA 82-065-1664 for the knees.
constexpr const char* kKnees =
    "Spare your knees: knee pads on, change hands, and a power stretcher rather than blows of the knee.";
// common practice, no source
constexpr const char* kWood = "Seat the carpet on the pins with a wooden handle, never steel.";
constexpr const char* kTrimming = "the trimming knife held at about 45° in the gully";

std::string below(const Work& w) {
  return w.planned.steps.back().number == 1 ? "the floor" : "the tread below";
}

void hang_waterfall(Work& w) {
  w.care(kWood);
  w.say(fmt::format(
      "Start at the foot of step {}. Press the carpet on the riser strip and tuck its last {} into "
      "the gully at {}.",
      w.planned.steps.back().number, w.size(w.allow().tuck_foot), below(w)));
  w.care(kKnees);
  if (w.planned.steps.size() == 1) {
    if (!w.planned.steps.front().landing_edge)
      w.say(
          "Draw it up straight to the nosing and over it, taut, and set it on the pins of the tread strip.");
    else
      w.say("Draw it up straight to the nosing and over it, taut, onto the landing.");
    return;
  }
  w.say("Go up a step at a time. Draw the carpet up straight to the nosing and over it, taut, and set it on "
        "the "
        "pins of the tread strip.");
  w.say(fmt::format(
      "In each crotch push the fold {} deep into the gully with a stair tool, before you go on to "
      "the next step.",
      w.size(w.allow().crease)));
}

void hang_wrapped(Work& w) {
  const std::string spacing = w.size(w.plan.job.supplies.staple_spacing);
  // CRI 105 §17.2: no riser strip for wrapped steps; part the pile when stapling.
  w.say(fmt::format(
      "No strip on the riser. Start at the foot of step {}: staple the carpet every {} in the crotch "
      "at {}, parting the pile at each staple.",
      w.planned.steps.back().number, spacing, below(w)));
  w.care(kKnees);
  w.say(fmt::format("Draw it up the riser{} and staple it every {} tight under the nosing, parting the pile.",
                    w.planned.steps.size() > 1 ? ", one step at a time," : "", spacing));
  w.care(kWood);
  const bool tread = !w.planned.steps.front().landing_edge || w.planned.steps.size() > 1;
  w.say(tread ? "Bring it round the nosing, taut, and set it on the pins of the tread strip."
              : "Bring it round the nosing, taut, onto the landing.");
  if (w.planned.steps.size() > 1)
    w.say(fmt::format(
        "In each crotch push the fold {} deep into the gully with a stair tool, before you go on to "
        "the next step.",
        w.size(w.allow().crease)));
}

void finish_closed_sides(Work& w) {
  const Piece& p = w.piece();
  const Step& s = w.planned.steps.front();
  const auto against = [](const Side& side) { return side.kind == SideKind::wall ? "wall" : "skirt"; };
  if (s.left.closed() && s.right.closed() && p.trim_left == p.trim_right)
    w.say(fmt::format(
        "Centre it: {} to spare at each side. Trim to the {} on the left and the {} on the right, "
        "tight, with no gap.",
        w.size(p.trim_left), against(s.left), against(s.right)));
  else
    for (int side = 0; side < 2; ++side) {
      const Side& this_side = side ? s.right : s.left;
      if (!this_side.closed()) continue;
      w.say(fmt::format("On the {} trim the spare {} tight to the {}, with no gap.", side ? "right" : "left",
                        w.size(side ? p.trim_right : p.trim_left), against(this_side)));
    }
}

void finish_back(Work& w) {
  if (w.planned.steps.front().landing_edge) {
    const Fixings* f = fixings_of(w.plan, w.piece(), w.planned.steps.front().number);
    // CRI 105 §10.3.1: adhesive at least 2 3/4 in wide; the iron runs with the pile; ventilate.
    w.care("The seam iron is hot and its fumes need air: gloves, heat shield, an open window.");
    w.say(
        fmt::format("Join the back edge to the landing's carpet: seal both edges, then {} of seam tape, its "
                    "adhesive {} wide or more. Run the iron with the pile.",
                    f && f->seam_tape > Length{} ? w.size(f->seam_tape) : w.size(w.piece().net_width),
                    w.size(inches(2, 3, 4))));
    return;
  }
  const Step& top = w.planned.steps.front();
  w.say(fmt::format(
      "Behind step {}: cut the back to length with {}, leaving {} to tuck, and tuck it behind the "
      "strip.",
      top.number, kTrimming, w.size(w.allow().tuck_back)));
}

// common practice, no source
void close_open_ends(Work& w) {
  const std::string where = sides(open_left(w), open_right(w));
  w.say(fmt::format(
      "At {}: fold the carpet down over the tread's end and under its lip. Glue it under the lip.", where));
  w.say(
      "Front corner: bring the end's edge to the front's; they are equally long. Glue them, close the mitre "
      "below, and set one staple there.");
  w.say("Back corner, like an envelope: top tab in, bottom tab in, the point over both. Glue, hold until it "
        "sets, one staple. Part the pile first.");
}

void last_look(Work& w) {
  w.care("Loose edges trip people. Leave none, not even for a night.");
  w.say("Look it over: no raw edge shows, seams closed, pile down the stair.");
}

void floor_order(Work& w) {
  const Piece& p = w.piece();
  w.say(fmt::format(
      "Take the piece marked {}: {} across, {} along the pile. Lay it so that the pile runs the way "
      "of the arrow, toward the stair below it.",
      p.id, w.size(p.cut_width), w.size(p.cut_length)));
  // CRI 105 §11.1
  w.say("Nail strip along the walls, two nails or more in each, pins toward the wall. None across door "
        "openings. "
        "Leave a gully a little less than the carpet's thickness.");
  if (w.plan.job.cushion.thickness > Length{})
    // CRI 105 §13.1
    w.say("Lay the pad up to the strip. Turn its joints square to any carpet seam, or keep them 6\" (150 mm) "
          "away from it.");
  w.care(kKnees);
  // CRI 105 older ed. §16.5
  w.say(fmt::format("Stretch it about 1 % each way where the maker says nothing: {} across, {} along.",
                    w.size(Length{p.net_width.ticks / 100}), w.size(Length{p.net_length.ticks / 100})));
  w.care("Put in a fresh blade. Cut away from your body.");
  w.care(kWood);
  w.say(fmt::format("Trim the spare {} at the edges with {}, and tuck the edge.",
                    w.size(w.allow().floor_trim), kTrimming));
  w.care("Loose edges trip people. Leave none, not even for a night.");
  w.say("Look it over: no raw edge shows, pile down the stair.");
}

} // namespace

std::vector<Instruction> working_order(const Plan& plan, const PlannedPiece& planned) {
  Work w{plan, planned, {}};
  const Flight* flight = flight_of(plan, planned.piece);
  if (!flight || planned.steps.empty()) {
    floor_order(w);
    return w.out;
  }
  check_piece(w);
  fix_strips(w);
  lay_pad(w);
  if (any_open(w)) cut_open_ends(w);
  if (flight->style == CoverStyle::waterfall)
    hang_waterfall(w);
  else
    hang_wrapped(w);
  if (!any_open(w)) w.care("Put in a fresh blade. Cut away from your body, the other hand behind the blade.");
  finish_closed_sides(w);
  finish_back(w);
  if (any_open(w)) close_open_ends(w);
  last_look(w);
  return w.out;
}

} // namespace treadfold
