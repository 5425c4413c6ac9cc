#include "cover/starter_shape.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>
#include <numbers>

namespace treadfold {

namespace {

constexpr double kChordError_mm = 0.03;
constexpr double kNothing_mm = 1e-6;
constexpr double kRight = std::numbers::pi / 2;
// However much a tooth could give, its corners stand off the curve no further than this.
constexpr double kTooth_mm = 25.4 / 48;
constexpr double kClose_mm = 25.4 / 100; // a tooth whose edge meets a band's lies this close to the curve

/// How far a tooth's corners may stand off the nosing's edge, so that where its cuts begin they stand off the
/// limit's share of its depth. Infinite: nothing is cut.
double off_of_teeth(const StarterShape& shape, const Turnover& turnover, FlatShape flat, double off) {
  const double whole = whole_length(turnover, flat, shape.least_radius + off, shape.limit());
  const double depth = turnover.length() - whole;
  if (depth < kNothing_mm) return std::numeric_limits<double>::infinity();
  const double wider = 1 + (off + turnover.out(whole)) / shape.least_radius; // there than on the edge
  return std::min(kTooth_mm, shape.limit() * depth) / std::max(1.0, wider);
}

} // namespace

StarterShape starter_shape(const Step& step, const CoverInput& input) {
  assert(step.starter);
  StarterShape shape{step,
                     section_of({step, CoverStyle::wrapped, input.pad.mm(), input.carpet.backing.mm()})};
  const auto& s = shape.section;
  shape.fold_off = -step.nosing.radius.mm();
  shape.front_off = s.pad + s.half_backing;
  shape.riser_off = s.half_backing - step.nosing.projection.mm();
  shape.one_band = step.nosing.projection.ticks == 0 || !s.under;
  shape.least_radius = tightest(step.starter->front.edge).radius;
  const std::vector<TurnoverPart> under{{"lower bend", s.low_radius * kRight, kRight},
                                        {"under nosing", s.v_inner - s.v_lip, 0}};
  double tooth_off = std::numeric_limits<double>::infinity();
  if (!shape.cut()) {
    shape.cap = {0, {{"nosing", s.top_radius * kSeam_rad, kSeam_rad}}};
    if (!shape.one_band) {
      shape.under = {kRight, under};
      tooth_off = off_of_teeth(shape, shape.under, FlatShape::straight, shape.front_off);
    }
  } else {
    std::vector<TurnoverPart> parts{{"nosing", s.top_radius * kRight, kRight}};
    const double lip_z = (step.rise - step.nosing.thickness).mm();
    parts.push_back({"front", shape.one_band ? s.top_z - lip_z : s.v_low - s.v_front, 0});
    if (!shape.one_band) parts.insert(parts.end(), under.begin(), under.end());
    shape.cap = {0, std::move(parts)};
    tooth_off = off_of_teeth(shape, shape.cap, FlatShape::curved, shape.fold_off);
    if (shape.one_band)
      tooth_off = std::min(tooth_off, kClose_mm / (1 + shape.front_off / shape.least_radius));
  }
  shape.fine = starter_facets(step.starter->front, kChordError_mm, tooth_off);
  return shape;
}

} // namespace treadfold
