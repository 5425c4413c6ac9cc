#include "buy/strip.h"

#include <algorithm>
#include <cassert>
#include <functional>
#include <map>

namespace treadfold {
namespace {

using Ticks = std::int64_t;

constexpr int kMostSteps = 100'000;      // of the exact search, all in all
constexpr std::size_t kMostDepth = 2000; // of its recursion: sizes times stocks

Ticks divide_up(Ticks a, Ticks b) { return (a + b - 1) / b; }

/// Martello and Toth's L2: cuts over half the stock need one each; those that are long enough to keep a cut
/// of `least` or more out of their stock take nothing in, and what the middling ones cannot take in needs
/// stocks of its own. REQUIRES: sorted, longest first.
int bound(const std::vector<Ticks>& cuts, Ticks stock) {
  Ticks total = 0;
  for (Ticks x : cuts)
    total += x;
  Ticks best = divide_up(total, stock);
  for (std::size_t i = 0; i < cuts.size(); ++i) {
    const Ticks least = cuts[i];
    if (least * 2 > stock || (i + 1 < cuts.size() && cuts[i + 1] == least)) continue;
    Ticks alone = 0, half = 0, room = 0, small = 0;
    for (Ticks x : cuts) {
      if (x > stock - least)
        ++alone;
      else if (x * 2 > stock)
        ++half, room += stock - x;
      else if (x >= least)
        small += x;
    }
    best = std::max(best, alone + half + (small > room ? divide_up(small - room, stock) : 0));
  }
  const auto over_half = std::count_if(cuts.begin(), cuts.end(), [&](Ticks x) { return x * 2 > stock; });
  return static_cast<int>(std::max<Ticks>(best, over_half));
}

using Plan = std::vector<std::vector<Ticks>>;

Plan best_fit_decreasing(const std::vector<Ticks>& cuts, Ticks stock) {
  Plan plan;
  std::vector<Ticks> room;
  for (Ticks x : cuts) {
    std::size_t best = plan.size();
    for (std::size_t i = 0; i < plan.size(); ++i)
      if (room[i] >= x && (best == plan.size() || room[i] < room[best])) best = i;
    if (best == plan.size()) plan.emplace_back(), room.push_back(stock);
    plan[best].push_back(x);
    room[best] -= x;
  }
  return plan;
}

/// Fills stock after stock with the longest cut left and every set of others that leaves no room for one
/// more. A list of cuts that was once found too long for the stocks left is not tried again.
class ExactSearch {
public:
  ExactSearch(const std::vector<Ticks>& cuts, Ticks stock) : stock_(stock) {
    for (Ticks x : cuts) {
      if (sizes_.empty() || sizes_.back() != x) sizes_.push_back(x), counts_.push_back(0);
      ++counts_.back();
      total_ += x;
    }
  }

  enum class Answer { found, impossible, gave_up };

  Answer fit_into(int stocks) {
    failed_.clear();
    plan_.clear();
    const Answer answer = next_stock(stocks, total_);
    std::reverse(plan_.begin(), plan_.end());
    return answer;
  }

  const Plan& plan() const { return plan_; }
  std::size_t sizes() const { return sizes_.size(); }

private:
  Answer next_stock(int stocks, Ticks left) {
    if (left == 0) return Answer::found;
    if (left > stocks * stock_) return Answer::impossible;
    if (const auto f = failed_.find(counts_); f != failed_.end() && f->second >= stocks)
      return Answer::impossible;
    std::size_t longest = 0;
    while (counts_[longest] == 0)
      ++longest;
    --counts_[longest];
    std::vector<Ticks> cuts = {sizes_[longest]};
    const Answer answer = fill(cuts, longest, stock_ - sizes_[longest], stocks, left - sizes_[longest]);
    ++counts_[longest];
    if (answer == Answer::impossible) failed_[counts_] = stocks;
    return answer;
  }

  /// Adds cuts no longer than sizes_[from] in all ways, most of the longer ones first.
  Answer fill(std::vector<Ticks>& cuts, std::size_t from, Ticks room, int stocks, Ticks left) {
    if (++steps_ > kMostSteps) return Answer::gave_up;
    while (from < sizes_.size() && (counts_[from] == 0 || sizes_[from] > room))
      ++from;
    if (from == sizes_.size()) {
      for (std::size_t i = 0; i < sizes_.size(); ++i)
        if (counts_[i] > 0 && sizes_[i] <= room)
          return Answer::impossible; // one more would go in: tried elsewhere
      const Answer answer = next_stock(stocks - 1, left);
      if (answer == Answer::found) plan_.push_back(cuts);
      return answer;
    }
    const int most = static_cast<int>(std::min<Ticks>(counts_[from], room / sizes_[from]));
    for (int take = most; take >= 0; --take) {
      const std::size_t before = cuts.size();
      counts_[from] -= take;
      cuts.insert(cuts.end(), static_cast<std::size_t>(take), sizes_[from]);
      const Ticks taken = sizes_[from] * take;
      const Answer answer = fill(cuts, from + 1, room - taken, stocks, left - taken);
      cuts.resize(before);
      counts_[from] += take;
      if (answer != Answer::impossible) return answer;
    }
    return Answer::impossible;
  }

  Ticks stock_, total_ = 0;
  std::vector<Ticks> sizes_;               // longest first
  std::vector<int> counts_;                // of each size, not yet cut
  std::map<std::vector<int>, int> failed_; // lists of cuts, and the most stocks they were tried on in vain
  Plan plan_;
  int steps_ = 0;
};

} // namespace

StripPlan cut_strip(const std::vector<Length>& cuts, Length stock_length) {
  assert(stock_length > Length{});
  const Ticks stock = stock_length.ticks;
  StripPlan out;
  std::vector<Ticks> rest;
  for (Length cut : cuts) {
    for (; cut > stock_length; cut -= stock_length)
      out.stock.push_back({{stock_length}, {}});
    if (cut > Length{}) rest.push_back(cut.ticks);
  }
  std::sort(rest.begin(), rest.end(), std::greater<>());
  const int whole = static_cast<int>(out.stock.size());

  int least = bound(rest, stock);
  Plan plan = best_fit_decreasing(rest, stock);
  ExactSearch search(rest, stock);
  while (least < static_cast<int>(plan.size()) && search.sizes() * plan.size() <= kMostDepth) {
    const auto answer = search.fit_into(least);
    if (answer == ExactSearch::Answer::gave_up) break;
    if (answer == ExactSearch::Answer::found)
      plan = search.plan();
    else
      ++least;
  }
  for (const auto& from_one : plan) {
    StripStock s;
    s.left_over = stock_length;
    for (Ticks x : from_one)
      s.cuts.push_back({x}), s.left_over -= Length{x};
    out.stock.push_back(std::move(s));
  }
  out.lower_bound = whole + least;
  return out;
}

} // namespace treadfold
