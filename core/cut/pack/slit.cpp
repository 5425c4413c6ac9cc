#include "cut/pack/slit.h"

#include "cut/pack/beam.h"

#include <algorithm>

namespace treadfold::pack {
namespace {

constexpr std::size_t kSets = 1024, kMostStates = 64; // kept for each of so many sets of pieces left
constexpr int kTriesAcross = 500, kWholeTries = 200;

} // namespace

Slit::Slit(const Sheet& sheet, Ticks top, const std::vector<Worth>& worths)
    : sheet_(sheet), top_(top), failed_(kSets) {
  for (const auto& worth : worths)
    values_.push_back({worth, 0});
}

void Slit::count(std::size_t kind, int change) {
  left_[kind] += change, boxes_left_ += change;
  left_key_ += static_cast<std::uint64_t>(change) * mixed(kind + 1);
  for (auto& v : values_)
    v.left += change * v.worth.of_kind[kind] * sheet_.kinds[kind].l;
}

/// Whether a search from no further along failed, with the same pieces left and no less free anywhere.
bool Slit::has_failed(Ticks at) {
  const auto& states = failed_[left_key_ % kSets].of;
  return std::any_of(states.begin(), states.end(), [&](const State& f) {
    if (f.left_key != left_key_ || f.at > at) return false;
    *work_ += 4;
    Ticks lay = 0, lies = 0; // across where pieces end, from the last end on
    auto piece = lying_.begin();
    for (const auto& other : f.lying) {
      if (other.end <= at) break;
      lay += other.w;
      for (; piece != lying_.end() && piece->end >= other.end; ++piece)
        lies += piece->w;
      if (lies < lay) return false;
    }
    return true;
  });
}

void Slit::remember(Ticks at) {
  auto& states = failed_[left_key_ % kSets];
  if (states.of.size() < kMostStates) states.of.emplace_back();
  auto& state = states.of[states.next];
  states.next = (states.next + 1) % kMostStates;
  state.left_key = left_key_, state.at = at, state.lying = lying_;
}

/// Whether a piece left is too long, or all of them are worth more than the lines from here on can hold.
bool Slit::hopeless(Ticks at, Ticks free) const {
  for (std::size_t k = 0; k < left_.size(); ++k)
    if (left_[k] > 0 && sheet_.kinds[k].l > top_ - at) return true;
  for (const auto& v : values_) {
    Ticks holds = 0, from = at, room = free;
    for (auto l = lying_.rbegin(); l != lying_.rend(); ++l) {
      holds += (l->end - from) * v.worth.in_room[static_cast<std::size_t>(room)];
      from = l->end, room += l->w;
    }
    if (holds + (top_ - from) * v.worth.in_room.back() < v.left) return true;
  }
  return false;
}

/// From the line `at`, where pieces no wider than `could_begin` could have begun before.
bool Slit::search(Ticks at, Ticks free, Ticks could_begin) {
  if (has_failed(at)) return false;
  if (begin_more(at, free, could_begin, 0)) return true;
  if (!out_of_work_) remember(at);
  return false;
}

/// Begins pieces at this line, of the order's from `first` on; then goes on to where the next ends.
bool Slit::begin_more(Ticks at, Ticks free, Ticks could_begin, std::size_t first) {
  if (boxes_left_ == 0) {
    fits_ = true;
    placed_ = begun_;
    int tries = kTriesAcross;
    if (lay_across(0, tries)) return true;
    placed_.clear();
    return ++whole_tries_ >= kWholeTries;
  }
  *work_ += 2 * static_cast<std::int64_t>(left_.size()) + 8;
  if (*work_ > until_ || (stop_ && (*stop_)())) out_of_work_ = true;
  if (out_of_work_ || hopeless(at, free)) return false;
  for (std::size_t i = first; i < order_->size(); ++i) {
    const auto kind = static_cast<std::size_t>((*order_)[i]);
    const auto& k = sheet_.kinds[kind];
    if (left_[kind] == 0 || k.w <= could_begin || k.w > free) continue;
    const Lying piece{at + k.l, k.w};
    const auto place = std::upper_bound(lying_.begin(), lying_.end(), piece,
                                        [](const Lying& a, const Lying& b) { return a.end > b.end; }) -
                       lying_.begin();
    lying_.insert(lying_.begin() + place, piece);
    count(kind, -1);
    begun_.push_back({static_cast<int>(kind), 0, at});
    const bool fits = begin_more(at, free - k.w, could_begin, i);
    begun_.pop_back();
    count(kind, 1);
    lying_.erase(lying_.begin() + place);
    if (fits || out_of_work_) return fits;
  }
  return go_on(free);
}

/// Whole pieces, each against another or an edge, from `piece` on.
bool Slit::lay_across(std::size_t piece, int& tries) {
  if (piece == placed_.size()) return true;
  const auto size = [&](const Placed& p) -> const Kind& {
    return sheet_.kinds[static_cast<std::size_t>(p.kind)];
  };
  Placed& p = placed_[piece];
  *work_ += 4 * static_cast<std::int64_t>(piece) + 16;
  const auto lies_free = [&](Ticks u) {
    if (u < 0 || u + size(p).w > sheet_.width) return false;
    for (std::size_t i = 0; i < piece; ++i) { // they begin no later
      const auto& o = placed_[i];
      if (o.v + size(o).l > p.v && o.u < u + size(p).w && u < o.u + size(o).w) return false;
    }
    return true;
  };
  const auto lay_at = [&](Ticks u) {
    if (!lies_free(u) || --tries < 0) return false;
    p.u = u;
    return lay_across(piece + 1, tries);
  };
  if (lay_at(0)) return true;
  for (std::size_t i = 0; i < piece && tries >= 0; ++i) {
    const auto& o = placed_[i];
    if (o.v + size(o).l <= p.v) continue;
    if (lay_at(o.u + size(o).w) || lay_at(o.u - size(p).w)) return true;
  }
  return tries >= 0 && piece > 0 && lay_at(sheet_.width - size(p).w);
}

bool Slit::go_on(Ticks free) {
  if (lying_.empty()) return false;
  const std::size_t before = ended_.size();
  const Ticks next = lying_.back().end;
  Ticks then = free;
  while (!lying_.empty() && lying_.back().end == next) {
    then += lying_.back().w;
    ended_.push_back(lying_.back()), lying_.pop_back();
  }
  const bool fits = search(next, then, free);
  for (; ended_.size() > before; ended_.pop_back())
    lying_.push_back(ended_.back());
  return fits;
}

Verdict Slit::run(const Order& order, std::int64_t most_work, const std::function<bool()>* stop,
                  std::int64_t& work) {
  order_ = &order, stop_ = stop, work_ = &work;
  until_ = work + most_work, out_of_work_ = false;
  left_.assign(sheet_.kinds.size(), 0), lying_.clear(), ended_.clear(), begun_.clear(), placed_.clear();
  whole_tries_ = 0;
  left_key_ = 0, boxes_left_ = 0;
  for (auto& v : values_)
    v.left = 0;
  for (std::size_t k = 0; k < sheet_.kinds.size(); ++k)
    count(k, sheet_.kinds[k].count);
  if (search(0, sheet_.width, 0) || fits_) return Verdict::fits;
  return out_of_work_ ? Verdict::unknown : Verdict::impossible;
}

} // namespace treadfold::pack
