// Which lengths are sums of pieces: a set of bits, one for every whole number up to some length.
#pragma once

#include "cut/pack/sheet.h"

namespace treadfold::pack {

class Sums {
public:
  /// {0} alone, up to `most`. Reuses memory.
  void clear(Ticks most);
  /// Adds up to `count` pieces of `size`.
  void add(Ticks size, int count);
  /// The greatest sum that is no more than `x`. REQUIRES: 0 <= x <= most.
  Ticks at_most(Ticks x) const;
  bool has(Ticks x) const { return (bits_[word(x)] >> (x % 64) & 1) != 0; }
  std::size_t words() const { return bits_.size(); }

private:
  static std::size_t word(Ticks x) { return static_cast<std::size_t>(x / 64); }
  Ticks most_ = 0;
  std::vector<std::uint64_t> bits_;
};

} // namespace treadfold::pack
