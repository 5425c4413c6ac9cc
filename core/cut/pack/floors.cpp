#include "cut/pack/floors.h"

#include <algorithm>

namespace treadfold::pack {

std::uint64_t SkylineFloor::key(const State& sky) const {
  std::uint64_t key = 0;
  for (const auto& s : sky.steps)
    key = mixed(key ^ static_cast<std::uint64_t>(s.u) ^ (static_cast<std::uint64_t>(s.v) << 32));
  return key;
}

Ticks SkylineFloor::settle(State& sky, const std::vector<int>& left) const {
  for (Ticks lost = 0;;) {
    const Niche n = niche_at(sky, sky.lowest(), top_);
    if (n.room <= 0) return lost;
    for (std::size_t k = 0; k < left.size(); ++k)
      if (left[k] > 0 && sheet_.kinds[k].w <= n.width && sheet_.kinds[k].l <= n.room) return lost;
    lost += give_up(sky, n);
  }
}

const std::vector<SkylineFloor::Choice>& SkylineFloor::choices(const State& sky,
                                                               const std::vector<int>& left) {
  choices_.clear();
  const Niche n = niche_at(sky, sky.lowest(), top_);
  for (int k : order_) {
    const auto& kind = sheet_.kinds[static_cast<std::size_t>(k)];
    if (left[static_cast<std::size_t>(k)] > 0 && kind.w <= n.width && kind.l <= n.room)
      choices_.push_back({k, fit(kind.w, kind.l, n)});
  }
  work_ += 3 * static_cast<std::int64_t>(order_.size());
  std::stable_sort(choices_.begin(), choices_.end(),
                   [](const Choice& a, const Choice& b) { return a.fit > b.fit; });
  if (choices_.size() > most_) choices_.resize(most_);
  return choices_;
}

Placed SkylineFloor::apply(State& sky, const Choice& choice) const {
  const auto& kind = sheet_.kinds[static_cast<std::size_t>(choice.kind)];
  const Spot at = lay(sky, niche_at(sky, sky.lowest(), top_), kind.w, kind.l);
  return {choice.kind, at.u, at.v};
}

/// Where a part lies does not matter.
std::uint64_t SliceFloor::key(const State& parts) const {
  std::uint64_t key = 0;
  for (const auto& p : parts)
    key += mixed(static_cast<std::uint64_t>(p.w) ^ (static_cast<std::uint64_t>(p.l) << 32) ^
                 (p.strip ? std::uint64_t{1} << 63 : 0));
  return key;
}

Ticks SliceFloor::settle(State& parts, const std::vector<int>& left) const {
  for (Ticks lost = 0;;) {
    if (parts.empty()) return lost;
    const std::size_t i = most_pressing(parts);
    for (std::size_t k = 0; k < left.size(); ++k)
      if (left[k] > 0 && sheet_.kinds[k].w <= parts[i].w && sheet_.kinds[k].l <= parts[i].l) return lost;
    lost += parts[i].w * parts[i].l;
    parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(i));
  }
}

const std::vector<SliceFloor::Choice>& SliceFloor::choices(const State& parts, const std::vector<int>& left) {
  choices_.clear(), pieces_.clear();
  if (parts.empty()) return choices_;
  const Part part = parts[most_pressing(parts)];
  for (int k : order_) {
    const auto& kind = sheet_.kinds[static_cast<std::size_t>(k)];
    if (left[static_cast<std::size_t>(k)] > 0 && kind.w <= part.w && kind.l <= part.l)
      pieces_.push_back({k, (kind.w == part.w ? 4 : 0) + (kind.l == part.l ? 1 : 0), Cut::across, 0});
  }
  work_ += 3 * static_cast<std::int64_t>(order_.size());
  std::stable_sort(pieces_.begin(), pieces_.end(),
                   [](const Choice& a, const Choice& b) { return a.fit > b.fit; });
  if (pieces_.size() > most_) pieces_.resize(most_);
  for (Choice c : pieces_) {
    const auto& kind = sheet_.kinds[static_cast<std::size_t>(c.kind)];
    c.cut = choose_cut(part, kind.w, kind.l, sheet_.least_w, sheet_.least_l, rule_);
    for (int way = 0; way < 2; ++way) {
      c.depth = c.cut == Cut::across ? kind.l : kind.w;
      if (way == 0 || in_hand(part, c.cut, c.depth, rule_)) choices_.push_back(c);
      if (kind.w == part.w || kind.l == part.l) break; // one cut, whichever way
      c.cut = c.cut == Cut::across ? Cut::along : Cut::across;
    }
    if (kind.w != part.w && kind.l != part.l) add_stacks(part, c, left);
  }
  return choices_;
}

/// The cut may also lie further off, where another piece begins to fill what is between exactly.
void SliceFloor::add_stacks(const Part& part, const Choice& first, const std::vector<int>& left) {
  const auto& kind = sheet_.kinds[static_cast<std::size_t>(first.kind)];
  for (std::size_t k = 0; k < left.size(); ++k) {
    const int others = left[k] - (static_cast<int>(k) == first.kind ? 1 : 0);
    if (others <= 0) continue;
    const auto& other = sheet_.kinds[k];
    Choice c = first;
    if (other.w == kind.w && kind.l + other.l <= part.l) {
      c.cut = Cut::across, c.depth = kind.l + other.l;
      if (in_hand(part, c.cut, c.depth, rule_)) choices_.push_back(c);
    }
    if (other.l == kind.l && kind.w + other.w <= part.w) {
      c.cut = Cut::along, c.depth = kind.w + other.w;
      if (in_hand(part, c.cut, c.depth, rule_)) choices_.push_back(c);
    }
  }
}

Placed SliceFloor::apply(State& parts, const Choice& choice) const {
  const std::size_t i = most_pressing(parts);
  const Part part = parts[i];
  parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(i));
  const auto& kind = sheet_.kinds[static_cast<std::size_t>(choice.kind)];
  slice(part, kind.w, kind.l, choice.cut, choice.depth, parts);
  return {choice.kind, part.u, part.v};
}

} // namespace treadfold::pack
