#include "sheets/upright_order.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {

namespace {

/// "the baluster", "the 2 balusters and the newel".
std::string uprights_of(const Reader& reader, const Piece& piece) {
  const auto count = [&](const char* word) {
    return std::count_if(piece.openings.begin(), piece.openings.end(),
                         [&](const Opening& o) { return o.what == word; });
  };
  std::vector<std::string> words;
  const auto balusters = count("baluster"), newels = count("newel");
  if (balusters > 0)
    words.push_back(balusters == 1 ? reader.say("the baluster") : reader.say("the {} balusters", balusters));
  if (newels > 0)
    words.push_back(newels == 1 ? reader.say("the newel") : reader.say("the {} newels", newels));
  return reader.list(words);
}

/// "to the back" of "slit to the back".
std::string way_in_words(const Reader& reader, const std::string& way) {
  for (const char* words : {"over the back", "round the end", "to the string", "to the seam", "to the back",
                            "to the skirt", "to the wall", "to the lip's edge", "to the next hole"})
    if (way.ends_with(words)) return std::string(phrase(words, reader.language));
  return way;
}

/// Each once.
std::vector<std::string> ways_of(const Reader& reader, const Piece& piece) {
  std::vector<std::string> ways;
  for (const auto& opening : piece.openings) {
    if (opening.way.empty()) continue;
    const auto way = way_in_words(reader, opening.way);
    if (std::find(ways.begin(), ways.end(), way) == ways.end()) ways.push_back(way);
  }
  return ways;
}

} // namespace

// Common practice, no source; that seams split toward balusters: CRI 105, older edition, §17.2.
std::vector<Instruction> cut_round_uprights(const Reader& reader, const Piece& piece, bool sealed) {
  if (piece.openings.empty()) return {};
  std::vector<Instruction> out;
  const bool several = piece.openings.size() > 1;
  if (!sealed) {
    out.push_back({reader.say("Seal the raw backing with latex along the cuts, and let it dry."), true});
    out.push_back({reader.say("Fresh blade. Cut away from your body, the other hand behind it."), true});
  }
  const auto uprights = uprights_of(reader, piece);
  std::string text =
      several
          ? reader.say("Holes for {}: hold the piece to the step and see that they fall right. Cut on the "
                       "line, no larger.",
                       uprights)
          : reader.say("The hole for {}: hold the piece to the step and see that it falls right. Cut on the "
                       "line, no larger.",
                       uprights);
  if (const auto ways = reader.list(ways_of(reader, piece)); !ways.empty())
    text += " " + (several ? reader.say("Slit each as drawn, {}.", ways)
                           : reader.say("Slit it as drawn, {}.", ways));
  out.push_back({text, false});
  if (!sealed) out.push_back({reader.say("Run a thin bead of latex along these cuts."), false});
  return out;
}

std::vector<Instruction> close_round_uprights(const Reader& reader, const Piece& piece,
                                              const std::string& staple_spacing) {
  const auto slits = std::count_if(piece.openings.begin(), piece.openings.end(),
                                   [](const Opening& o) { return !o.slit.empty(); });
  if (slits == 0) return {};
  const auto uprights = uprights_of(reader, piece);
  return {{slits > 1
               ? reader.say("Press the carpet to {} all round and the slits shut, pile free of them. Staple "
                            "every {} on both sides; part the pile.",
                            uprights, staple_spacing)
               : reader.say("Press the carpet to {} all round and the slit shut, pile free of it. Staple "
                            "every {} on both sides; part the pile.",
                            uprights, staple_spacing),
           false}};
}

} // namespace treadfold
