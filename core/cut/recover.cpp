#include "cut/recover.h"

#include "cut/by_strip.h"
#include "cut/goods_left.h"
#include "cut/knife.h"
#include "cut/stretch.h"

#include <algorithm>
#include <fmt/format.h>
#include <map>

namespace treadfold {
namespace {

using rows::Ticks;

struct Work {
  const std::vector<CutPiece>& wanted;
  const Carpet& carpet;
  const RecoverOptions& options;
};

/// Rows that together come nearest to `room` without passing it.
std::vector<bool> rows_within(const std::vector<Ticks>& rows, Ticks room) {
  struct Step {
    Ticks before;
    std::size_t row;
  };
  constexpr std::size_t kMostSums = 20'000;
  std::map<Ticks, Step> sums{{0, {0, rows.size()}}}; // by sum: how it was reached first
  for (std::size_t i = 0; i < rows.size(); ++i) {
    std::vector<Ticks> known;
    for (const auto& [sum, step] : sums)
      if (sum + rows[i] <= room && sums.size() + known.size() < kMostSums) known.push_back(sum);
    for (const Ticks sum : known)
      sums.try_emplace(sum + rows[i], Step{sum, i});
  }
  std::vector<bool> within(rows.size(), false);
  for (auto at = std::prev(sums.end()); at->first > 0; at = sums.find(at->second.before))
    within[at->second.row] = true;
  return within;
}

/// Match groups have the motif that their first piece on a roll has already.
void settle_motifs(Task& task, const std::vector<CutPiece>& wanted, const Chosen& chosen,
                   const GoodsLot& lot) {
  if (!task.strip.repeat) return;
  const auto [repeat_u, repeat_v, drop] = *task.strip.repeat;
  task.strip.motif_along.resize(task.strip.motif_places.size());
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    const int group = task.rects[i].match;
    if (group < 0 || task.strip.motif_along[group]) continue;
    const auto motif = lot.motifs.find(wanted[chosen[i]].match_group);
    if (motif == lot.motifs.end()) continue;
    const Ticks across = rows::mod(motif->second.u, repeat_u);
    const Ticks columns = (motif->second.u - across) / repeat_u;
    task.strip.motif_places[group] = {{across, 0}};
    task.strip.motif_along[group] =
        rows::mod(motif->second.v - rows::mod(columns, repeat_v) * drop, repeat_v);
  }
}

struct Seated {
  Chosen chosen;
  std::vector<rows::Spot> at; // within the part, from its true left edge
};

class Filling {
public:
  Filling(const Work& work, const GoodsLot& lot, const Chosen& chosen)
      : work_(work), lot_(lot), chosen_(chosen) {}

  /// Adds what is cut from each part and what must be bought. Why it cannot be, or "".
  std::string run(Recovered& answer) {
    task_ = make_task(work_.wanted, chosen_, fresh(), work_.carpet.pattern, work_.options.unit);
    if (!task_.why_not.empty()) return task_.why_not;
    settle_motifs(task_, work_.wanted, chosen_, lot_);
    for (const auto& part : lot_.parts)
      task_.strip.loose.push_back(part.usable);
    task_.strip.begin = lot_.rest.usable.v;
    rows::Goal goal;
    goal.roll_width = lot_.width.ticks, goal.selvage = lot_.selvage.ticks;
    goal.work = work_.options.work, goal.seed = work_.options.seed;
    found_ = rows::search(task_.rects, task_.strip, goal);
    show_parts(answer);
    show_rows(answer);
    return {};
  }

private:
  Goods fresh() const { return {lot_.width, lot_.selvage, longest(), work_.carpet.in_hand}; }

  Length longest() const {
    const Length none{std::int64_t{1} << 60}, sold = work_.carpet.roll_length;
    return std::max(sold > Length{} ? sold : none, lot_.rest.whole.length);
  }

