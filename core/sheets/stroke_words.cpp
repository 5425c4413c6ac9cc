#include "sheets/stroke_words.h"

#include <string_view>

#include <fmt/format.h>

namespace treadfold {

namespace {

std::string run(Length x, LengthUnit unit) { return show_length(x, unit, true); }

/// With the size each freed piece must have: the roll's end and edge, from which strokes are dimensioned, are
/// not on a loose piece any more. The last stroke of several frees one piece "and" another.
std::string freed(const Stroke& s, const RollLayout& roll, const Reader& reader) {
  constexpr std::string_view between = " and ";
  std::string all;
  for (std::string rest = s.frees; !rest.empty();) {
    const auto end = rest.find(between);
    const std::string one = rest.substr(0, end), id = one.substr(0, one.find(','));
    rest = end == std::string::npos ? "" : rest.substr(end + between.size());
    std::string words = reader.said(id);
    for (const Placement& p : roll.placements)
      if (p.piece == id && s.kind == Stroke::Kind::rip)
        words += ", " + reader.say("{} wide", show_length(p.width, reader));
      else if (p.piece == id)
        words += ", " + reader.say("{} long", show_length(p.length, reader));
    if (one.ends_with(", to be trimmed")) words = reader.say("{}, to be trimmed", words);
    all = all.empty() ? words : reader.say("{} and {}", all, words);
  }
  return all;
}

/// How a piece that is cut out along its outline is marked; of any other nothing.
std::string outline_of(const Stroke& s, const RollLayout& roll, const Reader& reader) {
  const auto corners = [&](const GoodsRing& ring) {
    std::string all;
    for (const auto& c : ring)
      all += (all.empty() ? "" : "; ") + run(c.u, reader) + " × " + run(c.v, reader);
    return all;
  };
  std::string words;
  for (const Placement& p : roll.placements) {
    if (s.kind != Stroke::Kind::around || p.piece != s.frees || p.outline.empty()) continue;
    words = reader.say("Its corners, from the left edge × from the end: {}. Frees {}.",
                       corners(p.outline.ring), p.piece);
    for (const auto& hole : p.outline.holes)
      words += " " + reader.say("Cut out of it, to the corners {}.", corners(hole));
    if (p.turned) words += " " + reader.say("It lies turned half round.");
  }
  return words;
}

} // namespace

std::string stroke_in_words(const Stroke& s, const RollLayout& roll, bool loose, const Reader& reader) {
  const LengthUnit unit = reader;
  const bool across = s.from <= roll.selvage && s.to >= roll.width - roll.selvage;
  std::string words;
  switch (s.kind) {
  case Stroke::Kind::cross_cut:
    words = loose ? reader.say("Cross-cut at {} from its end", run(s.at, unit))
                  : reader.say("Cross-cut at {} from the roll's end", run(s.at, unit));
    break;
  case Stroke::Kind::trim:
    words = loose ? reader.say("Trim at {} from its end", run(s.at, unit))
                  : reader.say("Trim at {} from the roll's end", run(s.at, unit));
    break;
  case Stroke::Kind::around:
    words = loose ? reader.say("Cut around, along its own sides, at {} from its end", run(s.at, unit))
                  : reader.say("Cut around, along its own sides, at {} from the roll's end", run(s.at, unit));
    break;
  case Stroke::Kind::rip:
    words = reader.say("Rip at {} from the left edge", run(s.at, unit));
    break;
  }
  if (const auto outline = outline_of(s, roll, reader); !outline.empty()) return words + ". " + outline;
  if (s.kind == Stroke::Kind::rip)
    words += ", " + reader.say("from {} to {} along the roll", run(s.from, unit), run(s.to, unit));
  else if (across)
    words += ", " + reader.say("edge to edge");
  else
    words += ", " + reader.say("from {} to {} across", run(s.from, unit), run(s.to, unit));
  return s.frees.empty() ? words + "." : words + ". " + reader.say("Frees {}.", freed(s, roll, reader));
}

} // namespace treadfold
