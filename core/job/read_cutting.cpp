// How far the cutting has come: "cutting", one entry a carpet.

#include "job/read_parts.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr LengthRange kAlong{{}, kFoot * 500};
constexpr std::size_t kMostPieces = 20'000; // of a job
constexpr LengthRange kSound{inches(1), kFoot * 500};

Flaw read_flaw(ObjectReader& o) {
  const auto from = o.length("from", kAlong), to = o.length("to", kAlong);
  if (from && to && *to <= *from)
    o.context().findings.error(o.at("to"), show_length(*to, o.context().unit, true),
                               fmt::format("more than from, {}", show_length(*from, o.context().unit, true)));
  return {from.value_or(Length{}), to.value_or(Length{})};
}

SpoiledPiece read_spoiled(Context& context, const Entry& entry) {
  ObjectReader o(context, *entry.node, entry.where);
  SpoiledPiece s;
  s.piece = o.name("piece");
  if (!o.has("sound_width") && !o.has("sound_length")) return s;
  s.sound_width = o.length("sound_width", kSound).value_or(Length{});
  s.sound_length = o.length("sound_length", kSound).value_or(Length{});
  return s;
}

void read_way(ObjectReader& o, Cutting& c) {
  c.way = o.choice_if<Remedy>("way", {{"as_planned", Remedy::as_planned},
                                      {"laid_anew", Remedy::laid_anew},
                                      {"other_remnant", Remedy::other_remnant},
                                      {"smaller_join", Remedy::smaller_join},
                                      {"hidden_seam", Remedy::hidden_seam}});
  c.remnant = o.text_or("remnant");
  if (!c.remnant.empty() && c.way != Remedy::other_remnant)
    o.context().findings.error(o.at("remnant"), in_quotes(c.remnant),
                               "a remnant only beside \"way\": \"other_remnant\"");
}

} // namespace

std::vector<Cutting> read_cuttings(ObjectReader& root, const std::vector<Carpet>& carpets) {
  std::vector<std::string> ids;
  for (const auto& carpet : carpets)
    ids.push_back(carpet.id);
  std::vector<Cutting> cuttings;
  for (const auto& entry : root.list("cutting", 0, 50)) {
    ObjectReader o(root.context(), *entry.node, entry.where);
    if (!o.is_object()) continue;
    Cutting c;
    c.where = entry.where;
    c.carpet = read_carpet_id(o, ids);
    const bool again = std::any_of(cuttings.begin(), cuttings.end(),
                                   [&](const Cutting& other) { return other.carpet == c.carpet; });
    if (again && !c.carpet.empty())
      root.context().findings.error(o.at("carpet"), in_quotes(c.carpet), "one entry a carpet");
    for (const auto& cut : o.list("cut", 0, kMostPieces))
      if (cut.node->kind == Node::Kind::string)
        c.cut.push_back(cut.node->text);
      else
        root.context().findings.error(cut.where, shown(*cut.node), "a piece's number, such as \"A-05\"");
    for (const auto& spoiled : o.list("spoiled", 0, kMostPieces))
      if (spoiled.node->kind == Node::Kind::string)
        c.spoiled.push_back({spoiled.node->text, {}, {}});
      else
        c.spoiled.push_back(read_spoiled(root.context(), spoiled));
    c.of = o.text_or("of");
    c.roll_length = o.length_if("roll_length", kAlong);
    for (const auto& flaw : o.list("flaws", 0, 100)) {
      ObjectReader f(root.context(), *flaw.node, flaw.where);
      if (f.is_object()) c.flaws.push_back(read_flaw(f));
    }
    read_way(o, c);
    cuttings.push_back(std::move(c));
  }
  return cuttings;
}

} // namespace treadfold
