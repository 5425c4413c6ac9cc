// Does a recovery keep its promises? Looked at on the whole goods, in their own dimensions.
#pragma once

#include "cut/recover.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>
#include <string>
#include <vector>

namespace treadfold {

struct OnGoods {
  std::string piece;
  std::int64_t u, v, w, l;
};

inline bool overlap(const OnGoods& a, const OnGoods& b) {
  return a.u < b.u + b.w && b.u < a.u + a.w && a.v < b.v + b.l && b.v < a.v + a.l;
}

inline bool crosses(const Stroke& s, const RollLayout& roll, const OnGoods& p) {
  const auto at = s.at.ticks, from = s.from.ticks, to = s.to.ticks;
  if (s.kind == Stroke::Kind::around)
    for (const auto& q : roll.placements) {
      const OnGoods cut_out{q.piece, q.u.ticks, q.v.ticks, q.width.ticks, q.length.ticks};
      if (q.piece == s.frees)
        return overlap(p, cut_out) &&
               (p.u < cut_out.u || p.v < cut_out.v || p.u + p.w > cut_out.u + cut_out.w ||
                p.v + p.l > cut_out.v + cut_out.l);
    }
  return s.kind == Stroke::Kind::rip ? p.u < at && at < p.u + p.w && p.v < to && from < p.v + p.l
                                     : p.v < at && at < p.v + p.l && p.u < to && from < p.u + p.w;
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
  const auto match = [&](const OnGoods& at) {
    const auto& piece = by_id.at(at.piece);
    if (!carpet.pattern || !piece.matched) return;
    const auto u = at.u + piece.phase_u.ticks, v = at.v + piece.phase_v.ticks;
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
    std::vector<OnGoods> taken, anew;
    for (const auto& p : stretch.placements) {
      const bool is_done = std::find(done.begin(), done.end(), p.piece) != done.end();
      const bool stays = std::find(recovered.as_planned.begin(), recovered.as_planned.end(), p.piece) !=
                         recovered.as_planned.end();
      const OnGoods at{p.piece, p.u.ticks, p.v.ticks, p.width.ticks, p.length.ticks};
      if (is_done || stays) taken.push_back(at);
      if (stays) anew.push_back(at);
      if ((is_done || stays) && !stretch.remnant) match(at);
    }
    const auto kept = anew.size();
    for (const auto& part : recovered.parts) {
      if (part.of != stretch.stock) continue;
      const auto freed = parts_after(part.layout, part.layout.knife_order.size());
      for (const auto& p : part.layout.placements) {
        const OnGoods at{p.piece, (part.u + p.u).ticks, (part.v + p.v).ticks, p.width.ticks, p.length.ticks};
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
      if (at.v + at.l > length.ticks || at.v < 0) breaches.push_back(at.piece + " leaves the goods");
      if (at.u < stretch.selvage.ticks || at.u + at.w > (stretch.width - stretch.selvage).ticks)
        breaches.push_back(at.piece + " leaves the usable width");
      if (spoken_of)
        for (const auto& flaw : cutting.flaws)
          if (at.v < flaw.to.ticks && flaw.from.ticks < at.v + at.l)
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
      match({p.piece, p.u.ticks, p.v.ticks, p.width.ticks, p.length.ticks});
  }
  if (bought != recovered.length_to_buy) breaches.push_back("what is bought is not its sum");
  return breaches;
}

} // namespace treadfold
