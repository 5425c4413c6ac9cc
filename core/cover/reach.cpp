#include "cover/reach.h"

#include <algorithm>

namespace treadfold {

Reach reach_of(const Piece& piece, double tuck) {
  double u0 = 1e300, v0 = 1e300, u1 = -1e300, v1 = -1e300;
  for (const auto& p : piece.outline) {
    u0 = std::min(u0, p.u), u1 = std::max(u1, p.u);
    v0 = std::min(v0, p.v), v1 = std::max(v1, p.v);
  }
  Reach reach;
  reach.fill(-1e300);
  const auto take = [&](Edge edge, bool there, double value) {
    if (there) reach[edge] = std::max(reach[edge], value);
  };
  const double u_middle = (u0 + u1) / 2, v_middle = (v0 + v1) / 2;
  const auto take_top = [&](FlatPoint p, double beyond) {
    take(top_left, p.u <= u_middle, beyond - p.v);
    take(top_right, p.u >= u_middle, beyond - p.v);
  };
  for (const auto& p : piece.outline) {
    take_top(p, 0);
    take(foot_left, p.u <= u_middle, p.v);
    take(foot_right, p.u >= u_middle, p.v);
    take(left_back, p.v <= v_middle, -p.u);
    take(left_front, p.v >= v_middle, -p.u);
    take(right_back, p.v <= v_middle, p.u);
    take(right_front, p.v >= v_middle, p.u);
  }
  for (const auto& line : piece.lines)
    if (line.role == LineRole::tuck)
      for (const auto& p : line.points)
        take_top(p, tuck);
  return reach;
}

double span(const Reach& reach, Span span) { return reach[span.first] + reach[span.second]; }

double widest(const Reach& reach, const Spans& spans) {
  double most = -1e300;
  for (const auto& each : spans)
    most = std::max(most, span(reach, each));
  return most;
}

} // namespace treadfold
