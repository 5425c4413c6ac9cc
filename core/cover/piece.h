// A flat piece of carpet: its net outline, what to do along which line, and the faces by which it can be
// folded again.
//
// Flat frame, mm: u across (as the step's x), v along the pile, increasing down the stair; pile leans toward
// +v. v = 0 is the back of the piece's highest tread (the crotch with the riser above); u = 0 the left end of
// the riser.
#pragma once

#include "cover/breadths.h"
#include "measure/goods.h"
#include "measure/stair.h"

#include <optional>
#include <string>
#include <vector>

namespace treadfold {

struct FlatPoint {
  double u = 0, v = 0;
};
using FlatPath = std::vector<FlatPoint>;

enum class LineRole { fold, cut, seam, hem, tuck, trim, strip, glue };

/// A line inside or on the outline. Fold: the carpet bends by angle_rad (positive: pile outside, over an
/// arris) at radius_mm of the backing's middle.
struct FlatLine {
  LineRole role = LineRole::fold;
  FlatPath points;
  std::string label; // what it is, in trade words: "nosing, top"
  double angle_rad = 0, radius_mm = 0;
};

/// A patch that stays in one piece when folded. Plane (bend_rad = 0) or part of a cylinder whose axis is
/// parallel to the hinge. Its outline lies on the far side of the hinge from its parent. At the hinge the
/// surface first turns sharply by crease_rad, then by bend_rad evenly over bend_width_mm. Positive turns put
/// the pile outside (convex).
struct Face {
  std::string name; // the bare face it covers, in trade words: "tread", "front", "end, right" …
  int step = 0;
  FlatPath outline; // counter-clockwise or clockwise, closed by its first point
  int parent = -1;  // index into Piece::faces, -1 for the root; parents come first
  FlatPoint hinge_a, hinge_b;
  double crease_rad = 0, bend_rad = 0, bend_width_mm = 0;
  bool hidden = false; // a hem or tuck: behind what it belongs to, covers nothing
};

/// Two edges that meet when folded. Both paths run the same way; their faces are the candidates a point may
/// lie on.
struct Seam {
  std::string name; // "front corner, right, step 2"
  FlatPath a, b;
  std::vector<int> faces_a, faces_b;
  bool pressed = false; // its edges may press on each other: what that asks of the carpet is strain
};

/// Where a piece hangs that begins on no tread: its first face falls plumb from its hinge, whose hinge_a is
/// at (at, z) of the step's frame and which runs `heading_rad` to the left of x.
struct Hanging {
  PlanPoint at;
  double z = 0, heading_rad = 0;
};

/// Cuts that let carpet turn over a curved edge: each a V from the edge, its point `depth_mm` in.
struct ReliefCuts {
  int count = 0;
  double depth_mm = 0;
  double mouth_mm = 0; // of the widest
  double tooth_mm = 0; // the widest between two cuts on a curve
  double whole_mm = 0; // from the line on which the carpet starts to turn to the cuts' points
};

/// Cut out for an upright on a tread, and the slit by which the carpet comes round it; or where a floor is
/// not carpeted. Both are among the piece's lines too. The hole is the upright's own section, closed by its
/// first point; where it reaches the outline it is a notch in it. The slit runs from the hole to a hidden
/// edge and on through what is trimmed there, or to another hole; empty where the hole itself reaches such an
/// edge, and on a floor.
struct Opening {
  int step = 0;     // 0: of a floor
  std::string what; // "baluster", "newel"; on a floor its name
  FlatPath hole, slit;
  std::string way; // the slit's label: "slit to the back"
};

/// One line of the account that adds up to a size: {"tread", 10 in}, {"bend over the nosing", 1.3 in} …
struct SizeItem {
  std::string what;
  double mm = 0;
};

/// A line across a runner, from its left edge to its right, and how much wood lies bare beside its two ends:
/// along the next riser (back), along the nosing to the riser's end in plan (nosing), along the riser (foot).
struct RunnerLine {
  FlatPoint left, right;
  double bare_left_mm = 0, bare_right_mm = 0;
};

/// Where a runner's piece meets one of its steps: at the tread's back, over the middle of the nosing's bend,
/// in the crotch below.
struct RunnerMark {
  int step = 0;
  RunnerLine back, nosing, foot;
};

/// Where a runner is folded round a turn: a wedge of it, its point at the wide edge, lies in tucks behind the
/// riser's carpet of `step`. Its creases run from the point to the narrow edge, evenly apart: the first is
/// the riser's foot, the last the back of the tread below; every other one lies in the crotch with them.
struct RunnerPleat {
  int step = 0; // the step above
  bool narrow_left = false;
  double angle_rad = 0; // of the wedge
  int tucks = 1;
  double depth_mm = 0; // of the deepest tuck, at the narrow edge, square to the crotch
  double jog_mm = 0;   // at the narrow edge the tread reaches that much further out than the riser's foot
  /// Where that would show the hidden layers beside the riser, their corners are folded behind them, the
  /// last one's by a cut in from the edge along the last crease, so far; else 0.
  double snip_mm = 0;
  std::vector<FlatPath> creases; // 2 tucks + 1, each from the wedge's point
};

/// What only a runner's piece has.
struct RunnerPiece {
  Length width;                  // finished
  std::vector<RunnerMark> marks; // highest step first
  double edges_mm = 0; // to be bound, turned or sealed: both edges of what is cut, and a top end that shows
  std::vector<RunnerPleat> pleats; // highest first; of a strip folded round winders
  /// How far the flat frame is turned against that of the highest step, about flat (0, 0), anticlockwise
  /// from above: a strip's edges run along v, and lean on a winder.
  double lean_rad = 0;
};

/// REQUIRES (kept by cover): faces[0] is the tread of the highest step, level, its height above that step's
/// tread wood is root_height_mm; or, where `hanging`, it hangs.
struct Piece {
  std::string id;     // "A-03", on every sheet
  std::string flight; // name; or of the floor
  int stair_index = 0, flight_index = -1, floor_index = -1;
  std::vector<int> steps; // numbers, highest first; empty for a floor piece
  int part = -1;          // of a curved starter: which of its pieces, from 0
  std::string carpet;     // goods id
  std::string kind;       // "box step", "step, open right" …
  FlatPath outline;       // net
  std::vector<FlatLine> lines;
  std::vector<Face> faces;
  std::vector<Seam> seams;
  std::vector<Opening> openings; // the outline runs on across them
  double root_height_mm = 0;
  std::optional<Hanging> hanging;
  std::optional<ReliefCuts> relief;
  std::vector<SizeItem> across, along; // net items, then allowances
  Length net_width, net_length;        // rounded up to the tick
  Length trim_left, trim_right, trim_back, trim_foot;
  Length cut_width, cut_length; // the rectangle to cut, rounded up to 1/16 in or 1 mm
  FlatPoint net_origin;         // flat coordinates of the net outline's least u and v
  std::optional<RunnerPiece> runner;
  std::optional<FloorPart> breadth; // of a floor that no roll covers in one piece
};

/// Sizes to cut are whole multiples of this: 1/16 in, or 1 mm.
Length cut_step(LengthUnit unit);

/// Area inside a closed path, mm².
double area_mm2(const FlatPath& outline);
/// Of the net: a floor's openings are none of it.
double net_area_mm2(const Piece& piece);
double distance_mm(FlatPoint a, FlatPoint b);
/// Length of an open path, mm.
double length_mm(const FlatPath& path);

} // namespace treadfold
