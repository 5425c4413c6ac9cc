#include "measure/quad.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr int kAc = 4, kBd = 5;
constexpr std::array<const char*, 6> kNames = {"front",
                                               "right",
                                               "back",
                                               "left",
                                               "diagonal front left to back right",
                                               "diagonal front right to back left"};
/// The two corners that each reading joins; A, B, C, D are 0 … 3.
constexpr std::array<std::array<int, 2>, 6> kEnds = {{{0, 1}, {1, 2}, {2, 3}, {3, 0}, {0, 2}, {1, 3}}};
/// The triangles that three readings close.
constexpr std::array<std::array<int, 3>, 4> kTriangles = {
    {{0, 1, kAc}, {2, 3, kAc}, {0, 3, kBd}, {1, 2, kBd}}};

using Corners = std::array<PlanPoint, 4>;
using Lengths = std::array<double, 6>; // mm

double cross(PlanPoint o, PlanPoint a, PlanPoint b) {
  return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

double distance(PlanPoint a, PlanPoint b) {
  const double x = b.x - a.x, y = b.y - a.y;
  return std::sqrt(x * x + y * y);
}

bool convex(const Corners& c) {
  for (int i = 0; i < 4; ++i)
    if (!(cross(c[i], c[(i + 1) % 4], c[(i + 2) % 4]) > 1e-6)) return false;
  return true;
}

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

/// Moved so that A is the origin and AB lies along +x.
Corners framed(const Corners& c) {
  const double width = distance(c[0], c[1]);
  const double ux = (c[1].x - c[0].x) / width, uy = (c[1].y - c[0].y) / width;
  Corners out;
  for (int i = 0; i < 4; ++i) {
    const double x = c[i].x - c[0].x, y = c[i].y - c[0].y;
    out[i] = {x * ux + y * uy, y * ux - x * uy};
  }
  out[1] = {width, 0};
  return out;
}

/// The convex shape with all readings but one.
std::optional<Corners> shape_without(const Lengths& read, int left_out) {
  Corners c;
  if (left_out >= kAc) {
    const int first = left_out == kBd ? 0 : 1; // the diagonal in use runs from here to the corner after next
    const int second = (first + 1) % 4, third = (first + 2) % 4, fourth = (first + 3) % 4;
    c[first] = {0, 0};
    c[second] = {read[first], 0};
    const auto far = apex(c[first], c[second], read[left_out == kBd ? kAc : kBd], read[second]);
    if (!far) return std::nullopt;
    c[third] = *far;
    const auto last = apex(c[first], c[third], read[fourth], read[third]);
    if (!last) return std::nullopt;
    c[fourth] = *last;
  } else {
    const int first = (left_out + 2) % 4; // the side opposite to the one left out carries both triangles
    const int second = (first + 1) % 4, third = (first + 2) % 4, fourth = (first + 3) % 4;
    c[first] = {0, 0};
    c[second] = {read[first], 0};
    const double first_third = read[first % 2 == 0 ? kAc : kBd];
    const double second_fourth = read[first % 2 == 0 ? kBd : kAc];
    const auto far = apex(c[first], c[second], first_third, read[second]);
    const auto last = apex(c[first], c[second], read[fourth], second_fourth);
    if (!far || !last) return std::nullopt;
    c[third] = *far;
    c[fourth] = *last;
  }
  if (!convex(c)) return std::nullopt;
  return framed(c);
}

/// Sum over the corners of the squared cosine: 0 for a rectangle.
double out_of_square(const Corners& c) {
  double sum = 0;
  for (int i = 0; i < 4; ++i) {
    const PlanPoint o = c[i], a = c[(i + 1) % 4], b = c[(i + 3) % 4];
    const double dot = (a.x - o.x) * (b.x - o.x) + (a.y - o.y) * (b.y - o.y);
    const double cosine = dot / (distance(o, a) * distance(o, b));
    sum += cosine * cosine;
  }
  return sum;
}

Lengths residuals(const Corners& c, const Lengths& read) {
  Lengths r;
  for (int i = 0; i < 6; ++i)
    r[i] = distance(c[kEnds[i][0]], c[kEnds[i][1]]) - read[i];
  return r;
}

double sum_of_squares(const Lengths& r) {
  double sum = 0;
  for (double x : r)
    sum += x * x;
  return sum;
}

using Vector5 = std::array<double, 5>; // free coordinates: B.x, C.x, C.y, D.x, D.y
using Matrix5 = std::array<Vector5, 5>;

/// Solves m·x = b for a symmetric positive definite m, by Cholesky's decomposition.
std::optional<Vector5> solve(Matrix5 m, Vector5 b) {
  for (int i = 0; i < 5; ++i) {
    for (int j = 0; j <= i; ++j) {
      double sum = m[i][j];
      for (int k = 0; k < j; ++k)
        sum -= m[i][k] * m[j][k];
      if (i == j && !(sum > 0)) return std::nullopt;
      m[i][j] = i == j ? std::sqrt(sum) : sum / m[j][j];
    }
  }
  for (int i = 0; i < 5; ++i) {
    for (int k = 0; k < i; ++k)
      b[i] -= m[i][k] * b[k];
    b[i] /= m[i][i];
  }
  for (int i = 4; i >= 0; --i) {
    for (int k = i + 1; k < 5; ++k)
      b[i] -= m[k][i] * b[k];
    b[i] /= m[i][i];
  }
  return b;
}

Corners moved(Corners c, const Vector5& by) {
  c[1].x += by[0];
  c[2] = {c[2].x + by[1], c[2].y + by[2]};
  c[3] = {c[3].x + by[3], c[3].y + by[4]};
  return c;
}

/// Levenberg's method from `start`, on the free coordinates.
Corners least_squares(Corners c, const Lengths& read) {
  constexpr std::array<std::array<int, 2>, 4> index = {{{-1, -1}, {0, -1}, {1, 2}, {3, 4}}};
  double damping = 1e-3;
  for (int round = 0; round < 200 && damping < 1e12; ++round) {
    const Lengths r = residuals(c, read);
    Matrix5 normal{};
    Vector5 right{};
    for (int i = 0; i < 6; ++i) {
      Vector5 row{};
      const auto [p, q] = kEnds[i];
      const double d = r[i] + read[i];
      const double ux = (c[q].x - c[p].x) / d, uy = (c[q].y - c[p].y) / d;
      if (index[p][0] >= 0) row[index[p][0]] -= ux;
      if (index[p][1] >= 0) row[index[p][1]] -= uy;
      if (index[q][0] >= 0) row[index[q][0]] += ux;
      if (index[q][1] >= 0) row[index[q][1]] += uy;
      for (int j = 0; j < 5; ++j) {
        right[j] -= row[j] * r[i];
        for (int k = 0; k < 5; ++k)
          normal[j][k] += row[j] * row[k];
      }
    }
    for (int j = 0; j < 5; ++j)
      normal[j][j] += damping;
    const auto step = solve(normal, right);
    if (!step) {
      damping *= 10;
      continue;
    }
    const Corners next = moved(c, *step);
    if (sum_of_squares(residuals(next, read)) >= sum_of_squares(r)) {
      damping *= 10;
      continue;
    }
    c = next;
    damping /= 10;
    double longest = 0;
    for (double x : *step)
      longest = std::max(longest, std::abs(x));
    if (longest < 1e-10) break;
  }
  return c;
}

std::string shown(double mm, LengthUnit unit) { return show_length(from_mm(mm), unit); }

/// Why no convex shape has these readings, as far as one triangle shows it.
Problem no_shape(const QuadReadings& readings, const Lengths& read) {
  for (const auto& t : kTriangles) {
    if (read[t[2]] <= 0) continue; // that diagonal was not read
    for (int i = 0; i < 3; ++i) {
      const int longest = t[i], a = t[(i + 1) % 3], b = t[(i + 2) % 3];
      if (read[longest] < read[a] + read[b]) continue;
      return {Severity::error, readings.where,
              fmt::format("{} of {}", kNames[longest], shown(read[longest], readings.unit)),
              fmt::format("less than {} and {} together, {}", kNames[a], kNames[b],
                          shown(read[a] + read[b], readings.unit))};
    }
  }
  return {Severity::error, readings.where, "readings that turn a corner inward",
          "a shape whose four corners all point outward"};
}

} // namespace

