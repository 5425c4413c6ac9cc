#include "cut/cutting.h"

#include <algorithm>
#include <cassert>

namespace treadfold {
namespace {

/// The stroke goes through one part, from edge to edge.
void cut(std::vector<GoodsPart>& parts, const Stroke& stroke) {
  const bool rip = stroke.kind == Stroke::Kind::rip;
  const auto goes_through = [&](const GoodsPart& p) {
    const auto from = rip ? p.v : p.u, to = from + (rip ? p.length : p.width);
    const auto begin = rip ? p.u : p.v, end = begin + (rip ? p.width : p.length);
    return from == stroke.from && to == stroke.to && begin < stroke.at && stroke.at < end;
  };
  const auto whole = std::find_if(parts.begin(), parts.end(), goes_through);
  assert(whole != parts.end());
  GoodsPart far = *whole;
  if (rip) {
    far.u = stroke.at, far.width = whole->u + whole->width - stroke.at;
    whole->width = stroke.at - whole->u;
  } else {
    far.v = stroke.at, far.length = whole->v + whole->length - stroke.at;
    whole->length = stroke.at - whole->v;
  }
  parts.push_back(far);
}

} // namespace

bool is_cut_to(const GoodsPart& part, const Placement& p) {
  return part.u == p.u && part.v == p.v && part.width == p.width && part.length == p.length;
}

std::vector<GoodsPart> parts_after(const RollLayout& roll, std::size_t strokes) {
  std::vector<GoodsPart> parts{{{}, {}, roll.width, roll.remnant ? roll.available : roll.length_to_buy}};
  for (std::size_t i = 0; i < strokes; ++i)
    cut(parts, roll.knife_order[i]);
  return parts;
}

std::size_t strokes_to_free(const RollLayout& roll, const std::vector<std::string>& pieces) {
  std::vector<const Placement*> bound;
  for (const auto& p : roll.placements)
    if (std::find(pieces.begin(), pieces.end(), p.piece) != pieces.end()) bound.push_back(&p);
  auto parts = parts_after(roll, 0);
  for (std::size_t strokes = 0;; ++strokes) {
    std::erase_if(bound, [&](const Placement* p) {
      return std::any_of(parts.begin(), parts.end(),
                         [&](const GoodsPart& part) { return is_cut_to(part, *p); });
    });
    if (bound.empty()) return strokes;
    assert(strokes < roll.knife_order.size());
    cut(parts, roll.knife_order[strokes]);
  }
}

} // namespace treadfold
