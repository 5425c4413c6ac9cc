#include "sheets/work.h"

#include "sheets/fixing_view.h"
#include "sheets/sealing.h"

#include <fmt/format.h>

namespace treadfold {

std::string sides(bool left, bool right) {
  return left && right ? "both ends" : left ? "the left end" : "the right end";
}
bool open_left(const Work& w) { return !w.piece().runner && !w.planned.steps.front().left.closed(); }
bool open_right(const Work& w) { return !w.piece().runner && !w.planned.steps.front().right.closed(); }
bool any_open(const Work& w) { return open_left(w) || open_right(w); }

bool has_strip(const Work& w, StripPlace place) {
  return std::any_of(w.planned.steps.begin(), w.planned.steps.end(), [&](const Step& step) {
    const Fixings* f = fixings_of(w.plan, w.piece(), step.number);
    return f && std::any_of(f->strips.begin(), f->strips.end(),
                            [&](const StripPiece& s) { return s.place == place; });
  });
}
bool any_strip(const Work& w) { return has_strip(w, StripPlace::tread) || has_strip(w, StripPlace::riser); }

std::string names(std::vector<int> steps) {
  std::sort(steps.begin(), steps.end());
  const auto count = static_cast<int>(steps.size());
  if (count > 3 && steps.back() - steps.front() + 1 == count)
    return fmt::format("steps {} to {}", steps.front(), steps.back());
  std::string text = steps.size() == 1 ? "step " : "steps ";
  for (std::size_t i = 0; i < steps.size(); ++i)
    text += (i == 0 ? "" : i + 1 == steps.size() ? " and " : ", ") + fmt::format("{}", steps[i]);
  return text;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') text[0] = static_cast<char>(text[0] - 'a' + 'A');
  return text;
}

namespace {

std::string below(const Work& w) {
  return w.planned.steps.back().number == 1 ? "the floor" : "the tread below";
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

} // namespace

void check_piece(Work& w) {
  const Piece& p = w.piece();
  w.say(fmt::format(
      "Take the piece marked {}: {} across, {} along the pile. Stroke it: the pile must lie down the "
      "stair, as the arrow shows.",
      p.id, w.size(p.cut_width), w.size(p.cut_length)));
  if (const auto seal = seal_from_the_roll(construction_of(w.plan, p)); !seal.empty()) w.say(seal);
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
        text +=
            fmt::format(" It stops {} short of {}, so that the {} lies flat.", w.size(w.allow().strip_stop),
                        sides(open_left(w), open_right(w)), w.has(LineRole::hem) ? "hem" : "bound edge");
      return text;
    });
}

void lay_pad(Work& w) {
  for_alike_steps(w, [&](const Step& step, const Fixings& f) {
    if (f.pad.outline.empty()) return std::string();
    // CRI 105 §17.1: the cushion goes over the nose. Staples 3-4 in apart: docs/sources.md.
    std::string text = fmt::format("cut the pad {} by {}. {}, bring it over the nosing, staple every {}.",
                                   w.size(f.pad.width), w.size(f.pad.length),
                                   !step.landing_edge  ? "Butt it to the tread strip"
                                   : !w.piece().runner ? "Butt it to the landing's pad"
                                                       : "Lay it on the landing's edge",
                                   w.size(w.plan.job.supplies.staple_spacing));
    if (!f.pad.holes.empty()) text += " Cut it out round the uprights.";
    // common practice, no source: pad cut on a line from the nosing's corner to the strip.
    if (any_open(w) && !step.landing_edge && !step.starter)
      text += fmt::format(" At {} cut it from the nosing's corner to the strip's end.",
                          sides(open_left(w), open_right(w)));
    return text;
  });
}

namespace {

void climb(Work& w) {
  const bool pleats = w.piece().runner && !w.piece().runner->pleats.empty();
  if (w.planned.steps.size() > 1)
    w.say(fmt::format("Go up a step at a time. In each crotch{} push the fold {} deep into the gully with a "
                      "stair tool before you go on up.",
                      pleats ? " between straight steps" : "", w.size(w.allow().crease)));
}

/// Over the nosing of the highest step, or of each in turn.
void over_the_nosing(Work& w, const char* how) {
  const bool landing = w.planned.steps.front().landing_edge;
  std::string to = has_strip(w, StripPlace::tread) ? "onto the pins of the tread strip" : "";
  if (landing) to += to.empty() ? "onto the landing" : ", at the top onto the landing";
  w.say(fmt::format("{}, taut{}.", how, to.empty() ? to : ", " + to));
}

} // namespace

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

// CRI 105 §10.3.1: adhesive at least 2 3/4 in wide; the iron runs with the pile; ventilate.
void seam_top(Work& w) {
  const Fixings* f = fixings_of(w.plan, w.piece(), w.planned.steps.front().number);
  w.care("The seam iron burns and fumes: gloves, heat shield, open window.");
  w.say(fmt::format(
      "Join the back edge to the landing's carpet: seal both edges, {} of seam tape, its adhesive {} "
      "wide or more. Run the iron with the pile.",
      w.size(f && f->seam_tape > Length{} ? f->seam_tape : w.piece().net_width), w.size(inches(2, 3, 4))));
}

void last_look(Work& w) {
  w.care(kLoose);
  w.say("Look it over: no raw edge, seams closed, pile down the stair.");
}

} // namespace treadfold
