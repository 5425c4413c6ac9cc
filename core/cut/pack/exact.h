// Exact search: do the pieces fit a rectangle, or is that impossible?
//
// Depth first over skylines. Pieces may be taken to lie pushed down and to the left; then in any niche
// between higher walls, here the narrowest, one of three things holds. The leftmost piece on its floor lies
// in the corner; or it lies further right, against a piece that hangs over from the top of the left wall, so
// that the corner under the hanging piece is waste; or no piece lies on the floor, and the niche is waste up
// to its lower wall. Waste is counted against the rectangle's area less the pieces', with what is sure to
// come: the lines across each niche and along each step can be filled no better than by sums of the pieces
// left. Skylines that failed once, with the same pieces left, are remembered.
//
// S. Martello, M. Monaci, D. Vigo: "An exact approach to the strip-packing problem", INFORMS Journal on
// Computing 15 (2003) 310-319; M. Kenmochi, T. Imamichi, K. Nonobe, M. Yagiura, H. Nagamochi: "Exact
// algorithms for the two-dimensional strip packing problem with and without rotations", European Journal of
// Operational Research 198 (2009) 73-83. (From memory.)
#pragma once

#include "cut/pack/greedy.h"
#include "cut/pack/sums.h"

#include <functional>

namespace treadfold::pack {

enum class Verdict { fits, impossible, unknown };

/// One rectangle, sheet.width by `top`. Skylines that failed are remembered from one run to the next.
class Exact {
public:
  Exact(const Sheet& sheet, Ticks top);

  /// Tries the pieces in `order`, until `most_work` more is spent.
  Verdict run(const Order& order, std::int64_t most_work, const std::function<bool()>* stop,
              std::int64_t& work);
  const std::vector<Placed>& placed() const { return placed_; }

private:
  bool search(Ticks waste);
  bool lay_pieces(const Niche& niche, Ticks waste);
  bool lay_one(int kind, const Niche& niche, Ticks gap, Ticks waste);
  Niche narrowest() const;
  void count(int kind, int change);
  std::size_t save();
  void restore(std::size_t depth);
  Ticks waste_to_come();
  std::uint64_t key() const;
  void remember(std::uint64_t key);
  /// By the key's upper bits; all 64 are compared.
  std::size_t place_of(std::uint64_t key) const {
    return static_cast<std::size_t>(key >> (64 - failed_bits_));
  }

  Sheet sheet_;
  Ticks top_;
  Sums corners_; // places across at which a piece pushed left can begin
  bool knows_corners_ = false, sums_pay_ = false;
  std::vector<int> left_;
  int boxes_left_ = 0;
  std::uint64_t left_key_ = 0;
  std::vector<Skyline> before_; // saved skylines, saved_ of them in use
  std::size_t saved_ = 0;
  Skyline sky_;
  std::vector<Placed> placed_;
  Sums across_, along_;
  int failed_bits_;
  std::size_t remembered_ = 0;
  std::vector<std::uint64_t> failed_; // 0: none yet
  const Order* order_ = nullptr;
  const std::function<bool()>* stop_ = nullptr;
  std::int64_t* work_ = nullptr;
  std::int64_t until_ = 0;
  bool out_of_work_ = false;
  bool skipped_ = false; // some gap was not tried, now or before: a failure proves nothing
};

} // namespace treadfold::pack
