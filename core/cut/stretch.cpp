#include "cut/stretch.h"

#include "cut/knife.h"

#include <algorithm>
#include <cassert>
#include <fmt/format.h>
#include <map>
#include <numeric>

namespace treadfold {
namespace {

std::string freed(const knife::Cut& cut, const std::vector<Placement>& placements) {
  using Frees = knife::Cut::Frees;
  const auto id = [&](int i) { return placements[static_cast<std::size_t>(i)].piece; };
  std::string text;
  switch (cut.frees) {
  case Frees::row:
    text = fmt::format("row {}", cut.row);
    break;
  case Frees::piece:
    text = id(cut.pieces.front());
    break;
  case Frees::strip:
    text = id(cut.pieces.front());
    if (cut.pieces.size() == 1)
      text += ", to be trimmed";
    else
      text = fmt::format("strip of {} with {} more", text, cut.pieces.size() - 1);
    break;
  case Frees::offcut:
    text = "offcut";
    break;
  case Frees::waste:
    text = "waste";
    break;
  case Frees::selvage:
    text = "selvage";
    break;
  }
  return cut.last < 0 ? text : text + " and " + id(cut.last);
}

/// Does another piece reach into its rectangle?
bool shares_its_rectangle(const std::vector<CutPiece>& pieces, const Chosen& chosen,
                          const std::vector<rows::Spot>& at, std::size_t i) {
  const CutPiece& p = pieces[static_cast<std::size_t>(chosen[i])];
  for (std::size_t j = 0; j < chosen.size() && !p.outline.empty(); ++j) {
    const CutPiece& q = pieces[static_cast<std::size_t>(chosen[j])];
    if (j != i && at[i].u < at[j].u + q.width.ticks && at[j].u < at[i].u + p.width.ticks &&
        at[i].v < at[j].v + q.length.ticks && at[j].v < at[i].v + p.length.ticks)
      return true;
  }
  return false;
}

void lay_by_outline(const GoodsOutline& outline, bool turned, Placement& placed) {
  const GoodsPoint end{placed.u + placed.width, placed.v + placed.length};
  const auto laid = [&](GoodsRing ring) {
    for (auto& c : ring)
      c = turned ? GoodsPoint{end.u - c.u, end.v - c.v} : GoodsPoint{placed.u + c.u, placed.v + c.v};
    return ring;
  };
  placed.turned = turned;
  placed.outline.ring = laid(outline.ring);
  for (const auto& hole : outline.holes)
    placed.outline.holes.push_back(laid(hole));
}

} // namespace

Task make_task(const std::vector<CutPiece>& pieces, const Chosen& chosen, const Goods& goods,
               const std::optional<Pattern>& pattern, LengthUnit unit) {
  Task task;
  task.strip.width = goods.usable().ticks;
  task.strip.longest_cut = goods.length.ticks;
  task.strip.longest_row = goods.in_hand.value_or(goods.length).ticks;
  if (pattern) task.strip.repeat = {pattern->width.ticks, pattern->length.ticks, pattern->drop.ticks};
  std::map<std::string, int> groups;
  std::vector<std::string> names;
  for (int i : chosen) {
    const CutPiece& p = pieces[static_cast<std::size_t>(i)];
    assert(p.width.ticks > 0 && p.length.ticks > 0);
    if (p.width > goods.usable()) {
      task.why_not = fmt::format("{} is {} wide, and {} can be used", p.id, show_length(p.width, unit, true),
                                 show_length(goods.usable(), unit, true));
      return task;
    }
    if (p.length > goods.length) {
      task.why_not = fmt::format("{} is {} long, and {} can be had in one cut", p.id,
                                 show_length(p.length, unit, true), show_length(goods.length, unit, true));
      return task;
    }
    rows::Rect r{p.width.ticks, p.length.ticks};
    if (p.matched && pattern) {
      const auto [group, is_new] = groups.try_emplace(p.match_group, static_cast<int>(groups.size()));
      if (is_new) names.push_back(p.match_group);
      r.match = group->second;
      r.phase_u = p.phase_u.ticks, r.phase_v = p.phase_v.ticks;
    }
    task.rects.push_back(r);
    task.strip.longest_row = std::max(task.strip.longest_row, r.l); // it is in hand whatever is done
  }
  task.strip.longest_row = std::min(task.strip.longest_row, task.strip.longest_cut);
  const int lost = rows::find_motif_places(task.rects, static_cast<int>(groups.size()), task.strip);
  if (lost >= 0)
    task.why_not =
        fmt::format("the pieces matched as \"{}\" cannot all keep the pattern within {}",
                    names[static_cast<std::size_t>(lost)], show_length(goods.usable(), unit, true));
  return task;
}

RollLayout show(const std::vector<CutPiece>& pieces, const Chosen& chosen, const std::vector<rows::Spot>& at,
                const Goods& goods, Length length) {
  RollLayout roll;
  roll.width = goods.width, roll.selvage = goods.selvage, roll.available = goods.length;
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    const CutPiece& p = pieces[static_cast<std::size_t>(chosen[i])];
    Placement& placed = roll.placements.emplace_back(
        Placement{p.id, Length{at[i].u} + goods.selvage, {at[i].v}, p.width, p.length});
    if (shares_its_rectangle(pieces, chosen, at, i)) lay_by_outline(p.outline, at[i].turned, placed);
    roll.length_used = std::max(roll.length_used, Length{at[i].v} + p.length);
  }
  std::stable_sort(roll.placements.begin(), roll.placements.end(),
                   [](const Placement& a, const Placement& b) { return a.v != b.v ? a.v < b.v : a.u < b.u; });
  std::vector<knife::GoodsBox> boxes;
  for (const auto& p : roll.placements)
    boxes.push_back({p.u.ticks, p.v.ticks, p.width.ticks, p.length.ticks});
  const auto plan = knife::cut_plan(boxes, {goods.width.ticks, goods.selvage.ticks, length.ticks});
  for (const auto& c : plan.cuts)
    roll.knife_order.push_back({c.kind, {c.at}, {c.from}, {c.to}, freed(c, roll.placements)});
  for (const auto& o : plan.offcuts)
    roll.offcuts.push_back({{o.u}, {o.v}, {o.w}, {o.l}});
  return roll;
}

} // namespace treadfold
