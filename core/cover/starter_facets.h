// The edge of a curved tread as facets: what a fold along a curve is made of.
//
// Facets along a curve all stand alike off it: facet² over the radius is the same. So do teeth, each of an
// odd number of facets with one in its middle, in line with which it lies; none is wider than 2 in.
#pragma once

#include "measure/curved_front.h"

#include <cstddef>
#include <limits>

namespace treadfold {

/// Facets [ends[i], ends[i + 1]), in line with facet middle[i]. A straight facet is the middle of a tooth
/// that takes in half a tooth of the curve on either side.
struct Teeth {
  std::vector<std::size_t> ends, middle;
  std::size_t count() const { return middle.size(); }
};

/// Facets in order from left to right, each a straight bit of the nosing's edge in plan. The whole front
/// moved out by `off` has its corners at corner(k, off): between two facets on their mitre, at the ends in
/// the plane that the edge stops at.
struct StarterFacets {
  std::vector<PlanPoint> at;    // n + 1 corners
  std::vector<PlanPoint> along; // n unit directions
  std::vector<PlanPoint> mitre; // n + 1: by how much a corner moves when the edge moves out by 1
  std::vector<bool> straight;   // n
  Teeth teeth;                  // empty if none were asked for

  std::size_t count() const { return along.size(); }
  PlanPoint corner(std::size_t k, double off) const { return at[k] + off * mitre[k]; }
  PlanPoint out(std::size_t facet) const { return {along[facet].y, -along[facet].x}; }
  /// How far along `facet` its corner k runs on when the edge moves out by 1.
  double lean(std::size_t facet, std::size_t k) const { return dot(mitre[k], along[facet]); }
  std::vector<PlanPoint> line(double off) const;
};

/// `tooth_off_mm`: how far a tooth's corners may stand off the curve; infinite: no teeth.
StarterFacets starter_facets(const CurvedFront& front, double chord_error_mm,
                             double tooth_off_mm = std::numeric_limits<double>::infinity());

} // namespace treadfold
