// The bare wood that a piece must cover, worked out from the measured steps and not from the piece.
#pragma once

#include "cover/piece.h"
#include "cover/space.h"

namespace treadfold {

/// Bare wood to be covered: origin + a·A + b·B over the unit square, seen along `outward`, less what
/// is left out.
struct BareFace {
  std::string name;
  Point3 origin{}, a{}, b{}, outward{};
  double reach = 0;      // how far off the wood the carpet may lie
  double arc_radius = 0; // > 0: a quarter round about the axis origin + a·A; b turns from `outward` to `b`
  // Left open on purpose:
  std::vector<std::array<double, 4>> left_out; // a0, a1, b0, b1 in mm from the origin
  double front_round = 0; // an end whose front edge is rounded by this radius (b: down, a: forward)
  int step = 0;           // its number
};

struct BareFaceInput {
  CoverStyle style;
  double pad, backing, relief;
};

/// `steps`: highest first; faces in the frame of the highest. The opening that the back corner's set-off
/// leaves is left out.
std::vector<BareFace> bare_faces(const std::vector<Step>& steps, const BareFaceInput& input);

} // namespace treadfold
