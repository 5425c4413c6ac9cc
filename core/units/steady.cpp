#include "units/steady.h"

#include <cassert>
#include <cmath>
#include <initializer_list>
#include <numbers>

namespace treadfold::steady {

namespace {

constexpr double kQuarterTurn = std::numbers::pi / 2;
// π/2 in two parts; the first has 33 bits, so that its multiples below 2^20 are exact.
constexpr double kQuarterTurnHead = 0x1.921fb544p+0, kQuarterTurnTail = 0x1.0b4611a626331p-34;

/// `radians` = `quarters`·π/2 + `rest`, |rest| ≤ π/4.
struct Reduced {
  double rest;
  int quarters; // modulo 4
};

Reduced reduce(double radians) {
  assert(std::abs(radians) < 1e6);
  const double n = std::floor(radians / kQuarterTurn + 0.5);
  return {(radians - n * kQuarterTurnHead) - n * kQuarterTurnTail,
          static_cast<int>(n - 4 * std::floor(n / 4))};
}

// Taylor's series, as far as a double can tell: the next term is below 1e-17.

/// |x| ≤ π/4.
double sine_series(double x) {
  const double s = x * x;
  double sum = 0;
  for (const double factorial :
       {355687428096000.0, -1307674368000.0, 6227020800.0, -39916800.0, 362880.0, -5040.0, 120.0, -6.0})
    sum = sum * s + 1 / factorial;
  return x + x * s * sum;
}

double cosine_series(double x) {
  const double s = x * x;
  double sum = 0;
  for (const double factorial :
       {20922789888000.0, -87178291200.0, 479001600.0, -3628800.0, 40320.0, -720.0, 24.0})
    sum = sum * s + 1 / factorial;
  return 1 - (s / 2 - s * s * sum);
}

/// 0 ≤ x ≤ 1. atan x = 2 atan(x / (1 + √(1 + x²))), twice: the series is left with 0.2 at most.
double arc_tangent(double x) {
  double t = x;
  for (int half = 0; half < 2; ++half)
    t /= 1 + std::sqrt(1 + t * t);
  const double s = t * t;
  double sum = 0;
  for (const double odd : {21.0, -19.0, 17.0, -15.0, 13.0, -11.0, 9.0, -7.0, 5.0, -3.0})
    sum = sum * s + 1 / odd;
  return 4 * (t + t * s * sum);
}

} // namespace

double sin(double radians) {
  const auto [rest, quarters] = reduce(radians);
  const double size = quarters % 2 == 0 ? sine_series(rest) : cosine_series(rest);
  return quarters < 2 ? size : -size;
}

double cos(double radians) {
  const auto [rest, quarters] = reduce(radians);
  const double size = quarters % 2 == 0 ? cosine_series(rest) : sine_series(rest);
  return quarters == 0 || quarters == 3 ? size : -size;
}

double tan(double radians) { return sin(radians) / cos(radians); }

double atan2(double y, double x) {
  const double wide = std::abs(x), high = std::abs(y);
  if (wide == 0 && high == 0) return 0;
  double angle = high <= wide ? arc_tangent(high / wide) : kQuarterTurn - arc_tangent(wide / high);
  if (x < 0) angle = std::numbers::pi - angle;
  return y < 0 ? -angle : angle;
}

double asin(double x) {
  assert(std::abs(x) <= 1);
  return atan2(x, std::sqrt((1 - x) * (1 + x)));
}

double acos(double x) {
  assert(std::abs(x) <= 1);
  return atan2(std::sqrt((1 - x) * (1 + x)), x);
}

double hypot(double x, double y) { return std::sqrt(x * x + y * y); }

} // namespace treadfold::steady
