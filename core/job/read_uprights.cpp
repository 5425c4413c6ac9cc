// Balusters and newels on a tread.

#include "job/read_parts.h"

namespace treadfold {

namespace {

constexpr std::size_t kMostRows = 10;
constexpr LengthRange kSize{inches(0, 3, 8), inches(12)};
constexpr LengthRange kFromEnd{Length{}, inches(144)};
constexpr LengthRange kFromNosing{Length{}, inches(60)};

std::optional<UprightRow> read_row(Context& context, const Entry& entry, bool newels) {
  ObjectReader o(context, *entry.node, entry.where);
  UprightRow row;
  row.word = newels ? "newel" : "baluster";
  row.where = entry.where;
  const auto side = o.choice<Hand>("side", {{"left", Hand::left}, {"right", Hand::right}});
  const auto round = o.choice<bool>("shape", {{"round", true}, {"square", false}});
  const auto size = o.length("size", kSize), depth = o.length_if("depth", kSize);
  if (round.value_or(false) && o.has("depth"))
    context.findings.error(o.at("depth"), "the depth of a round " + row.word, "none: its size says all");
  const auto from_end = o.length("from_end", kFromEnd), from_nosing = o.length("from_nosing", kFromNosing);
  if (!newels) {
    row.count = o.integer_or("count", 1, 40, 1);
    const bool several = row.count > 1;
    const auto spacing = several ? o.length("spacing", kSize) : o.length_if("spacing", kSize);
    if (several && !spacing) return {};
    row.spacing = spacing.value_or(Length{});
  }
  if (!side || !round || !size || !from_end || !from_nosing) return {};
  row.side = *side;
  row.round = *round;
  row.width = *size;
  row.depth = depth.value_or(*size);
  row.from_end = *from_end;
  row.from_nosing = *from_nosing;
  return row;
}

} // namespace

std::optional<std::vector<UprightRow>> read_uprights(ObjectReader& part, std::string_view key) {
  if (!part.find(key)) return {};
  std::vector<UprightRow> rows;
  for (const auto& entry : part.list(key, 0, kMostRows))
    if (auto row = read_row(part.context(), entry, key == "newels")) rows.push_back(std::move(*row));
  return rows;
}

} // namespace treadfold
