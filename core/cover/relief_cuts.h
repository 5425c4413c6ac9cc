// Carpet turned over an edge that is curved in plan: how much it must give, how far it may stay whole, and
// how it is cut where it may not. Derivation and figure: docs/geometry.md.
//
// Guarantees
//  1. Where the carpet is whole it gives no more than the limit.
//  2. Flat length is never less than what the wood asks for: carpet turned over a bulge is pressed together
//  and
//     not stretched.
#pragma once

#include <string>
#include <vector>

namespace treadfold {

/// Bends (turn > 0) and flats in the order in which the carpet meets them; lengths along the backing's
/// middle, mm.
struct TurnoverPart {
  std::string name;
  double length = 0, turn_rad = 0;
};

/// The section of carpet that is turned over an edge.
class Turnover {
public:
  Turnover() = default;
  /// It starts out `falling_rad` from level outward: 0 on a tread, π/2 on a front. Parts of no length are
  /// left out.
  Turnover(double falling_rad, std::vector<TurnoverPart> parts);

  const std::vector<TurnoverPart>& parts() const { return parts_; }
  double length() const { return length_; }
  /// How far out in plan the carpet stands at s, measured along it from where it starts.
  double out(double s) const;
  /// How far it has turned from level outward at its end: π where it lies level underneath.
  double end_falling_rad() const;
  /// What of it lies between two stations.
  Turnover between(double from, double to) const;

private:
  double falling_ = 0, length_ = 0;
  std::vector<TurnoverPart> parts_;
};

/// Flat, the carpet's edge is curved as the tread's is (a cap) or straight (a band).
enum class FlatShape { curved, straight };

/// How much too long whole carpet is at s, as a share of its flat length there. `radius`: in plan, of the
/// line at which the carpet starts to turn. Over a nosing's bend of radius r, θ turned:
/// r·(θ - sin θ)/(radius + rθ) for a cap.
double surplus(const Turnover& turnover, FlatShape flat, double radius, double s);

/// The furthest station to which the surplus keeps within `limit`.
double whole_length(const Turnover& turnover, FlatShape flat, double radius, double limit);

/// A tooth between two cuts lies straight. This w wide on a bend of radius R it stands w²/8R off the bend at
/// its corners, which must come of its own length; as w over the bend's root, so that it is the same anywhere
/// on a curve: sqrt(8·off).
double tooth_weight(double off_mm);

} // namespace treadfold
