// Chance that comes out the same everywhere.
#pragma once

#include <cstdint>

namespace treadfold::pack {

/// xorshift64*, G. Marsaglia. Ours, so that it is the same everywhere.
class Dice {
public:
  explicit Dice(unsigned seed) : state_(seed * 0x9e3779b97f4a7c15ULL + 0x853c49e6748fea9bULL) {}
  double share() { // in [0, 1)
    state_ ^= state_ >> 12, state_ ^= state_ << 25, state_ ^= state_ >> 27;
    return static_cast<double>((state_ * 0x2545f4914f6cdd1dULL) >> 40) / static_cast<double>(1 << 24);
  }
  /// In [0, n). REQUIRES: 0 < n < 2^24.
  int below(int n) { return static_cast<int>(share() * n); }

private:
  std::uint64_t state_;
};

} // namespace treadfold::pack
