// Lengths, exact: a whole number of ticks of 125 nm, so that inch fractions and millimetres are both exact.
//
// Guarantees
//  1. Every multiple of 1/64 in and of 0.1 mm is represented exactly: 1/64 in = 3175 ticks, 0.1 mm = 800
//  ticks.
//  2. parse_length(print_length(x)) == x for every x that the chosen print can show.
//  3. Sums and differences are exact; only from_mm() rounds, and ceil_to()/from_mm_up() round outward, never
//  short.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace treadfold {

/// A length as a whole number of ticks (125 nm). A plain value; negative lengths are allowed in arithmetic.
struct Length {
  std::int64_t ticks = 0;

  auto operator<=>(const Length&) const = default;
  constexpr Length operator+(Length o) const { return {ticks + o.ticks}; }
  constexpr Length operator-(Length o) const { return {ticks - o.ticks}; }
  constexpr Length operator-() const { return {-ticks}; }
  constexpr Length operator*(std::int64_t k) const { return {ticks * k}; }
  constexpr Length& operator+=(Length o) { return ticks += o.ticks, *this; }
  constexpr Length& operator-=(Length o) { return ticks -= o.ticks, *this; }
  constexpr double mm() const { return static_cast<double>(ticks) / 8000.0; }
  constexpr double inches() const { return static_cast<double>(ticks) / 203200.0; }
};

inline constexpr Length kInch{203200};
inline constexpr Length kFoot{12 * 203200};
inline constexpr Length kMillimetre{8000};

/// n/d inches, exact when d divides 64. `inches(27, 1, 2)` is 27 1/2 in.
constexpr Length inches(std::int64_t whole, std::int64_t n = 0, std::int64_t d = 1) {
  return {whole * kInch.ticks + n * kInch.ticks / d};
}
constexpr Length millimetres(std::int64_t mm) { return {mm * kMillimetre.ticks}; }

/// Nearest tick. REQUIRES: |mm| < 1e12.
Length from_mm(double mm);
/// The least tick count not shorter than `mm`, forgiving the last 1e-7 mm of floating-point noise.
Length from_mm_up(double mm);
/// `x` rounded up (or down) to a multiple of `step`. REQUIRES: step > 0. ceil_to(27 1/32 in, 1/16 in) = 27
/// 1/16 in.
Length ceil_to(Length x, Length step);
Length floor_to(Length x, Length step);

/// What a number without a unit means in a job, and how lengths are shown to its reader.
enum class LengthUnit { inch, millimetre, centimetre };

/// Reads a length as people write it: "27 1/2", "27-1/2\"", "2' 3-1/2\"", "2 ft 3 in", "7.5", "700 mm", "68
/// cm", "1.2 m". A number without a unit is in `bare`. Decimals are rounded to the nearest tick. Empty when
/// the text is not a length, or its value is over 1,000 m. A leading minus sign is read, so that the caller
/// can say what is wrong with it.
std::optional<Length> parse_length(std::string_view text, LengthUnit bare);

/// Exact: "27 1/2" for inches (fractions down to 1/64, then decimals), "699.3" for millimetres; no unit sign.
std::string print_length(Length x, LengthUnit unit);

/// For a reader on the job: nearest 1/16 in with its sign, feet from 24 in if `feet` ("27 1/2\"", "12' 6\""),
/// or nearest millimetre ("699 mm"; centimetre jobs "69.9 cm").
std::string show_length(Length x, LengthUnit unit, bool feet = false);

} // namespace treadfold
