#include "cover/trims.h"

#include "cover/account.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

/// Where the lines through `corner` along `a` and `b` meet once each is moved out by its trim. A sharp corner
/// is blunted at four times the larger trim.
PlanPoint moved_corner(PlanPoint corner, PlanPoint a, double trim_a, PlanPoint b, double trim_b) {
  const PlanPoint out_a{a.y, -a.x}, out_b{b.y, -b.x};
  const double turn = out_a.x * out_b.y - out_a.y * out_b.x;
  const double most = 4 * std::max(trim_a, trim_b);
  if (std::abs(turn) < 1e-9) return corner + trim_a * out_a;
  const PlanPoint move{(trim_a * out_b.y - trim_b * out_a.y) / turn,
                       (trim_b * out_a.x - trim_a * out_b.x) / turn};
  const double far = steady::hypot(move.x, move.y);
  return corner + (far > most ? most / far : 1.0) * move;
}

PlanPoint direction(PlanPoint from, PlanPoint to) {
  const auto d = to - from;
  return (1 / steady::hypot(d.x, d.y)) * d;
}

/// The corners of one side with its allowances, from the riser to the next riser, in (x, v).
FlatPath moved_corners(const StepSide& side, double side_trim, double back_trim, double v_foot) {
  const auto& line = side.plan.line;
  const double at_foot = side.plan.square_front ? side_trim : side_trim / direction(line[0], line[1]).y;
  FlatPath moved{{at_foot, v_foot}};
  for (std::size_t i = 1; i < line.size(); ++i) {
    const bool last = i + 1 == line.size();
    const auto next = last ? (-1.0) * side.plan.along : direction(line[i], line[i + 1]);
    moved.push_back(side.plan.flat(moved_corner(line[i], direction(line[i - 1], line[i]), side_trim, next,
                                                last ? back_trim : side_trim)));
  }
  return moved;
}

/// How far the corners of a step that is no rectangle go beyond its net outline.
void widen_for_corners(Piece& piece, const StepPart& part, Length side_trim, Length back_trim) {
  double left = piece.trim_left.mm(), right = piece.trim_right.mm(), back = piece.trim_back.mm();
  double u0 = 1e300, u1 = -1e300, v0 = 1e300;
  for (const auto& p : piece.outline)
    u0 = std::min(u0, p.u), u1 = std::max(u1, p.u), v0 = std::min(v0, p.v);
  for (const auto* side : {&part.left, &part.right}) {
    const double trim = side->wrap ? 0 : side_trim.mm();
    for (const auto& p : side->frame.at(moved_corners(*side, trim, back_trim.mm(), part.section.v_foot))) {
      left = std::max(left, u0 - p.u);
      right = std::max(right, p.u - u1);
      back = std::max(back, v0 - p.v);
    }
  }
  piece.trim_left = from_mm_up(left);
  piece.trim_right = from_mm_up(right);
  piece.trim_back = from_mm_up(back);
}

} // namespace

void set_trims(Piece& piece, const std::vector<StepPart>& parts, const Allowances& allowances) {
  const auto& top = parts.front().step;
  const Length wall = top.landing() ? allowances.floor_trim : allowances.side_trim;
  const Length back = top.landing() ? allowances.floor_trim : allowances.tuck_back;
  piece.trim_left = top.left.closed() ? wall : allowances.open_side_trim;
  piece.trim_right = top.right.closed() ? wall : allowances.open_side_trim;
  piece.trim_foot = allowances.tuck_foot;
  const auto tabs = from_mm(-highest(piece.outline));
  piece.trim_back = tabs.ticks == 0 ? back : std::max(allowances.open_side_trim, back - tabs);
  if (!top.rectangular()) widen_for_corners(piece, parts.front(), wall, back);
}

} // namespace treadfold
