#include "sheets/work.h"

#include "sheets/fixing_view.h"
#include "sheets/sealing.h"

#include <fmt/format.h>

namespace treadfold {

bool open_left(const Work& w) { return !w.piece().runner && !w.planned.steps.front().left.closed(); }
bool open_right(const Work& w) { return !w.piece().runner && !w.planned.steps.front().right.closed(); }
bool any_open(const Work& w) { return open_left(w) || open_right(w); }
std::string open_ends(const Work& w) {
  return open_left(w) && open_right(w) ? w.reader.say("both ends")
         : open_left(w)                ? w.reader.say("the left end")
                                       : w.reader.say("the right end");
}

bool has_strip(const Work& w, StripPlace place) {
  return std::any_of(w.planned.steps.begin(), w.planned.steps.end(), [&](const Step& step) {
    const Fixings* f = fixings_of(w.plan, w.piece(), step.number);
    return f && std::any_of(f->strips.begin(), f->strips.end(),
                            [&](const StripPiece& s) { return s.place == place; });
  });
}
bool any_strip(const Work& w) { return has_strip(w, StripPlace::tread) || has_strip(w, StripPlace::riser); }

std::string names(const Reader& reader, std::vector<int> steps) {
  std::sort(steps.begin(), steps.end());
  const auto count = static_cast<int>(steps.size());
  if (count > 3 && steps.back() - steps.front() + 1 == count)
    return reader.say("steps {} to {}", steps.front(), steps.back());
  if (count == 1) return reader.say("step {}", steps[0]);
  std::vector<std::string> numbers;
  for (const int step : steps)
    numbers.push_back(std::to_string(step));
  return reader.say("steps {}", reader.list(numbers));
}

std::string capital(std::string text) {
  constexpr char kAccented = '\xC3'; // leads à to þ in UTF-8, 32 above À to Þ
  if (text.empty()) return text;
  char& letter = text[0] == kAccented && text.size() > 1 ? text[1] : text[0];
  const bool small =
      &letter == &text[0] ? letter >= 'a' && letter <= 'z' : letter >= '\xA0' && letter <= '\xBE';
  if (small) letter = static_cast<char>(letter - 32);
  return text;
}

namespace {

std::string below(const Work& w) {
  return w.planned.steps.back().number == 1 ? w.reader.say("the floor") : w.reader.say("the tread below");
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
    w.add(w.planned.steps.size() > 1 ? capital(names(w.reader, steps)) + ": " + text : capital(text));
}

std::string end_angles(const Reader& reader, const StripPiece& s) {
  const auto left = end_cut(reader, s.left_angle_deg), right = end_cut(reader, s.right_angle_deg);
  if (!left.empty() && left == right) return " " + reader.say("Cut both its ends at {}.", left);
  std::string text;
  if (!left.empty()) text += " " + reader.say("Cut its left end at {}.", left);
  if (!right.empty()) text += " " + reader.say("Cut its right end at {}.", right);
  return text;
}

} // namespace

void check_piece(Work& w) {
  const Piece& p = w.piece();
  w.say("Take the piece marked {}: {} across, {} along the pile. Stroke it: the pile must lie down the "
        "stair, as the arrow shows.",
        p.id, w.size(p.cut_width), w.size(p.cut_length));
  w.add(seal_from_the_roll(w.reader, construction_of(w.plan, p)));
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
              w.reader.say("nail the tread strip, {}, {} in front of the riser behind, pins toward it; two "
                           "nails or more.",
                           w.size(s.length()), w.size(s.set_off));
        else
          text += w.reader.say("nail the riser strip, {}, {} above {}, pins down.", w.size(s.length()),
                               w.size(s.set_off),
                               w.planned.steps.size() > 1 ? w.reader.say("what lies below") : below(w));
        text += end_angles(w.reader, s);
      }
      // common practice, no source: the riser strip stops back so that the hem lies flat.
      if (place == StripPlace::riser && !text.empty() && any_open(w))
        text += " " + (w.has(LineRole::hem)
                           ? w.reader.say("It stops {} short of {}, so that the hem lies flat.",
                                          w.size(w.allow().strip_stop), open_ends(w))
                           : w.reader.say("It stops {} short of {}, so that the bound edge lies flat.",
                                          w.size(w.allow().strip_stop), open_ends(w)));
      return text;
    });
}

