#include "cut/pack/separation.h"

#include <cmath>

namespace treadfold::pack {
namespace {

constexpr int kPatience = 50;      // rounds without headway
constexpr double kHeadway = 0.98;  // of the overlap so far, or less
constexpr int kLegs = 4;           // of a descent: lines in turn along and across
constexpr double kWholeLine = 0.3; // how often lines go all the way; else up to half the piece's size
constexpr double kLeastGrowth = 1.2, kMostGrowth = 2.0, kDecay = 0.95; // of weights, in a round
constexpr std::int64_t kAskEvery = 100'000;

} // namespace

bool Effort::over() {
  if (done >= most) return true;
  if (!should_stop || stopped || done < asked_at + kAskEvery) return stopped;
  asked_at = done;
  return stopped = should_stop();
}

Separation::Separation(NoFits& no_fits, const Bundle& bundle, Dice& dice, Effort& effort)
    : no_fits_(no_fits), bundle_(bundle), dice_(dice), effort_(effort), lying_(bundle.ways.size()) {
  std::vector<double> side; // of a square of the piece's area
  for (const auto& ways : bundle.ways)
    side.push_back(std::sqrt(static_cast<double>(no_fits.shape(ways.front()).area_twice) / 2));
  for (const double a : side)
    for (const double b : side)
      scale_.push_back(std::sqrt(a * b));
  overlap_.resize(scale_.size()), weight_.resize(scale_.size());
}

void Separation::measure(std::size_t i) {
  for (std::size_t k = 0; k < lying_.size(); ++k)
    if (k != i)
      overlap_[pair(i, k)] = overlap_[pair(k, i)] =
          scale_[pair(i, k)] * static_cast<double>(no_fits_.depth(lying_[k], lying_[i]));
}

double Separation::total() const {
  double sum = 0;
  for (const double o : overlap_)
    sum += o;
  return sum / 2;
}

bool Separation::overlaps(std::size_t i) const {
  const auto row = overlap_.begin() + static_cast<std::ptrdiff_t>(pair(i, 0));
  return std::any_of(row, row + static_cast<std::ptrdiff_t>(lying_.size()), [](double o) { return o > 0; });
}

/// The weighted overlap of piece i there, or something not below the limit.
double Separation::cost(std::size_t i, const Lying& there, double limit) {
  double sum = 0;
  for (std::size_t k = 0; k < lying_.size() && sum < limit; ++k)
    if (k != i)
      sum += weight_[pair(i, k)] * scale_[pair(i, k)] * static_cast<double>(no_fits_.depth(lying_[k], there));
  return sum;
}

/// To the lowest place on a line, from there on the line across it, and so on.
void Separation::descend(std::size_t i, Lying now, Axis axis, double& least, Lying& best) {
  const Shape& s = no_fits_.shape(now.shape);
  const bool whole = dice_.share() < kWholeLine;
  for (int leg = 0; leg < kLegs; ++leg, axis = other(axis)) {
    const Ticks near = on(axis, now.at),
                room = (axis == Axis::across ? bundle_.width : length_) - s.size(axis);
    const Ticks reach = whole ? room : s.size(axis) / 2;
    line_.start(axis, on(other(axis), now.at), std::max<Ticks>(0, near - reach),
                std::min(room, near + reach));
    for (std::size_t k = 0; k < lying_.size(); ++k)
      if (k != i) line_.add(no_fits_, lying_[k], now.shape, weight_[pair(i, k)] * scale_[pair(i, k)]);
    const double value = line_.lowest(near, on(axis, now.at), effort_.done);
    if (value == 0 || (leg > 0 && on(axis, now.at) == near)) break;
  }
  const double c = cost(i, now, least);
  if (c < least) least = c, best = now;
}

/// To the best place found, in any of its ways, if better than where it is.
void Separation::move(std::size_t i) {
  const Lying was = lying_[i];
  Lying best = was;
  double least = 0;
  for (std::size_t k = 0; k < lying_.size(); ++k)
    least += weight_[pair(i, k)] * overlap_[pair(i, k)];
  const Shape& old = no_fits_.shape(was.shape);
  for (const int way : bundle_.ways[i]) {
    const Shape& s = no_fits_.shape(way);
    if (s.l > length_) continue;
    const Lying here{way, // its middle where the middle was
                     {std::clamp<Ticks>(was.at.u + (old.w - s.w) / 2, 0, bundle_.width - s.w),
                      std::clamp<Ticks>(was.at.v + (old.l - s.l) / 2, 0, length_ - s.l)}};
    for (const Axis first : {Axis::along, Axis::across})
      if (least > 0) descend(i, here, first, least, best);
  }
  lying_[i] = best;
  measure(i);
}

void Separation::raise_weights() {
  const double most = *std::max_element(overlap_.begin(), overlap_.end());
  for (std::size_t p = 0; p < weight_.size(); ++p)
    weight_[p] = overlap_[p] > 0
                     ? weight_[p] * (kLeastGrowth + (kMostGrowth - kLeastGrowth) * overlap_[p] / most)
                     : std::max(1.0, weight_[p] * kDecay);
}

double Separation::run(std::vector<Lying>& lying, Ticks length) {
  lying_ = lying, length_ = length;
  std::fill(overlap_.begin(), overlap_.end(), 0.0);
  std::fill(weight_.begin(), weight_.end(), 1.0);
  for (std::size_t i = 0; i < lying_.size(); ++i)
    measure(i);
  double least = total(), mark = least;
  std::vector<std::size_t> order;
  for (int idle = 0; least > 0 && idle < kPatience && !effort_.over(); ++idle) {
    order.clear();
    for (std::size_t i = 0; i < lying_.size(); ++i)
      if (overlaps(i)) order.push_back(i);
    for (std::size_t i = order.size(); i > 1; --i)
      std::swap(order[i - 1], order[static_cast<std::size_t>(dice_.below(static_cast<int>(i)))]);
    for (const std::size_t i : order)
      if (overlaps(i)) move(i);
    if (const double now = total(); now < least) {
      least = now, lying = lying_;
      if (now < kHeadway * mark) mark = now, idle = -1;
    }
    if (least > 0) raise_weights();
  }
  return least;
}

} // namespace treadfold::pack
