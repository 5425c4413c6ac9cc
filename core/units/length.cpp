#include "units/length.h"

#include <array>
#include <cassert>
#include <cmath>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr std::int64_t kMetreTicks = 1000 * kMillimetre.ticks;
constexpr std::int64_t kMostTicks = 1000 * kMetreTicks;

std::int64_t divide_down(std::int64_t a, std::int64_t b) { return a / b - (a % b < 0 ? 1 : 0); }

/// Nearest whole n/d for n, d >= 0; halves go up.
std::int64_t divide_near(std::int64_t n, std::int64_t d) { return (n + d / 2) / d; }

std::int64_t ticks_of(LengthUnit unit) {
  switch (unit) {
  case LengthUnit::inch:
    return kInch.ticks;
  case LengthUnit::millimetre:
    return kMillimetre.ticks;
  case LengthUnit::centimetre:
    return 10 * kMillimetre.ticks;
  }
  return kInch.ticks;
}

struct Glyph {
  std::string_view text;
  int numerator, denominator;
};
constexpr std::array<Glyph, 9> kFractionGlyphs{{{"½", 1, 2},
                                                {"¼", 1, 4},
                                                {"¾", 3, 4},
                                                {"⅛", 1, 8},
                                                {"⅜", 3, 8},
                                                {"⅝", 5, 8},
                                                {"⅞", 7, 8},
                                                {"⅓", 1, 3},
                                                {"⅔", 2, 3}}};

/// A number as written: whole + decimals / 10^places + n/d. Kept apart so that scaling to ticks rounds once.
struct Number {
  std::int64_t whole = 0, decimals = 0, power = 1, n = 0, d = 1;

  /// Empty when over the limit.
  std::optional<std::int64_t> scaled(std::int64_t unit_ticks) const {
    if (whole > kMostTicks / unit_ticks) return std::nullopt;
    return whole * unit_ticks + divide_near(decimals * unit_ticks, power) + divide_near(n * unit_ticks, d);
  }
};

class Reader {
public:
  explicit Reader(std::string_view text) : rest_(text) {}

  bool at_end() const { return rest_.empty(); }

  bool take(std::string_view word) {
    if (!rest_.starts_with(word)) return false;
    rest_.remove_prefix(word.size());
    return true;
  }

  bool skip_space() {
    bool any = false;
    while (take(" ") || take("\t") || take("\u00a0"))
      any = true;
    return any;
  }

  std::optional<Number> number() {
    Number result;
    const auto before = rest_;
    if (glyph(result)) return result;
    if (const auto whole = digits(9)) {
      result.whole = *whole;
      if (slash()) return denominator(result, *whole, before) ? std::optional(result) : std::nullopt;
      if (take(".")) return decimals(result) ? std::optional(result) : std::nullopt;
      fraction_after_whole(result);
      return result;
    }
    if (take(".") && decimals(result)) return result;
    rest_ = before;
    return std::nullopt;
  }

  /// Ticks of the unit sign next in the text, 0 if there is none.
  std::int64_t unit() {
    skip_space();
    for (const auto* word : {"feet", "foot", "ft.", "ft", "'", "′", "’"})
      if (!rest_.starts_with("''") && take(word)) return kFoot.ticks;
    for (const auto* word : {"inches", "inch", "in.", "in", "\"", "″", "”", "''"})
      if (take(word)) return kInch.ticks;
    if (take("mm")) return kMillimetre.ticks;
    if (take("cm")) return 10 * kMillimetre.ticks;
    if (take("m")) return kMetreTicks;
    return 0;
  }

  bool hyphen() { return take("-") || take("–"); }

private:
  bool slash() { return take("/") || take("⁄"); }

  std::optional<std::int64_t> digits(int most) {
    std::int64_t value = 0;
    int count = 0;
    while (!rest_.empty() && rest_.front() >= '0' && rest_.front() <= '9') {
      if (++count > most) return std::nullopt;
      value = value * 10 + (rest_.front() - '0');
      rest_.remove_prefix(1);
    }
    return count > 0 ? std::optional(value) : std::nullopt;
  }

  bool decimals(Number& result) {
    const auto size = rest_.size();
    const auto value = digits(9);
    if (!value) return false;
    result.decimals = *value;
    for (auto i = rest_.size(); i < size; ++i)
      result.power *= 10;
    return true;
  }

  bool glyph(Number& result) {
    for (const auto& g : kFractionGlyphs)
      if (take(g.text)) {
        result.n = g.numerator;
        result.d = g.denominator;
        return true;
      }
    return false;
  }

  bool denominator(Number& result, std::int64_t numerator, std::string_view before) {
    const auto d = digits(4);
    if (!d || *d == 0 || numerator >= *d) {
      rest_ = before;
      return false;
    }
    result.whole = 0;
    result.n = numerator;
    result.d = *d;
    return true;
  }

