#include "measure/polygon.h"

#include "measure/span_fit.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cassert>
#include <cmath>

namespace treadfold {
namespace {

using Corners = std::vector<PlanPoint>;
using Spans = std::vector<SpanMm>;

std::string shown(double mm, LengthUnit unit) { return show_length(from_mm(mm), unit); }

std::string in_words(std::size_t count) {
  constexpr std::array<const char*, 7> words = {"four", "five", "six", "seven", "eight", "nine", "ten"};
  return count >= 4 && count <= 10 ? words[count - 4] : fmt::format("{}", count);
}

/// By how much a span is off, at most.
double most_off(const Corners& c, const Spans& spans) {
  double most = 0;
  for (const auto& s : spans)
    most = std::max(most, std::abs(span_between(c, s) - s.mm));
  return most;
}

double sum_of_squares(const Corners& c, const Spans& spans) {
  double sum = 0;
  for (const auto& s : spans) {
    const double r = span_between(c, s) - s.mm;
    sum += r * r;
  }
  return sum;
}

/// Sum over these corners of the squared cosine: 0 where all are square.
double out_of_square(const Corners& c, const std::vector<int>& corners) {
  double sum = 0;
  const std::size_t n = c.size();
  for (const int corner : corners) {
    const auto i = static_cast<std::size_t>(corner);
    const PlanPoint o = c[i], a = c[(i + 1) % n], b = c[(i + n - 1) % n];
    const double ax = a.x - o.x, ay = a.y - o.y, bx = b.x - o.x, by = b.y - o.y;
    const double dot = ax * bx + ay * by;
    sum += dot * dot / ((ax * ax + ay * ay) * (bx * bx + by * by));
  }
  return sum;
}

/// Why no convex shape has these readings, as far as one triangle shows it.
Problem no_shape(const PolygonReadings& readings) {
  const auto between = [&](int a, int b) -> const Span* {
    for (const auto& s : readings.spans)
      if ((s.from == a && s.to == b) || (s.from == b && s.to == a)) return &s;
    return nullptr;
  };
  for (int a = 0; a < readings.corners; ++a)
    for (int b = a + 1; b < readings.corners; ++b)
      for (int c = b + 1; c < readings.corners; ++c) {
        std::array<const Span*, 3> t = {between(a, b), between(b, c), between(a, c)};
        if (!t[0] || !t[1] || !t[2]) continue;
        std::rotate(
            t.begin(),
            std::max_element(t.begin(), t.end(), [](auto* x, auto* y) { return x->length < y->length; }),
            t.end());
        const Length others = t[1]->length + t[2]->length;
        if (t[0]->length < others) continue;
        return {Severity::error, readings.where,
                fmt::format("{} of {}", t[0]->name, show_length(t[0]->length, readings.unit)),
                fmt::format("less than {} and {} together, {}", t[1]->name, t[2]->name,
                            show_length(others, readings.unit))};
      }
  return {Severity::error, readings.where, "readings that turn a corner inward",
          "a shape whose corners all point outward"};
}

/// The shape by all readings but one.
struct Without {
  std::size_t reading;
  Corners corners;
  double misfit; // of the readings kept
  bool agree;    // do they, within the tolerance?
  double skew;   // of the corners that should be square
};

/// All ways to do without one reading, where a shape comes of it.
std::vector<Without> without_one(const PolygonReadings& readings, const Spans& spans, std::size_t spare) {
  std::vector<Without> all;
  for (std::size_t i = 0; i < spans.size(); ++i) {
    Spans kept = spans;
    kept.erase(kept.begin() + static_cast<std::ptrdiff_t>(i));
    auto shape = built(readings.corners, kept);
    if (!shape) continue;
    if (spare > 1) *shape = fitted(std::move(*shape), kept);
    if (!convex(*shape)) continue;
    all.push_back({i, *shape, sum_of_squares(*shape, kept),
                   most_off(*shape, kept) <= readings.tolerance.mm() + 1e-6,
                   out_of_square(*shape, readings.square_corners)});
  }
  return all;
}

/// The squarest of those whose readings agree; if none do, the one that comes nearest to it.
const Without& most_likely(const std::vector<Without>& all) {
  return *std::min_element(all.begin(), all.end(), [](const auto& a, const auto& b) {
    if (a.agree != b.agree) return a.agree;
    return a.agree ? a.skew < b.skew : a.misfit < b.misfit;
  });
}

Problem disagreement(const PolygonReadings& readings, double off, const Without& believed) {
  const auto& span = readings.spans[believed.reading];
  const double should_be = span_between(believed.corners, {span.from, span.to, 0});
  return {Severity::warning, readings.where,
          fmt::format("{} readings that do not agree (by up to {}); check first the {}, read as {}",
                      in_words(readings.spans.size()), shown(off, readings.unit), span.name,
                      show_length(span.length, readings.unit)),
          fmt::format("about {} there, if the other {} are right", shown(should_be, readings.unit),
                      in_words(readings.spans.size() - 1))};
}

} // namespace

PolygonSolution solve_polygon(const PolygonReadings& readings) {
  PolygonSolution out;
  Spans spans;
  for (const auto& s : readings.spans) {
    spans.push_back({s.from, s.to, s.length.mm()});
    if (s.length <= Length{})
      out.problems.push_back({Severity::error, readings.where,
                              fmt::format("{} of {}", s.name, show_length(s.length, readings.unit)),
                              "a length above nothing"});
  }
  const auto needed = static_cast<std::size_t>(2 * readings.corners - 3);
  assert(spans.size() >= needed);
  if (has_errors(out.problems)) return out;

  const std::size_t spare = spans.size() - needed;
  std::vector<Without> others;
  if (spare == 0) {
    out.corners = built(readings.corners, spans).value_or(Corners{});
  } else {
    others = without_one(readings, spans, spare);
    const auto nearest = std::min_element(others.begin(), others.end(), [&](const auto& a, const auto& b) {
      return sum_of_squares(a.corners, spans) < sum_of_squares(b.corners, spans);
    });
    if (nearest != others.end()) out.corners = fitted(nearest->corners, spans);
  }
  if (out.corners.empty() || !convex(out.corners)) {
    out.corners.clear();
    out.problems.push_back(no_shape(readings));
    return out;
  }
  for (const auto& s : spans)
    out.residuals.push_back(span_between(out.corners, s) - s.mm);
  const double off = most_off(out.corners, spans);
  if (spare == 0 || off <= readings.tolerance.mm() + 1e-6) return out;
  const auto& believed = most_likely(others);
  out.worst = static_cast<int>(believed.reading);
  out.problems.push_back(disagreement(readings, off, believed));
  return out;
}

} // namespace treadfold
