// Outlines lying on the strip, and what lies in a piece's way along a line.
#pragma once

#include "cut/pack/no_fit.h"

#include <compare>
#include <memory>

namespace treadfold::pack {

/// An outline one way round, moved so that its extent begins at (0, 0).
struct Shape {
  std::vector<Ring> parts;  // convex, each from_lowest
  std::vector<Ring> turned; // the same by 180 degrees about (0, 0)
  Ticks w = 0, l = 0;
  Ticks area_twice = 0;
  Ticks size(Axis a) const { return a == Axis::across ? w : l; }
};

/// A shape with its extent's low corner at `at`.
struct Lying {
  int shape = 0;
  Corner at;
};

/// The shapes, and where each may not lie beside each other: worked out when first asked for. What it all
/// takes is added to `work`.
class NoFits {
public:
  NoFits(std::vector<Shape> shapes, std::int64_t& work)
      : shapes_(std::move(shapes)), rows_(shapes_.size()), work_(work) {}

  const Shape& shape(int s) const { return shapes_[static_cast<std::size_t>(s)]; }
  const NoFit& beside(int still, int moving);

  /// How deep two overlap: the least way out across or along, 0 if and only if their insides are apart. At
  /// most the square root of 2 times the least way out in any direction, where the no-fit region is convex.
  Ticks depth(const Lying& still, const Lying& moving);

  std::int64_t& work() { return work_; }

private:
  struct Stretch { // open at both ends
    Ticks low, high;
  };
  bool apart(const Lying& a, const Lying& b) const;
  Stretch around(const NoFit& no_fit, Axis axis, Corner p);

  std::vector<Shape> shapes_;
  std::vector<std::vector<std::unique_ptr<NoFit>>> rows_;
  std::int64_t& work_;
  std::vector<Stretch> rest_;
};

/// What is in the way of a shape on a stretch of a line. Each obstacle is a tent: nothing at its ends, rising
/// by one a unit from either, no higher than `cap`, how far the line is from passing it by; times a weight.
class Line {
public:
  /// Along `axis` at `c` of the other one, from `from` to `to`.
  void start(Axis axis, Ticks c, Ticks from, Ticks to) {
    axis_ = axis, c_ = c, from_ = from, to_ = to;
    tents_.clear();
  }
  void add(NoFits& no_fits, const Lying& still, int moving, double weight);

  /// The first place with nothing in the way, if there is one.
  bool first_gap(Ticks& at);
  /// The place where the tents' sum is least, of several the one nearest to `near`. The sum between two ends
  /// of tents is concave, so that it is least at an end.
  double lowest(Ticks near, Ticks& at, std::int64_t& work);

private:
  struct Tent {
    Ticks low, high, cap;
    double weight;
    /// Of all members: tents that begin at one place come in the same order everywhere, and so do their sums.
    friend auto operator<=>(const Tent&, const Tent&) = default;
  };

  Axis axis_ = Axis::along;
  Ticks c_ = 0, from_ = 0, to_ = 0;
  std::vector<Tent> tents_;
  std::vector<Ticks> ends_;
  std::vector<std::size_t> open_;
};

} // namespace treadfold::pack
