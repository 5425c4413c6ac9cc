// Trigonometry with the same bits on every machine. C libraries differ in the last bit of a sine, and the
// least bit decides which of two equal seams is the wider or where a letter goes: the phone would draw
// another sheet.
//
// Guarantees
//  1. Only + − × ÷, square roots and floor are used, which IEEE 754 rounds alike everywhere
//  (-ffp-contract=off).
//  2. sin and cos are within 4e-16 of the true value, angles within 1e-15, hypot within 4e-16 of its size.
//  3. sin(0) = 0, cos(0) = 1, atan2(0, x > 0) = 0: what is straight stays straight.
#pragma once

namespace treadfold::steady {

/// REQUIRES: |radians| < 1e6.
double sin(double radians);
double cos(double radians);
double tan(double radians);
/// REQUIRES: |x| <= 1.
double asin(double x);
double acos(double x);
/// From −π to π; atan2(0, 0) is 0.
double atan2(double y, double x);
/// REQUIRES: squares do not overflow: below 1e150.
double hypot(double x, double y);

} // namespace treadfold::steady
