// Where one outline may not lie beside another: the no-fit region, as convex polygons, exactly.
//
// Of two outlines in convex parts, the insides meet if and only if the insides of some part of one and some
// part of the other do; and those of convex A at p and B at the origin do if and only if p is inside the
// Minkowski sum of B and -A. E. Burke, R. Hellier, G. Kendall, G. Whitwell: "Complete and robust no-fit
// polygon generation for the irregular stock cutting problem", European Journal of Operational Research 179
// (2007) 27-49, names this way among others. (From memory.)
#pragma once

#include "cut/pack/outline.h"

#include <array>

namespace treadfold::pack {

/// One of the two directions: across the strip (u) or along it (v).
enum class Axis { across, along };
constexpr Axis other(Axis a) { return a == Axis::across ? Axis::along : Axis::across; }
inline Ticks& on(Axis a, Corner& c) { return a == Axis::across ? c.u : c.v; }
inline Ticks on(Axis a, const Corner& c) { return a == Axis::across ? c.u : c.v; }

class NoFit {
public:
  /// Of a moving outline beside a still one at the origin. Convex parts of the still one, and of the moving
  /// one turned by 180 degrees about the origin; each from_lowest.
  NoFit(const std::vector<Ring>& still, const std::vector<Ring>& turned);

  std::size_t polygons() const { return polygons_.size(); }

  /// What the line along `axis` at `c` of the other axis has inside of polygon k: the whole numbers between
  /// `low` and `high`, both excluded. False if none.
  bool crosses(std::size_t k, Axis axis, Ticks c, Ticks& low, Ticks& high) const {
    const Polygon& p = polygons_[k];
    const std::size_t a = axis == Axis::across ? 0 : 1;
    if (c <= p.low[1 - a] || c >= p.high[1 - a]) return false;
    low = at(p.chain[2 * a], p.chain[2 * a + 1], c, false);
    high = at(p.chain[2 * a + 1], p.chain[2 * a + 2], c, true);
    return low + 1 < high;
  }

  /// How far polygon k reaches on `axis`.
  Ticks low(std::size_t k, Axis axis) const { return polygons_[k].low[axis == Axis::across ? 0 : 1]; }
  Ticks high(std::size_t k, Axis axis) const { return polygons_[k].high[axis == Axis::across ? 0 : 1]; }

private:
  using Small = std::int32_t;
  /// A corner of a chain, the line's coordinate first.
  struct Joint {
    Small c, at;
  };
  /// chain: where in joints_ the lower and the upper side of the polygon begin, on either axis, and end.
  struct Polygon {
    std::array<Small, 2> low, high;
    std::array<std::uint32_t, 5> chain;
  };
  void add(const Ring& convex, const Extent& box);
  Ticks at(std::uint32_t from, std::uint32_t to, Ticks c, bool up) const;

  std::vector<Polygon> polygons_;
  std::vector<Joint> joints_;
};

/// The same ring from its lowest corner, of several the leftmost.
Ring from_lowest(Ring ring);

/// All sums of a corner of a and one of b, and what lies between. Convex, counter-clockwise, each
/// from_lowest.
Ring minkowski_sum(const Ring& a, const Ring& b);

} // namespace treadfold::pack
