#include "cut/pack/worth.h"

#include "cut/pack/scales.h"

#include <algorithm>

namespace treadfold::pack {
namespace {

Worth with_rooms(const Sheet& sheet, std::vector<Ticks> of_kind, std::int64_t& work) {
  Worth worth{std::move(of_kind), std::vector<Ticks>(static_cast<std::size_t>(sheet.width) + 1, 0)};
  for (std::size_t k = 0; k < sheet.kinds.size(); ++k)
    for (int i = 0; i < sheet.kinds[k].count; ++i)
      for (auto room = worth.in_room.size(); room-- > static_cast<std::size_t>(sheet.kinds[k].w);) {
        const auto beside = worth.in_room[room - static_cast<std::size_t>(sheet.kinds[k].w)];
        worth.in_room[room] = std::max(worth.in_room[room], beside + worth.of_kind[k]);
      }
  work += sheet.boxes * sheet.width / 4;
  return worth;
}

} // namespace

Worth worth_by_width(const Sheet& sheet, std::int64_t& work) {
  std::vector<Ticks> widths;
  for (const auto& k : sheet.kinds)
    widths.push_back(k.w);
  return with_rooms(sheet, std::move(widths), work);
}

Worth worth_by_program(const Sheet& sheet, std::int64_t most_work, std::int64_t& work) {
  std::vector<Ticks> widths;
  std::vector<int> counts;
  std::vector<double> weights;
  double all = 0;
  for (const auto& k : sheet.kinds) {
    widths.push_back(k.w), counts.push_back(k.count);
    weights.push_back(static_cast<double>(k.l) * k.count);
    all += weights.back();
  }
  for (auto& w : weights)
    w /= 2 * all; // the program ends early where weights sum to more than 1
  return with_rooms(sheet, Scale(widths, counts, sheet.width).best(weights, most_work, work), work);
}

} // namespace treadfold::pack