QuadSolution solve_quad(const QuadReadings& readings) {
  QuadSolution out;
  const std::array<std::optional<Length>, 6> given = {readings.front,       readings.right,
                                                      readings.back,        readings.left,
                                                      readings.diagonal_ac, readings.diagonal_bd};
  Lengths read{};
  for (int i = 0; i < 6; ++i) {
    if (!given[i]) continue;
    read[i] = given[i]->mm();
    if (*given[i] <= Length{})
      out.problems.push_back({Severity::error, readings.where,
                              fmt::format("{} of {}", kNames[i], show_length(*given[i], readings.unit)),
                              "a length above nothing"});
  }
  if (!given[kAc] && !given[kBd])
    out.problems.push_back({Severity::error, readings.where, "four sides and no diagonal",
                            "one diagonal at least: four sides alone can lean either way"});
  if (has_errors(out.problems)) return out;

  if (!given[kAc] || !given[kBd]) {
    const auto shape = shape_without(read, given[kAc] ? kBd : kAc);
    if (!shape) {
      out.problems.push_back(no_shape(readings, read));
      return out;
    }
    out.corners = *shape;
    const Lengths r = residuals(out.corners, read);
    for (int i = 0; i < 6; ++i)
      out.residuals[i] = given[i] ? r[i] : 0;
    return out;
  }

  std::array<std::optional<Corners>, 6> without;
  int squarest = -1, nearest = -1;
  double least_skew = 0, least_cost = 0;
  for (int i = 0; i < 6; ++i) {
    without[i] = shape_without(read, i);
    if (!without[i]) continue;
    const double skew = out_of_square(*without[i]), cost = sum_of_squares(residuals(*without[i], read));
    if (squarest < 0 || skew < least_skew) squarest = i, least_skew = skew;
    if (nearest < 0 || cost < least_cost) nearest = i, least_cost = cost;
  }
  if (nearest >= 0) out.corners = least_squares(*without[nearest], read);
  if (nearest < 0 || !convex(out.corners)) {
    out.corners = {};
    out.problems.push_back(no_shape(readings, read));
    return out;
  }
  out.residuals = residuals(out.corners, read);
  double largest = 0;
  for (double r : out.residuals)
    largest = std::max(largest, std::abs(r));
  if (largest <= readings.tolerance.mm() + 1e-6) return out;

  out.worst = squarest;
  const Corners& believed = *without[squarest];
  const double should_be = distance(believed[kEnds[squarest][0]], believed[kEnds[squarest][1]]);
  out.problems.push_back(
      {Severity::warning, readings.where,
       fmt::format("six readings that do not agree (by up to {}); check first the {}, read as {}",
                   shown(largest, readings.unit), kNames[squarest], shown(read[squarest], readings.unit)),
       fmt::format("about {} there, if the other five are right", shown(should_be, readings.unit))});
  return out;
}

} // namespace treadfold
