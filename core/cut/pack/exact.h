// Exact search: do the pieces fit a rectangle, or is that impossible?
//
// Depth first over skylines. Pieces may be taken to lie pushed down and to the left; then in any niche
// between higher walls, here the narrowest, one of three things holds. The leftmost piece on its floor lies
// in the corner; or it lies further right, against a piece that hangs over from the top of the left wall, so
// that the corner under the hanging piece is waste; or no piece lies on the floor, and the niche is waste up
// to its lower wall. Waste is counted against the rectangle's area less the pieces', with what is sure to
// come: the lines across each valley and along each step can be filled no better than by sums of the pieces
// left. Skylines that failed once, with the same pieces left, are remembered.
//
// S. Martello, M. Monaci, D. Vigo: "An exact approach to the strip-packing problem", INFORMS Journal on
// Computing 15 (2003) 310-319; M. Kenmochi, T. Imamichi, K. Nonobe, M. Yagiura, H. Nagamochi: "Exact
// algorithms for the two-dimensional strip packing problem with and without rotations", European Journal of
// Operational Research 198 (2009) 73-83. (From memory.)
#pragma once

#include "cut/pack/failed.h"
#include "cut/pack/greedy.h"
#include "cut/pack/sums.h"

#include <algorithm>
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
  /// Lengths across and along that pieces left can fill.
  struct Fillings {
    std::uint64_t left_key = 0;
    Sums across, along;
    Ticks column_waste(Ticks room) const { return room - along.at_most(room); }
    Ticks row_waste(Ticks width) const { return width - across.at_most(width); }
    Ticks niche_waste(Ticks left_wall, Ticks right_wall, Ticks width) const {
      const Ticks depth = std::min(left_wall, right_wall);
      return depth > 0 ? depth * row_waste(width) : 0;
    }
  };
  /// Waste that is sure to come, counted in three ways: in columns from the skyline up; in rows across
  /// niches; and in rows across all valleys, the whole strip included.
  struct Waste {
    Ticks in_columns = 0, in_niches = 0, in_rows = 0;
    Ticks least() const { return std::max({in_columns, in_niches, in_rows}); }
  };

  bool lay_pieces(const Niche& niche, Ticks waste, const Fillings* by, const Waste& to_come);
  bool lay_ways(std::size_t first, const Niche& niche, Ticks waste);
  bool lay_one(int kind, const Niche& niche, Ticks gap, Ticks waste);
  Niche narrowest() const;
  void count(int kind, int change);
  std::size_t save();
  void restore(std::size_t depth);
  const Fillings& fillings();
  Waste waste_to_come(const Fillings& by, Ticks most);
  std::uint64_t key() const;

  Sheet sheet_;
  Ticks top_;
  Sums corners_; // places across at which a piece pushed left can begin
  bool knows_corners_ = false;
  std::vector<int> left_;
  int boxes_left_ = 0;
  std::uint64_t left_key_ = 0;
  std::vector<Skyline> before_; // saved skylines, saved_ of them in use
  std::size_t saved_ = 0;
  Skyline sky_;
  std::vector<Placed> placed_;
  std::vector<Skyline::Step> valleys_;
  std::vector<Fillings> fillings_; // by the pieces left, for they come again and again; none: they do not pay
  /// A piece in the corner of a niche, or up to `widest_gap` away from it.
  struct Way {
    int kind;
    bool in_corner;
    Ticks widest_gap;
  };
  std::vector<Way> ways_; // those of the open nodes, one behind the other
  Failed failed_;
  const Order* order_ = nullptr;
  const std::function<bool()>* stop_ = nullptr;
  std::int64_t* work_ = nullptr;
  std::int64_t until_ = 0;
  bool out_of_work_ = false;
  bool skipped_ = false; // some gap was not tried, now or before: a failure proves nothing
};

} // namespace treadfold::pack
