// The bare wood that a piece must cover, worked out from the measured steps and not from the piece.
#pragma once

#include "cover/piece.h"
#include "cover/region.h"
#include "cover/space.h"

namespace treadfold {

/// Bare wood to be covered: origin + a·A + b·B over the region, seen along `outward`. Where arc_radius > 0, a
/// round about the axis origin + a·A: b is the length along it, and it turns from `outward` to B.
/// A, B and outward are unit vectors, square to one another.
struct BareFace {
  std::string name;
  Point3 origin{}, a{}, b{}, outward{};
  double arc_radius = 0;
  Region region;                         // holes: left open on purpose
  std::vector<RegionOutline> uprights{}; // convex, among the holes: where the wood of an upright stands
  double nearest = 0, farthest = 0;      // how far off the wood the backing's middle must lie, mm
};

struct BareFaceInput {
  CoverStyle style;
  double pad, backing, relief;
};

/// `steps`: highest first; faces in the frame of the highest. The opening in a back is the one that the back
/// corner's set-off leaves. At a wall a face ends where the carpet on it meets the wall: on wood that stands
/// at an angle to the wall that is not quite where the wood does.
std::vector<BareFace> bare_faces(const std::vector<Step>& steps, const BareFaceInput& input);

} // namespace treadfold
