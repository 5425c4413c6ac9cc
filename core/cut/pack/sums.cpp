#include "cut/pack/sums.h"

#include <bit>

namespace treadfold::pack {

void Sums::clear(Ticks most) {
  most_ = most;
  bits_.assign(word(most) + 1, 0);
  bits_[0] = 1;
}

void Sums::add(Ticks size, int count) {
  if (size > most_) return;
  const std::size_t words = word(size);
  const int bits = static_cast<int>(size % 64);
  for (; count > 0; --count)
    for (std::size_t i = bits_.size(); i-- > words;) {
      std::uint64_t shifted = bits_[i - words] << bits;
      if (bits > 0 && i > words) shifted |= bits_[i - words - 1] >> (64 - bits);
      bits_[i] |= shifted;
    }
}

Ticks Sums::at_most(Ticks x) const {
  std::size_t i = word(x);
  std::uint64_t here = bits_[i] & (~std::uint64_t{0} >> (63 - x % 64));
  while (here == 0)
    here = bits_[--i];
  return static_cast<Ticks>(i) * 64 + 63 - std::countl_zero(here);
}

} // namespace treadfold::pack
