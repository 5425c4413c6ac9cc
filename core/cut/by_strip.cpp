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
                  Bound& bound) {
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
  if (enough() || goal.to_buy(free.length) >= goal.to_buy(found.used)) return;
  options.guillotine = true;
  if (strip.longest_row < kMostSize) options.longest_in_hand = strip.longest_row;
  const auto straight = pack::pack_strip(boxes, strip.width, options);
  if (goal.to_buy(straight.length) >= goal.to_buy(found.used)) return;
  found.used = straight.length;
  for (std::size_t i = 0; i < rects.size(); ++i)
    found.at[i] = {straight.at[i].u, straight.at[i].v};
}

} // namespace treadfold::rows