  void show_parts(Recovered& answer) const {
    for (const auto& part : lot_.parts) {
      Seated in;
      for (std::size_t i = 0; i < chosen_.size(); ++i) {
        const auto& spot = found_.at[i];
        const auto& box = part.usable;
        if (spot.v < box.v || spot.v >= box.v + box.l || spot.u < box.u || spot.u >= box.u + box.w) continue;
        in.chosen.push_back(chosen_[i]);
        in.at.push_back({spot.u - box.u + part.edge.ticks, spot.v - box.v});
      }
      if (in.chosen.empty()) continue;
      const auto& whole = part.whole;
      auto layout = show(work_.wanted, in.chosen, in.at, {whole.width, {}, whole.length}, whole.length);
      layout.stock = part.name, layout.remnant = true;
      answer.parts.push_back({std::move(layout), part.of, whole.u, whole.v});
    }
  }

  /// Whether all that rows would lay beyond the rest of the roll too fits on it, laid otherwise.
  bool all_on_the_rest(Recovered& answer, const std::vector<std::size_t>& in_rows) const {
    const Ticks room = lot_.rest.whole.length.ticks;
    if (room == 0 || found_.used <= room) return false;
    Seated all;
    for (const std::size_t i : in_rows) {
      all.chosen.push_back(chosen_[i]);
      all.at.push_back({found_.at[i].u, found_.at[i].v - task_.strip.begin});
    }
    rows::Goal goal;
    goal.sold_in = room;
    if (shortened(all, found_.used, goal) > room) return false;
    show_rest(answer, all);
    return true;
  }

  /// Laid anew by the strip's search, where less is bought so; the length used.
  Ticks shortened(Seated& seated, Ticks used, rows::Goal goal) const {
    goal.work = work_.options.work, goal.seed = work_.options.seed;
    const auto task =
        make_task(work_.wanted, seated.chosen, fresh(), work_.carpet.pattern, work_.options.unit);
    rows::Found straight{seated.at, used}, close;
    rows::Bound bound;
    rows::search_strip(task.rects, task.strip, goal, straight, close, bound);
    const auto& best = work_.carpet.laid == Laid::straight ? straight : close;
    seated.at = best.at;
    return best.used;
  }

  void show_rest(Recovered& answer, const Seated& rest) const {
    const auto& whole = lot_.rest.whole;
    auto layout =
        show(work_.wanted, rest.chosen, rest.at, {lot_.width, lot_.selvage, whole.length}, whole.length);
    layout.stock = lot_.rest.name, layout.remnant = true;
    answer.parts.push_back({std::move(layout), lot_.rest.of, whole.u, whole.v});
  }

