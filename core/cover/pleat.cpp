#include "cover/pleat.h"

#include "units/steady.h"

#include <algorithm>

namespace treadfold {

namespace {

struct Line {
  FlatPoint at, along;
};

/// The narrow edge of the riser's carpet as it runs over a layer once that is folded behind it.
Line riser_edge(const RunnerPleat& pleat, int crease) {
  const bool back = crease % 2 == 0;          // it lies with its back to the riser's carpet
  const int low = back ? crease : crease + 1; // of its two creases the one in the crotch
  const auto &first = pleat.creases.front(), &crotch = pleat.creases[static_cast<std::size_t>(low)];
  const double above = distance_mm(first[0], first[1]);
  const auto a = 1 / above * (first[1] - first[0]);
  FlatPoint up{0, -1};
  if (back) up = 2 * (a.u * up.u + a.v * up.v) * a - up;
  const double turn = pleat.angle_rad * low / (2 * pleat.tucks);
  return {crotch[0] + above / distance_mm(crotch[0], crotch[1]) * (crotch[1] - crotch[0]),
          turned(up, pleat.narrow_left ? -turn : turn)};
}

} // namespace

FlatPoint turned(FlatPoint p, double angle_rad) {
  const double c = steady::cos(angle_rad), s = steady::sin(angle_rad);
  return {c * p.u - s * p.v, s * p.u + c * p.v};
}

PleatLayer pleat_layer(const RunnerPleat& pleat, int crease) {
  const auto &from = pleat.creases[static_cast<std::size_t>(crease)],
             &to = pleat.creases[static_cast<std::size_t>(crease) + 1];
  const FlatPath whole{from[0], from[1], to[1]};
  const auto edge = riser_edge(pleat, crease);
  const auto past = [&](FlatPoint p) {
    const auto q = p - edge.at;
    const double off = q.u * edge.along.v - q.v * edge.along.u;
    const auto point = whole[0] - edge.at;
    return point.u * edge.along.v - point.v * edge.along.u > 0 ? -off : off;
  };
  PleatLayer layer;
  FlatPath crossings;
  double most = 0;
  for (std::size_t i = 0; i < whole.size(); ++i) {
    const auto p = whole[i], q = whole[(i + 1) % whole.size()];
    const double at = past(p), next = past(q);
    most = std::max(most, at);
    (at <= 0 ? layer.kept : layer.corner).push_back(p);
    if ((at <= 0) == (next <= 0)) continue;
    crossings.push_back(p + at / (at - next) * (q - p));
    layer.kept.push_back(crossings.back());
    layer.corner.push_back(crossings.back());
  }
  if (most < kPleatShows_mm) return {whole, {}, {}, {}};
  layer.edge_a = crossings.front();
  layer.edge_b = crossings.back();
  return layer;
}

} // namespace treadfold
