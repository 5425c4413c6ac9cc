// Balusters and newels that stand on treads.
#pragma once

#include "measure/tread_plan.h"
#include "units/problem.h"

namespace treadfold {

/// One upright or several alike, as they are measured.
struct UprightRow {
  std::string word; // "baluster", "newel"
  Hand side = Hand::right;
  bool round = false;
  Length width, depth;
  Length from_end;    // centre to the tread's open end, or to the wall or skirt
  Length from_nosing; // centre of the first, back from the front of the nosing
  Length spacing;     // centre to centre, along that end
  int count = 1;
  std::string where;
};

/// Where they stand on `step`. REQUIRES: the step's sides, nosing and plan are set.
std::vector<Upright> stand(const Step& step, const UprightRow& row);

/// Its outline in plan, mm, counter-clockwise; a round one as 96 points on its circle.
std::vector<PlanPoint> footprint(const Upright& upright);

/// Errors, one for each kind at each place: outside the tread, on the nosing's bend, in the riser or nosing
/// behind, less than 1/4 in from one another. A newel may be let into an open end, between the two risers.
Problems check_uprights(const Flight& flight, LengthUnit unit);

} // namespace treadfold
