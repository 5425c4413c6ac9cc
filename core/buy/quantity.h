// Exact areas, and quantities in whole thousandths, so that what is counted does not depend on rounding on
// the way.
#pragma once

#include "units/length.h"

namespace treadfold {

/// x·num/den, rounded half to even once. REQUIRES: den > 0, and the result fits.
std::int64_t scaled_half_even(std::int64_t x, std::int64_t num, std::int64_t den);

/// An area as a whole number of square ticks. Holds up to 144,000 m².
struct Area {
  std::int64_t square_ticks = 0;
  auto operator<=>(const Area&) const = default;
  constexpr Area operator+(Area o) const { return {square_ticks + o.square_ticks}; }
  constexpr Area operator-(Area o) const { return {square_ticks - o.square_ticks}; }
  constexpr Area& operator+=(Area o) { return square_ticks += o.square_ticks, *this; }
  constexpr double m2() const { return static_cast<double>(square_ticks) / 6.4e13; }
};
constexpr Area area(Length width, Length length) { return {width.ticks * length.ticks}; }
/// Nearest. REQUIRES: 0 <= m2 <= 144,000.
Area area_from_m2(double m2);

inline constexpr Area kSquareYard = area(kFoot * 3, kFoot * 3);
inline constexpr Area kSquareMetre = area(kMillimetre * 1000, kMillimetre * 1000);

/// How many thousandths of `unit`: milli(area(144 in, 324 in), kSquareYard) = 36,000.
std::int64_t milli(Area x, Area unit);
std::int64_t milli(Length x, Length unit);

/// Thousandths as a decimal with two places, or three where the last is not 0: "36.00", "12.347", "-0.50".
std::string show_milli(std::int64_t milli);

/// "36.00 sq yd" or "30.10 m²", nearest hundredth.
std::string show_area(Area x, LengthUnit unit);
/// A running length: "27' 6\"", or "8.39 m" rounded up to the centimetre.
std::string show_run(Length x, LengthUnit unit);

} // namespace treadfold
