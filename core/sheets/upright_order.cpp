#include "sheets/upright_order.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {

namespace {

std::string joined(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i)
    text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  return text;
}

/// "the baluster", "the 2 balusters and the newel".
std::string uprights_of(const Piece& piece) {
  std::vector<std::string> words;
  for (const std::string word : {"baluster", "newel"}) {
    const auto count = std::count_if(piece.openings.begin(), piece.openings.end(),
                                     [&](const Opening& o) { return o.what == word; });
    if (count == 1) words.push_back("the " + word);
    if (count > 1) words.push_back(fmt::format("the {} {}s", count, word));
  }
  return joined(words);
}

/// "to the back", "round the end", each once.
std::vector<std::string> ways_of(const Piece& piece) {
  std::vector<std::string> ways;
  for (const auto& opening : piece.openings) {
    if (opening.way.empty()) continue;
    const auto way = opening.way.substr(std::string("slit ").size());
    if (std::find(ways.begin(), ways.end(), way) == ways.end()) ways.push_back(way);
  }
  return ways;
}

} // namespace

// Common practice, no source; that seams split toward balusters: CRI 105, older edition, §17.2.
std::vector<Instruction> cut_round_uprights(const Piece& piece, bool sealed) {
  if (piece.openings.empty()) return {};
  std::vector<Instruction> out;
  const bool several = piece.openings.size() > 1;
  if (!sealed) {
    out.push_back({"Seal the raw backing with latex along the cuts, and let it dry.", true});
    out.push_back({"Fresh blade. Cut away from your body, the other hand behind it.", true});
  }
  std::string text =
      fmt::format("{} for {}: hold the piece to the step and see that {} right. Cut on the "
                  "line, no larger.",
                  several ? "Holes" : "The hole", uprights_of(piece), several ? "they fall" : "it falls");
  if (const auto ways = ways_of(piece); !ways.empty())
    text += fmt::format(" Slit {} as drawn, {}.", several ? "each" : "it", joined(ways));
  out.push_back({text, false});
  if (!sealed) out.push_back({"Run a thin bead of latex along these cuts.", false});
  return out;
}

std::vector<Instruction> close_round_uprights(const Piece& piece, const std::string& staple_spacing) {
  const auto slits = std::count_if(piece.openings.begin(), piece.openings.end(),
                                   [](const Opening& o) { return !o.slit.empty(); });
  if (slits == 0) return {};
  return {
      {fmt::format("Press the carpet to {} all round and the slit{} shut, pile free of {}. Staple every {} "
                   "on both sides; part the pile.",
                   uprights_of(piece), slits > 1 ? "s" : "", slits > 1 ? "them" : "it", staple_spacing),
       false}};
}

} // namespace treadfold
