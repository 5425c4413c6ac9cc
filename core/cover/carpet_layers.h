// How many layers of carpet lie over a point of bare wood, where carpet may be pressed together.
#pragma once

#include "cover/bare_curve.h"
#include "cover/placed_face.h"

#include <map>
#include <set>
#include <utility>
#include <vector>

namespace treadfold {

/// Faces that press on each other because no flat piece lies smoothly there are one layer: those that have a
/// corner in common in the flat, or each with a third; not a face and what hangs on it.
class CarpetLayers {
public:
  /// `reach`: how far a look goes at most, mm. REQUIRES: `pieces` and `placed` outlive it.
  CarpetLayers(const std::vector<Piece>& pieces, const std::vector<std::vector<PlacedFace>>& placed,
               double reach);

  struct Seen {
    int layers = 0;
    std::size_t piece = 0; // of the last
  };
  /// A hairline between two faces is passed by: how far seams stand open is measured by itself.
  Seen at(BarePoint point) const;

private:
  struct FaceOf {
    std::size_t piece, face;
  };
  Seen look(const BarePoint& point) const;

  const std::vector<std::vector<PlacedFace>>& placed_;
  std::map<std::pair<int, int>, std::vector<FaceOf>> cells_;            // in plan
  std::vector<std::set<std::pair<std::size_t, std::size_t>>> pressing_; // by piece
};

} // namespace treadfold
