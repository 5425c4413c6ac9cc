#include "cut/layout.h"

#include "cut/bound.h"
#include "cut/by_lattice.h"
#include "cut/by_outline.h"
#include "cut/by_strip.h"
#include "cut/knife.h"
#include "cut/match_scales.h"
#include "cut/motif_bound.h"
#include "cut/remnants.h"
#include "cut/stretch.h"

#include <algorithm>
#include <cstdlib>
#include <fmt/format.h>
#include <map>
#include <tuple>

namespace treadfold {
namespace {

using rows::Ticks;

constexpr std::int64_t kStepsToCompare = 200'000;  // when ways to share are only weighed against each other
constexpr std::int64_t kPlacesPerWork = 8'000;     // of the bound of patterned goods
constexpr std::int64_t kMotifStepsPerWork = 5'000; // likewise, where the motifs are swept
constexpr Length kEndless{std::int64_t{1} << 60};

struct Work {
  const std::vector<CutPiece>& pieces;
  const Carpet& carpet;
  const LayoutOptions& options;
};

Goods roll_goods(const Carpet& carpet, Length width) {
  return {width, carpet.selvage, carpet.roll_length.ticks > 0 ? carpet.roll_length : kEndless,
          carpet.in_hand};
}

rows::Goal order_goal(const Work& work, const Goods& goods) {
  rows::Goal goal;
  goal.sold_in = work.carpet.sold_in.ticks, goal.least_order = work.carpet.least_order.ticks;
  goal.roll_width = goods.width.ticks, goal.selvage = goods.selvage.ticks;
  goal.work = work.options.work, goal.seed = work.options.seed;
  return goal;
}

/// The layout from the roll divided into cuts no longer than can be had. A row begins its cut: goods before
/// it are not ordered.
std::vector<RollLayout> cuts_from_roll(const Work& work, const Chosen& chosen, const rows::Found& found,
                                       const Goods& goods) {
  const auto goal = order_goal(work, goods);
  std::vector<knife::GoodsBox> boxes;
  for (std::size_t i = 0; i < chosen.size(); ++i) {
    const CutPiece& p = work.pieces[chosen[i]];
    boxes.push_back({found.at[i].u + goods.selvage.ticks, found.at[i].v, p.width.ticks, p.length.ticks});
  }
  struct Cut {
    Ticks begin, end;
    Chosen chosen;
    std::vector<rows::Spot> at;
  };
  std::vector<Cut> cuts;
  if (found.used <= goods.length.ticks) {
    cuts.push_back({0, found.used, chosen, found.at});
  } else {
    const auto begins = knife::cut_plan(boxes, {goods.width.ticks, goods.selvage.ticks, found.used}).rows;
    std::vector<Cut> in_rows;
    in_rows.reserve(begins.size());
    for (Ticks begin : begins)
      in_rows.push_back({begin, begin, {}, {}});
    for (std::size_t i = 0; i < boxes.size(); ++i) {
      const auto row = std::upper_bound(begins.begin(), begins.end(), boxes[i].v) - begins.begin() - 1;
      Cut& cut = in_rows[static_cast<std::size_t>(row)];
      cut.end = std::max(cut.end, boxes[i].v + boxes[i].l);
      cut.chosen.push_back(chosen[i]), cut.at.push_back(found.at[i]);
    }
    // On patterned goods each cut begins on the motif on which the first began, so that what is cut from it
    // matches; a row too long for that keeps its own beginning.
    const Ticks repeat = work.carpet.pattern ? work.carpet.pattern->length.ticks : 1;
    for (auto& row : in_rows) {
      if (cuts.empty() || row.end - cuts.back().begin > goods.length.ticks) {
        const Ticks on_motif = row.begin - rows::mod(row.begin, repeat);
        cuts.push_back({row.end - on_motif <= goods.length.ticks ? on_motif : row.begin, row.end, {}, {}});
      }
      Cut& cut = cuts.back();
      cut.end = row.end;
      cut.chosen.insert(cut.chosen.end(), row.chosen.begin(), row.chosen.end());
      for (auto spot : row.at)
        cut.at.push_back({spot.u, spot.v - cut.begin, spot.turned});
    }
  }
  std::vector<RollLayout> rolls;
  const std::string name = "roll " + show_length(goods.width, work.options.unit, true);
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    auto part = goal;
    if (i > 0) part.least_order = 0;
    const Length to_buy{part.to_buy(cuts[i].end - cuts[i].begin)};
    RollLayout& roll = rolls.emplace_back(show(work.pieces, cuts[i].chosen, cuts[i].at, goods, to_buy));
    roll.length_to_buy = to_buy;
    roll.stock = cuts.size() == 1 ? name : fmt::format("{}, cut {} of {}", name, i + 1, cuts.size());
  }
  return rolls;
}

/// What one width comes to.
struct Candidate {
  WidthOffer offer;
  Share share;
  std::vector<RollLayout> rolls;
  Ticks whole_rows = 0;
  Length straight_to_buy, close_to_buy, outlines_to_buy;
  rows::Bound bound;
  bool proved = false;
};

Length to_buy(const std::vector<RollLayout>& rolls) {
  Length sum;
  for (const auto& roll : rolls)
    sum += roll.length_to_buy;
  return sum;
}

double area_m2(Length width, Length length) { return width.mm() * length.mm() * 1e-6; }

pack::Ring in_ticks(const GoodsRing& ring) {
  pack::Ring ticks;
  for (const auto& c : ring)
    ticks.push_back({c.u.ticks, c.v.ticks});
  return ticks;
}

rows::RectOutlines outlines_of(const Work& work, const Chosen& chosen) {
  rows::RectOutlines outlines;
  for (int i : chosen) {
    const auto& of_piece = work.pieces[static_cast<std::size_t>(i)].outline;
    auto& outline = outlines.emplace_back(pack::Outline{in_ticks(of_piece.ring), {}});
    for (const auto& hole : of_piece.holes)
      outline.holes.push_back(in_ticks(hole));
  }
  return outlines;
}

Candidate try_share(const Work& work, const Goods& goods, Share share) {
  Candidate c;
  c.offer.width = goods.width;
  c.share = std::move(share);
  if (c.share.roll.empty()) {
    c.proved = true, c.bound.name = "nothing to buy";
    return c;
  }
  const Task task = make_task(work.pieces, c.share.roll, goods, work.carpet.pattern, work.options.unit);
  if (!task.why_not.empty()) {
    c.offer.feasible = false, c.offer.why_not = task.why_not;
    return c;
  }
  auto goal = order_goal(work, goods);
  c.bound = rows::bound(task.rects, task.strip);
  rows::raise_by_match_scales(task.rects, task.strip, work.options.work * kPlacesPerWork, c.bound);
  goal.good_enough = c.bound.length;
  auto found = rows::search(task.rects, task.strip, goal);
  rows::Found close;
  rows::search_strip(task.rects, task.strip, goal, found, close, c.bound);
  rows::search_lattice(task.rects, task.strip, goal, c.bound, found, close);
  if (close.used <= goods.length.ticks)
    rows::raise_by_motifs(task.rects, task.strip, goal.longest_cheaper(close.used),
                          work.options.work * kMotifStepsPerWork, c.bound);
  c.whole_rows = found.whole_rows;
  auto outlines = close;
  if (work.carpet.laid == Laid::outlines)
    rows::search_outlines(task.rects, outlines_of(work, c.share.roll), !work.carpet.directional, task.strip,
                          goal, outlines, c.bound);
  c.rolls = cuts_from_roll(work, c.share.roll, found, goods);
  c.straight_to_buy = to_buy(c.rolls);
  // Not divided into cuts, for none of its parts need be short enough to be one.
  const auto bought_whole = [&](const rows::Found& whole, Length otherwise) {
    return whole.used <= goods.length.ticks ? std::min(otherwise, {goal.to_buy(whole.used)}) : otherwise;
  };
  c.close_to_buy = bought_whole(close, c.straight_to_buy);
  c.outlines_to_buy = bought_whole(outlines, c.close_to_buy);
  if (work.carpet.laid == Laid::outlines && c.outlines_to_buy < c.close_to_buy)
    c.rolls = cuts_from_roll(work, c.share.roll, outlines, goods);
  else if (work.carpet.laid != Laid::straight && c.close_to_buy < c.straight_to_buy)
    c.rolls = cuts_from_roll(work, c.share.roll, close, goods);
  // Goods between two cuts are not bought, so what the pattern asks of one strip binds no more.
  if (c.rolls.size() > 1 && task.strip.repeat)
    c.bound = rows::bound_without_pattern(task.rects, task.strip.width);
  for (const auto& roll : c.rolls)
    c.offer.length_used += roll.length_used;
  c.offer.length_to_buy = to_buy(c.rolls);
  c.offer.area_m2 = area_m2(goods.width, c.offer.length_to_buy);
  c.proved = c.offer.length_to_buy.ticks == goal.to_buy(c.bound.length);
  return c;
}

/// The most promising way to use remnants, judged by quick layouts; of ways that order the same the one with
/// fewest and smallest remnants.
const Share* best_use_of_remnants(const Work& work, const Goods& goods, const std::vector<Share>& ways) {
  using Key = std::tuple<Ticks, int, double, std::size_t>;
  const Share* best = nullptr;
  Key best_key;
  for (std::size_t i = 1; i < ways.size(); ++i) {
    const Share& way = ways[i];
    Key key{0, 0, 0, work.pieces.size() - way.roll.size()};
    auto& [to_buy, remnants, area, moved] = key;
    for (std::size_t r = 0; r < way.remnants.size(); ++r)
      if (!way.remnants[r].empty()) {
        const Remnant& remnant = work.carpet.remnants[r];
        ++remnants, area += area_m2(remnant.width, remnant.length);
      }
    if (!way.roll.empty()) {
      const Task task = make_task(work.pieces, way.roll, goods, work.carpet.pattern, work.options.unit);
      if (!task.why_not.empty()) continue;
      auto goal = order_goal(work, goods);
      goal.work = 0, goal.fixed_steps = kStepsToCompare;
      to_buy = goal.to_buy(rows::search(task.rects, task.strip, goal).used);
    }
    if (!best || key < best_key) best = &way, best_key = key;
  }
  return best;
}

Candidate try_width(const Work& work, Length width, const std::vector<Share>& ways) {
  const Goods goods = roll_goods(work.carpet, width);
  Candidate c = try_share(work, goods, ways.front());
  if (const Share* way = best_use_of_remnants(work, goods, ways)) {
    Candidate with = try_share(work, goods, *way);
    if (with.offer.feasible && (!c.offer.feasible || with.offer.length_to_buy < c.offer.length_to_buy))
      c = std::move(with);
  }
  return c;
}

std::vector<RollLayout> cut_remnants(const Work& work, const Share& share) {
  std::vector<RollLayout> rolls;
  for (std::size_t r = 0; r < share.remnants.size(); ++r) {
    if (share.remnants[r].empty()) continue;
    const Remnant& remnant = work.carpet.remnants[r];
    const Goods goods{remnant.width, {}, remnant.length, work.carpet.in_hand};
    const Task task =
        make_task(work.pieces, share.remnants[r], goods, work.carpet.pattern, work.options.unit);
    rows::Goal goal;
    goal.roll_width = remnant.width.ticks, goal.work = work.options.work, goal.seed = work.options.seed;
    goal.good_enough = rows::bound(task.rects, task.strip).length;
    const auto found = rows::search(task.rects, task.strip, goal);
    rolls.push_back(show(work.pieces, share.remnants[r], found.at, goods, remnant.length));
    rolls.back().stock = remnant.name;
    rolls.back().remnant = true;
  }
  return rolls;
}

/// Equal sizes are named once, so that ten thousand wrong steps make one sentence.
void report_too_large(const Work& work, Length limit, Length CutPiece::*side, const char* child,
                      const std::string& expected, Problems& problems) {
  std::map<Length, std::vector<const CutPiece*>, std::greater<>> sizes;
  for (const auto& p : work.pieces)
    if (p.*side > limit) sizes[p.*side].push_back(&p);
  for (const auto& [size, list] : sizes) {
    const std::string which = list.size() == 1
                                  ? fmt::format("piece {}", list.front()->id)
                                  : fmt::format("pieces {} and {} more", list.front()->id, list.size() - 1);
    const auto shown = show_length(size, work.options.unit, true);
    problems.push_back({Severity::error, work.carpet.where + child,
                        side == &CutPiece::width ? fmt::format("{}, {} wide", which, shown)
                                                 : fmt::format("{}, {} long", which, shown),
                        expected});
  }
}

/// No width will do: say why, piece by piece.
void report_no_width(const Work& work, Problems& problems) {
  const auto shown = [&](Length x) { return show_length(x, work.options.unit, true); };
  const std::size_t before = problems.size();
  if (work.carpet.roll_widths.empty()) {
    problems.push_back({Severity::error, work.carpet.where + "/widths", "none", "at least one width"});
    return;
  }
  const Length widest = *std::max_element(work.carpet.roll_widths.begin(), work.carpet.roll_widths.end());
  const Goods goods = roll_goods(work.carpet, widest);
  report_too_large(work, goods.usable(), &CutPiece::width, "/widths",
                   "no piece wider than " + shown(goods.usable()) + ", all that the widest roll gives",
                   problems);
  report_too_large(work, goods.length, &CutPiece::length, "/roll_length",
                   "no piece longer than " + shown(goods.length) + ", the longest cut", problems);
  if (problems.size() > before) return;
  Chosen all;
  for (std::size_t i = 0; i < work.pieces.size(); ++i)
    all.push_back(static_cast<int>(i));
  const Task task = make_task(work.pieces, all, goods, work.carpet.pattern, work.options.unit);
  problems.push_back({Severity::error, work.carpet.where + "/pattern", task.why_not,
                      "a repeat that all pieces of a match group can keep on one roll"});
}

void warn_of_several_cuts(const Work& work, const Candidate& c, Problems& problems) {
  if (c.rolls.size() < 2) return;
  problems.push_back(
      {Severity::warning, work.carpet.where + "/roll_length",
       fmt::format("{} to cut", show_length(c.offer.length_used, work.options.unit, true)),
       fmt::format(
           "no more than {}, the longest cut; the order is {} cuts, and they must be of one dye lot{}",
           show_length(work.carpet.roll_length, work.options.unit, true), c.rolls.size(),
           work.carpet.pattern ? " and begin on the same motif" : "")});
}

void warn_of_long_pieces(const Work& work, Problems& problems) {
  const auto& limit = work.carpet.in_hand;
  if (!limit || work.carpet.laid != Laid::straight) return;
  const auto longest = std::max_element(work.pieces.begin(), work.pieces.end(),
                                        [](const auto& a, const auto& b) { return a.length < b.length; });
  if (longest->length <= *limit) return;
  problems.push_back(
      {Severity::warning, work.carpet.where + "/longest_in_hand",
       fmt::format("piece {}, {} long", longest->id, show_length(longest->length, work.options.unit, true)),
       fmt::format("no more than {} in hand; no row is longer than this piece",
                   show_length(*limit, work.options.unit, true))});
}

Ticks without_pattern(const Work& work, const Candidate& c) {
  const Ticks with = c.offer.length_used.ticks;
  if (!work.carpet.pattern || c.share.roll.empty()) return with;
  const Goods goods = roll_goods(work.carpet, c.offer.width);
  const Task task = make_task(work.pieces, c.share.roll, goods, std::nullopt, work.options.unit);
  auto goal = order_goal(work, goods);
  goal.sold_in = 1;
  auto bound = rows::bound(task.rects, task.strip);
  goal.good_enough = bound.length;
  auto found = rows::search(task.rects, task.strip, goal);
  rows::Found close;
  rows::search_strip(task.rects, task.strip, goal, found, close, bound);
  return std::min(with, found.used);
}

bool pattern_is_whole(const Carpet& carpet, Problems& problems) {
  if (!carpet.pattern) return true;
  const auto& [width, length, drop] = *carpet.pattern;
  if (width.ticks > 0 && length.ticks > 0 && drop.ticks >= 0 && drop < length) return true;
  problems.push_back({Severity::error, carpet.where + "/pattern", "a repeat that is not one",
                      "width and length over 0, and a drop from 0 to less than the length"});
  return false;
}

} // namespace

