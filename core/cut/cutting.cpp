#include "cut/cutting.h"

#include <algorithm>
#include <cassert>

namespace treadfold {
namespace {

/// A piece comes out of what is in hand; what lies around it there counts as loose parts that do not meet.
void cut_around(std::vector<GoodsPart>& parts, const Placement& p, const RollLayout& roll) {
  std::vector<GoodsPart> rest;
  const auto leave = [&](Length u, Length v, Length to_u, Length to_v) {
    if (u < to_u && v < to_v) rest.push_back({u, v, to_u - u, to_v - v});
  };
  const Length right = p.u + p.width, end = p.v + p.length;
  for (const auto& part : parts) {
    const Length part_right = part.u + part.width, part_end = part.v + part.length;
    const Length from = std::max(part.v, p.v), to = std::min(part_end, end);
    // A piece that is out already may have reached into this one's rectangle.
    const bool out = std::any_of(roll.placements.begin(), roll.placements.end(),
                                 [&](const Placement& q) { return &q != &p && is_cut_to(part, q); });
    if (out || from >= to || part.u >= right || p.u >= part_right) {
      rest.push_back(part);
      continue;
    }
    leave(part.u, part.v, part_right, from);
    leave(part.u, from, p.u, to);
    leave(right, from, part_right, to);
    leave(part.u, to, part_right, part_end);
  }
  rest.push_back({p.u, p.v, p.width, p.length});
  parts = std::move(rest);
}

/// The stroke goes through one part, from edge to edge.
void cut_straight(std::vector<GoodsPart>& parts, const Stroke& stroke) {
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

void cut(std::vector<GoodsPart>& parts, const Stroke& stroke, const RollLayout& roll) {
  if (stroke.kind != Stroke::Kind::around) return cut_straight(parts, stroke);
  const auto piece = std::find_if(roll.placements.begin(), roll.placements.end(),
                                  [&](const Placement& p) { return p.piece == stroke.frees; });
  assert(piece != roll.placements.end());
  cut_around(parts, *piece, roll);
}

} // namespace

bool is_cut_to(const GoodsPart& part, const Placement& p) {
  return part.u == p.u && part.v == p.v && part.width == p.width && part.length == p.length;
}

std::vector<GoodsPart> parts_after(const RollLayout& roll, std::size_t strokes) {
  std::vector<GoodsPart> parts{{{}, {}, roll.width, roll.remnant ? roll.available : roll.length_to_buy}};
  for (std::size_t i = 0; i < strokes; ++i)
    cut(parts, roll.knife_order[i], roll);
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
    cut(parts, roll.knife_order[strokes], roll);
  }
}

} // namespace treadfold
