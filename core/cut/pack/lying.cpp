#include "cut/pack/lying.h"

namespace treadfold::pack {

const NoFit& NoFits::beside(int still, int moving) {
  auto& row = rows_[static_cast<std::size_t>(still)];
  if (row.empty()) row.resize(shapes_.size());
  auto& one = row[static_cast<std::size_t>(moving)];
  if (!one) {
    one = std::make_unique<NoFit>(shape(still).parts, shape(moving).turned);
    constexpr std::size_t kStepsEach = 400;
    work_ += static_cast<std::int64_t>(kStepsEach * shape(still).parts.size() * shape(moving).parts.size());
  }
  return *one;
}

/// By their extents.
bool NoFits::apart(const Lying& a, const Lying& b) const {
  const Shape &s = shape(a.shape), &t = shape(b.shape);
  return a.at.u >= b.at.u + t.w || b.at.u >= a.at.u + s.w || a.at.v >= b.at.v + t.l || b.at.v >= a.at.v + s.l;
}

/// The stretch of the line along `axis` through p around it that is inside the region: of overlapping
/// polygons together.
NoFits::Stretch NoFits::around(const NoFit& no_fit, Axis axis, Corner p) {
  Stretch all{on(axis, p), on(axis, p)};
  const auto join = [&all](Stretch s) { all = {std::min(all.low, s.low), std::max(all.high, s.high)}; };
  rest_.clear();
  for (std::size_t k = 0; k < no_fit.polygons(); ++k) {
    Stretch s{};
    if (!no_fit.crosses(k, axis, on(other(axis), p), s.low, s.high)) continue;
    if (s.low < on(axis, p) && on(axis, p) < s.high)
      join(s);
    else
      rest_.push_back(s);
  }
  work_ += static_cast<std::int64_t>(2 * no_fit.polygons() + 4 * rest_.size());
  for (bool more = true; more;) {
    more = false;
    for (const auto& s : rest_)
      if (s.low < all.high && all.low < s.high && (s.low < all.low || s.high > all.high))
        join(s), more = true;
  }
  return all;
}

Ticks NoFits::depth(const Lying& still, const Lying& moving) {
  ++work_;
  if (apart(still, moving)) return 0;
  const NoFit& no_fit = beside(still.shape, moving.shape);
  const Corner p = moving.at - still.at;
  for (std::size_t k = 0; k < no_fit.polygons(); ++k) {
    Ticks low = 0, high = 0;
    work_ += 2;
    if (p.u <= no_fit.low(k, Axis::across) || p.u >= no_fit.high(k, Axis::across)) continue;
    if (!no_fit.crosses(k, Axis::across, p.v, low, high) || p.u <= low || p.u >= high) continue;
    const auto across = around(no_fit, Axis::across, p), along = around(no_fit, Axis::along, p);
    return std::min({p.u - across.low, across.high - p.u, p.v - along.low, along.high - p.v});
  }
  return 0;
}

void Line::add(NoFits& no_fits, const Lying& still, int moving, double weight) {
  const Axis o = other(axis_);
  const Ticks here = c_ - on(o, still.at), shift = on(axis_, still.at);
  const Shape &s = no_fits.shape(still.shape), &m = no_fits.shape(moving);
  ++no_fits.work();
  if (here <= -m.size(o) || here >= s.size(o)) return;
  if (to_ <= shift - m.size(axis_) || from_ >= shift + s.size(axis_)) return;
  const NoFit& no_fit = no_fits.beside(still.shape, moving);
  const std::size_t first = tents_.size();
  for (std::size_t k = 0; k < no_fit.polygons(); ++k) {
    Tent t{0, 0, 0, weight};
    no_fits.work() += 2;
    if (no_fit.high(k, axis_) + shift <= from_ || no_fit.low(k, axis_) + shift >= to_) continue;
    if (!no_fit.crosses(k, axis_, here, t.low, t.high)) continue;
    t.low += shift, t.high += shift;
    t.cap = std::min(here - no_fit.low(k, o), no_fit.high(k, o) - here);
    no_fits.work() += 4;
    for (std::size_t i = first; i < tents_.size();) { // one tent for polygons that overlap
      Tent& b = tents_[i];
      if (b.low >= t.high || t.low >= b.high) {
        ++i;
        continue;
      }
      t.low = std::min(t.low, b.low), t.high = std::max(t.high, b.high), t.cap = std::max(t.cap, b.cap);
      b = tents_.back(), tents_.pop_back();
    }
    tents_.push_back(t);
  }
}

bool Line::first_gap(Ticks& at) {
  std::sort(tents_.begin(), tents_.end());
  at = from_;
  for (const auto& t : tents_) {
    if (t.low >= at) break;
    at = std::max(at, t.high);
  }
  return at <= to_;
}

double Line::lowest(Ticks near, Ticks& at, std::int64_t& work) {
  std::sort(tents_.begin(), tents_.end());
  ends_.assign({from_, to_});
  for (const auto& t : tents_)
    for (const Ticks end : {t.low, t.high})
      if (end > from_ && end < to_) ends_.push_back(end);
  if (near > from_ && near < to_) ends_.push_back(near);
  std::sort(ends_.begin(), ends_.end());
  ends_.erase(std::unique(ends_.begin(), ends_.end()), ends_.end());
  open_.clear();
  double least = -1;
  std::size_t next = 0;
  for (const Ticks x : ends_) {
    for (; next < tents_.size() && tents_[next].low < x; ++next)
      if (tents_[next].high > x) open_.push_back(next);
    double sum = 0;
    for (std::size_t k = 0; k < open_.size();) {
      const Tent& t = tents_[open_[k]];
      if (t.high <= x) {
        open_[k] = open_.back(), open_.pop_back();
        continue;
      }
      sum += t.weight * static_cast<double>(std::min({x - t.low, t.high - x, t.cap}));
      ++k;
    }
    work += static_cast<std::int64_t>(4 + open_.size());
    const bool nearer = std::max(x - near, near - x) < std::max(at - near, near - at);
    if (least < 0 || sum < least || (sum == least && nearer)) least = sum, at = x;
  }
  return least;
}

} // namespace treadfold::pack
