#include "cut/pack/exact.h"

#include "cut/pack/beam.h"

#include <algorithm>

namespace treadfold::pack {
namespace {

constexpr Ticks kLongestSums = 1 << 15; // beyond it, sums cost more than they save
constexpr std::size_t kFillings = 1024; // kept at once
constexpr Ticks kWidestCorners = 1 << 20;

} // namespace

Exact::Exact(const Sheet& sheet, Ticks top) : sheet_(sheet), top_(top) {
  knows_corners_ = sheet_.width <= kWidestCorners;
  if (sheet_.width + top_ <= kLongestSums) fillings_.resize(kFillings);
  if (!knows_corners_) return;
  corners_.clear(sheet_.width);
  for (const auto& k : sheet_.kinds)
    corners_.add(k.w, k.count);
}

/// Of the niches between higher walls the narrowest: it leaves the fewest ways on.
Niche Exact::narrowest() const {
  Niche best;
  for (std::size_t i = 0; i < sky_.steps.size(); ++i) {
    const Niche n = niche_at(sky_, i, top_);
    if (n.left > 0 && n.right > 0 && n.room > 0 && (best.width == 0 || n.width < best.width)) best = n;
  }
  return best;
}

std::uint64_t Exact::key() const {
  std::uint64_t k = left_key_;
  for (const auto& s : sky_.steps)
    k = (k ^ static_cast<std::uint64_t>(s.u) ^ (static_cast<std::uint64_t>(s.v) << 32)) *
        0x9fb21c651e98df25ULL,
    k ^= k >> 28;
  return mixed(k) | 1; // 0 stands for nothing
}

const Exact::Fillings& Exact::fillings() {
  auto& kept = fillings_[left_key_ % fillings_.size()];
  if (kept.left_key == left_key_) return kept;
  kept.left_key = left_key_;
  kept.across.clear(sheet_.width), kept.along.clear(top_);
  for (std::size_t k = 0; k < left_.size(); ++k) {
    if (left_[k] == 0) continue;
    kept.across.add(sheet_.kinds[k].w, left_[k]);
    kept.along.add(sheet_.kinds[k].l, left_[k]);
    *work_ += left_[k] * static_cast<std::int64_t>(kept.across.words() + kept.along.words()) / 8;
  }
  return kept;
}

Exact::Waste Exact::waste_to_come(const Fillings& by, Ticks most) {
  Waste waste;
  for (std::size_t i = 0; i < sky_.steps.size(); ++i) {
    const Niche n = niche_at(sky_, i, top_);
    waste.in_columns += n.width * by.column_waste(n.room);
    waste.in_niches += by.niche_waste(n.left, n.right, n.width);
  }
  if (waste.in_columns > most) return waste;
  // Rows across valleys, from each bottom up to the lower wall, where a wider one begins. Those still open
  // lie in `valleys_`, each lower than the one before.
  valleys_.clear();
  const auto close_below = [&](Ticks level, Ticks end) {
    Ticks begin = end;
    while (!valleys_.empty() && valleys_.back().v < level) {
      const auto bottom = valleys_.back();
      valleys_.pop_back();
      begin = bottom.u;
      const Ticks wall = valleys_.empty() ? level : std::min(level, valleys_.back().v);
      waste.in_rows += (wall - bottom.v) * by.row_waste(end - begin);
    }
    return begin;
  };
  for (const auto& step : sky_.steps) {
    const Ticks begin = close_below(step.v, step.u);
    if (valleys_.empty() || valleys_.back().v > step.v) valleys_.push_back({begin, step.v});
  }
  close_below(top_, sky_.width);
  return waste;
}

void Exact::count(int kind, int change) {
  auto& left = left_[static_cast<std::size_t>(kind)];
  left += change, boxes_left_ += change;
  // A sum over the pieces left, so that order does not matter.
  left_key_ += static_cast<std::uint64_t>(change) * mixed(static_cast<std::uint64_t>(kind) + 1);
}

bool Exact::lay_one(int kind, const Niche& niche, Ticks gap, Ticks waste) {
  const auto& k = sheet_.kinds[static_cast<std::size_t>(kind)];
  const std::size_t depth = save();
  const std::size_t step = niche.step;
  // The waste beside the piece is level with the step to the left, and becomes part of it.
  if (gap > 0) sky_.cover(step, niche.u, niche.u + gap, niche.v + niche.left);
  sky_.cover(step, niche.u + gap, niche.u + gap + k.w, niche.v + k.l);
  count(kind, -1);
  placed_.push_back({kind, niche.u + gap, niche.v});
  if (search(waste - gap * niche.left)) return true;
  placed_.pop_back();
  count(kind, 1);
  restore(depth);
  return false;
}

std::size_t Exact::save() {
  if (saved_ == before_.size()) before_.emplace_back();
  before_[saved_] = sky_;
  return saved_++;
}

void Exact::restore(std::size_t depth) {
  saved_ = depth;
  sky_ = before_[depth];
}

bool Exact::lay_pieces(const Niche& niche, Ticks waste, const Fillings* by, const Waste& to_come) {
  // With the piece in the niche's corner only the rows and columns there change.
  const auto good_with = [&](const Kind& k) {
    if (by == nullptr) return true;
    Waste with = to_come;
    with.in_columns += k.w * (by->column_waste(niche.room - k.l) - by->column_waste(niche.room));
    with.in_niches += by->niche_waste(k.l, niche.right, niche.width - k.w) -
                      by->niche_waste(niche.left, niche.right, niche.width);
    const Ticks rows = std::min({k.l, niche.left, niche.right});
    with.in_rows += rows * (by->row_waste(niche.width - k.w) - by->row_waste(niche.width));
    return with.least() <= waste;
  };
  const std::size_t first = ways_.size();
  for (int kind : *order_) {
    const auto& k = sheet_.kinds[static_cast<std::size_t>(kind)];
    if (left_[static_cast<std::size_t>(kind)] == 0 || k.w > niche.width || k.l > niche.room) continue;
    // A gap needs a piece that hangs over, and one that would not slide left below it.
    const bool may_gap = niche.step > 0 && niche.left < niche.room && k.l > niche.left;
    const Way way{kind, good_with(k), may_gap ? std::min(niche.width - k.w, waste / niche.left) : 0};
    if (way.in_corner || way.widest_gap > 0) ways_.push_back(way);
  }
  const bool fits = lay_ways(first, niche, waste);
  ways_.resize(first);
  return fits;
}

bool Exact::lay_ways(std::size_t first, const Niche& niche, Ticks waste) {
  const std::size_t end = ways_.size();
  for (std::size_t i = first; i < end; ++i) {
    const auto [kind, in_corner, widest_gap] = ways_[i];
    if (in_corner && lay_one(kind, niche, 0, waste)) return true;
    Ticks widest = widest_gap;
    if (widest > 0 && !knows_corners_) skipped_ = true, widest = 0;
    while (widest > 0 && !out_of_work_) { // from the widest gap down
      widest = corners_.at_most(niche.u + widest) - niche.u;
      if (widest > 0 && lay_one(kind, niche, widest--, waste)) return true;
    }
    if (out_of_work_) return false;
  }
  return false;
}

bool Exact::search(Ticks waste) {
  if (boxes_left_ == 0) return true;
  *work_ += 2 * static_cast<std::int64_t>(left_.size()) + 32;
  if (*work_ > until_ || (stop_ && (*stop_)())) out_of_work_ = true;
  if (out_of_work_) return false;
  const Fillings* by = fillings_.empty() ? nullptr : &fillings();
  const Waste to_come = by == nullptr ? Waste{} : waste_to_come(*by, waste);
  if (to_come.least() > waste) return false;
  const std::uint64_t k = key();
  if (failed_.has(k)) return false;
  const Niche niche = narrowest();
  if (niche.room > 0) {
    if (lay_pieces(niche, waste, by, to_come)) return true;
    if (out_of_work_) return false;
    const Ticks rise = std::min({niche.left, niche.right, niche.room});
    if (rise * niche.width <= waste) {
      const std::size_t depth = save();
      const Ticks lost = give_up(sky_, niche);
      if (search(waste - lost)) return true;
      restore(depth);
      if (out_of_work_) return false;
    }
  }
  failed_.add(k);
  return false;
}

Verdict Exact::run(const Order& order, std::int64_t most_work, const std::function<bool()>* stop,
                   std::int64_t& work) {
  const Ticks waste = sheet_.width * top_ - sheet_.area;
  if (waste < 0) return Verdict::impossible;
  order_ = &order, stop_ = stop, work_ = &work;
  until_ = work + most_work, out_of_work_ = false;
  left_.assign(sheet_.kinds.size(), 0), placed_.clear();
  left_key_ = 0, boxes_left_ = 0, saved_ = 0;
  for (std::size_t i = 0; i < sheet_.kinds.size(); ++i)
    count(static_cast<int>(i), sheet_.kinds[i].count);
  sky_ = Skyline(sheet_.width);
  if (search(waste)) return Verdict::fits;
  return out_of_work_ || skipped_ ? Verdict::unknown : Verdict::impossible;
}

} // namespace treadfold::pack
