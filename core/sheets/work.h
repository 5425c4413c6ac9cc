// What the working orders of all kinds of piece share: sizes, and the sentences on strip, pad and hanging.
#pragma once

#include "sheets/working_order.h"

#include <algorithm>
#include <utility>

namespace treadfold {

/// What the sentences are made from.
struct Work {
  const Plan& plan;
  const PlannedPiece& planned;
  Reader reader;
  std::vector<Instruction> out = {};

  const Piece& piece() const { return planned.piece; }
  std::string size(Length x) const { return show_length(x, reader); }
  const Allowances& allow() const { return plan.job.allowances; }
  void add(std::string text, bool caution = false) {
    if (!text.empty()) out.push_back({std::move(text), caution});
  }
  template <typename... Values>
  void say(fmt::format_string<Values...> english, Values&&... values) {
    add(reader.say(english, std::forward<Values>(values)...));
  }
  template <typename... Values>
  void care(fmt::format_string<Values...> english, Values&&... values) {
    add(reader.say(english, std::forward<Values>(values)...), true);
  }
  void say_all(const std::vector<Instruction>& more) { out.insert(out.end(), more.begin(), more.end()); }
  bool has(LineRole role) const {
    return std::any_of(piece().lines.begin(), piece().lines.end(),
                       [&](const FlatLine& l) { return l.role == role; });
  }
  bool has_seam(const char* name) const {
    return std::any_of(piece().seams.begin(), piece().seams.end(),
                       [&](const Seam& s) { return s.name.starts_with(name); });
  }
};

/// Ends that the carpet wraps; a runner wraps none.
bool open_left(const Work& w);
bool open_right(const Work& w);
bool any_open(const Work& w);
/// "both ends", "the left end" of those.
std::string open_ends(const Work& w);
bool has_strip(const Work& w, StripPlace place);
bool any_strip(const Work& w);
/// "step 4", "steps 4, 5 and 7" or "steps 4 to 13", lowest first.
std::string names(const Reader& reader, std::vector<int> steps);
std::string capital(std::string text);

void check_piece(Work& w);
void fix_strips(Work& w);
void lay_pad(Work& w);
void hang_waterfall(Work& w);
void hang_wrapped(Work& w);
/// To the landing's carpet.
void seam_top(Work& w);
void last_look(Work& w);

/// In work_starter.cpp.
void starter_order(Work& w);
/// In work_runner.cpp.
void runner_order(Work& w, const Flight& flight);

// common practice, no source
inline constexpr const char* kBlade = "Fresh blade. Cut away from your body, the other hand behind it.";
inline constexpr const char* kWood = "Seat the carpet on the pins with a wooden handle, never steel.";
inline constexpr const char* kTrimming = "the trimming knife at about 45° in the gully";
inline constexpr const char* kLoose = "Loose edges trip people. Leave none, not for one night.";
// NIOSH 90-104 and HETA 82-065-1664
inline constexpr const char* kKnees =
    "Knees: pads on, change hands, and a power stretcher, not blows of the knee.";

} // namespace treadfold
