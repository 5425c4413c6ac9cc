// The pieces not yet packed, in the order in which they are tried, and which of them fits a gap best.
#pragma once

#include "cut/pack/sheet.h"

namespace treadfold::pack {

/// Kinds in the order in which they are tried; of those that fit equally well the first is taken.
using Order = std::vector<int>;

class Waiting {
public:
  /// REQUIRES: `order` holds each kind once; sizes below 2^31.
  void gather(const Sheet& sheet, const std::vector<int>& left, const Order& order);
  /// The place in the list of the piece with the highest fit(…) in a gap of `width` by `room`; -1 if none
  /// fits.
  int best(Ticks width, Ticks left, Ticks right, Ticks room, std::int64_t& work) const;
  /// One piece from that place; which kind it is.
  Kind take(int at, int& kind);

  int boxes() const { return boxes_; }
  Ticks area() const { return area_; }

private:
  void forget_used();
  void fill_up();

  // In columns, so that the compiler looks at several pieces at once.
  std::vector<std::int32_t> w_, l_, count_, kind_;
  int used_ = 0, boxes_ = 0; // places used up, still in the list; boxes waiting
  Ticks area_ = 0;
};

} // namespace treadfold::pack
