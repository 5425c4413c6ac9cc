// From pieces, fixings and layouts to what must be bought, each line with its rule.
#pragma once

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
};

/// Strip cuts assigned to one stock length.
struct StripStock {
  std::vector<Length> cuts;
  Length left_over;
};

struct TakeoffLine {
  std::string item;    // "Carpet, 'Harbour twist'"
  std::string need;    // "27' 0\" of 12' roll = 36.00 sq yd"
  std::string rule;    // how it was counted, in one sentence
  double quantity = 0; // packages or units to buy
  std::string unit;    // "ft of roll", "rolls", "pieces", "boxes", "bottles"
  bool counted = true; // false: no coverage figure given, quantity not known
};

struct PadCut {
  int step = 0;
  std::string flight;
  Length width, length;
};

struct Takeoff {
  std::vector<TakeoffLine> lines;
  std::vector<StripStock> strip; // stock lengths with their cuts
  int strip_lower_bound = 0;     // no fewer stock lengths can do
  std::vector<PadCut> pad_cuts;
  Length pad_roll_length; // length used of the cushion roll
};

struct FlightFixings {
  std::string flight;
  std::vector<Fixings> steps;
};

/// `floors_area_m2`: cushion for floor pieces; `floor_perimeter`: strip round them.
struct TakeoffInput {
  const std::vector<Layout>& layouts;
  const std::vector<Carpet>& carpets;
  const std::vector<FlightFixings>& fixings;
  const Cushion& cushion;
  const TackStrip& strip;
  const Supplies& supplies;
  std::vector<Floor> floors;
  LengthUnit unit = LengthUnit::inch;
};
Takeoff take_off(const TakeoffInput& input);

/// Cutting stock: the fewest stock lengths for `cuts`. Best-fit decreasing, then exact search while small;
/// longer cuts than the stock are split into whole stocks and a rest first.
struct StripPlan {
  std::vector<StripStock> stock;
  int lower_bound = 0;
};
StripPlan cut_strip(std::vector<Length> cuts, Length stock_length);

} // namespace treadfold
