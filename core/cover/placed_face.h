// A flat face folded into space. Knows the Piece and nothing of how it was unfolded.
#pragma once

#include "cover/piece.h"
#include "cover/space.h"
#include "units/steady.h"

namespace treadfold {

/// A face in space: flat coordinates along (h) and across (c) its hinge, mapped by a plane or a cylinder.
struct PlacedFace {
  const Face* face = nullptr;
  std::vector<const FlatPath*> holes; // of the piece, those near it
  FlatPoint hinge{}, h{}, c{};        // flat: a point of the hinge, unit vectors along and ahead
  Point3 origin{}, e1{}, e2{}, n{};   // space: hinge point, along, ahead, pile's side
  double radius = 0;                  // signed; 0 for a plane
  Point3 low{}, high{};               // bounding box

  Point3 at(FlatPoint p) const {
    const double along = (p.u - hinge.u) * h.u + (p.v - hinge.v) * h.v;
    const double ahead = (p.u - hinge.u) * c.u + (p.v - hinge.v) * c.v;
    if (radius == 0) return origin + along * e1 + ahead * e2;
    const double turned = ahead / radius;
    return origin + along * e1 + radius * steady::sin(turned) * e2 - radius * (1 - steady::cos(turned)) * n;
  }
  Point3 normal_at(FlatPoint p) const {
    if (radius == 0) return n;
    const double turned = ((p.u - hinge.u) * c.u + (p.v - hinge.v) * c.v) / radius;
    return steady::cos(turned) * n + steady::sin(turned) * e2;
  }
  /// Whether carpet is there.
  bool holds(FlatPoint p) const;
  FlatPoint flat(double along, double ahead) const {
    return {hinge.u + along * h.u + ahead * c.u, hinge.v + along * h.v + ahead * c.v};
  }
};

/// Every face of the piece in the frame of its highest step, whose tread's back line v = 0 lies at y = back_y
/// and whose tread carpet lies at z = tread_z; a piece that hangs knows its own place.
std::vector<PlacedFace> place_faces(const Piece& piece, double back_y, double tread_z);

bool inside(const FlatPath& outline, FlatPoint p);
/// Distance from the outline if outside, 0 inside.
double distance_outside(const FlatPath& outline, FlatPoint p);
/// Distance from the outline if inside, 0 outside.
double distance_inside(const FlatPath& outline, FlatPoint p);
/// Whether two of a closed outline's edges cross; they may touch.
bool crosses_itself(const FlatPath& outline);

} // namespace treadfold
