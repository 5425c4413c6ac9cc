#include "measure/curve.h"

#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace treadfold {

namespace {

double norm(PlanPoint p) { return steady::hypot(p.x, p.y); }

CurvePoint point_of(const CurveSpan& span, double t) {
  const auto slope = span.slope(t);
  const double speed = norm(slope), turn = cross(slope, span.bend(t));
  const double radius = std::abs(turn) < 1e-12 * speed * speed * speed
                            ? std::numeric_limits<double>::infinity()
                            : speed * speed * speed / turn;
  return {span.at(t), (1 / speed) * slope, radius};
}

/// `count` + 1 values of t from end to end.
template <class Visit>
void walk(const CurveSpan& span, int count, Visit visit) {
  for (int i = 0; i <= count; ++i)
    visit(span.from + (span.to - span.from) * i / count);
}

/// A chord over a step h of t stands h²/8 times the curve's bend square to its way off it.
int facet_count(const CurveSpan& span, double chord_error, int most) {
  constexpr int kLooks = 64;
  double bend = 0;
  walk(span, kLooks, [&](double t) {
    const auto slope = span.slope(t);
    bend = std::max(bend, std::abs(cross(slope, span.bend(t))) / norm(slope));
  });
  const double count = (span.to - span.from) * std::sqrt(bend / (8 * chord_error));
  return std::clamp(static_cast<int>(std::ceil(count)), 1, most);
}

} // namespace

PlanPoint CurveSpan::at(double t) const {
  if (arc) return k[0] + steady::cos(t) * k[1] + steady::sin(t) * k[2];
  return k[0] + t * (k[1] + t * (k[2] + t * k[3]));
}

PlanPoint CurveSpan::slope(double t) const {
  if (arc) return -steady::sin(t) * k[1] + steady::cos(t) * k[2];
  return k[1] + t * (2 * k[2] + 3 * t * k[3]);
}

PlanPoint CurveSpan::bend(double t) const {
  if (arc) return -steady::cos(t) * k[1] + -steady::sin(t) * k[2];
  return 2 * k[2] + 6 * t * k[3];
}

CurveSpan line_span(PlanPoint from, PlanPoint to) { return {false, {from, to - from}, 0, 1}; }

CurveSpan arc_span(PlanPoint centre, double along, double across, double from, double to) {
  return {true, {centre, {along, 0}, {0, across}}, from, to};
}

double length_mm(const Curve& curve) {
  // Gauss's five points on each of sixteen parts.
  constexpr std::array<double, 3> kAt = {0, 0.5384693101056831, 0.9061798459386640};
  constexpr std::array<double, 3> kWeight = {0.5688888888888889, 0.4786286704993665, 0.2369268850561891};
  constexpr int kParts = 16;
  double length = 0;
  for (const auto& span : curve) {
    const double half = (span.to - span.from) / (2 * kParts);
    for (int part = 0; part < kParts; ++part) {
      const double middle = span.from + (2 * part + 1) * half;
      for (std::size_t i = 0; i < kAt.size(); ++i)
        for (const double sign : {-1.0, 1.0})
          if (i > 0 || sign > 0)
            length += half * kWeight[i] * norm(span.slope(middle + sign * kAt[i] * half));
    }
  }
  return length;
}

double turn_rad(const Curve& curve) {
  constexpr int kSteps = 64; // no span turns by half a turn in one of them
  double turn = 0;
  for (const auto& span : curve) {
    auto before = span.slope(span.from);
    walk(span, kSteps, [&](double t) {
      const auto now = span.slope(t);
      turn += steady::atan2(cross(before, now), dot(before, now));
      before = now;
    });
  }
  return turn;
}

CurvePoint tightest(const Curve& curve) {
  constexpr int kLooks = 256;
  CurvePoint best;
  best.radius = std::numeric_limits<double>::infinity();
  for (const auto& span : curve)
    walk(span, kLooks, [&](double t) {
      const auto p = point_of(span, t);
      if (p.radius > 0 && p.radius < best.radius) best = p;
    });
  return best;
}

std::vector<CurvePoint> facets(const Curve& curve, double chord_error, int most) {
  std::vector<CurvePoint> points;
  for (const auto& span : curve) {
    bool first = !points.empty(); // the joint is there already
    walk(span, facet_count(span, chord_error, most), [&](double t) {
      if (!first) points.push_back(point_of(span, t));
      first = false;
    });
  }
  return points;
}

} // namespace treadfold
