// True outlines: polygons with holes, on whole numbers.
#pragma once

#include "cut/pack/sheet.h"

#include <algorithm>

namespace treadfold::pack {

/// A corner of an outline: u across the strip, v along it.
struct Corner {
  Ticks u = 0, v = 0;
  friend bool operator==(const Corner&, const Corner&) = default;
  Corner operator-(Corner b) const { return {u - b.u, v - b.v}; }
  Corner operator+(Corner b) const { return {u + b.u, v + b.v}; }
};

using Ring = std::vector<Corner>;

/// The area within `ring` and outside all `holes`. Either way round; neither crosses itself nor the others,
/// though they may touch in corners.
struct Outline {
  Ring ring;
  std::vector<Ring> holes;
  friend bool operator==(const Outline&, const Outline&) = default;
};

/// > 0 if a, b, c turn counter-clockwise (u to the right, v up): twice the triangle's area.
inline Ticks turn(Corner a, Corner b, Corner c) {
  return (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u);
}

/// Twice the area; negative if the ring turns clockwise.
inline Ticks area_twice(const Ring& ring) {
  Ticks sum = 0;
  for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
    sum += turn(ring[0], ring[j], ring[i]);
  return sum;
}

inline Ticks area_twice(const Outline& o) {
  const auto size = [](const Ring& r) { return std::max(area_twice(r), -area_twice(r)); };
  Ticks sum = size(o.ring);
  for (const auto& h : o.holes)
    sum -= size(h);
  return sum;
}

inline Outline moved(Outline o, Corner by) {
  for (auto& c : o.ring)
    c = c + by;
  for (auto& h : o.holes)
    for (auto& c : h)
      c = c + by;
  return o;
}

/// The corners of the smallest upright rectangle around it.
struct Extent {
  Corner low, high;
  Ticks w() const { return high.u - low.u; }
  Ticks l() const { return high.v - low.v; }
};

inline Extent extent(const Ring& ring) {
  Extent e{ring.front(), ring.front()};
  for (const auto& c : ring) {
    e.low = {std::min(e.low.u, c.u), std::min(e.low.v, c.v)};
    e.high = {std::max(e.high.u, c.u), std::max(e.high.v, c.v)};
  }
  return e;
}

} // namespace treadfold::pack
