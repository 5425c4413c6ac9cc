// One stretch of goods drawn to scale, cut into pages where no piece is divided if that can be.
//
// Guarantees
//  1. Words never overlap: what finds no room is left out here and stands in the list of strokes.
//  2. Every piece of at least 8 mm by 8 mm on paper carries its id.
#pragma once

#include "plan.h"
#include "sheets/page.h"

namespace treadfold {

/// The part of a roll that goes on one page: from v = `from` to `to`.
struct RollPart {
  Length from, to;
};

/// Breaks where no piece lies across, each part no longer than fits. `first_mm`: height for the drawing on
/// the first page, `mm`: on the others.
std::vector<RollPart> roll_parts(const RollLayout& roll, double denominator, double first_mm, double mm);

/// The largest scale at which the roll's width fits a box so wide, with room for dimensions at its sides, and
/// `length` fits one so high.
double roll_denominator(const RollLayout& roll, Length length, double width_mm, double height_mm);

/// Draws the part into `box`, from its top; returns the y below it.
double draw_roll(Drawing& page, const Box& box, const Plan& plan, const RollLayout& roll,
                 const RollPart& part, double denominator);

/// Where the roll ends for our purposes: what is ordered, or the remnant's end, but no less than what is
/// used.
Length drawn_length(const RollLayout& roll);

} // namespace treadfold
