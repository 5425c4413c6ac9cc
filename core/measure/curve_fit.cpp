#include "measure/curve_fit.h"

#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <optional>

namespace treadfold {

namespace {

double distance(PlanPoint a, PlanPoint b) { return steady::hypot(b.x - a.x, b.y - a.y); }
PlanPoint unit(PlanPoint p) { return (1 / steady::hypot(p.x, p.y)) * p; }

/// How far p lies to the left of the line a → b: inside it.
double inside_by(PlanPoint a, PlanPoint b, PlanPoint p) { return cross(b - a, p - a) / distance(a, b); }

struct Knot {
  std::size_t index; // of the point given
  PlanPoint at;
};

/// Without the points that lie inside their neighbours' line: the outer hull, left to right.
std::vector<Knot> outer(const std::vector<PlanPoint>& points) {
  std::vector<Knot> kept;
  for (std::size_t i = 0; i < points.size(); ++i) {
    while (kept.size() >= 2 && inside_by(kept[kept.size() - 2].at, points[i], kept.back().at) > 0)
      kept.pop_back();
    kept.push_back({i, points[i]});
  }
  return kept;
}

std::vector<Dent> dents_of(const std::vector<PlanPoint>& points, const std::vector<Knot>& kept,
                           double slack) {
  std::vector<Dent> dents;
  for (std::size_t k = 1; k < kept.size(); ++k)
    for (std::size_t i = kept[k - 1].index + 1; i < kept[k].index; ++i)
      if (const double depth = inside_by(kept[k - 1].at, kept[k].at, points[i]); depth > slack)
        dents.push_back({i, depth});
  return dents;
}

/// The last knot of the longest line from `first` to which all between keep by `slack`.
std::size_t line_end(const std::vector<Knot>& knots, std::size_t first, double slack) {
  std::size_t last = first + 1;
  for (std::size_t end = first + 2; end < knots.size(); ++end) {
    for (std::size_t i = first + 1; i < end; ++i)
      if (std::abs(inside_by(knots[first].at, knots[end].at, knots[i].at)) > slack) return last;
    last = end;
  }
  return last;
}

/// Solves below·m[i-1] + on·m[i] + above·m[i+1] = right.
struct Row {
  double below, on, above;
  PlanPoint right;
};
std::vector<PlanPoint> solve(std::vector<Row> rows) {
  for (std::size_t i = 1; i < rows.size(); ++i) {
    const double f = rows[i].below / rows[i - 1].on;
    rows[i].on -= f * rows[i - 1].above;
    rows[i].right = rows[i].right - f * rows[i - 1].right;
  }
  std::vector<PlanPoint> m(rows.size());
  for (std::size_t i = rows.size(); i-- > 0;) {
    const auto known = i + 1 < rows.size() ? rows[i].right - rows[i].above * m[i + 1] : rows[i].right;
    m[i] = (1 / rows[i].on) * known;
  }
  return m;
}

/// A spline through knots first … last; its direction at either end where given.
void add_spline(Curve& curve, const std::vector<Knot>& knots, std::size_t first, std::size_t last,
                std::optional<PlanPoint> begin, std::optional<PlanPoint> end) {
  const std::size_t n = last - first;
  const auto at = [&](std::size_t i) { return knots[first + i].at; };
  const auto h = [&](std::size_t i) { return distance(at(i), at(i + 1)); };
  if (n == 1 && !begin && !end) return curve.push_back(line_span(at(0), at(1)));
  // Direction per mm of chord at each knot, so that the second derivative does not jump. At a free end it
  // does not change over the last span.
  std::vector<Row> rows(n + 1);
  rows[0] = begin ? Row{0, 1, 0, *begin} : Row{0, 1, 1, (2 / h(0)) * (at(1) - at(0))};
  rows[n] = end ? Row{0, 1, 0, *end} : Row{1, 1, 0, (2 / h(n - 1)) * (at(n) - at(n - 1))};
  for (std::size_t i = 1; i < n; ++i) {
    const double a = h(i - 1), b = h(i);
    rows[i] = {b, 2 * (a + b), a, 3 * ((b / a) * (at(i) - at(i - 1)) + (a / b) * (at(i + 1) - at(i)))};
  }
  const auto m = solve(std::move(rows));
  for (std::size_t i = 0; i < n; ++i) {
    const auto step = at(i + 1) - at(i), out = h(i) * m[i], in = h(i) * m[i + 1];
    curve.push_back({false, {at(i), out, 3 * step - 2 * out - in, out + in - 2 * step}, 0, 1});
  }
}

/// Between points the curve may still swing inside. How far, against the line that it should not cross.
void find_swings(const Curve& curve, const std::vector<PlanPoint>& points, double slack,
                 std::vector<Dent>& dents) {
  constexpr double kFine_mm = 0.05;
  std::vector<PlanPoint> fine;
  for (const auto& p : facets(curve, kFine_mm))
    fine.push_back(p.at);
  const auto nearest = [&](PlanPoint p) {
    const auto best = std::min_element(points.begin(), points.end(), [&](PlanPoint a, PlanPoint b) {
      return distance(a, p) < distance(b, p);
    });
    return static_cast<std::size_t>(best - points.begin());
  };
  for (const auto& swing : dents_of(fine, outer(fine), slack))
    if (const auto point = nearest(fine[swing.point]); dents.empty() || dents.back().point != point)
      dents.push_back({point, swing.depth_mm});
    else
      dents.back().depth_mm = std::max(dents.back().depth_mm, swing.depth_mm);
}

/// Lines where knots lie in a line, and splines between.
Curve curve_through(const std::vector<Knot>& knots, double slack) {
  Curve curve;
  const std::size_t end = knots.size() - 1;
  std::size_t done = 0;
  std::optional<PlanPoint> along; // of the line that ends at `done`
  for (std::size_t i = 0; i <= end;) {
    const auto last = i < end ? line_end(knots, i, slack / 2) : i;
    const bool corner = along && i == done; // a line straight after a line
    if (i < end && (last < i + 2 || corner)) {
      ++i;
      continue;
    }
    std::optional<PlanPoint> next;
    if (i < end) next = unit(knots[last].at - knots[i].at);
    if (i > done) add_spline(curve, knots, done, i, along, next);
    if (i == end) break;
    curve.push_back(line_span(knots[i].at, knots[last].at));
    along = next;
    done = i = last;
  }
  return curve;
}

/// Inner knots, those nearest to where the curve bends inward most first; none where it does nowhere.
std::vector<std::size_t> knots_to_blame(const Curve& curve, const std::vector<Knot>& knots) {
  constexpr double kFine_mm = 0.02, kStraight_mm = 1e5; // radius
  double sharpest = kStraight_mm;
  PlanPoint at;
  for (const auto& p : facets(curve, kFine_mm))
    if (p.radius < 0 && -p.radius < sharpest) sharpest = -p.radius, at = p.at;
  std::vector<std::size_t> blame;
  for (std::size_t i = 1; i + 1 < knots.size() && sharpest < kStraight_mm; ++i)
    blame.push_back(i);
  std::stable_sort(blame.begin(), blame.end(), [&](std::size_t a, std::size_t b) {
    return distance(knots[a].at, at) < distance(knots[b].at, at);
  });
  return blame;
}

double off_curve(const Curve& curve, PlanPoint p) {
  constexpr double kFine_mm = 0.02;
  const auto fine = facets(curve, kFine_mm);
  double nearest = distance(fine.front().at, p);
  for (std::size_t i = 1; i < fine.size(); ++i) {
    const auto a = fine[i - 1].at, way = fine[i].at - a;
    const double t = std::clamp(dot(p - a, way) / dot(way, way), 0.0, 1.0);
    nearest = std::min(nearest, distance(a + t * way, p));
  }
  return nearest;
}

/// A tape's last sixteenth makes a smooth front wave: knots that do so are passed by, as long as the curve
/// keeps near all of them.
Curve fair_curve(std::vector<Knot> knots, double slack) {
  constexpr std::size_t kFewest = 4, kTried = 4;
  const auto all = knots;
  auto curve = curve_through(knots, slack);
  const auto keeps_near = [&](const Curve& c) {
    return std::none_of(all.begin(), all.end(), [&](const Knot& k) { return off_curve(c, k.at) > slack; });
  };
  for (bool better = true; better && knots.size() > kFewest;) {
    better = false;
    auto blame = knots_to_blame(curve, knots);
    blame.resize(std::min(blame.size(), kTried));
    for (const auto knot : blame) {
      auto fewer = knots;
      fewer.erase(fewer.begin() + static_cast<std::ptrdiff_t>(knot));
      auto fairer = curve_through(fewer, slack);
      if (!keeps_near(fairer)) continue;
      knots = std::move(fewer);
      curve = std::move(fairer);
      better = true;
      break;
    }
  }
  return curve;
}

} // namespace

CurveFit fit_curve(const std::vector<PlanPoint>& points, double slack) {
  assert(points.size() >= 2);
  CurveFit fit;
  const auto knots = outer(points);
  fit.dents = dents_of(points, knots, slack);
  fit.curve = fair_curve(knots, slack);
  if (fit.dents.empty()) find_swings(fit.curve, points, slack, fit.dents);
  return fit;
}

} // namespace treadfold
