// What the pieces of a curved starter have in common: its section, its facets, and how carpet is laid out
// flat that turns over a curved edge.
#pragma once

#include "cover/cover.h"
#include "cover/relief_cuts.h"
#include "cover/section.h"
#include "cover/starter_facets.h"
#include "measure/tread_plan.h"

namespace treadfold {

constexpr double kSeam_rad =
    1; // over the nosing's bend: where cap and band must give alike; docs/geometry.md

/// All mm; offsets in plan outward from the nosing's edge.
struct StarterShape {
  const Step& step;
  Section section; // straight up the stair, wrapped
  StarterFacets fine{};
  double fold_off = 0;     // where the tread's carpet begins to bend
  double front_off = 0;    // of the backing on the nosing's front
  double riser_off = 0;    // of the backing on the riser
  bool one_band = false;   // over nosing and riser: no projection, or nothing under the nosing
  double least_radius = 0; // of the nosing's edge
  Turnover cap{};          // over the tread's edge
  Turnover under{};        // of a nosing band, under the nosing; empty where the cap is cut
  double limit() const { return step.starter->strain_limit; }
  EdgeStop stop(Hand hand) const {
    return hand == Hand::left ? step.starter->front.left : step.starter->front.right;
  }
  bool cut() const { return step.starter->closing == StarterClosing::cuts; }
};

StarterShape starter_shape(const Step& step, const CoverInput& input);

} // namespace treadfold
