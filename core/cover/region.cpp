#include "cover/region.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

/// A stretch of a line of sight. The slants tell how much longer a step along the line is than the way it
/// gains from the edge there; at least 1.
struct Stretch {
  double from = 0, to = 0;
  double slant_from = 1, slant_to = 1;
};
using Stretches = std::vector<Stretch>;

constexpr double kNoWidth_mm = 1e-6;

struct Crossing {
  double at, slant;
};

/// The outline's inside along the line on which `across` is `level`; `along` is the other coordinate.
Stretches inside(const RegionOutline& outline, double RegionPoint::*across, double RegionPoint::*along,
                 double level) {
  std::vector<Crossing> crossings;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const auto &p = outline[j], &q = outline[i];
    if ((p.*across > level) == (q.*across > level)) continue;
    const double rise = q.*across - p.*across, run = q.*along - p.*along;
    crossings.push_back({p.*along + run * (level - p.*across) / rise,
                         run == 0 ? 1 : steady::hypot(rise, run) / std::abs(rise)});
  }
  std::stable_sort(crossings.begin(), crossings.end(),
                   [](const Crossing& p, const Crossing& q) { return p.at < q.at; });
  Stretches stretches;
  for (std::size_t i = 0; i + 1 < crossings.size(); i += 2) {
    const auto &p = crossings[i], &q = crossings[i + 1];
    if (q.at - p.at > kNoWidth_mm) stretches.push_back({p.at, q.at, p.slant, q.slant});
  }
  return stretches;
}

Stretches without(const Stretches& from, const Stretches& holes) {
  Stretches left = from;
  for (const auto& hole : holes) {
    Stretches next;
    for (const auto& s : left) {
      if (hole.from >= s.to || hole.to <= s.from) {
        next.push_back(s);
        continue;
      }
      if (hole.from - s.from > kNoWidth_mm)
        next.push_back({s.from, hole.from, s.slant_from, hole.slant_from});
      if (s.to - hole.to > kNoWidth_mm) next.push_back({hole.to, s.to, hole.slant_to, s.slant_to});
    }
    left = std::move(next);
  }
  return left;
}

Stretches stretches(const Region& region, double RegionPoint::*across, double RegionPoint::*along,
                    double level) {
  auto open = inside(region.outline, across, along, level);
  for (const auto& hole : region.holes)
    open = without(open, inside(hole, across, along, level));
  return open;
}

/// `stretch` less its insets.
Stretch inner(const Stretch& stretch, double inset) {
  const double most = (stretch.to - stretch.from) / 4;
  return {stretch.from + std::min(inset * stretch.slant_from, most),
          stretch.to - std::min(inset * stretch.slant_to, most)};
}

double station(const Stretch& inner, int i, int count) {
  return inner.from + (inner.to - inner.from) * i / (count - 1);
}

bool contains(const RegionOutline& outline, RegionPoint p) {
  const auto along = inside(outline, &RegionPoint::b, &RegionPoint::a, p.b);
  return std::any_of(along.begin(), along.end(),
                     [&](const Stretch& s) { return p.a >= s.from && p.a <= s.to; });
}

/// The points that stand `inset` inside both edges of each corner of two straight edges: lines across might
/// miss it.
void add_corners(std::vector<RegionPoint>& points, const Region& region, RegionPoint inset) {
  constexpr double kBlunt = 0.1; // sine below which two edges are as good as one
  const auto& outline = region.outline;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto &before = outline[(i + outline.size() - 1) % outline.size()], &at = outline[i],
               &after = outline[(i + 1) % outline.size()];
    const RegionPoint p{before.a - at.a, before.b - at.b}, q{after.a - at.a, after.b - at.b};
    const double long_p = steady::hypot(p.a, p.b), long_q = steady::hypot(q.a, q.b),
                 sine = std::abs(p.a * q.b - p.b * q.a) / (long_p * long_q);
    if (!(sine > kBlunt) || std::min(long_p, long_q) < 4 * std::max(inset.a, inset.b)) continue;
    const double by_p = inset.a / (sine * long_p), by_q = inset.b / (sine * long_q);
    const RegionPoint corner{at.a + by_p * p.a + by_q * q.a, at.b + by_p * p.b + by_q * q.b};
    if (!contains(outline, corner)) continue;
    if (std::none_of(region.holes.begin(), region.holes.end(),
                     [&](const RegionOutline& hole) { return contains(hole, corner); }))
      points.push_back(corner);
  }
}

} // namespace

