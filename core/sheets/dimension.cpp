#include "sheets/page.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

constexpr double kArrow = 2.4, kGap = 1.3, kTail = 3, kOvershoot = 1.2, kClear = 0.8;

/// Along the dimension line (a) and across it (b) to the page.
struct Axis {
  bool vertical = false;
  PagePoint at(double a, double b) const { return vertical ? PagePoint{b, a} : PagePoint{a, b}; }
};

} // namespace

Box dimension(Drawing& page, const Dimension& d) {
  const Axis axis{d.vertical};
  double a0 = d.vertical ? d.from.y : d.from.x, b0 = d.vertical ? d.from.x : d.from.y;
  double a1 = d.vertical ? d.to.y : d.to.x, b1 = d.vertical ? d.to.x : d.to.y;
  if (a0 > a1) {
    std::swap(a0, a1);
    std::swap(b0, b1);
  }
  const double b = d.line_at, span = a1 - a0, words = text_width(d.text, d.size_mm, d.bold);

  const auto extension = [&](double a, double from) {
    const double way = b >= from ? 1 : -1;
    if (std::abs(b - from) > kClear + 0.5)
      line(page, axis.at(a, from + way * kClear), axis.at(a, b + way * kOvershoot), Pen::hairline);
  };
  extension(a0, b0);
  extension(a1, b1);
  const auto head = [&](double tip, double way) {
    arrow_head(page, axis.at(tip, b), d.vertical ? 0 : way, d.vertical ? way : 0, kArrow);
  };

  const double middle = (a0 + a1) / 2;
  double place = middle, least = a0, most = a1; // where the words' middle is; what the line takes up
  const bool gap = words + 2 * kGap + 2 * kArrow <= span;
  if (gap) {
    line(page, axis.at(a0, b), axis.at(middle - words / 2 - kGap, b), Pen::dimension);
    line(page, axis.at(middle + words / 2 + kGap, b), axis.at(a1, b), Pen::dimension);
    head(a0, -1);
    head(a1, 1);
  } else {
    const bool between = words + 2 * kGap <= span;
    line(page, axis.at(a0 - kArrow - kTail, b), axis.at(a0, b), Pen::dimension);
    line(page, axis.at(a1, b), axis.at(a1 + kArrow + kTail, b), Pen::dimension);
    head(a0, 1);
    head(a1, -1);
    least = a0 - kArrow - kTail;
    most = a1 + kArrow + kTail;
    if (!between) {
      place = most + kGap + words / 2;
      most += kGap + words;
    }
  }
  // Words are centred on the line: capitals are about 0.72 em high.
  const double lower = 0.36 * d.size_mm;
  if (d.vertical)
    page.texts.push_back({{b + lower, place}, d.size_mm, d.text, Anchor::middle, d.bold, 90, false});
  else
    page.texts.push_back({{place, b + lower}, d.size_mm, d.text, Anchor::middle, d.bold, 0, false});

  const double half = 0.6 * d.size_mm;
  const double b_least = std::min({b - half, b0, b1}), b_most = std::max({b + half, b0, b1});
  return d.vertical ? Box{b_least, least, b_most, most} : Box{least, b_least, most, b_most};
}

} // namespace treadfold