  /// Rows on the rest of the roll while it lasts, and what is bought for the others.
  void show_rows(Recovered& answer) {
    std::vector<std::size_t> in_rows;
    std::vector<knife::GoodsBox> boxes;
    const Ticks begin = task_.strip.begin;
    for (std::size_t i = 0; i < chosen_.size(); ++i)
      if (found_.at[i].v >= begin) {
        in_rows.push_back(i);
        boxes.push_back({found_.at[i].u + lot_.selvage.ticks, found_.at[i].v - begin, task_.rects[i].w,
                         task_.rects[i].l});
      }
    if (in_rows.empty() || all_on_the_rest(answer, in_rows)) return;
    auto begins = knife::cut_plan(boxes, {lot_.width.ticks, lot_.selvage.ticks, found_.used}).rows;
    if (begins.empty()) begins = {0}; // one piece, as wide as the goods
    std::vector<Ticks> ends = begins;
    std::vector<std::size_t> row_of(boxes.size());
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      row_of[i] = static_cast<std::size_t>(std::upper_bound(begins.begin(), begins.end(), boxes[i].v) -
                                           begins.begin() - 1);
      ends[row_of[i]] = std::max(ends[row_of[i]], boxes[i].v + boxes[i].l);
    }
    const auto stays = rows_that_stay(begins, ends);
    Seated rest, bought;
    Ticks rest_end = 0, bought_end = 0;
    std::vector<Ticks> moved(begins.size()); // by which each row is moved back
    for (std::size_t r = 0; r < begins.size(); ++r) {
      Ticks& end = stays[r] ? rest_end : bought_end;
      const Ticks at = work_.carpet.pattern ? begins[r] - (stays[r] ? 0 : first_bought(begins, stays)) : end;
      moved[r] = begins[r] - at;
      end = at + ends[r] - begins[r];
    }
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      Seated& to = stays[row_of[i]] ? rest : bought;
      to.chosen.push_back(chosen_[in_rows[i]]);
      to.at.push_back({found_.at[in_rows[i]].u, boxes[i].v - moved[row_of[i]]});
    }
    if (!rest.chosen.empty()) show_rest(answer, rest);
    if (!bought.chosen.empty()) buy(answer, std::move(bought), bought_end);
  }

  /// With a pattern rows keep their distances, so the last ones are bought.
  std::vector<bool> rows_that_stay(const std::vector<Ticks>& begins, const std::vector<Ticks>& ends) const {
    const Ticks room = lot_.rest.whole.length.ticks;
    if (!work_.carpet.pattern) {
      std::vector<Ticks> lengths;
      for (std::size_t r = 0; r < begins.size(); ++r)
        lengths.push_back(ends[r] - begins[r]);
      return rows_within(lengths, room);
    }
    std::vector<bool> stays;
    for (std::size_t r = 0; r < begins.size(); ++r)
      stays.push_back((r == 0 || stays.back()) && ends[r] <= room);
    return stays;
  }

  /// What is bought begins on the motif on which the roll began.
  Ticks first_bought(const std::vector<Ticks>& begins, const std::vector<bool>& stays) const {
    const auto first = static_cast<std::size_t>(std::find(stays.begin(), stays.end(), false) - stays.begin());
    const Ticks on_roll = begins[first] + task_.strip.begin;
    return begins[first] - rows::mod(on_roll, work_.carpet.pattern->length.ticks);
  }

  void buy(Recovered& answer, Seated bought, Ticks end) const {
    rows::Goal order;
    order.sold_in = work_.carpet.sold_in.ticks, order.least_order = work_.carpet.least_order.ticks;
    const Length to_buy{order.to_buy(shortened(bought, end, order))};
    auto layout = show(work_.wanted, bought.chosen, bought.at, {lot_.width, lot_.selvage, longest()}, to_buy);
    layout.length_to_buy = to_buy;
    layout.stock = fmt::format("roll {}, to buy", show_length(lot_.width, work_.options.unit, true));
    answer.length_to_buy += to_buy;
    answer.parts.push_back({std::move(layout), "", {}, {}});
  }

  const Work& work_;
  const GoodsLot& lot_;
  const Chosen& chosen_;
  Task task_;
  rows::Found found_;
};

Recovered nothing(std::string why_not) {
  Recovered answer;
  answer.why_not = std::move(why_not);
  return answer;
}

} // namespace

Recovered recover(const std::vector<CutPiece>& planned, const std::vector<CutPiece>& wanted,
                  const Carpet& carpet, const Layout& before, const Cutting& cutting,
                  const RecoverOptions& options) {
  const auto lots = goods_left(planned, wanted, carpet, before, cutting, options);
  const auto lot_of = [&](const CutPiece& piece) {
    return std::find_if(lots.begin(), std::prev(lots.end()),
                        [&](const GoodsLot& lot) { return lot.groups.contains(piece.group); });
  };
  Recovered answer;
  for (auto lot = lots.begin(); lot != lots.end(); ++lot) {
    Chosen chosen;
    for (std::size_t i = 0; i < wanted.size(); ++i) {
      if (lot_of(wanted[i]) != lot) continue;
      if (lot->kept.contains(wanted[i].id))
        answer.as_planned.push_back(wanted[i].id);
      else
        chosen.push_back(static_cast<int>(i));
    }
    if (chosen.empty()) continue;
    auto why_not = Filling({wanted, carpet, options}, *lot, chosen).run(answer);
    if (!why_not.empty()) return nothing(std::move(why_not));
    if (!lot->remnant.empty() && answer.length_to_buy > Length{})
      return nothing(
          fmt::format("what is left of remnant '{}' has no room for all that was to be cut from it, "
                      "and nothing else is of its dye lot",
                      lot->remnant));
  }
  return answer;
}

} // namespace treadfold
