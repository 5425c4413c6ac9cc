// Where the beam search may put pieces: on a skyline, or into parts cut off straight.
#pragma once

#include "cut/pack/beam.h"
#include "cut/pack/greedy.h"
#include "cut/pack/slices.h"

namespace treadfold::pack {

/// Pieces go into the lowest niche of the skyline, below `top`.
class SkylineFloor {
public:
  using State = Skyline;
  struct Choice {
    int kind, fit;
  };

  /// `most` pieces are tried in each niche. Adds to `work`.
  SkylineFloor(const Sheet& sheet, Ticks top, const Order& order, int most, std::int64_t& work)
      : sheet_(sheet), top_(top), order_(order), most_(static_cast<std::size_t>(most)), work_(work) {}

  State start() const { return Skyline(sheet_.width); }
  std::uint64_t key(const State& sky) const;
  Ticks settle(State& sky, const std::vector<int>& left) const;
  const std::vector<Choice>& choices(const State& sky, const std::vector<int>& left);
  Placed apply(State& sky, const Choice& choice) const;
  Ticks complete(const State& sky, const std::vector<int>& left, Ticks free, Ticks limit) {
    return greedy_.complete(sheet_, sky, left, order_, top_, free, limit, work_);
  }
  const std::vector<Placed>& placed() const { return greedy_.placed(); }

private:
  const Sheet& sheet_;
  Ticks top_;
  const Order& order_;
  std::size_t most_;
  std::int64_t& work_;
  Greedy greedy_;
  std::vector<Choice> choices_;
};

/// Pieces go into the most pressing part; then it is cut.
class SliceFloor {
public:
  using State = std::vector<Part>;
  struct Choice {
    int kind, fit;
    Cut cut;
    Ticks depth;
  };

  SliceFloor(const Sheet& sheet, Ticks top, const Order& order, int most, const SliceRule& rule,
             std::int64_t& work)
      : sheet_(sheet), top_(top), order_(order), most_(static_cast<std::size_t>(most)), rule_(rule),
        work_(work) {}

  State start() const { return {{0, 0, sheet_.width, top_, true}}; }
  std::uint64_t key(const State& parts) const;
  Ticks settle(State& parts, const std::vector<int>& left) const;
  const std::vector<Choice>& choices(const State& parts, const std::vector<int>& left);
  Placed apply(State& parts, const Choice& choice) const;
  Ticks complete(const State& parts, const std::vector<int>& left, Ticks free, Ticks limit) {
    return greedy_.complete(sheet_, parts, left, order_, rule_, free, limit, work_);
  }
  const std::vector<Placed>& placed() const { return greedy_.placed(); }

private:
  void add_stacks(const Part& part, const Choice& first, const std::vector<int>& left);

  const Sheet& sheet_;
  Ticks top_;
  const Order& order_;
  std::size_t most_;
  SliceRule rule_;
  std::int64_t& work_;
  GreedySlices greedy_;
  std::vector<Choice> choices_, pieces_;
};

} // namespace treadfold::pack
