#include "cut/pack/shortening.h"

#include <numeric>

namespace treadfold::pack {
namespace {

constexpr double kMostStep = 0.02, kStepAgain = 0.01; // of the length, at first and once all had failed
constexpr double kGrowth = 1.5;                       // of the step after it succeeded
constexpr double kCoarseStep = 0.004; // finer ones ask for more detail first, if there is more
constexpr double kLeastStep = 0.001, kFinestStep = 0.00001;
constexpr int kTries = 3, kMostTries = 100'000;
constexpr std::size_t kPool = 32;

} // namespace

Shortening::Shortening(Detail& detail, const Bundle& bundle, Ticks bound, Dice& dice, Effort& effort)
    : detail_(detail), bundle_(bundle), bound_(bound), dice_(dice), effort_(effort) {
  finer();
}

/// Goes on in more detail, if there is more.
bool Shortening::finer() {
  auto next = detail_.finer();
  if (!next) return false;
  no_fits_ = std::move(next);
  separation_ = std::make_unique<Separation>(*no_fits_, bundle_, dice_, effort_);
  return true;
}

Ticks Shortening::end(const std::vector<Lying>& lying) const {
  Ticks e = 0;
  for (const auto& l : lying)
    e = std::max(e, l.at.v + shape(l).l);
  return e;
}

void Shortening::take(std::vector<Lying> lying) { best_ = std::move(lying), length_ = end(best_); }

/// The largest pieces first.
void Shortening::first() {
  std::vector<std::size_t> order(bundle_.ways.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [this](std::size_t a, std::size_t b) {
    const auto area = [this](std::size_t i) { return no_fits_->shape(bundle_.ways[i][0]).area_twice; };
    return area(a) > area(b);
  });
  take(bottom_left(*no_fits_, bundle_, order));
}

/// The best layout with all that lies behind a random line pushed forward, to end at `target`.
std::vector<Lying> Shortening::pushed_into(Ticks target) {
  std::vector<Lying> all = best_;
  const auto line = static_cast<Ticks>(dice_.share() * static_cast<double>(target));
  for (std::size_t i = 0; i < all.size(); ++i) {
    Lying& l = all[i];
    if (l.at.v + shape(l).l / 2 > line) l.at.v -= length_ - target;
    for (const int way : bundle_.ways[i]) // it may lie in one that is too long by now
      if (shape(l).l > target) l.shape = way;
    l.at.u = std::min(l.at.u, bundle_.width - shape(l).w);
    l.at.v = std::clamp<Ticks>(l.at.v, 0, target - shape(l).l);
  }
  return all;
}

/// Two of the larger two thirds, of different shapes if chance will have it.
void Shortening::swap_two(std::vector<Lying>& lying, Ticks target) {
  if (lying.size() < 2) return;
  std::vector<std::size_t> order(lying.size());
  std::iota(order.begin(), order.end(), 0);
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return shape(lying[a]).area_twice > shape(lying[b]).area_twice;
  });
  const int large = std::max(2, static_cast<int>(order.size()) * 2 / 3);
  const auto one = [&] { return order[static_cast<std::size_t>(dice_.below(large))]; };
  const std::size_t i = one();
  std::size_t k = one();
  for (int t = 0; t < 20 && lying[k].shape == lying[i].shape; ++t)
    k = one();
  const auto put = [&](Lying& l, const Lying& where) { // middle on middle
    const Shape &s = shape(l), &o = shape(where);
    l.at = {std::clamp<Ticks>(where.at.u + (o.w - s.w) / 2, 0, bundle_.width - s.w),
            std::clamp<Ticks>(where.at.v + (o.l - s.l) / 2, 0, target - s.l)};
  };
  const Lying first = lying[i], second = lying[k];
  put(lying[i], second);
  put(lying[k], first);
}

/// By `share` of the length, in at most so many tries. Each after the first goes on from one of the layouts
/// with the least overlap so far.
bool Shortening::shrink(double share, int tries) {
  const auto less = std::max<Ticks>(1, static_cast<Ticks>(share * static_cast<double>(length_)));
  const Ticks target = std::max(bound_, length_ - less);
  struct Failure {
    double overlap;
    std::vector<Lying> lying;
  };
  std::vector<Failure> pool; // the least overlap first
  for (int t = 0; t < tries && !done(); ++t) {
    Failure now;
    if (pool.empty()) {
      now.lying = pushed_into(target);
    } else {
      const double r = dice_.share();
      now.lying = pool[static_cast<std::size_t>(r * r * r * static_cast<double>(pool.size()))].lying;
      swap_two(now.lying, target);
    }
    now.overlap = separation_->run(now.lying, target);
    if (now.overlap <= 0) {
      take(std::move(now.lying));
      return true;
    }
    const auto at = std::upper_bound(pool.begin(), pool.end(), now.overlap,
                                     [](double x, const Failure& f) { return x < f.overlap; });
    pool.insert(at, std::move(now));
    if (pool.size() > kPool) pool.pop_back();
  }
  return false;
}

void Shortening::run() {
  first();
  double step = kMostStep;
  for (int tries = kTries; !done();) {
    if (shrink(step, tries)) {
      step = std::min(kMostStep, step * kGrowth);
      continue;
    }
    step /= 2;
    if (step < kCoarseStep && finer()) continue;
    if (step >= kLeastStep) continue;
    for (double small = kLeastStep; small > kFinestStep && !done();)
      if (!shrink(small, 1)) small /= 4;
    tries = std::min(2 * tries, kMostTries);
    step = kStepAgain;
  }
}

} // namespace treadfold::pack
