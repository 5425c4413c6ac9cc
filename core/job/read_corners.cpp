// Corners by offsets: the tape lies along the front, and square to it.

#include "job/read_parts.h"
#include "units/steady.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr LengthRange kOffset{{}, kFoot * 60};
constexpr LengthRange kFront{inches(3), kFoot * 60};

double turn(PlanPoint a, PlanPoint b, PlanPoint c) {
  return (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
}

bool cross(PlanPoint a, PlanPoint b, PlanPoint c, PlanPoint d) {
  return (turn(a, b, c) > 0) != (turn(a, b, d) > 0) && (turn(c, d, a) > 0) != (turn(c, d, b) > 0);
}

/// Why these corners are no floor, or "".
std::string fault(const std::vector<PlanPoint>& corners) {
  const std::size_t n = corners.size();
  double twice = 0;
  for (std::size_t i = 0; i < n; ++i) {
    const auto &p = corners[i], &q = corners[(i + 1) % n];
    twice += p.x * q.y - q.x * p.y;
    if (steady::hypot(q.x - p.x, q.y - p.y) < inches(0, 1, 4).mm()) return "two corners in one place";
    for (std::size_t k = i + 2; k < n; ++k)
      if ((k + 1) % n != i && cross(p, q, corners[k], corners[(k + 1) % n])) return "edges that cross";
  }
  return twice <= 0 ? "corners the wrong way round" : std::string();
}

} // namespace

std::optional<Length> read_offset(ObjectReader& o, std::string_view key, std::string_view other) {
  const auto forth = o.length_if(key, kOffset), back = o.length_if(other, kOffset);
  if (o.has(key) && o.has(other))
    o.context().findings.error(o.at(other), fmt::format("'{}' beside '{}'", other, key), "one of the two");
  if (!o.has(key) && !o.has(other)) o.need(key, fmt::format("a length, or '{}'", other));
  if (forth) return forth;
  if (back) return Length{} - *back;
  return {};
}

std::optional<PlanPoint> read_corner(ObjectReader& part, std::string_view key) {
  const Node* node = part.find(key);
  if (!node) return {};
  ObjectReader o(part.context(), *node, part.at(key));
  if (!o.is_object()) return {};
  const auto along = read_offset(o, "along", "left_of"), off = read_offset(o, "off", "before");
  if (!along || !off) return {};
  return PlanPoint{along->mm(), off->mm()};
}

std::vector<PlanPoint> read_floor_corners(ObjectReader& floor) {
  const auto front = floor.length("front", kFront);
  std::vector<PlanPoint> corners;
  bool good = front.has_value();
  if (front) corners = {{0, 0}, {front->mm(), 0}};
  for (const auto& entry : floor.list("corners", 1, 40)) {
    ObjectReader o(floor.context(), *entry.node, entry.where);
    const auto along = o.is_object() ? read_offset(o, "along", "left_of") : std::nullopt,
               off = o.is_object() ? read_offset(o, "off", "before") : std::nullopt;
    if (along && off)
      corners.push_back({along->mm(), off->mm()});
    else
      good = false;
  }
  if (!good) return {};
  if (const auto found = fault(corners); !found.empty()) {
    floor.context().findings.error(
        floor.at("corners"), found,
        "the corners in turn, on from the front right one round to the front left");
    return {};
  }
  return corners;
}

} // namespace treadfold
