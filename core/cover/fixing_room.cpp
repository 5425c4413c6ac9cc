#include "cover/fixing_room.h"

#include "measure/uprights.h"
#include "units/steady.h"

#include <algorithm>

namespace treadfold {

namespace {

constexpr Length kClear = inches(0, 1, 8); // from a strip's end to the upright
constexpr Length kLeastStrip = inches(1);

struct Stretch {
  Length from, to;
};

/// What uprights take of a strip: along the next riser from its left end, where they stand within the strip's
/// depth.
std::vector<Stretch> taken(const Step& step, const StripPiece& strip, Length strip_width) {
  const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
  const double length = steady::hypot(right.x - left.x, right.y - left.y);
  const PlanPoint along{(right.x - left.x) / length, (right.y - left.y) / length};
  std::vector<Stretch> stretches;
  for (const auto& upright : step.uprights) {
    double from = 1e300, to = -1e300, nearest = 1e300, farthest = -1e300; // of the next riser
    for (const auto& p : footprint(upright)) {
      const double a = (p.x - left.x) * along.x + (p.y - left.y) * along.y;
      const double off = (p.x - left.x) * along.y - (p.y - left.y) * along.x;
      from = std::min(from, a), to = std::max(to, a);
      nearest = std::min(nearest, off), farthest = std::max(farthest, off);
    }
    if (nearest < (strip.set_off + strip_width).mm() && farthest > strip.set_off.mm())
      stretches.push_back({from_mm(from) - kClear, from_mm(to) + kClear});
  }
  std::stable_sort(stretches.begin(), stretches.end(),
                   [](const auto& a, const auto& b) { return a.from < b.from; });
  return stretches;
}

} // namespace

void leave_room(Fixings& f, const Step& step, Length strip_width) {
  if (step.uprights.empty()) return;
  if (!f.pad.outline.empty())
    for (const auto& upright : step.uprights) {
      auto& hole = f.pad.holes.emplace_back(footprint(upright));
      for (auto& p : hole)
        p.y = f.pad.riser_y - p.y;
    }
  std::vector<StripPiece> strips;
  for (const auto& strip : f.strips) {
    auto rest = strip;
    const auto keep = [&](const StripPiece& piece) {
      if (piece.length() >= kLeastStrip) strips.push_back(piece);
    };
    if (strip.place == StripPlace::tread)
      for (const auto& stretch : taken(step, strip, strip_width)) {
        if (stretch.to <= rest.from || stretch.from >= rest.to) continue;
        auto before = rest;
        before.to = stretch.from;
        before.right_angle_deg = rest.left_angle_deg = 90;
        rest.from = stretch.to;
        keep(before);
      }
    keep(rest);
  }
  f.strips = std::move(strips);
}

} // namespace treadfold
