#include "buy/quantity.h"

#include <fmt/format.h>

#include <cassert>
#include <cmath>

namespace treadfold {
namespace {
__extension__ typedef __int128 Wide; // NOLINT(modernize-use-using): __extension__ takes no using
}

std::int64_t scaled_half_even(std::int64_t x, std::int64_t num, std::int64_t den) {
  assert(den > 0);
  const Wide product = static_cast<Wide>(x) * num;
  const Wide magnitude = product < 0 ? -product : product;
  Wide whole = magnitude / den;
  const Wide twice_rest = 2 * (magnitude % den);
  if (twice_rest > den || (twice_rest == den && whole % 2 != 0)) ++whole;
  return static_cast<std::int64_t>(product < 0 ? -whole : whole);
}

Area area_from_m2(double m2) {
  assert(m2 >= 0 && m2 <= 144'000);
  return {std::llround(m2 * 6.4e13)};
}

std::int64_t milli(Area x, Area unit) { return scaled_half_even(x.square_ticks, 1000, unit.square_ticks); }
std::int64_t milli(Length x, Length unit) { return scaled_half_even(x.ticks, 1000, unit.ticks); }

std::string show_milli(std::int64_t milli) {
  const std::int64_t size = milli < 0 ? -milli : milli;
  std::string text = fmt::format("{}{}.{:03}", milli < 0 ? "-" : "", size / 1000, size % 1000);
  if (text.back() == '0') text.pop_back();
  return text;
}

std::string show_area(Area x, LengthUnit unit) {
  const bool inch = unit == LengthUnit::inch;
  const std::int64_t hundredths =
      scaled_half_even(x.square_ticks, 100, (inch ? kSquareYard : kSquareMetre).square_ticks);
  return inch ? fmt::format("{} sq yd", show_milli(hundredths * 10)) : show_milli(hundredths * 10) + " m²";
}

std::string show_run(Length x, LengthUnit unit) {
  if (unit == LengthUnit::inch) return show_length(x, unit, true);
  return show_milli(milli(ceil_to(x, kMillimetre * 10), kMillimetre * 1000)) + " m";
}

} // namespace treadfold
