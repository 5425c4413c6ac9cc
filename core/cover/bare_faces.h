// The bare wood that a piece must cover, worked out from the measured steps and not from the piece.
#pragma once

#include "cover/piece.h"
#include "cover/space.h"

#include <optional>

namespace treadfold {

/// Bare wood to be covered: origin + a·A + b·B over the unit square, seen along `outward`; or, where
/// arc_radius > 0, a quarter round about the axis origin + a·A that turns from `outward` to `b`.
struct BareFace {
  std::string name;
  Point3 origin{}, a{}, b{}, outward{};
  double arc_radius = 0;
  double nearest = 0, farthest = 0; // how far off the wood the backing's middle must lie, mm
  double front_round = 0;           // an end's front edge is rounded by this radius (a: forward, b: down)
  struct Opening {
    double a0, a1, b0, b1; // mm from the origin
  };
  std::optional<Opening> opening = std::nullopt; // left open on purpose
};

struct BareFaceInput {
  CoverStyle style;
  double pad, backing, relief;
};

/// `steps`: highest first; faces in the frame of the highest. The opening is the one that the back corner's
/// set-off leaves.
std::vector<BareFace> bare_faces(const std::vector<Step>& steps, const BareFaceInput& input);

} // namespace treadfold
