#include "cut/pack/waiting.h"

#include <algorithm>
#include <limits>

namespace treadfold::pack {
namespace {

constexpr std::int32_t kUsed = std::numeric_limits<std::int32_t>::max();
constexpr std::int32_t kAtOnce = 8; // pieces that the machine looks at together
constexpr std::int32_t kScore = 1 << 24,
                       kFirst = kScore - 1; // the place in the order decides below the score

// The same answer everywhere; where the machine can look at more pieces at once, it does.
#if defined(__x86_64__) && defined(__GNUC__) && !defined(__clang__) && !defined(__SANITIZE_ADDRESS__)
#define TREADFOLD_WIDER __attribute__((target_clones("avx2", "default")))
#else
#define TREADFOLD_WIDER
#endif

struct Gap {
  std::int32_t width, left, right, room;
};

/// The highest fit(…), of equal ones the first: fit · kScore + kFirst - i. -1 if nothing fits.
/// REQUIRES: `count` is a multiple of kAtOnce.
TREADFOLD_WIDER std::int32_t best_fit(const std::int32_t* w, const std::int32_t* l, std::int32_t count,
                                      Gap gap) {
  std::int32_t best = -1;
  const std::int32_t end = count / kAtOnce * kAtOnce; // so that the compiler sees it
  for (std::int32_t i = 0; i < end; ++i) {
    const std::int32_t full = w[i] == gap.width ? 4 * kScore : 0;
    const std::int32_t left = l[i] == gap.left ? kScore : 0;
    const std::int32_t right = l[i] == gap.right ? kScore : 0;
    const std::int32_t key = full + left + right + kFirst - i;
    const bool too_wide = w[i] > gap.width, too_long = l[i] > gap.room;
    best = std::max(best, (too_wide | too_long) ? -1 : key);
  }
  return best;
}

} // namespace

void Waiting::gather(const Sheet& sheet, const std::vector<int>& left, const Order& order) {
  w_.clear(), l_.clear(), count_.clear(), kind_.clear(), used_ = 0, boxes_ = 0, area_ = 0;
  for (int k : order) {
    const auto& kind = sheet.kinds[static_cast<std::size_t>(k)];
    const int count = left[static_cast<std::size_t>(k)];
    if (count == 0) continue;
    w_.push_back(static_cast<std::int32_t>(kind.w)), l_.push_back(static_cast<std::int32_t>(kind.l));
    count_.push_back(count), kind_.push_back(k);
    boxes_ += count, area_ += kind.w * kind.l * count;
  }
  fill_up();
}

/// Up to a multiple of kAtOnce, with what is too wide for any gap.
void Waiting::fill_up() {
  while (w_.size() % kAtOnce != 0)
    w_.push_back(kUsed), l_.push_back(0);
}

int Waiting::best(Ticks width, Ticks left, Ticks right, Ticks room, std::int64_t& work) const {
  const auto whole = [](Ticks x) { return static_cast<std::int32_t>(std::min<Ticks>(x, kUsed - 1)); };
  const auto count = static_cast<std::int32_t>(w_.size());
  work += static_cast<std::int64_t>(kind_.size()) / 8 + 16;
  const auto best =
      best_fit(w_.data(), l_.data(), count, {whole(width), whole(left), whole(right), whole(room)});
  return best < 0 ? -1 : kFirst - (best & kFirst);
}

Kind Waiting::take(int at, int& kind) {
  const auto i = static_cast<std::size_t>(at);
  const Kind taken{w_[i], l_[i], 1};
  kind = kind_[i];
  --boxes_, area_ -= taken.w * taken.l;
  if (--count_[i] == 0) {
    w_[i] = kUsed;
    if (2 * ++used_ > static_cast<int>(kind_.size()) + 8) forget_used();
  }
  return taken;
}

void Waiting::forget_used() {
  std::size_t to = 0;
  for (std::size_t i = 0; i < kind_.size(); ++i)
    if (w_[i] != kUsed) w_[to] = w_[i], l_[to] = l_[i], count_[to] = count_[i], kind_[to] = kind_[i], ++to;
  w_.resize(to), l_.resize(to), count_.resize(to), kind_.resize(to), used_ = 0;
  fill_up();
}

} // namespace treadfold::pack
