// Does a recovery keep its promises? Looked at on the whole goods, in their own dimensions.
#pragma once

#include "cut/check.h"
#include "cut/recover.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <string>
#include <vector>

namespace treadfold {

/// Would the stroke cut into p? Out of a rectangle that came out whole p may be cut; what is slanted is lost.
inline bool crosses(const Stroke& s, const RollLayout& roll, const Placement& p) {
  if (s.kind == Stroke::Kind::around)
    for (const auto& q : roll.placements) {
      if (q.piece != s.frees) continue;
      const bool inside = q.outline.empty() && q.u <= p.u && q.v <= p.v && p.u + p.width <= q.u + q.width &&
                          p.v + p.length <= q.v + q.length;
      return overlap(p, q) && !inside;
    }
  return s.kind == Stroke::Kind::rip
             ? p.u < s.at && s.at < p.u + p.width && p.v < s.to && s.from < p.v + p.length
             : p.v < s.at && s.at < p.v + p.length && p.u < s.to && s.from < p.u + p.width;
}

inline std::vector<std::string> check_recovery(const std::vector<CutPiece>& planned,
                                               const std::vector<CutPiece>& wanted, const Carpet& carpet,
                                               const Layout& before, const Cutting& cutting,
                                               const Recovered& recovered, bool keep_plan) {
  std::vector<std::string> breaches;
  std::map<std::string, CutPiece> by_id;
  for (const auto& p : planned)
    by_id[p.id] = p;
  for (const auto& p : wanted)
    by_id[p.id] = p;
  std::map<std::string, int> times;
  for (const auto& id : recovered.as_planned)
    ++times[id];
  for (const auto& part : recovered.parts)
    for (const auto& p : part.layout.placements) {
      ++times[p.piece];
      const auto& piece = by_id.at(p.piece);
      if (p.width != piece.width || p.length != piece.length)
        breaches.push_back(p.piece + " has another size");
    }
  for (const auto& p : wanted)
    if (times[p.id] != 1) breaches.push_back(fmt::format("{} is placed {} times", p.id, times[p.id]));
  if (times.size() != wanted.size()) breaches.push_back("a piece is placed that is not wanted");

  std::vector<std::string> done = cutting.cut;
  for (const auto& s : cutting.spoiled)
    done.push_back(s.piece);
  std::map<std::string, std::pair<std::int64_t, std::int64_t>> motifs;
  const auto match = [&](const Placement& at) {
    const auto& piece = by_id.at(at.piece);
    if (!carpet.pattern || !piece.matched) return;
    const auto u = (at.u + piece.phase_u).ticks, v = (at.v + piece.phase_v).ticks;
    const auto [first, is_new] = motifs.try_emplace(piece.match_group, u, v);
    const auto du = u - first->second.first, dv = v - first->second.second;
    const auto& [width, length, drop] = *carpet.pattern;
    if (du % width.ticks != 0 || (dv - du / width.ticks * drop.ticks) % length.ticks != 0)
      breaches.push_back(at.piece + " does not match");
  };
  const std::string first_roll = [&] {
    for (const auto& roll : before.rolls)
      if (!roll.remnant) return roll.stock;
    return std::string();
  }();
  for (const auto& stretch : before.rolls) {
    const bool spoken_of = stretch.stock == (cutting.of.empty() ? first_roll : cutting.of);
    auto length = stretch.remnant ? stretch.available : stretch.length_to_buy;
    if (spoken_of) length = cutting.roll_length.value_or(length);
    std::vector<Placement> taken, anew;
    for (const auto& p : stretch.placements) {
      const bool is_done = std::find(done.begin(), done.end(), p.piece) != done.end();
      const bool stays = std::find(recovered.as_planned.begin(), recovered.as_planned.end(), p.piece) !=
                         recovered.as_planned.end();
      if (is_done || stays) taken.push_back(p);
      if (stays) anew.push_back(p);
      if ((is_done || stays) && !stretch.remnant) match(p);
    }
    const auto kept = anew.size();
    for (const auto& part : recovered.parts) {
      if (part.of != stretch.stock) continue;
      const auto freed = parts_after(part.layout, part.layout.knife_order.size());
      for (const auto& p : part.layout.placements) {
        const Placement at{p.piece, part.u + p.u, part.v + p.v, p.width, p.length};
        for (const auto& other : taken)
          if (overlap(at, other)) breaches.push_back(fmt::format("{} lies over {}", at.piece, other.piece));
        taken.push_back(at), anew.push_back(at);
        if (!stretch.remnant) match(at);
        if (std::none_of(freed.begin(), freed.end(), [&](const GoodsPart& f) {
              return f.u == p.u && f.v == p.v && f.width == p.width && f.length == p.length;
            }))
          breaches.push_back(p.piece + " is not freed");
      }
    }
    const auto strokes = keep_plan ? stretch.knife_order.size() : strokes_to_free(stretch, done);
    for (std::size_t i = 0; i < anew.size(); ++i) {
      const auto& at = anew[i];
      if (at.v + at.length > length || at.v < Length{}) breaches.push_back(at.piece + " leaves the goods");
      if (at.u < stretch.selvage || at.u + at.width > stretch.width - stretch.selvage)
        breaches.push_back(at.piece + " leaves the usable width");
      if (spoken_of)
        for (const auto& flaw : cutting.flaws)
          if (at.v < flaw.to && flaw.from < at.v + at.length)
            breaches.push_back(at.piece + " lies over a flaw");
      if (i >= kept)
        for (std::size_t s = 0; s < strokes; ++s)
          if (crosses(stretch.knife_order[s], stretch, at))
            breaches.push_back(fmt::format("{} lies across stroke {}", at.piece, s + 1));
    }
  }
  Length bought;
  for (const auto& part : recovered.parts) {
    if (!part.of.empty()) continue;
    bought += part.layout.length_to_buy;
    if (part.layout.length_to_buy.ticks % carpet.sold_in.ticks != 0 ||
        part.layout.length_to_buy < part.layout.length_used)
      breaches.push_back("what is bought is not as it is sold, or too little");
    for (const auto& p : part.layout.placements) // begins on the motif on which the roll began
      match(p);
  }
  if (bought != recovered.length_to_buy) breaches.push_back("what is bought is not its sum");
  return breaches;
}

} // namespace treadfold