Layout lay_out(const std::vector<CutPiece>& pieces, const Carpet& carpet, const LayoutOptions& options,
               Problems& problems) {
  Layout layout;
  layout.carpet = carpet.id;
  for (const auto& p : pieces)
    layout.net_area_m2 += area_m2(p.width, p.length);
  if (pieces.empty() || !pattern_is_whole(carpet, problems)) return layout;

  const Work work{pieces, carpet, options};
  const auto ways = ways_to_share(pieces, carpet, options);
  std::vector<Candidate> candidates;
  for (Length width : carpet.roll_widths)
    candidates.push_back(try_width(work, width, ways));
  std::stable_sort(candidates.begin(), candidates.end(), [](const Candidate& a, const Candidate& b) {
    const auto key = [](const Candidate& c) {
      return std::tuple(!c.offer.feasible, c.offer.area_m2, c.offer.length_to_buy);
    };
    return key(a) < key(b);
  });
  for (const auto& c : candidates)
    layout.offers.push_back(c.offer);
  if (candidates.empty() || !candidates.front().offer.feasible) {
    report_no_width(work, problems);
    return layout;
  }

  Candidate& best = candidates.front();
  warn_of_several_cuts(work, best, problems);
  warn_of_long_pieces(work, problems);
  layout.length_without_pattern = {without_pattern(work, best)};
  layout.whole_rows = {best.whole_rows};
  layout.straight_to_buy = best.straight_to_buy, layout.close_to_buy = best.close_to_buy;
  layout.outlines_to_buy = best.outlines_to_buy;
  layout.lower_bound = {best.bound.length};
  layout.bound_name = best.bound.name;
  layout.proved_least = best.proved;
  layout.rolls = cut_remnants(work, best.share);
  std::move(best.rolls.begin(), best.rolls.end(), std::back_inserter(layout.rolls));
  return layout;
}

std::int64_t covered_area(Length width, Length length, const GoodsOutline& outline) {
  if (outline.empty()) return width.ticks * length.ticks;
  const auto twice = [](const GoodsRing& ring) {
    std::int64_t sum = 0;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      const auto a = ring[i], b = ring[(i + 1) % ring.size()], from = ring[0];
      sum += (a.u - from.u).ticks * (b.v - from.v).ticks - (b.u - from.u).ticks * (a.v - from.v).ticks;
    }
    return std::abs(sum);
  };
  std::int64_t area = twice(outline.ring);
  for (const auto& hole : outline.holes)
    area -= twice(hole);
  return area / 2;
}

Length whole_rows(const std::vector<CutPiece>& pieces, Length usable_width) {
  Length ended, width_in_row, row;
  for (const auto& p : pieces) {
    if (width_in_row + p.width > usable_width) ended += row, row = {}, width_in_row = {};
    width_in_row += p.width;
    row = std::max(row, p.length);
  }
  return ended + row;
}

} // namespace treadfold