  /// "27 1/2" and "27-1/2": a fraction may follow; if what follows is none, nothing is taken.
  void fraction_after_whole(Number& result) {
    const auto before = rest_;
    if (glyph(result)) return;
    if (!skip_space()) hyphen();
    if (glyph(result)) return;
    const auto whole = result.whole;
    if (const auto n = digits(4); n && slash() && denominator(result, *n, before)) {
      result.whole = whole;
      return;
    }
    rest_ = before;
  }

  std::string_view rest_;
};

std::string trim_zeros(std::string text) {
  while (text.back() == '0')
    text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

/// `ticks` >= 0 as a decimal of `unit` with `places` digits, nearest, zeros trimmed.
std::string decimal(std::int64_t ticks, std::int64_t unit, int places) {
  std::int64_t power = 1;
  for (int i = 0; i < places; ++i)
    power *= 10;
  const auto whole = ticks / unit;
  const auto part = divide_near((ticks % unit) * power, unit);
  return trim_zeros(fmt::format("{}.{:0{}}", whole + part / power, part % power, places));
}

/// `parts` 64ths of an inch as "27 1/2".
std::string fraction(std::int64_t parts) {
  const auto whole = parts / 64;
  auto n = parts % 64;
  std::int64_t d = 64;
  while (n != 0 && n % 2 == 0) {
    n /= 2;
    d /= 2;
  }
  if (n == 0) return fmt::format("{}", whole);
  return whole == 0 ? fmt::format("{}/{}", n, d) : fmt::format("{} {}/{}", whole, n, d);
}

} // namespace

Length from_mm(double mm) {
  assert(std::abs(mm) < 1e12);
  return {static_cast<std::int64_t>(std::llround(mm * 8000.0))};
}

Length from_mm_up(double mm) {
  assert(std::abs(mm) < 1e12);
  return {static_cast<std::int64_t>(std::ceil((mm - 1e-7) * 8000.0))};
}

Length ceil_to(Length x, Length step) { return -floor_to(-x, step); }

Length floor_to(Length x, Length step) {
  assert(step.ticks > 0);
  return {divide_down(x.ticks, step.ticks) * step.ticks};
}

std::optional<Length> parse_length(std::string_view text, LengthUnit bare) {
  std::string small(text); // "36 Inches"
  for (auto& c : small)
    if (c >= 'A' && c <= 'Z') c = static_cast<char>(c - 'A' + 'a');
  Reader reader(small);
  reader.skip_space();
  const bool negative = reader.take("-") || reader.take("−");
  reader.skip_space();
  const auto first = reader.number();
  if (!first) return std::nullopt;
  const auto first_unit = reader.unit();
  auto total = first->scaled(first_unit != 0 ? first_unit : ticks_of(bare));
  reader.skip_space();
  if (total && first_unit == kFoot.ticks && !reader.at_end()) { // inches after feet
    reader.hyphen();
    reader.skip_space();
    const auto second = reader.number();
    if (!second) return std::nullopt;
    const auto unit = reader.unit();
    if (unit != 0 && unit != kInch.ticks) return std::nullopt;
    const auto rest = second->scaled(kInch.ticks);
    if (!rest) return std::nullopt;
    *total += *rest;
    reader.skip_space();
  }
  if (!total || !reader.at_end() || *total > kMostTicks) return std::nullopt;
  return Length{negative ? -*total : *total};
}

std::string print_length(Length x, LengthUnit unit) {
  const std::string sign = x.ticks < 0 ? "-" : "";
  const auto ticks = x.ticks < 0 ? -x.ticks : x.ticks;
  switch (unit) {
  case LengthUnit::inch:
    // Seven decimals tell neighbouring ticks (4.9e-6 in) apart; three more digits would not change the
    // reading.
    if (ticks % 3175 != 0) return sign + decimal(ticks, kInch.ticks, 7);
    return sign + fraction(ticks / 3175);
  case LengthUnit::millimetre:
    return sign + decimal(ticks, ticks_of(unit), 6);
  case LengthUnit::centimetre:
    return sign + decimal(ticks, ticks_of(unit), 7);
  }
  return {};
}

std::string show_length(Length x, LengthUnit unit, bool feet) {
  const std::string sign = x.ticks < 0 ? "-" : "";
  const auto ticks = x.ticks < 0 ? -x.ticks : x.ticks;
  if (unit == LengthUnit::centimetre) return sign + decimal(ticks, ticks_of(unit), 1) + " cm";
  if (unit == LengthUnit::millimetre) return sign + decimal(ticks, ticks_of(unit), 0) + " mm";
  const auto sixteenths = divide_near(ticks, 4 * 3175);
  if (feet && sixteenths >= 24 * 16)
    return sign + fmt::format("{}' {}\"", sixteenths / 192, fraction(sixteenths % 192 * 4));
  return sign + fraction(sixteenths * 4) + "\"";
}

} // namespace treadfold
