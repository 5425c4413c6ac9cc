#include "sheets/sealing.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {

Construction construction_of(const Plan& plan, const Piece& piece) {
  const auto& carpets = plan.job.carpets;
  const auto found =
      std::find_if(carpets.begin(), carpets.end(), [&](const Carpet& c) { return c.id == piece.carpet; });
  return found == carpets.end() ? Construction::unknown : found->construction;
}

std::string seal_from_the_roll(const Reader& reader, Construction construction) {
  if (construction != Construction::woven) return {};
  return reader.say("Woven: latex along all four edges as it comes from the roll; let it dry.");
}

std::string seal_before_small_cuts(const Reader& reader, Construction construction) {
  switch (construction) {
  case Construction::tufted:
    return reader.say(
        "Seal the raw backing with latex before the small cuts, and let it dry: tufts pull out of "
        "small tabs.");
  case Construction::woven:
    return reader.say(
        "Seal the raw backing with latex before the small cuts, and let it dry: a woven backing frays "
        "from every cut.");
  case Construction::unknown:
    break;
  }
  return reader.say(
      "Seal the raw backing with latex before the small cuts, and let it dry: small tabs fray.");
}

std::string seal_trimmed(const Reader& reader, Construction construction) {
  if (construction != Construction::woven) return {};
  return reader.say("Woven: latex along each edge trimmed on the stair, before it is tucked.");
}

std::string handling_of(const Carpet& carpet, const Reader& reader) {
  std::string text;
  if (carpet.construction == Construction::tufted)
    text = reader.say(
        "{}, tufted: seal the backing with latex before small cuts, their edges after, and both edges of a "
        "seam "
        "before it is joined; an edge that is only trimmed and tucked needs none.",
        carpet.name);
  if (carpet.construction == Construction::woven)
    text = reader.say(
        "{}, woven: seal all four edges of a piece with latex as it comes from the roll, the backing before "
        "small "
        "cuts, their edges after, every edge trimmed on the stair before it is tucked, and both edges of "
        "a seam "
        "before it is joined.",
        carpet.name);
  if (text.empty() && !carpet.min_fold_radius) return {};
  if (text.empty()) text = carpet.name + ":";
  if (carpet.min_fold_radius)
    text += " " + reader.say("Fold it no tighter than a radius of {} at the back.",
                             show_length(*carpet.min_fold_radius, reader));
  return text;
}

} // namespace treadfold
