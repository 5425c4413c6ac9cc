#include "cover/piece.h"
#include "units/steady.h"

#include <cmath>

namespace treadfold {

Length cut_step(LengthUnit unit) { return unit == LengthUnit::inch ? inches(0, 1, 16) : millimetres(1); }

double area_mm2(const FlatPath& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto& p = outline[i];
    const auto& q = outline[(i + 1) % outline.size()];
    twice += p.u * q.v - q.u * p.v;
  }
  return std::abs(twice) / 2;
}

double net_area_mm2(const Piece& piece) {
  double area = area_mm2(piece.outline);
  for (const auto& opening : piece.openings)
    if (opening.step == 0) area -= area_mm2(opening.hole);
  return area;
}

double distance_mm(FlatPoint a, FlatPoint b) { return steady::hypot(b.u - a.u, b.v - a.v); }

double length_mm(const FlatPath& path) {
  double total = 0;
  for (std::size_t i = 1; i < path.size(); ++i)
    total += distance_mm(path[i - 1], path[i]);
  return total;
}

} // namespace treadfold
