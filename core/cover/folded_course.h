// How a runner that is folded round winders lies on each step of its flight.
//
// It is one straight strip. On every step it runs straight over the backing from the tread's back over the
// nosing to the foot. Its wide edge is unbroken, and meets each turning step's riser as far from the narrow
// end as straight steps have it: so the runner keeps its line, and no choice is left but one leaning a step.
// What is too much at the narrow edge is folded away in the crotch. Derivation and figure: docs/geometry.md.
#pragma once

#include "cover/cover.h"
#include "cover/section.h"
#include "measure/runner_band.h"
#include "measure/tread_plan.h"
#include "units/problem.h"

#include <optional>

namespace treadfold {

/// One step under the strip, in the step's own frame: x as there, v along the backing as in cover/section.h.
struct CourseStep {
  bool turns = false, narrow_left = false;
  double turn_rad = 0; // of the next riser against its own, anticlockwise from above; 0 unless it turns
  double lean_rad = 0; // the edges go to the right by tan lean each mm down
  double left_x = 0, right_x = 0; // of the edges at v = 0
  double back_y = 0;              // y of v = 0
  PlanPoint back, along{1, 0};    // left end of the tread's back, and the next riser's direction
  double foot_v = 0;              // of the crotch below, within a strip

  double x(Hand edge, double v) const;
  /// Where an edge crosses the line `before` the tread's back: how far along it from the back's left end.
  double along_back(Hand edge, double before) const;
  /// Of a point of that line: (x, v).
  FlatPoint at_back(double along_mm, double before) const;
};

/// By step, from the bottom. REQUIRES: folds_round(flight).
std::vector<CourseStep> course_of(const Flight& flight, const CoverInput& input);

/// What is folded away in a crotch: leanings of the strip's edges on the riser above and on the tread below,
/// each away from the square on its line toward the narrow side; together they are the wedge.
struct CrotchFold {
  bool narrow_left = false;
  double above_rad = 0, below_rad = 0;
  int tucks = 0; // 1, or 2 where one has no room
  double depth_mm = 0,
         room_mm = 0; // of a tuck, and behind the riser's carpet up to the underside of the nosing
  double jog_mm = 0;
  double angle() const { return above_rad + below_rad; }
  bool fits() const { return depth_mm <= room_mm; }
};
/// Nothing between steps that are straight and in line.
std::optional<CrotchFold> crotch_fold(const CourseStep& upper, const CourseStep& lower,
                                      const Section& upper_section, double width_mm);

/// The section of a step in a strip that goes on below it, or that ends there.
Section strip_section(const Step& step, CoverStyle style, const CoverInput& input, bool goes_on);

/// In folded_check.cpp: errors that say why the runner cannot be folded round its winders; or a note of how
/// far its narrow edge jogs, and a warning of folds that stand out. REQUIRES: as course_of.
Problems check_course(const Flight& flight, const CoverInput& input, const TackStrip& strip);

} // namespace treadfold
