#include "units/money.h"

#include <cassert>

#include <fmt/format.h>

namespace treadfold {

namespace {
__extension__ typedef __int128 Wide;
}

Money scaled(Money x, std::int64_t num, std::int64_t den) {
  assert(den > 0);
  const Wide product = static_cast<Wide>(x.cents) * num;
  const Wide magnitude = product < 0 ? -product : product;
  Wide cents = magnitude / den;
  const Wide twice_rest = 2 * (magnitude % den);
  if (twice_rest > den || (twice_rest == den && cents % 2 != 0)) ++cents;
  return {static_cast<std::int64_t>(product < 0 ? -cents : cents)};
}

std::string show_money(Money x, std::string_view symbol) {
  const auto cents = x.cents < 0 ? -x.cents : x.cents;
  auto units = fmt::format("{}", cents / 100);
  for (auto at = static_cast<std::ptrdiff_t>(units.size()) - 3; at > 0; at -= 3)
    units.insert(static_cast<std::size_t>(at), ",");
  return fmt::format("{}{}{}.{:02}", x.cents < 0 ? "-" : "", symbol, units, cents % 100);
}

std::optional<Money> parse_money(std::string_view text) {
  const bool negative = text.starts_with("-");
  if (negative) text.remove_prefix(1);
  std::int64_t cents = 0;
  int digits = 0, since_comma = -1, places = -1;
  for (const char c : text) {
    if (c == '.') {
      if (places >= 0 || (since_comma >= 0 && since_comma != 3)) return std::nullopt;
      places = 0;
    } else if (c == ',') {
      if (places >= 0 || digits == 0 || (since_comma >= 0 ? since_comma != 3 : digits > 3))
        return std::nullopt;
      since_comma = 0;
    } else if (c >= '0' && c <= '9') {
      if (++digits > 14 || (places >= 0 && ++places > 2)) return std::nullopt;
      if (places < 0 && since_comma >= 0) ++since_comma;
      cents = cents * 10 + (c - '0');
    } else {
      return std::nullopt;
    }
  }
  if (digits == 0 || places == 0 || (places < 0 && since_comma >= 0 && since_comma != 3)) return std::nullopt;
  for (int i = places < 0 ? 0 : places; i < 2; ++i)
    cents *= 10;
  return Money{negative ? -cents : cents};
}

} // namespace treadfold
