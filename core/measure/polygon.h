// A convex polygon solved from tape readings between its corners.
#pragma once

#include "measure/stair.h"
#include "units/problem.h"

namespace treadfold {

/// A side or diagonal, as read; corners are counted counter-clockwise from 0.
struct Span {
  int from = 0, to = 0;
  Length length;
  std::string name; // "diagonal front left to back right"
};

/// REQUIRES: at least 2 · corners - 3 spans, all different, of which one can build the shape corner by
/// corner, each from two that stand already: all sides and corners - 3 diagonals from one corner, say.
struct PolygonReadings {
  int corners = 4;
  std::vector<Span> spans;
  std::vector<int> square_corners;    // those that builders make square, to tell which reading is wrong
  Length tolerance = inches(0, 1, 8); // readings that fit within this agree
  std::string where;
  LengthUnit unit = LengthUnit::inch; // in which problems speak
};

/// The solved shape: corner 0 at the origin, 1 along +x, counter-clockwise. `residuals` in mm: computed less
/// read, in the order of the spans.
///
/// `worst` indexes the reading to check first, -1 if all agree within the tolerance: one without which the
/// rest do. More than one may be such: all of them where there is one reading more than the shape needs,
/// those that meet in a corner of only three. Of these shapes the one whose `square_corners` are squarest is
/// believed, and the reading left out is named together with the value that the others give it.
struct PolygonSolution {
  std::vector<PlanPoint> corners;
  std::vector<double> residuals;
  int worst = -1;
  Problems problems; // an error if no convex polygon fits; a warning that names the worst reading
};

/// Least squares over the readings. With no reading more than needed the shape fits exactly or not at all.
/// Uses no function but the square root, so that the bits are the same everywhere.
PolygonSolution solve_polygon(const PolygonReadings& readings);

} // namespace treadfold
