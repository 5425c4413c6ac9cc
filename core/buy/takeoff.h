// From pieces, fixings and layouts to what must be bought, each line with its rule.
//
// Guarantees
//  1. Every strip and cushion piece of every step is cut exactly once, and no stock or roll is cut beyond its
//     length.
//  2. Quantities are whole packages, rounded up; a line whose coverage figure is missing counts nothing, says
//     what length is needed and which figure would count it.
//  3. Lines come in the order carpet, cushion, strip, hot-melt, latex, staples, tape, binding; what is not
//     needed has no line.
#pragma once

#include "buy/strip.h"
#include "cover/fixings.h"
#include "cut/layout.h"

#include <optional>

namespace treadfold {

/// The user's own coverage figures and package sizes. Absent: the line says what it needs but cannot count
/// packages.
struct Supplies {
  std::optional<Length> hot_melt_per_stick; // bead length from one stick or slug
  std::optional<int> sticks_per_box;
  std::optional<Length> latex_per_bottle; // edge length sealed by one bottle
  Length staple_spacing = inches(3);
  std::optional<int> staples_per_box;
  std::optional<Length> tape_per_roll;
  std::optional<Length> binding_per_roll; // of a runner's edges
};

struct TakeoffLine {
  std::string item;    // "Carpet, 'Harbour twist'"
  std::string need;    // "27' 0\" of 12' roll = 36.00 sq yd"
  std::string rule;    // how it was counted, in one sentence
  double quantity = 0; // packages or units to buy
  std::string unit;    // "ft of roll", "m of roll", "rolls", "cases of 100", "boxes", "sticks", "bottles"
  bool counted = true; // false: no coverage figure given, quantity not known
};

/// Cushion for a step, or for a floor: then step = 0 and `flight` names the floor.
struct PadCut {
  int step = 0;
  std::string flight;
  Length width, length;
};

/// Strip round a floor, side by side from the right one on.
struct FloorStrip {
  std::string name;
  std::vector<Length> lengths;
};

struct Takeoff {
  std::vector<TakeoffLine> lines;
  std::vector<StripStock> strip; // stock lengths with their cuts
  int strip_lower_bound = 0;     // no fewer stock lengths can do
  std::vector<FloorStrip> floor_strips;
  std::vector<PadCut> pad_cuts;
  Length pad_roll_length; // length used of the cushion's rolls
  Length pad_roll_width;  // 0 when there is no cushion
  Length binding;         // of all runners' edges
};

struct FlightFixings {
  std::string flight;
  std::vector<Fixings> steps;
  std::string binding = {};   // of a runner's edges, as the order calls it; "" = not said
  Length binding_length = {}; // 0: nothing to bind
};

/// A floor takes cushion over its bounding rectangle, and strip along every side but its first, front left to
/// front right, where a flight's landing edge lies; and round its openings.
struct TakeoffInput {
  const std::vector<Layout>& layouts;
  const std::vector<Carpet>& carpets;
  const std::vector<FlightFixings>& fixings;
  const Cushion& cushion;
  const TackStrip& strip;
  const Supplies& supplies;
  std::vector<Floor> floors;
  Length fraying_floors; // edges of the floors' pieces to seal
  Length floor_seams;    // between the breadths of floors
  LengthUnit unit = LengthUnit::inch;
};
Takeoff take_off(const TakeoffInput& input);

} // namespace treadfold
