// What each pen and fill looks like. One table, read by every writer, so that all formats agree.
#pragma once

#include "sheets/drawing.h"

#include <string_view>
#include <vector>

namespace treadfold {

/// Dash and weight both differ from pen to pen; colour repeats what they already say.
struct PenLook {
  Pen pen = Pen::none;
  std::string_view name; // for the SVG's class
  double width_mm = 0;
  std::vector<double> dash_mm; // on, off, …; empty: solid
  std::string_view colour;     // "#rrggbb"
};
const PenLook& look(Pen pen);
inline constexpr Pen kLastPen = Pen::glue;

/// A tone, and over it hatch lines where the tone alone could be taken for another's.
struct FillLook {
  Fill fill = Fill::none;
  std::string_view name;
  std::string_view tone; // "#rrggbb"
  double hatch_mm = 0;   // distance between hatch lines; 0: none
  double hatch_deg = 0;  // counter-clockwise from the page's x
  std::string_view hatch_colour;
};
const FillLook& look(Fill fill);
inline constexpr Fill kLastFill = Fill::ink;

inline constexpr double kHatchWidth = 0.12; // mm

struct HatchLine {
  PagePoint from, to;
};
/// The hatch of `fill` clipped to the closed `outline` (even-odd). Lines hang on the page's origin, so that
/// neighbours of one fill match.
std::vector<HatchLine> hatch(const std::vector<PagePoint>& outline, const FillLook& fill);

/// What words are written with.
inline constexpr std::string_view kInk = "#221d18", kWarningInk = "#a3200d";

} // namespace treadfold
