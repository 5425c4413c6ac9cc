// The curved front of a bottom step: from readings to the nosing's edge in plan.
//
// Frame: the step's own (measure/stair.h). The front is straight at y = -projection where it is straight.
// Each end of the edge stops at a wall, at the stringer's outer face behind the next riser, or at the next
// riser's line.
#pragma once

#include "measure/curve.h"
#include "units/length.h"
#include "units/problem.h"

#include <optional>
#include <string>
#include <vector>

namespace treadfold {

/// What the edge runs against at its end: a wall or skirt in the line of the riser's end; the outer face of
/// the stringer, in the same line but behind the next riser; or the next riser's line, where something else
/// stands.
enum class EdgeStop { wall, stringer, back };

struct CurvedFront {
  Curve edge; // of the nosing, bare, from left to right
  EdgeStop left = EdgeStop::wall, right = EdgeStop::wall;
  bool operator==(const CurvedFront&) const = default;
};

/// square: straight on to the wall. quarter: rounded through a right angle, then straight back to the next
/// riser's line. half: rounded through two, back to the stringer.
enum class FrontEndShape { square, quarter, half };
struct FrontEnd {
  FrontEndShape shape = FrontEndShape::square;
  Length past;          // of its outermost point past the riser's end
  Length along, across; // half-axes of the round, along and across the step; alike: a circle
  bool operator==(const FrontEnd&) const = default;
};

/// From the next riser's face forward to the nosing's edge, square to that riser's line; `at` along the line
/// from its left end. Behind the line `out` is negative.
struct FrontOffset {
  Length at, out;
  std::string where;
  bool operator==(const FrontOffset&) const = default;
};

/// Either ends, or offsets in order from left to right, the edge's own ends first and last.
struct FrontReadings {
  FrontEnd left, right;
  std::vector<FrontOffset> offsets;
  std::string where;
  LengthUnit unit = LengthUnit::inch; // in which problems speak
  bool operator==(const FrontReadings&) const = default;
};

/// How a nosing's carpet is closed round a curve: a band of its own, seamed to the cap on the nosing's bend;
/// or the cap's edge cut and turned over.
enum class StarterClosing { band, cuts };

/// A bottom step with a curved front, in place of its straight one.
struct Starter {
  CurvedFront front;
  StarterClosing closing = StarterClosing::band;
  double strain_limit = 0.02; // by how much of its length carpet may be made to give where it is not cut
  FrontReadings readings;     // of which the front was made
  bool operator==(const Starter&) const = default;
};

/// What the front stands between, all in the step's frame.
struct FrontPlace {
  Length width, going, projection;
  Length arris; // radius of the nosing's arris: no bend in plan may be tighter
};

struct FrontSolution {
  std::optional<CurvedFront> front;
  Problems problems; // errors when there is no front
};

/// Refuses: rounds that do not fit the step, an edge that ends nowhere, offsets that make a dent deeper than
/// 1/16 in, and a bend so tight that the riser, set back by the projection, would come to a point.
FrontSolution solve_front(const FrontReadings& readings, const FrontPlace& place);

/// How far the edge bulges past the ends of the next riser, to the left and to the right, mm.
struct FrontReach {
  double left = 0, right = 0;
};
FrontReach reach_of(const CurvedFront& front, double width);

} // namespace treadfold
