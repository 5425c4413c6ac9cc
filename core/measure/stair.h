// A measured stair: flights of steps and the floors they reach, as bare wood, all sizes exact.
//
// Frame of a step: standing at the foot and looking up, x to the right, y into the stair, z up; origin at the
// left end of the line where the riser meets the tread (or floor) below.
#pragma once

#include "measure/curved_front.h"
#include "measure/plan_point.h"
#include "measure/runner.h"
#include "units/length.h"

#include <optional>
#include <string>
#include <vector>

namespace treadfold {

enum class SideKind { wall, skirt, open };

/// One side of a step. Open: the tread runs past the riser's end, and the carpet wraps its end.
struct Side {
  SideKind kind = SideKind::wall;
  Length overhang;    // open: e, tread end past the riser's end (the stringer's outer face)
  Length return_past; // open: q, how far the tread's end runs past the face of the next riser
  bool closed() const { return kind != SideKind::open; }
  bool operator==(const Side&) const = default;
};

/// The front of a tread in section. Square with an eased arris: radius = the arris'; half-round: radius =
/// thickness/2; bevelled: the upper arris planed off at 45°, no radius.
struct Nosing {
  Length projection; // o, beyond the face of the riser below
  Length thickness;  // t, of the tread board
  Length radius;     // r, of both arrises. 0 <= r <= t/2
  Length bevel = {}; // of the upper arris, as high as it is deep. 0 <= bevel < t
  bool half_round() const { return radius * 2 == thickness; }
  bool operator==(const Nosing&) const = default;
};

/// What stands on a tread and goes straight up. A round one has its diameter for both sizes; a square one
/// stands square to the riser.
struct Upright {
  std::string word; // "baluster", "newel"
  bool round = false;
  PlanPoint centre;    // mm, in the step's frame
  Length width, depth; // across, and into the stair
  std::string where;   // JSON Pointer to what the user wrote about it
  bool operator==(const Upright&) const = default;
};

/// One riser and the tread at its top. The last step of a flight ends at a landing or floor edge instead of a
/// tread.
struct Step {
  int number = 1; // from the bottom of its flight
  Length rise;    // H, top of the tread (or floor) below to top of this tread
  Length going; // G, riser face to next riser face, where it is deepest; of a landing edge: riser face to the
                // seam on the landing
  Length width; // W, of the riser, between its ends
  Length fall_right; // how much lower the tread below lies at the riser's right end; higher: negative
  Nosing nosing;
  Side left, right;
  /// The tread in plan where it is no rectangle (winder, flared, out of square): its two sides, each from its
  /// end of the riser, (0, 0) or (width, 0), to its end of the next riser. A closed side may turn at a corner
  /// of the walls; an open one is straight, and is the stringer's outer face. In front of the riser they run
  /// on straight. Either both or none.
  std::vector<PlanPoint> left_side, right_side;
  bool rectangular() const { return left_side.empty(); }
  /// How much of the tread's back stands free between an open end's stringer and a narrower riser above.
  Length free_back_left, free_back_right;
  std::optional<Starter> starter; // a bottom step with a curved front; rectangular; sides as set_front() does
  bool open_riser = false;        // a tread alone, wrapped all round; its board ends at the next riser's line
  bool landing_edge = false;
  bool landing() const { return landing_edge && !rectangular(); } // the whole of it, not only its edge
  std::vector<Upright> uprights;
  std::string where; // JSON Pointer to what the user wrote about this step
  bool operator==(const Step&) const = default;
};

/// Where a flight's top riser meets a landing: along the floor's front edge, which is the face of that riser.
struct Arrival {
  std::string floor;   // name
  Length from_left;    // of the floor's front left corner, to the riser's left end
  bool joined = false; // the landing and its first drop are one piece; else seamed behind the landing edge
  std::string where;
};

enum class CoverStyle { waterfall, wrapped };

/// Steps 1…N from the bottom. steps.back().landing_edge is true.
struct Flight {
  std::string name;
  std::vector<Step> steps;
  CoverStyle style = CoverStyle::waterfall;
  int join = 1; // largest number of steps in one piece
  /// Where the job leaves it to the layout: what `join` may come to. Until that is chosen, `join` is as much.
  std::optional<int> join_at_most;
  std::vector<int> begins; // chosen: numbers of steps with which a piece begins though it could go on
  std::string carpet;      // id of the goods
  std::string where;
  std::optional<Arrival> arrival;
  std::optional<Runner> runner;     // else carpet from side to side
  std::optional<Length> total_rise; // floor to floor, by tape
  std::optional<int> treads_counted;
};

/// What within a floor is not carpeted: a hearth, a stairwell, a column. Its corners run either way round.
struct FloorOpening {
  std::string name;
  std::vector<PlanPoint> corners;
};

/// A landing or floor: a polygon solved from its readings, counter-clockwise from the front left corner.
struct Floor {
  std::string name;
  std::vector<PlanPoint> corners;
  std::string carpet;
  std::string where;
  int fill_pieces = 1;                  // in so many the last of its breadths is cut, one behind the other
  std::vector<FloorOpening> openings{}; // clear of the outline and of each other
};

struct Stair {
  std::string name;
  std::vector<Flight> flights;
  std::vector<Floor> floors;
  std::string where;
};

} // namespace treadfold
