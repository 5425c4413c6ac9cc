#include "measure/taped_tread.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

constexpr Length kLeastEnd = inches(0, 1, 4), kLeastDepth = inches(3), kMostDepth = inches(60);
constexpr Length kLeastWidth = inches(6), kMostWidth = inches(144);
constexpr double kMostLean = 4; // sideways for one back: 76 degrees
constexpr double kTwoTicks = 2.5 / 8000;

struct Refusal {
  std::string found, expected;
};

const char* name(Hand hand) { return hand == Hand::left ? "left" : "right"; }

double cross(PlanPoint o, PlanPoint a, PlanPoint b) {
  return (a.x - o.x) * (b.y - o.y) - (a.y - o.y) * (b.x - o.x);
}

double distance(PlanPoint a, PlanPoint b) {
  const double x = b.x - a.x, y = b.y - a.y;
  return std::sqrt(x * x + y * y);
}

/// Where the line p→q meets the line r→s.
PlanPoint meeting(PlanPoint p, PlanPoint q, PlanPoint r, PlanPoint s) {
  const double at_p = cross(r, s, p), at_q = cross(r, s, q), k = at_p / (at_p - at_q);
  return {p.x + k * (q.x - p.x), p.y + k * (q.y - p.y)};
}

/// The corner, counter-clockwise from the front left, where the outline is not convex.
std::optional<std::string> inward(const TapedTread& taped) {
  std::vector<PlanPoint> outline = {taped.left.front()};
  std::vector<std::string> names = {"front left corner", "front right corner"};
  outline.insert(outline.end(), taped.right.begin(), taped.right.end());
  outline.insert(outline.end(), taped.left.rbegin(), taped.left.rend() - 1);
  if (taped.right.size() > 2) names.emplace_back("corner of the right side");
  names.emplace_back("back right corner");
  names.emplace_back("back left corner");
  if (taped.left.size() > 2) names.emplace_back("corner of the left side");
  const std::size_t n = outline.size();
  for (std::size_t i = 0; i < n; ++i) {
    const auto a = outline[(i + n - 1) % n], b = outline[i], c = outline[(i + 1) % n];
    const bool turns_left = cross(a, b, c) > 1e-6 * distance(a, b) * distance(b, c);
    const bool in_order = i == 0 || i + 1 == n || cross(outline[0], b, c) > 0; // else it winds twice
    if (!turns_left || !in_order) return names[i];
  }
  return {};
}

/// One side seen from the step: y from the riser, and the stringer's face of an open end. Its first point
/// lies on y = 0.
std::vector<PlanPoint> seen_from_riser(const Step& step, const TapedTread& taped, Hand hand) {
  auto line = hand == Hand::left ? taped.left : taped.right;
  const Side& side = hand == Hand::left ? step.left : step.right;
  if (!side.closed()) {
    const double length = distance(line[0], line[1]);
    const double by = side.overhang.mm() * (hand == Hand::left ? 1 : -1) / length;
    const PlanPoint in{by * (line[1].y - line[0].y), -by * (line[1].x - line[0].x)};
    const PlanPoint a{line[0].x + in.x, line[0].y + in.y}, b{line[1].x + in.x, line[1].y + in.y};
    line = {a, meeting(a, b, taped.left.back(), taped.right.back())};
  }
  const double projection = step.nosing.projection.mm();
  for (auto& p : line)
    p.y -= projection;
  line[0] = {side_x(line, 0), 0};
  return line;
}

std::optional<Refusal> refused_side(const Step& step, const TapedTread& taped, Hand hand, LengthUnit unit) {
  const auto& line = hand == Hand::left ? taped.left : taped.right;
  const auto on = name(hand);
  const double back = line[1].y - line[0].y;
  if (!(hand == Hand::left ? step.left : step.right).closed() && line.size() > 2)
    return Refusal{fmt::format("a corner on the {} side, which is open", on),
                   "an open side that is straight"};
  if (!(back > 0) || std::abs(line[1].x - line[0].x) > kMostLean * back)
    return Refusal{fmt::format("a {} side that runs along the nosing", on),
                   "a side that runs back from the nosing"};
  const auto seen = seen_from_riser(step, taped, hand);
  double depth = seen[1].y;
  for (std::size_t i = 2; i < seen.size(); ++i)
    depth = std::min(depth, seen[i].y);
  if (depth < kLeastEnd.mm() - kTwoTicks)
    return Refusal{fmt::format("a {} end {} deep behind the riser", on,
                               show_length(std::max(Length{}, from_mm(depth)), unit)),
                   fmt::format("at least {}: the nosing's projection and that from the nosing's edge",
                               show_length(kLeastEnd, unit))};
  return {};
}

std::optional<Refusal> out_of(const char* what, double mm, Length least, Length most, LengthUnit unit) {
  const Length x = from_mm(mm);
  if (x >= least && x <= most) return {};
  return Refusal{fmt::format("a tread with a {} of {}", what, show_length(x, unit)),
                 fmt::format("from {} to {}", show_length(least, unit, true), show_length(most, unit, true))};
}

/// The plan, or why there is none.
std::optional<Refusal> shape(Step& step, const TapedTread& taped, LengthUnit unit) {
  if (const auto corner = inward(taped))
    return Refusal{fmt::format("a tread whose {} turns inward", *corner), "corners that all point outward"};
  for (const auto hand : {Hand::left, Hand::right})
    if (auto refusal = refused_side(step, taped, hand, unit)) return refusal;
  auto left = seen_from_riser(step, taped, Hand::left), right = seen_from_riser(step, taped, Hand::right);
  const double shift = left.front().x;
  double deepest = 0, shallowest = left.back().y, lean = 0;
  for (auto* line : {&left, &right}) {
    const double end = line->front().x;
    for (auto& p : *line) {
      deepest = std::max(deepest, p.y);
      lean = std::max(lean, std::abs(p.x - end));
      p.x -= shift;
    }
    shallowest = std::min(shallowest, line->back().y);
  }
  const double width = right.front().x;
  const PlanPoint measured{taped.right.back().x - taped.left.back().x,
                           taped.right.back().y - taped.left.back().y};
  const double back =
      ((right.back().x - left.back().x) * measured.x + (right.back().y - left.back().y) * measured.y) /
      distance({}, measured); // the other way round where overhangs cross
  if (auto r = out_of("riser", width, kLeastWidth, kMostWidth, unit)) return r;
  if (auto r = out_of("back", back, kLeastWidth, kMostWidth, unit)) return r;
  if (auto r = out_of("depth", deepest, kLeastDepth, kMostDepth, unit)) return r;
  if (left.size() + right.size() == 4 && lean <= kTwoTicks && deepest - shallowest <= kTwoTicks) {
    step.left_side.clear();
    step.right_side.clear();
    step.width = from_mm(width);
    step.going = from_mm(deepest);
    return {};
  }
  right.front().x = from_mm(width).mm(); // exactly the riser's end
  set_plan(step, std::move(left), std::move(right));
  return {};
}

} // namespace

std::optional<Problem> set_taped_tread(Step& step, const TapedTread& taped, LengthUnit unit) {
  const auto refusal = shape(step, taped, unit);
  if (!refusal) return {};
  return Problem{Severity::error, step.where, refusal->found, refusal->expected};
}

} // namespace treadfold
