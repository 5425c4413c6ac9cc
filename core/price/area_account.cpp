#include "price/area_account.h"

#include <fmt/format.h>

#include <algorithm>

namespace treadfold {

AreaAccount account_areas(const std::vector<Layout>& layouts, Area net) {
  AreaAccount a;
  a.net = net;
  Area used, rectangles;
  for (const Layout& layout : layouts) {
    Length from_roll, width; // a long order is several cuts of one width
    for (const RollLayout& roll : layout.rolls) {
      const Area of_this = area(roll.width, roll.length_used);
      used += of_this;
      for (const Placement& p : roll.placements)
        rectangles += area(p.width, p.length);
      if (roll.remnant) {
        a.from_remnants += of_this;
        continue;
      }
      a.ordered += area(roll.width, roll.length_to_buy);
      a.rounding += area(roll.width, roll.length_to_buy) - of_this;
      from_roll += roll.length_used;
      width = roll.width;
    }
    const Length plain = layout.length_without_pattern;
    if (plain > Length{} && plain < from_roll) a.pattern += area(width, from_roll - plain);
  }
  a.pattern = std::min(a.pattern, used - rectangles);
  a.allowances = rectangles - net;
  a.left_over = used - rectangles - a.pattern;
  return a;
}

std::string in_words(const AreaAccount& account, LengthUnit unit) {
  const bool inch = unit == LengthUnit::inch;
  const auto hundredths = [&](Area x) {
    return scaled_half_even(x.square_ticks, 100, (inch ? kSquareYard : kSquareMetre).square_ticks);
  };
  const auto show = [&](std::int64_t h) { return show_milli(h * 10) + (inch ? " sq yd" : " m²"); };
  const std::int64_t ordered = hundredths(account.ordered), remnants = hundredths(account.from_remnants),
                     net = hundredths(account.net), pattern = hundredths(account.pattern),
                     left_over = hundredths(account.left_over), rounding = hundredths(account.rounding);
  // Rounded apart, the parts could miss the sum by a hundredth or two; the allowances take that up.
  const std::int64_t allowances = ordered + remnants - net - pattern - left_over - rounding;
  if (ordered + remnants == 0) return "";

  std::string text =
      remnants == 0  ? fmt::format("Ordered: {}.", show(ordered))
      : ordered == 0 ? fmt::format("Nothing is ordered: {} come from remnants.", show(remnants))
                     : fmt::format("Ordered: {}, and {} come from remnants.", show(ordered), show(remnants));
  text += " " + fmt::format("The pieces alone measure {}.", show(net));
  const auto part = [&](std::int64_t size, const char* sentence) {
    if (size != 0) text += " " + fmt::format(fmt::runtime(sentence), show(size));
  };
  part(allowances,
       "{} is allowance and trim: what is tucked, turned under and cut away at the edges of the pieces.");
  part(pattern, "{} is spent to make the pattern meet.");
  part(left_over, "{} lies beside and between the pieces, for carpet comes in fixed widths and its pile must "
                  "run one way.");
  part(rounding, "{} rounds the order up to the length in which the carpet is sold.");
  return text;
}

} // namespace treadfold
