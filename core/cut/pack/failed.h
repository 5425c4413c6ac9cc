// States from which a search has failed, by their keys.
#pragma once

#include <cstddef>
#include <cstdint>
#include <vector>

namespace treadfold::pack {

/// Of two keys in one place the later stays. The table grows while keys are more than its places, up to 4 MB.
class Failed {
public:
  Failed() : keys_(std::size_t{1} << bits_, 0) {}

  bool has(std::uint64_t key) const { return keys_[place_of(key)] == key; }
  /// REQUIRES: key is not 0, and as good as random in all its bits.
  void add(std::uint64_t key) {
    if (++added_ > keys_.size() && bits_ < kMostBits) {
      std::vector<std::uint64_t> before(2 * keys_.size(), 0);
      before.swap(keys_);
      ++bits_;
      for (const auto k : before)
        keys_[place_of(k)] = k;
    }
    keys_[place_of(key)] = key;
  }

private:
  static constexpr int kMostBits = 19;
  /// By the upper bits; all 64 are compared.
  std::size_t place_of(std::uint64_t key) const { return static_cast<std::size_t>(key >> (64 - bits_)); }

  int bits_ = 10;
  std::size_t added_ = 0;
  std::vector<std::uint64_t> keys_; // 0: none yet
};

} // namespace treadfold::pack
