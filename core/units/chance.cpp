#include "units/chance.h"

#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

/// e^-x for x >= 0 by Taylor's series of a small part of x, squared up again.
double falling(double x) {
  int squarings = 0;
  for (; x > 0.25; x /= 2)
    ++squarings;
  double sum = 1;
  for (int n = 12; n > 0; --n)
    sum = 1 - sum * x / n;
  for (; squarings > 0; --squarings)
    sum *= sum;
  return sum;
}

double density(double z) { return falling(z * z / 2) / std::sqrt(2 * std::numbers::pi); }

} // namespace

double normal_tail(double z) {
  if (z < 0) return 1 - normal_tail(-z);
  if (z > 38) return 0;
  if (z < 2.5) { // 1/2 - density (z + z^3/3 + z^5/(3·5) + …)
    double term = z, sum = z;
    for (int n = 3; term > sum * 1e-17; n += 2)
      sum += term *= z * z / n;
    return 0.5 - density(z) * sum;
  }
  double fraction = z; // density / (z + 1/(z + 2/(z + 3/(z + …))))
  for (int n = 120; n > 0; --n)
    fraction = z + n / fraction;
  return density(z) / fraction;
}

std::string show_chance(double chance) {
  if (chance >= 1) return "certain";
  if (chance >= 0.5) return "more likely than not";
  if (chance < 1e-6) return "under 1 in a million";
  double one_in = 1 / chance, unit = 1;
  while (one_in / unit >= 100)
    unit *= 10;
  const auto whole = static_cast<long>(std::floor(one_in / unit + 1e-9) * unit);
  if (whole >= 1'000'000) return "1 in a million";
  return whole < 1000 ? fmt::format("1 in {}", whole)
                      : fmt::format("1 in {},{:03}", whole / 1000, whole % 1000);
}

} // namespace treadfold
