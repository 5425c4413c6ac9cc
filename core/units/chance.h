// Chances of errors that are normal, and how people say them. The same bits on every machine (steady.h).
#pragma once

#include <string>

namespace treadfold {

/// How likely a normal lies more than `z` standard deviations over its mean: 0.5 at 0, 0.0228 at 2. Within
/// 1e-12 of itself for |z| <= 30, 0 from 38 on.
double normal_tail(double z);

/// "1 in 350", "under 1 in a million"; two digits, rounded toward the likelier. From a half on "more likely
/// than not", at 1 "certain".
std::string show_chance(double chance);

} // namespace treadfold
