// How far a flat piece reaches, edge by edge.
#pragma once

#include "cover/piece.h"

#include <array>
#include <utility>

namespace treadfold {

/// The piece's edges in halves, so that the farthest of two that may err apart, such as two open ends, is
/// known.
enum Edge : std::size_t {
  top_left,
  top_right,
  foot_left,
  foot_right,
  left_back,
  left_front,
  right_back,
  right_front
};

/// Of each edge, mm outward from the piece's flat origin: -u at the left, u at the right, -v at the top, v at
/// the foot.
using Reach = std::array<double, 8>;

/// `tuck`: how far the carpet must reach beyond the line along which it is tucked.
Reach reach_of(const Piece& piece, double tuck);

/// Each way in which a piece spans its rectangle.
using Span = std::pair<Edge, Edge>;
using Spans = std::array<Span, 4>;
inline constexpr Spans kAlong{
    {{top_left, foot_left}, {top_left, foot_right}, {top_right, foot_left}, {top_right, foot_right}}};
inline constexpr Spans kAcross{
    {{left_back, right_back}, {left_back, right_front}, {left_front, right_back}, {left_front, right_front}}};

double span(const Reach& reach, Span span);
double widest(const Reach& reach, const Spans& spans);

} // namespace treadfold
