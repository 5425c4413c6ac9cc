#include "cut/pack/sheet.h"

#include <algorithm>
#include <cassert>
#include <map>
#include <utility>

namespace treadfold::pack {

Sheet sheet_of(const std::vector<Box>& boxes, Ticks width) {
  Sheet sheet;
  sheet.width = width;
  sheet.boxes = static_cast<int>(boxes.size());
  std::map<std::pair<Ticks, Ticks>, std::vector<int>> kinds;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    assert(boxes[i].w > 0 && boxes[i].l > 0 && boxes[i].w <= width);
    assert(std::max(boxes[i].w, boxes[i].l) < std::numeric_limits<std::int32_t>::max());
    kinds[{boxes[i].w, boxes[i].l}].push_back(static_cast<int>(i));
    sheet.area += boxes[i].w * boxes[i].l;
    sheet.all_lengths += boxes[i].l;
    sheet.least_w = i == 0 ? boxes[i].w : std::min(sheet.least_w, boxes[i].w);
    sheet.least_l = i == 0 ? boxes[i].l : std::min(sheet.least_l, boxes[i].l);
  }
  for (auto& [size, members] : kinds) {
    sheet.kinds.push_back({size.first, size.second, static_cast<int>(members.size())});
    sheet.of_kind.push_back(std::move(members));
  }
  return sheet;
}

Sheet transposed(const Sheet& sheet, Ticks length) {
  Sheet other = sheet;
  other.width = length;
  std::swap(other.least_w, other.least_l);
  other.all_lengths = 0;
  for (auto& k : other.kinds) {
    std::swap(k.w, k.l);
    other.all_lengths += k.l * k.count;
  }
  return other;
}

std::vector<Spot> spots_of(const Sheet& sheet, const std::vector<Placed>& placed) {
  std::vector<Spot> spots(static_cast<std::size_t>(sheet.boxes));
  std::vector<std::size_t> used(sheet.kinds.size(), 0);
  for (const auto& p : placed) {
    const auto k = static_cast<std::size_t>(p.kind);
    assert(used[k] < sheet.of_kind[k].size());
    spots[static_cast<std::size_t>(sheet.of_kind[k][used[k]++])] = {p.u, p.v};
  }
  assert(placed.size() == spots.size());
  return spots;
}

void Skyline::cover(std::size_t i, Ticks from, Ticks to, Ticks v) {
  const Ticks start = steps[i].u, stop = end(i);
  const bool merges_left = from == start && i > 0 && steps[i - 1].v == v;
  const bool merges_right = to == stop && i + 1 < steps.size() && steps[i + 1].v == v;
  const auto at = [this](std::size_t k) { return steps.begin() + static_cast<std::ptrdiff_t>(k); };
  if (from == start && to == stop) {
    if (merges_left && merges_right)
      steps.erase(at(i), at(i + 2));
    else if (merges_left)
      steps.erase(at(i));
    else if (merges_right)
      steps[i].v = v, steps.erase(at(i + 1));
    else
      steps[i].v = v;
  } else if (from == start) {
    steps[i].u = to; // what is left of the step
    if (!merges_left) steps.insert(at(i), {start, v});
  } else {
    assert(to == stop);
    if (merges_right)
      steps[i + 1].u = from;
    else
      steps.insert(at(i + 1), {from, v});
  }
}

} // namespace treadfold::pack
