#include "measure/span_fit.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

using Corners = std::vector<PlanPoint>;
using Vector = std::vector<double>; // one entry a free coordinate: x of corner 1, x and y of each later one

double cross(PlanPoint o, PlanPoint a, PlanPoint b) {
  return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

double distance(PlanPoint a, PlanPoint b) {
  const double x = b.x - a.x, y = b.y - a.y;
  return std::sqrt(x * x + y * y);
}

std::size_t at(int corner) { return static_cast<std::size_t>(corner); }

/// The point at `from_p` and `from_q` from two points, to the left of p→q; none if the three make no
/// triangle.
std::optional<PlanPoint> apex(PlanPoint p, PlanPoint q, double from_p, double from_q) {
  const double base = distance(p, q);
  const double along = (base * base + (from_p - from_q) * (from_p + from_q)) / (2 * base);
  const double height2 = (from_p - along) * (from_p + along);
  if (!(height2 > 0)) return std::nullopt;
  const double height = std::sqrt(height2);
  const double ux = (q.x - p.x) / base, uy = (q.y - p.y) / base;
  return PlanPoint{p.x + along * ux - height * uy, p.y + along * uy + height * ux};
}

/// Moved so that corner 0 is the origin and 0→1 lies along +x.
Corners framed(const Corners& c) {
  const double width = distance(c[0], c[1]);
  const double ux = (c[1].x - c[0].x) / width, uy = (c[1].y - c[0].y) / width;
  Corners out;
  for (const auto& p : c) {
    const double x = p.x - c[0].x, y = p.y - c[0].y;
    out.push_back({x * ux + y * uy, y * ux - x * uy});
  }
  out[1] = {width, 0};
  return out;
}

/// Corners that stand already, and the next one to be reached from two of them.
class Building {
public:
  Building(int corners, const SpanMm& base) : corners_(at(corners)), stands_(at(corners)) {
    corners_[at(base.to)] = {base.mm, 0};
    stands_[at(base.from)] = stands_[at(base.to)] = true;
  }

  bool done() const { return std::find(stands_.begin(), stands_.end(), false) == stands_.end(); }
  const Corners& corners() const { return corners_; }

  /// Sets the first corner that two spans reach; false if none can be set.
  bool grow(const std::vector<SpanMm>& spans) {
    for (int k = 0; k < count(); ++k) {
      if (stands_[at(k)]) continue;
      std::vector<SpanMm> reaching; // from a standing corner to k
      for (const auto& s : spans) {
        if (s.to == k && stands_[at(s.from)]) reaching.push_back(s);
        if (s.from == k && stands_[at(s.to)]) reaching.push_back({s.to, k, s.mm});
      }
      if (reaching.size() < 2) continue;
      auto p = reaching[0], q = reaching[1];
      if (after(p.from, k) < after(p.from, q.from)) std::swap(p, q); // convex: k lies left of p→q
      const auto point = apex(corners_[at(p.from)], corners_[at(q.from)], p.mm, q.mm);
      if (!point) return false;
      corners_[at(k)] = *point;
      stands_[at(k)] = true;
      return true;
    }
    return false;
  }

private:
  int count() const { return static_cast<int>(corners_.size()); }
  /// How many corners on from `from`.
  int after(int from, int corner) const { return (corner - from + count()) % count(); }

  Corners corners_;
  std::vector<bool> stands_;
};

double sum_of_squares(const Corners& c, const std::vector<SpanMm>& spans) {
  double sum = 0;
  for (const auto& s : spans) {
    const double r = span_between(c, s) - s.mm;
    sum += r * r;
  }
  return sum;
}

/// Solves m·x = b for a symmetric positive definite m, by Cholesky's decomposition.
std::optional<Vector> solve(std::vector<Vector> m, Vector b) {
  const std::size_t n = b.size();
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j <= i; ++j) {
      double sum = m[i][j];
      for (std::size_t k = 0; k < j; ++k)
        sum -= m[i][k] * m[j][k];
      if (i == j && !(sum > 0)) return std::nullopt;
      m[i][j] = i == j ? std::sqrt(sum) : sum / m[j][j];
    }
  }
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k)
      b[i] -= m[i][k] * b[k];
    b[i] /= m[i][i];
  }
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k)
      b[i] -= m[k][i] * b[k];
    b[i] /= m[i][i];
  }
  return b;
}

/// The first free coordinate of a corner: its x, with y after it; corner 0 has none, corner 1 only x.
std::size_t coordinate(int corner) { return corner == 1 ? 0 : at(2 * corner - 3); }

Corners moved(Corners c, const Vector& by) {
  c[1].x += by[0];
  for (int i = 2; i < static_cast<int>(c.size()); ++i)
    c[at(i)] = {c[at(i)].x + by[coordinate(i)], c[at(i)].y + by[coordinate(i) + 1]};
  return c;
}

/// One damped step towards the least sum of squares.
std::optional<Vector> step(const Corners& c, const std::vector<SpanMm>& spans, double damping) {
  const std::size_t n = 2 * c.size() - 3;
  std::vector<Vector> normal(n, Vector(n, 0));
  Vector right(n, 0);
  for (const auto& s : spans) {
    const double d = span_between(c, s), r = d - s.mm;
    const PlanPoint p = c[at(s.from)], q = c[at(s.to)];
    const double ux = (q.x - p.x) / d, uy = (q.y - p.y) / d;
    Vector row(n, 0);
    const auto moves = [&](int corner, double sign) {
      if (corner >= 1) row[coordinate(corner)] += sign * ux;
      if (corner >= 2) row[coordinate(corner) + 1] += sign * uy;
    };
    moves(s.from, -1);
    moves(s.to, 1);
    for (std::size_t j = 0; j < n; ++j) {
      right[j] -= row[j] * r;
      for (std::size_t k = 0; k < n; ++k)
        normal[j][k] += row[j] * row[k];
    }
  }
  for (std::size_t j = 0; j < n; ++j)
    normal[j][j] += damping;
  return solve(std::move(normal), std::move(right));
}

} // namespace

double span_between(const std::vector<PlanPoint>& corners, const SpanMm& span) {
  return distance(corners[at(span.from)], corners[at(span.to)]);
}

bool convex(const std::vector<PlanPoint>& c) {
  const std::size_t n = c.size();
  for (std::size_t i = 0; i < n; ++i) {
    if (!(cross(c[i], c[(i + 1) % n], c[(i + 2) % n]) > 1e-6)) return false;
    if (i > 0 && i + 1 < n && !(cross(c[0], c[i], c[i + 1]) > 1e-6)) return false;
  }
  return true;
}

std::optional<std::vector<PlanPoint>> built(int corners, const std::vector<SpanMm>& spans) {
  for (const auto& base : spans) {
    Building building(corners, base);
    while (!building.done() && building.grow(spans)) {
    }
    if (building.done() && convex(building.corners())) return framed(building.corners());
  }
  return std::nullopt;
}

std::vector<PlanPoint> fitted(std::vector<PlanPoint> c, const std::vector<SpanMm>& spans) {
  double damping = 1e-3; // Levenberg's
  for (int round = 0; round < 200 && damping < 1e12; ++round) {
    const auto by = step(c, spans, damping);
    const auto next = by ? moved(c, *by) : c;
    if (!by || sum_of_squares(next, spans) >= sum_of_squares(c, spans)) {
      damping *= 10;
      continue;
    }
    c = next;
    damping /= 10;
    double longest = 0;
    for (const double x : *by)
      longest = std::max(longest, std::abs(x));
    if (longest < 1e-10) break;
  }
  return c;
}

} // namespace treadfold
