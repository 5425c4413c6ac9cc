// Rows of boxes about as long as each other that fill the strip's width: good packings of many boxes, at
// once.
#pragma once

#include "cut/pack/sheet.h"

#include <vector>

namespace treadfold::pack {

/// What a box of each kind is worth in a row: boxes that fit side by side are worth no more than 1 together.
struct RowValues {
  std::vector<double> of_kind;
  /// No packing is shorter: on each line across the strip lie boxes worth no more than 1.
  Ticks bound = 0;
};

/// The values that make the bound great, for widths in `classes` of about the same width: a linear program
/// (scales.h), given up at `most_work` steps; or the widths themselves, where it comes to much less. The
/// bound is the better of both. Adds to `work`.
RowValues row_values(const Sheet& sheet, Ticks classes, std::int64_t most_work, std::int64_t& work);

/// Row after row: the longest box left, and beside it those of the next `window` longest that are worth most
/// together. Straight cuts across free the rows, straight cuts along the boxes. Adds to `work`.
std::vector<Placed> full_rows(const Sheet& sheet, const RowValues& values, int window, std::int64_t& work);

/// About as many steps.
std::int64_t work_of_full_rows(const Sheet& sheet, int window);

} // namespace treadfold::pack
