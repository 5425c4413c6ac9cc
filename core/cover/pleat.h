// The layers of a folded wedge, and what of them would show.
#pragma once

#include "cover/piece.h"

namespace treadfold {

/// Where the tread reaches further out than the riser by more than this, hidden layers would show there.
inline constexpr double kPleatShows_mm = 25.4 / 64;

/// One layer, from the wedge's point. Its corner lies past the narrow edge of the riser's carpet once all is
/// folded, and is folded back along that edge; empty where there is none.
struct PleatLayer {
  FlatPath kept, corner;
  FlatPoint edge_a, edge_b; // where the edge crosses the layer
};

/// The layer after `crease`, 0 … 2 tucks - 1. REQUIRES: all of the pleat but its snip.
PleatLayer pleat_layer(const RunnerPleat& pleat, int crease);

inline FlatPoint operator+(FlatPoint a, FlatPoint b) { return {a.u + b.u, a.v + b.v}; }
inline FlatPoint operator-(FlatPoint a, FlatPoint b) { return {a.u - b.u, a.v - b.v}; }
inline FlatPoint operator*(double k, FlatPoint p) { return {k * p.u, k * p.v}; }
/// From u toward v.
FlatPoint turned(FlatPoint p, double angle_rad);

} // namespace treadfold
