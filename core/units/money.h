// Money in integer cents, rounded once, half to even.
#pragma once

#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace treadfold {

struct Money {
  std::int64_t cents = 0;
  auto operator<=>(const Money&) const = default;
  constexpr Money operator+(Money o) const { return {cents + o.cents}; }
  constexpr Money operator-(Money o) const { return {cents - o.cents}; }
  constexpr Money& operator+=(Money o) { return cents += o.cents, *this; }
};

/// x·num/den cents, rounded half to even once. REQUIRES: den > 0. scaled({5}, 1, 2) = 2 cents, scaled({15},
/// 1, 2) = 8.
Money scaled(Money x, std::int64_t num, std::int64_t den);

/// "1,234.50" with `symbol` before it; minus sign first. Locale is the sheet's business.
std::string show_money(Money x, std::string_view symbol);

/// Reads "12", "12.5", "1,234.50" as an amount; empty if it is not one or has parts of a cent.
std::optional<Money> parse_money(std::string_view text);

} // namespace treadfold
