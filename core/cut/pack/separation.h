// Pieces that overlap are moved apart within a given length.
//
// Guided local search: the sum of all overlaps, each times a weight of its pair, is made less by moving one
// piece after the other; where it can be made no less, pairs that still overlap gain weight. C. Voudouris,
// E. Tsang: "Guided local search and its application to the traveling salesman problem", European Journal of
// Operational Research 113 (1999) 469-499; for packing J. Egeblad, B. K. Nielsen, A. Odgaard: "Fast
// neighborhood search for two- and three-dimensional nesting problems", the same 183 (2007) 1249-1266. A
// piece goes to the best place on a line, found exactly by no-fit polygons, and overlap is the least way out
// along an axis, as with S. Umetani, M. Yagiura, S. Imahori, T. Imamichi, K. Nonobe, T. Ibaraki: "Solving the
// irregular strip packing problem via guided local search for overlap minimization", International
// Transactions in Operational Research 16 (2009) 661-683. How weights grow and fall, and that large pieces
// count for more, follows J. Gardeyn, T. Wauters: "An open-source heuristic to reboot 2D nesting research"
// (2025). (All from memory.)
#pragma once

#include "cut/pack/bottom_left.h"
#include "cut/pack/dice.h"

#include <functional>

namespace treadfold::pack {

/// What may be spent, and what was.
struct Effort {
  std::int64_t done = 0, most = 0;
  std::function<bool()> should_stop;
  std::int64_t asked_at = 0;
  bool stopped = false;
  bool over();
};

class Separation {
public:
  Separation(NoFits& no_fits, const Bundle& bundle, Dice& dice, Effort& effort);

  /// Moves pieces until none overlaps; gives up after a number of rounds without headway. Leaves the layout
  /// with the least overlap; how much that is, 0 if and only if no insides meet. REQUIRES: every piece lies
  /// within the strip's width and `length`.
  double run(std::vector<Lying>& lying, Ticks length);

private:
  std::size_t pair(std::size_t i, std::size_t k) const { return i * lying_.size() + k; }
  void measure(std::size_t i);
  double total() const;
  bool overlaps(std::size_t i) const;
  void move(std::size_t i);
  void descend(std::size_t i, Lying from, Axis axis, double& least, Lying& best);
  double cost(std::size_t i, const Lying& there, double limit);
  void raise_weights();

  NoFits& no_fits_;
  const Bundle& bundle_;
  Dice& dice_;
  Effort& effort_;
  Ticks length_ = 0;
  std::vector<Lying> lying_;
  std::vector<double> scale_, overlap_, weight_; // by pair: overlap is scale times depth
  Line line_;
};

} // namespace treadfold::pack
