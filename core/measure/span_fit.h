// Corners from distances between them.
#pragma once

#include "measure/stair.h"

#include <optional>
#include <vector>

namespace treadfold {

/// A distance between two corners, mm. Corners are counted counter-clockwise from 0.
struct SpanMm {
  int from = 0, to = 0;
  double mm = 0;
};

double span_between(const std::vector<PlanPoint>& corners, const SpanMm& span);
/// Every corner points outward, and all lie in order around the first.
bool convex(const std::vector<PlanPoint>& corners);

/// A convex polygon built corner by corner, each from two that stand already, by no more spans than that
/// takes; corner 0 at the origin, 1 along +x. None if they build none.
std::optional<std::vector<PlanPoint>> built(int corners, const std::vector<SpanMm>& spans);

/// Least squares over all spans, from `start` as built() frames it. No function but the square root.
std::vector<PlanPoint> fitted(std::vector<PlanPoint> start, const std::vector<SpanMm>& spans);

} // namespace treadfold