void lay_pad(Work& w) {
  for_alike_steps(w, [&](const Step& step, const Fixings& f) {
    if (f.pad.outline.empty()) return std::string();
    // CRI 105 §17.1: the cushion goes over the nose. Staples 3-4 in apart: docs/sources.md.
    const Reader& r = w.reader;
    std::string text = r.say("cut the pad {} by {}. {}, bring it over the nosing, staple every {}.",
                             w.size(f.pad.width), w.size(f.pad.length),
                             !step.landing_edge  ? r.say("Butt it to the tread strip")
                             : !w.piece().runner ? r.say("Butt it to the landing's pad")
                                                 : r.say("Lay it on the landing's edge"),
                             w.size(w.plan.job.supplies.staple_spacing));
    if (!f.pad.holes.empty()) text += " " + r.say("Cut it out round the uprights.");
    // common practice, no source: pad cut on a line from the nosing's corner to the strip.
    if (any_open(w) && !step.landing_edge && !step.starter)
      text += " " + r.say("At {} cut it from the nosing's corner to the strip's end.", open_ends(w));
    return text;
  });
}

namespace {

void climb(Work& w) {
  const bool pleats = w.piece().runner && !w.piece().runner->pleats.empty();
  if (w.planned.steps.size() < 2) return;
  if (pleats)
    w.say(
        "Go up a step at a time. In each crotch between straight steps push the fold {} deep into the gully "
        "with a stair tool before you go on up.",
        w.size(w.allow().crease));
  else
    w.say("Go up a step at a time. In each crotch push the fold {} deep into the gully with a stair tool "
          "before "
          "you go on up.",
          w.size(w.allow().crease));
}

/// Over the nosing of the highest step, or of each in turn.
void over_the_nosing(Work& w, const std::string& how) {
  const bool landing = w.planned.steps.front().landing_edge, pins = has_strip(w, StripPlace::tread);
  if (pins && landing)
    w.say("{}, taut, onto the pins of the tread strip, at the top onto the landing.", how);
  else if (pins)
    w.say("{}, taut, onto the pins of the tread strip.", how);
  else if (landing)
    w.say("{}, taut, onto the landing.", how);
  else
    w.say("{}, taut.", how);
}

} // namespace

void hang_waterfall(Work& w) {
  if (any_strip(w)) w.care(kWood);
  const int foot = w.planned.steps.back().number;
  if (has_strip(w, StripPlace::riser))
    w.say("At the foot of step {} press the carpet on the riser strip and tuck its last {} into the gully at "
          "{}.",
          foot, w.size(w.allow().tuck_foot), below(w));
  else
    w.say("At the foot of step {} tuck its last {} into the gully at {}.", foot, w.size(w.allow().tuck_foot),
          below(w));
  w.care(kKnees);
  climb(w);
  over_the_nosing(w, w.reader.say("Draw it straight up to the nosing and over it"));
}

void hang_wrapped(Work& w) {
  const std::string spacing = w.size(w.plan.job.supplies.staple_spacing);
  // CRI 105 §17.2: no riser strip for wrapped steps; part the pile when stapling.
  w.say("No strip on the riser. At the foot of step {} staple every {} in the crotch at {}; part the "
        "pile at each staple.",
        w.planned.steps.back().number, spacing, below(w));
  w.care(kKnees);
  climb(w);
  w.say("Draw it up the riser and staple it every {} tight under the nosing; part the pile.", spacing);
  if (any_strip(w)) w.care(kWood);
  over_the_nosing(w, w.reader.say("Bring it round the nosing"));
}

// CRI 105 §10.3.1: adhesive at least 2 3/4 in wide; the iron runs with the pile; ventilate.
void seam_top(Work& w) {
  const Fixings* f = fixings_of(w.plan, w.piece(), w.planned.steps.front().number);
  w.care("The seam iron burns and fumes: gloves, heat shield, open window.");
  w.say("Join the back edge to the landing's carpet: seal both edges, {} of seam tape, its adhesive {} "
        "wide or more. Run the iron with the pile.",
        w.size(f && f->seam_tape > Length{} ? f->seam_tape : w.piece().net_width), w.size(inches(2, 3, 4)));
}

void last_look(Work& w) {
  w.care(kLoose);
  w.say("Look it over: no raw edge, seams closed, pile down the stair.");
}

} // namespace treadfold
