#include "sheets/looks.h"
#include "units/steady.h"

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>
#include <numbers>

namespace treadfold {

namespace {

constexpr std::string_view kKnife = "#b4471f"; // the one accent: where a blade goes
constexpr std::string_view kSoft = "#6d6358";

const std::array<PenLook, 15>& pens() {
  static const std::array<PenLook, 15> table{{
      {Pen::none, "none", 0, {}, kInk},
      {Pen::outline, "outline", 0.50, {}, kInk},
      {Pen::fold_up, "fold-up", 0.34, {5, 1.5}, kInk},
      {Pen::fold_under, "fold-under", 0.38, {5, 1.2, 0.8, 1.2}, kInk},
      {Pen::cut, "cut", 0.75, {}, kKnife},
      {Pen::seam, "seam", 0.60, {1.6, 0.9}, kInk},
      {Pen::hem, "hem", 0.30, {2.6, 0.8, 0.6, 0.8, 0.6, 0.8}, kInk},
      {Pen::trim, "trim", 0.26, {2.2, 1.8}, kSoft},
      {Pen::strip, "strip", 0.90, {0.9, 0.9}, kSoft},
      {Pen::knife, "knife", 0.65, {9, 1.6}, kKnife},
      {Pen::dimension, "dimension", 0.18, {}, kInk},
      {Pen::hairline, "hairline", 0.10, {}, kSoft},
      {Pen::warning, "warning", 1.05, {3, 1, 1, 1}, kWarningInk},
      {Pen::tuck, "tuck", 0.42, {3.2, 1.1, 3.2, 1.1, 0.5, 1.1, 0.5, 1.1}, kInk},
      {Pen::glue, "glue", 0.80, {0.3, 1.3}, kSoft},
  }};
  return table;
}

const std::array<FillLook, 10>& fills() {
  static const std::array<FillLook, 10> table{{
      {Fill::none, "none", "#ffffff", 0, 0, ""},
      {Fill::paper, "paper", "#faf6ee", 0, 0, ""},
      {Fill::carpet, "carpet", "#efe2cb", 0, 0, ""},
      {Fill::carpet_dark, "carpet-dark", "#d6c1a0", 0, 0, ""},
      {Fill::pad, "pad", "#f6f0e4", 2.4, 45, kSoft},
      {Fill::wood, "wood", "#f0e0c4", 1.6, 0, "#8c6f47"},
      {Fill::strip, "strip", "#8f8169", 0, 0, ""},
      {Fill::offcut, "offcut", "#ffffff", 4.5, 135, kSoft},
      {Fill::warning, "warning", "#fbe6df", 1.3, 60, kWarningInk},
      {Fill::ink, "ink", kInk, 0, 0, ""},
  }};
  return table;
}

} // namespace

const PenLook& look(Pen pen) {
  const PenLook& found = pens().at(static_cast<std::size_t>(pen));
  assert(found.pen == pen);
  return found;
}

const FillLook& look(Fill fill) {
  const FillLook& found = fills().at(static_cast<std::size_t>(fill));
  assert(found.fill == fill);
  return found;
}

std::vector<HatchLine> hatch(const std::vector<PagePoint>& outline, const FillLook& fill) {
  std::vector<HatchLine> lines;
  if (fill.hatch_mm <= 0 || outline.size() < 3) return lines;
  const double angle = fill.hatch_deg * std::numbers::pi / 180;
  const double c = steady::cos(angle), s = steady::sin(angle);
  // Along the hatch (a) and across it (b); y runs down the page, hence the signs.
  const auto along = [&](PagePoint p) { return p.x * c - p.y * s; };
  const auto across = [&](PagePoint p) { return p.x * s + p.y * c; };
  double least = across(outline[0]), most = least;
  for (const PagePoint& p : outline) {
    least = std::min(least, across(p));
    most = std::max(most, across(p));
  }
  const auto first = static_cast<long>(std::ceil(least / fill.hatch_mm));
  const auto last = static_cast<long>(std::floor(most / fill.hatch_mm));
  for (long k = first; k <= last; ++k) {
    const double b = static_cast<double>(k) * fill.hatch_mm;
    std::vector<double> crossings;
    for (std::size_t i = 0; i < outline.size(); ++i) {
      const PagePoint p = outline[i], q = outline[(i + 1) % outline.size()];
      const double bp = across(p), bq = across(q);
      if ((bp <= b) == (bq <= b)) continue;
      crossings.push_back(along(p) + (along(q) - along(p)) * (b - bp) / (bq - bp));
    }
    std::sort(crossings.begin(), crossings.end());
    for (std::size_t i = 0; i + 1 < crossings.size(); i += 2)
      if (crossings[i + 1] - crossings[i] > 0.05)
        lines.push_back({{crossings[i] * c + b * s, b * c - crossings[i] * s},
                         {crossings[i + 1] * c + b * s, b * c - crossings[i + 1] * s}});
  }
  return lines;
}

} // namespace treadfold
