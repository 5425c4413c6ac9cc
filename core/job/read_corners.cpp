// Corners by offsets: the tape lies along the front, and square to it.

#include "job/read_parts.h"
#include "measure/plan_ring.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr LengthRange kOffset{{}, kFoot * 60};
constexpr LengthRange kFront{inches(3), kFoot * 60};

} // namespace

std::string fault_of_corners(const std::vector<PlanPoint>& corners) {
  const std::size_t n = corners.size();
  for (std::size_t i = 0; i < n; ++i) {
    const auto &p = corners[i], &q = corners[(i + 1) % n];
    if (steady::hypot(q.x - p.x, q.y - p.y) < inches(0, 1, 4).mm()) return "two corners in one place";
    for (std::size_t k = i + 2; k < n; ++k)
      if ((k + 1) % n != i && edges_meet(p, q, corners[k], corners[(k + 1) % n])) return "edges that cross";
  }
  const double area = area_mm2(corners);
  if (std::abs(area) < 1) return "corners that enclose nothing";
  return area < 0 ? "corners the wrong way round" : std::string();
}

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

std::optional<std::vector<PlanPoint>> read_corner_list(ObjectReader& part, std::size_t least) {
  std::vector<PlanPoint> corners;
  const auto entries = part.list("corners", least, 40);
  for (const auto& entry : entries) {
    ObjectReader o(part.context(), *entry.node, entry.where);
    const auto along = o.is_object() ? read_offset(o, "along", "left_of") : std::nullopt,
               off = o.is_object() ? read_offset(o, "off", "before") : std::nullopt;
    if (along && off) corners.push_back({along->mm(), off->mm()});
  }
  if (corners.size() < std::max(least, entries.size())) return {};
  return corners;
}

std::vector<PlanPoint> read_floor_corners(ObjectReader& floor) {
  const auto front = floor.length("front", kFront);
  const auto others = read_corner_list(floor, 1);
  if (!front || !others) return {};
  std::vector<PlanPoint> corners{{0, 0}, {front->mm(), 0}};
  corners.insert(corners.end(), others->begin(), others->end());
  if (const auto found = fault_of_corners(corners); !found.empty()) {
    floor.context().findings.error(
        floor.at("corners"), found,
        "the corners in turn, on from the front right one round to the front left");
    return {};
  }
  return corners;
}

} // namespace treadfold