RegionBox box_of(const RegionOutline& outline) {
  RegionBox box{{1e300, 1e300}, {-1e300, -1e300}};
  for (const auto& p : outline) {
    box.low = {std::min(box.low.a, p.a), std::min(box.low.b, p.b)};
    box.high = {std::max(box.high.a, p.a), std::max(box.high.b, p.b)};
  }
  return box;
}

bool holds(const RegionOutline& outline, RegionPoint p) {
  bool in = false;
  for (std::size_t i = 0, j = outline.size() - 1; i < outline.size(); j = i++) {
    const auto &a = outline[j], &b = outline[i];
    if ((a.b > p.b) != (b.b > p.b) && p.a < (b.a - a.a) * (p.b - a.b) / (b.b - a.b) + a.a) in = !in;
  }
  return in;
}

bool holds(const Region& region, RegionPoint p) {
  return holds(region.outline, p) && std::none_of(region.holes.begin(), region.holes.end(),
                                                  [&](const auto& hole) { return holds(hole, p); });
}

RegionOutline clipped(const RegionOutline& outline, RegionPoint on, RegionPoint inward) {
  RegionOutline kept;
  const auto depth = [&](RegionPoint p) { return (p.a - on.a) * inward.a + (p.b - on.b) * inward.b; };
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto &p = outline[i], &q = outline[(i + 1) % outline.size()];
    const double at_p = depth(p), at_q = depth(q);
    if (at_p >= 0) kept.push_back(p);
    if ((at_p < 0) == (at_q < 0)) continue;
    const double t = at_p / (at_p - at_q);
    kept.push_back({p.a + t * (q.a - p.a), p.b + t * (q.b - p.b)});
  }
  return kept;
}

std::vector<RegionPoint> samples(const Region& region, int count, RegionPoint inset) {
  const auto box = box_of(region.outline);
  const auto across = inner({box.low.a, box.high.a}, inset.a), down = inner({box.low.b, box.high.b}, inset.b);
  std::vector<RegionPoint> points;
  for (int i = 0; i < count; ++i) {
    const double a = station(across, i, count);
    const auto open = stretches(region, &RegionPoint::a, &RegionPoint::b, a);
    double total = 0;
    for (const auto& s : open)
      total += s.to - s.from;
    for (const auto& s : open) {
      const int share = std::max(2, static_cast<int>(std::lround(count * (s.to - s.from) / total)));
      for (int j = 0; j < share; ++j)
        points.push_back({a, station(inner(s, inset.b), j, share)});
    }
  }
  for (int j = 0; j < count; ++j) {
    const double b = station(down, j, count);
    for (const auto& s : stretches(region, &RegionPoint::b, &RegionPoint::a, b))
      for (const double a : {inner(s, inset.a).from, inner(s, inset.a).to})
        points.push_back({a, b});
  }
  add_corners(points, region, inset);
  return points;
}

std::vector<RegionPoint> beside(const RegionOutline& convex, double out, double apart) {
  double twice = 0;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const auto &p = convex[i], &q = convex[(i + 1) % convex.size()];
    twice += p.a * q.b - q.a * p.b;
  }
  const double sign = twice > 0 ? 1 : -1;
  std::vector<RegionPoint> points;
  for (std::size_t i = 0; i < convex.size(); ++i) {
    const auto &p = convex[i], &q = convex[(i + 1) % convex.size()];
    const double da = q.a - p.a, db = q.b - p.b, length = steady::hypot(da, db);
    const RegionPoint outward{sign * db / length, -sign * da / length};
    const int count = static_cast<int>(length / apart) + 1;
    for (int k = 0; k < count; ++k) {
      const double t = (k + 0.5) / count;
      points.push_back({p.a + t * da + out * outward.a, p.b + t * db + out * outward.b});
    }
  }
  return points;
}

} // namespace treadfold
