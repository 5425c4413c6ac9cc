// One bare step on its way into faces.
#pragma once

#include "cover/bare_faces.h"
#include "cover/bare_side.h"

#include <functional>

namespace treadfold {

/// A step's measures in mm, and how far off the wood its carpet must lie.
struct BareStep {
  double rise, o, t, r, bevel;
  double on_pad, on_wood; // backing's middle
  BareSide left, right;
  bool landing_edge;
  std::vector<RegionOutline> uprights;           // their footprints
  std::string of;                                // ", step 3"
  double front() const { return r + bevel - o; } // y at which the tread's level ends
  double pad() const { return on_pad - on_wood; }
};
BareStep bare_step(const Step& step, const BareFaceInput& input);

constexpr Point3 kRightward{1, 0, 0}, kInward{0, 1, 0}, kForward{0, -1, 0}, kUp{0, 0, 1}, kDown{0, 0, -1};

/// What lies between two edges, each a at b, from b0 to b1.
using RegionEdge = std::function<double(double b)>;
RegionOutline between(const RegionEdge& left, const RegionEdge& right, double b0, double b1);

/// A level face; its region is a plan.
BareFace level_face(const std::string& name, double z, Point3 outward, RegionOutline plan,
                    const std::vector<RegionOutline>& uprights = {});

/// Gathers the faces of steps that stand at different places.
class BareFaceList {
public:
  Point3 shift{}; // of the step's frame in the frame of the highest
  /// Faces of no width are left out.
  void add(BareFace face, double nearest, double farthest);
  void add(BareFace face, double off) { add(std::move(face), off, off); }
  std::vector<BareFace> take() { return std::move(faces_); }

private:
  std::vector<BareFace> faces_;
};

/// x of an edge where the wood stands at y and its carpet `off` before it: at a wall the carpet's, else that
/// of whichever ends first, since round a blunt corner the next face's carpet covers the rest.
using FrontEdge = std::function<double(double y, double off)>;
FrontEdge front_edge(const BareSide& side);
/// Front and upper arris of the nosing.
void add_nosing_front(BareFaceList& faces, const BareStep& s, const std::string& of, const FrontEdge& left,
                      const FrontEdge& right);

/// The end of the tread past the riser's open end.
void add_bare_end(BareFaceList& faces, const BareStep& s, const BareSide& side, double relief);

} // namespace treadfold
