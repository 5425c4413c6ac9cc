#include "buy/cushion.h"

#include "buy/strip.h"

#include <algorithm>
#include <cassert>

namespace treadfold {

CushionPlan cut_cushion(const std::vector<CushionCut>& cuts, Length roll_width, Length roll_length) {
  assert(roll_width > Length{} && roll_length > Length{});
  std::vector<CushionCut> pieces;
  std::vector<Length> rows;
  for (CushionCut c : cuts) {
    if (c.width > roll_width && c.length <= roll_width) std::swap(c.width, c.length);
    for (; c.width > roll_width; c.width -= roll_width)
      rows.push_back(c.length);
    if (c.width > Length{} && c.length > Length{}) pieces.push_back(c);
  }
  std::stable_sort(pieces.begin(), pieces.end(),
                   [](const CushionCut& a, const CushionCut& b) { return a.length > b.length; });
  std::vector<Length> room; // left beside the pieces of each row below
  const std::size_t whole_rows = rows.size();
  for (const CushionCut& c : pieces) {
    const auto fits = std::find_if(room.begin(), room.end(), [&](Length left) { return left >= c.width; });
    if (fits != room.end()) {
      *fits -= c.width;
    } else {
      rows.push_back(c.length); // pieces come longest first, so none that joins the row is longer
      room.push_back(roll_width - c.width);
    }
  }
  assert(rows.size() == whole_rows + room.size());
  CushionPlan out;
  for (Length row : rows)
    out.length_used += row;
  out.rolls = static_cast<int>(cut_strip(rows, roll_length).stock.size());
  return out;
}

} // namespace treadfold
