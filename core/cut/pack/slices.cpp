#include "cut/pack/slices.h"

#include <algorithm>

namespace treadfold::pack {

void slice(const Part& part, Ticks w, Ticks l, Cut cut, Ticks depth, std::vector<Part>& parts) {
  const auto add = [&parts](const Part& p) {
    if (p.w > 0 && p.l > 0) parts.push_back(p);
  };
  if (cut == Cut::across) {
    add({part.u, part.v + depth, part.w, part.l - depth, part.strip});
    add({part.u + w, part.v, part.w - w, depth, false});
    add({part.u, part.v + l, w, depth - l, false});
  } else {
    add({part.u + depth, part.v, part.w - depth, part.l, part.strip});
    add({part.u, part.v + l, depth, part.l - l, false});
    add({part.u + w, part.v, depth - w, l, false});
  }
}

bool in_hand(const Part& part, Cut cut, Ticks depth, const SliceRule& rule) {
  if (!part.strip) return true;
  if (cut == (rule.transposed ? Cut::along : Cut::across)) return rule.hand == 0 || depth <= rule.hand;
  return !rule.rows && (rule.hand == 0 || (rule.transposed ? part.w : part.l) <= rule.hand);
}

Cut choose_cut(const Part& part, Ticks w, Ticks l, Ticks least_w, Ticks least_l, const SliceRule& rule) {
  if (!in_hand(part, Cut::across, l, rule)) return Cut::along;
  if (!in_hand(part, Cut::along, w, rule)) return Cut::across;
  const Ticks beside = part.w - w, above = part.l - l;
  const auto area = [&](Ticks a, Ticks b) { return a * b; };
  const auto waste = [&](Ticks a, Ticks b) { return a < least_w || b < least_l ? a * b : 0; };
  const Ticks across = waste(beside, l) + waste(part.w, above);
  const Ticks along = waste(w, above) + waste(beside, part.l);
  if (across != along) return across < along ? Cut::across : Cut::along;
  const bool larger_across =
      std::max(area(beside, l), area(part.w, above)) >= std::max(area(w, above), area(beside, part.l));
  switch (rule.taste) {
  case 0:
    return larger_across ? Cut::across : Cut::along;
  case 1:
    return larger_across ? Cut::along : Cut::across;
  case 2:
    return Cut::across;
  default:
    return Cut::along;
  }
}

std::size_t most_pressing(const std::vector<Part>& parts) {
  std::size_t best = 0;
  for (std::size_t i = 1; i < parts.size(); ++i)
    if (parts[i].w * parts[i].l < parts[best].w * parts[best].l) best = i;
  return best;
}

Ticks GreedySlices::complete(const Sheet& sheet, const std::vector<Part>& from, const std::vector<int>& left,
                             const Order& order, const SliceRule& rule, Ticks free, Ticks limit,
                             std::int64_t& work) {
  placed_.clear();
  waiting_.gather(sheet, left, order);
  Ticks spare = limit == kNoLimit ? kNoLimit : limit + free - waiting_.area();
  parts_ = from;
  while (waiting_.boxes() > 0 && !parts_.empty()) {
    const std::size_t i = most_pressing(parts_);
    const Part part = parts_[i];
    parts_.erase(parts_.begin() + static_cast<std::ptrdiff_t>(i));
    const int best = waiting_.best(part.w, part.l, 0, part.l, work);
    if (best < 0) {
      spare -= part.w * part.l;
      if (spare < 0) return kNoLimit;
      continue;
    }
    int kind = 0;
    const Kind piece = waiting_.take(best, kind);
    placed_.push_back({kind, part.u, part.v});
    const Cut cut = choose_cut(part, piece.w, piece.l, sheet.least_w, sheet.least_l, rule);
    slice(part, piece.w, piece.l, cut, cut == Cut::across ? piece.l : piece.w, parts_);
  }
  return waiting_.area();
}

} // namespace treadfold::pack
