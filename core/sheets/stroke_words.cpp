#include "sheets/stroke_words.h"

#include <string_view>

#include <fmt/format.h>

namespace treadfold {

namespace {

std::string run(Length x, LengthUnit unit) { return show_length(x, unit, true); }

/// With the size each freed piece must have: the roll's end and edge, from which strokes are dimensioned, are
/// not on a loose piece any more. The last stroke of several frees one piece "and" another.
std::string freed(const Stroke& s, const RollLayout& roll, LengthUnit unit) {
  constexpr std::string_view between = " and ";
  std::string words;
  for (std::string rest = s.frees; !rest.empty();) {
    const auto end = rest.find(between);
    const std::string one = rest.substr(0, end), id = one.substr(0, one.find(','));
    rest = end == std::string::npos ? "" : rest.substr(end + between.size());
    words += id;
    for (const Placement& p : roll.placements)
      if (p.piece == id && s.kind == Stroke::Kind::rip)
        words += fmt::format(", {} wide", show_length(p.width, unit));
      else if (p.piece == id)
        words += fmt::format(", {} long", show_length(p.length, unit));
    words += one.substr(id.size());
    if (!rest.empty()) words += between;
  }
  return words;
}

} // namespace

std::string stroke_in_words(const Stroke& s, const RollLayout& roll, const std::string& end,
                            LengthUnit unit) {
  const bool across = s.from <= roll.selvage && s.to >= roll.width - roll.selvage;
  std::string words;
  switch (s.kind) {
  case Stroke::Kind::cross_cut:
    words = fmt::format("Cross-cut at {} from {}", run(s.at, unit), end);
    break;
  case Stroke::Kind::trim:
    words = fmt::format("Trim at {} from {}", run(s.at, unit), end);
    break;
  case Stroke::Kind::around:
    words = fmt::format("Cut around, along its own sides, at {} from {}", run(s.at, unit), end);
    break;
  case Stroke::Kind::rip:
    words = fmt::format("Rip at {} from the left edge", run(s.at, unit));
    break;
  }
  if (s.kind == Stroke::Kind::rip)
    words += fmt::format(", from {} to {} along the roll", run(s.from, unit), run(s.to, unit));
  else if (across)
    words += ", edge to edge";
  else
    words += fmt::format(", from {} to {} across", run(s.from, unit), run(s.to, unit));
  return words + (s.frees.empty() ? "." : fmt::format(". Frees {}.", freed(s, roll, unit)));
}

} // namespace treadfold
