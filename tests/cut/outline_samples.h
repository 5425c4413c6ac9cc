// Outlines for tests: few corners on small numbers, so that they often touch, and many on larger ones.
#pragma once

#include "cut/pack/outline_check.h"

#include <array>

#include <rapidcheck.h>

namespace samples {

using namespace treadfold::pack;

inline Ticks number(Ticks from, Ticks to) { return *rc::gen::inRange<Ticks>(from, to + 1); }

inline Outline rectangle(Ticks w, Ticks l) { return {{{0, 0}, {w, 0}, {w, l}, {0, l}}, {}}; }

/// Sixteen rays of random length around a middle; the longest dent is shallower than the shortest ray.
inline Ring star(Ticks least, Ticks most) {
  constexpr std::array<Corner, 4> kQuarter{{{1000, 0}, {924, 383}, {707, 707}, {383, 924}}};
  Ring ring;
  for (std::size_t i = 0; i < 16; ++i) {
    const Corner d = kQuarter[i % 4];
    const std::array<Corner, 4> turned{{{d.u, d.v}, {-d.v, d.u}, {-d.u, -d.v}, {d.v, -d.u}}};
    const Ticks r = number(least, most);
    ring.push_back({turned[i / 4].u * r / 1000, turned[i / 4].v * r / 1000});
  }
  return ring;
}

/// A rectangle, an L, a U, a frame with a hole, a triangle, a star, or a star with one for a hole.
inline Outline any_outline() {
  const Ticks a = number(1, 4), b = number(1, 4), c = number(1, 4), d = number(1, 4), e = number(1, 4);
  switch (number(0, 6)) {
  case 0:
    return rectangle(a, b);
  case 1:
    return {{{0, 0}, {a + b, 0}, {a + b, c}, {a, c}, {a, c + d}, {0, c + d}}, {}};
  case 2:
    return {{{0, 0}, {a, 0}, {a, d}, {a + b, d}, {a + b, 0}, {a + b + c, 0}, {a + b + c, d + e}, {0, d + e}},
            {}};
  case 3:
    return {{{0, 0}, {0, c + d + e}, {a + b + 2, c + d + e}, {a + b + 2, 0}},
            {{{a, c}, {a + b, c}, {a + b, c + d}, {a, c + d}}}};
  case 4:
    return {{{0, 0}, {a, b}, {-c, d + 4}}, {}};
  case 5:
    return {star(8, 30), {}};
  default:
    return {star(20, 40), {star(4, 9)}};
  }
}

inline Outline quarter_turn(Outline o) {
  const auto turn_ring = [](Ring& ring) {
    for (auto& c : ring)
      c = {-c.v, c.u};
  };
  turn_ring(o.ring);
  std::for_each(o.holes.begin(), o.holes.end(), turn_ring);
  return o;
}

} // namespace samples
