// What within a floor is not carpeted: rectangles square to its front, or corners by offsets.

#include "job/read_parts.h"
#include "measure/plan_ring.h"
#include "units/steady.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr LengthRange kAway{{}, kFoot * 60};
constexpr LengthRange kSide{kInch, kFoot * 60};
constexpr Length kClear = kInch;

double from_segment_mm(PlanPoint p, PlanPoint a, PlanPoint b) {
  const PlanPoint way = b - a;
  const double share = std::clamp(dot(p - a, way) / dot(way, way), 0.0, 1.0);
  const PlanPoint off = p - a - share * way;
  return steady::hypot(off.x, off.y);
}

/// Their edges neither cross nor come nearer to each other.
bool clear(const PlanRing& one, const PlanRing& other) {
  for (std::size_t i = 0; i < one.size(); ++i)
    for (std::size_t k = 0; k < other.size(); ++k) {
      const auto &a = one[i], &b = one[(i + 1) % one.size()], &c = other[k],
                 &d = other[(k + 1) % other.size()];
      const double nearest = std::min({from_segment_mm(a, c, d), from_segment_mm(b, c, d),
                                       from_segment_mm(c, a, b), from_segment_mm(d, a, b)});
      if (edges_meet(a, b, c, d) || nearest < kClear.mm()) return false;
    }
  return true;
}

PlanRing read_ring(ObjectReader& o) {
  if (o.has("corners")) {
    for (const auto* key : {"along", "off", "width", "length"}) {
      o.find(key);
      if (o.has(key))
        o.context().findings.error(o.at(key), fmt::format("'{}' beside corners", key), "corners alone");
    }
    auto corners = read_corner_list(o, 3);
    if (!corners) return {};
    auto ring = *corners;
    if (area_mm2(ring) < 0) std::reverse(ring.begin(), ring.end());
    if (const auto found = fault_of_corners(ring); !found.empty()) {
      o.context().findings.error(o.at("corners"), found, "the opening's corners in turn");
      return {};
    }
    return *corners;
  }
  const auto along = o.length("along", kAway), off = o.length("off", kAway);
  const auto width = o.length("width", kSide), length = o.length("length", kSide);
  if (!along || !off || !width || !length) return {};
  const double left = along->mm(), near = off->mm(), right = left + width->mm(), far = near + length->mm();
  return {{left, near}, {right, near}, {right, far}, {left, far}};
}

} // namespace

std::vector<FloorOpening> read_floor_openings(ObjectReader& floor, const std::vector<PlanPoint>& outline) {
  std::vector<FloorOpening> openings;
  for (const auto& entry : floor.list("openings", 0, 20)) {
    ObjectReader o(floor.context(), *entry.node, entry.where);
    if (!o.is_object()) continue;
    FloorOpening opening{o.name("name"), read_ring(o)};
    if (opening.corners.empty() || outline.empty()) continue;
    const auto refuse = [&](std::string found) {
      floor.context().findings.error(
          entry.where, std::move(found),
          fmt::format("one {} or more within the floor's edges, and as far from the others; what meets an "
                      "edge is told by the floor's corners",
                      show_length(kClear, floor.context().unit)));
    };
    if (!holds(outline, opening.corners.front()) || !clear(outline, opening.corners)) {
      refuse("an opening that does not lie clear of the floor's edges");
      continue;
    }
    const auto too_near = std::find_if(openings.begin(), openings.end(), [&](const auto& other) {
      return !clear(other.corners, opening.corners) || holds(other.corners, opening.corners.front()) ||
             holds(opening.corners, other.corners.front());
    });
    if (too_near != openings.end())
      refuse(fmt::format("an opening that does not lie clear of {}", in_quotes(too_near->name)));
    else
      openings.push_back(std::move(opening));
  }
  return openings;
}

} // namespace treadfold
