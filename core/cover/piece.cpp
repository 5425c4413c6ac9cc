#include "cover/piece.h"

#include <cmath>

namespace treadfold {

double area_mm2(const FlatPath& outline) {
  double twice = 0;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto& p = outline[i];
    const auto& q = outline[(i + 1) % outline.size()];
    twice += p.u * q.v - q.u * p.v;
  }
  return std::abs(twice) / 2;
}

} // namespace treadfold
