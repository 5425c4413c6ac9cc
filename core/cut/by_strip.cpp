#include "cut/by_strip.h"

#include "cut/pack/strip.h"

#include <algorithm>

namespace treadfold::rows {
namespace {

/// Steps of the strip's search for each unit of work.
constexpr std::int64_t kStepsPerWork = 4000;
constexpr Ticks kMostSize = Ticks{1} << 31; // that the strip's search takes

bool plain(const std::vector<Rect>& rects, const Strip& strip) {
  return strip.loose.empty() && std::all_of(rects.begin(), rects.end(), [&](const Rect& r) {
           return (r.match < 0 || !strip.repeat) && r.w < kMostSize && r.l < kMostSize;
         });
}

} // namespace

void search_strip(const std::vector<Rect>& rects, const Strip& strip, const Goal& goal, Found& found,
                  Found& close, Bound& bound) {
  close = found;
  const auto take = [&](Found& into, const pack::StripAnswer& answer) {
    if (goal.to_buy(answer.length) >= goal.to_buy(into.used)) return false;
    into.used = answer.length;
    for (std::size_t i = 0; i < rects.size(); ++i)
      into.at[i] = {answer.at[i].u, answer.at[i].v};
    return true;
  };
  const auto enough = [&] { return goal.to_buy(found.used) <= goal.to_buy(bound.length); };
  if (enough() || !plain(rects, strip)) return;
  std::vector<pack::Box> boxes;
  boxes.reserve(rects.size());
  for (const auto& r : rects)
    boxes.push_back({r.w, r.l});
  pack::StripOptions options;
  options.work = goal.work * kStepsPerWork / 2, options.seed = goal.seed;
  options.sold_in = std::max<Ticks>(1, goal.sold_in);
  // In any way first: what no packing can be, none by straight strokes can be either.
  const auto free = pack::pack_strip(boxes, strip.width, options);
  if (free.bound > bound.length) bound = {free.bound, free.bound_name};
  if (enough() || !take(close, free)) return;
  options.guillotine = true, options.known_bound = free.bound;
  if (strip.longest_row < kMostSize) options.longest_in_hand = strip.longest_row;
  const auto straight = pack::pack_strip(boxes, strip.width, options);
  take(found, straight);
  if (goal.to_buy(found.used) <= goal.to_buy(close.used)) close = found;
}

} // namespace treadfold::rows
