// The pieces to pack, equal ones counted together, and the skyline that packed pieces make.
#pragma once

#include <cstdint>
#include <limits>
#include <vector>

namespace treadfold::pack {

using Ticks = std::int64_t;
constexpr Ticks kNoLimit = std::numeric_limits<Ticks>::max();

/// A rectangle to pack or packed: w across the strip, l along it. It is never turned.
struct Box {
  Ticks w = 0, l = 0;
};

/// The corner of a packed box nearest to the strip's start and left edge.
struct Spot {
  Ticks u = 0, v = 0;
};

/// Equal boxes, counted.
struct Kind {
  Ticks w = 0, l = 0;
  int count = 0;
};

/// Boxes sorted into kinds on a strip. `of_kind[k]` lists the indices of kind k's boxes.
struct Sheet {
  Ticks width = 0;
  std::vector<Kind> kinds;
  std::vector<std::vector<int>> of_kind;
  int boxes = 0;
  Ticks area = 0;
  Ticks all_lengths = 0;
  Ticks least_w = 0, least_l = 0; // the narrowest box's width, the shortest one's length
};

Sheet sheet_of(const std::vector<Box>& boxes, Ticks width);

/// The same with across and along swapped: pieces that fit a rectangle of `width` by `length` fit the
/// transposed sheet in a strip of width `length`, in a length of `width`.
Sheet transposed(const Sheet& sheet, Ticks length);

/// A kind packed with its corner at (u, v).
struct Placed {
  int kind = 0;
  Ticks u = 0, v = 0;
};

/// Spots by box. REQUIRES: `placed` holds every box of the sheet once.
std::vector<Spot> spots_of(const Sheet& sheet, const std::vector<Placed>& placed);

/// The outline of what is packed, as steps across the strip. E. K. Burke, G. Kendall, G. Whitwell: "A new
/// placement heuristic for the orthogonal stock-cutting problem", Operations Research 52 (2004) 655-671.
/// (From memory.)
struct Skyline {
  struct Step {
    Ticks u = 0, v = 0; // from u to the next step's u, packed up to v
  };
  std::vector<Step> steps;
  Ticks width = 0;

  explicit Skyline(Ticks strip_width = 0) : steps{{0, 0}}, width(strip_width) {}

  /// The lowest step; of several the leftmost.
  std::size_t lowest() const {
    std::size_t low = 0;
    Ticks least = steps[0].v;
    for (std::size_t i = 1; i < steps.size(); ++i) { // which is lower cannot be foretold, so without branches
      const bool lower = steps[i].v < least;
      low = lower ? i : low, least = lower ? steps[i].v : least;
    }
    return low;
  }
  Ticks end(std::size_t i) const { return i + 1 < steps.size() ? steps[i + 1].u : width; }
  /// Height of the walls at step i, at most up to `top`, which stands for the strip's edges too.
  Ticks left_wall(std::size_t i, Ticks top) const { return (i > 0 ? steps[i - 1].v : top) - steps[i].v; }
  Ticks right_wall(std::size_t i, Ticks top) const {
    return (i + 1 < steps.size() ? steps[i + 1].v : top) - steps[i].v;
  }

  /// Step i is packed up to v from `from` to `to`. REQUIRES: steps[i].u <= from < to <= end(i), v >
  /// steps[i].v, from or to at an end of the step.
  void cover(std::size_t i, Ticks from, Ticks to, Ticks v);
};

} // namespace treadfold::pack
