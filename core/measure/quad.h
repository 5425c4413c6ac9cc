// A four-sided landing or tread solved from tape readings.
#pragma once

#include "measure/stair.h"
#include "units/problem.h"

#include <array>

namespace treadfold {

/// Readings around a quadrilateral A (front left), B (front right), C (back right), D (back left).
struct QuadReadings {
  Length front, right, back, left;    // AB, BC, CD, DA
  std::optional<Length> diagonal_ac;  // front left to back right
  std::optional<Length> diagonal_bd;  // front right to back left
  Length tolerance = inches(0, 1, 8); // readings that fit within this agree
  std::string where;
  LengthUnit unit = LengthUnit::inch; // in which problems speak
};

/// The solved shape: A at the origin, AB along +x, counter-clockwise. `residuals` in mm: computed less read,
/// in the order front, right, back, left, AC, BD (0 where not read).
///
/// `worst` indexes the reading to check first, -1 if all agree within the tolerance. Six readings of five
/// unknowns show that one is wrong but not which: any five of them make a shape. What decides is that floors
/// are built square: of the shapes that come of leaving one reading out, the squarest is believed, and the
/// reading left out is named together with the value that the other five give it. Diagonals check the long
/// sides of a narrow floor well and its short sides badly: a short side may be wrong and still agree.
struct QuadSolution {
  std::array<PlanPoint, 4> corners;
  std::array<double, 6> residuals{};
  int worst = -1;
  Problems problems; // an error if no convex quadrilateral fits; a warning that names the worst reading
};

/// Least squares over the readings given: four sides and one or two diagonals. With one diagonal the shape
/// fits exactly or not at all. Uses no function but the square root, so that the bits are the same
/// everywhere.
QuadSolution solve_quad(const QuadReadings& readings);

} // namespace treadfold
