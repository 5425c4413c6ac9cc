#include "cover/breadths.h"

#include "measure/plan_ring.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr double kSame = 1e-6;           // mm
constexpr Length kLeastFill = inches(6); // narrower ones are hard to stretch (common practice, no source)

double least_x(const PlanRing& p) {
  return std::min_element(p.begin(), p.end(), [](auto a, auto b) { return a.x < b.x; })->x;
}
double most_x(const PlanRing& p) {
  return std::max_element(p.begin(), p.end(), [](auto a, auto b) { return a.x < b.x; })->x;
}

/// Keeps the ring counter-clockwise.
PlanRing mirrored(PlanRing p) {
  for (auto& c : p)
    c.x = -c.x;
  std::reverse(p.begin(), p.end());
  return p;
}
PlanRing transposed(PlanRing p) {
  for (auto& c : p)
    std::swap(c.x, c.y);
  std::reverse(p.begin(), p.end());
  return p;
}

/// Floor, and what of it is left out; all counter-clockwise.
struct Region {
  PlanRing outline;
  std::vector<FloorOpening> openings{};
};

Region changed(Region r, PlanRing (*change)(PlanRing)) {
  r.outline = change(std::move(r.outline));
  for (auto& opening : r.openings)
    opening.corners = change(std::move(opening.corners));
  return r;
}

double area_mm2(const Region& r) {
  double area = area_mm2(r.outline);
  for (const auto& opening : r.openings)
    area -= area_mm2(opening.corners);
  return area;
}

/// Where an edge of a ring passes the line, and whether it leaves what is kept.
struct Crossing {
  std::size_t ring = 0, edge = 0;
  double y = 0;
  bool leaves = false;
};

/// From the line's lower end on, leaving and coming back in turn, as rings with the floor on their left do.
std::vector<Crossing> crossings(const std::vector<PlanRing>& rings, double at) {
  std::vector<Crossing> found;
  for (std::size_t r = 0; r < rings.size(); ++r)
    for (std::size_t i = 0; i < rings[r].size(); ++i) {
      const auto &a = rings[r][i], &b = rings[r][(i + 1) % rings[r].size()];
      const bool leaves = a.x < at && b.x >= at, enters = b.x < at && a.x >= at;
      if (leaves || enters) found.push_back({r, i, a.y + (at - a.x) / (b.x - a.x) * (b.y - a.y), leaves});
    }
  std::stable_sort(found.begin(), found.end(), [](const auto& a, const auto& b) { return a.y < b.y; });
  for (std::size_t k = 0; k < found.size(); ++k) // of those in one place the one whose turn it is
    for (std::size_t j = k; j < found.size() && found[j].y < found[k].y + kSame; ++j)
      if (found[j].leaves == (k % 2 == 0)) {
        std::swap(found[k], found[j]);
        break;
      }
  return found;
}

void add(PlanRing& p, PlanPoint c) {
  if (p.empty() || std::abs(p.back().x - c.x) > kSame || std::abs(p.back().y - c.y) > kSame) p.push_back(c);
}

/// Without corners between two others on the line. A wall on a seam leaves such, at which the part would turn
/// back, as long as the wall and of no width.
void straighten(PlanRing& p, double at) {
  const auto on_line = [&](std::size_t i) { return std::abs(p[i % p.size()].x - at) < kSame; };
  for (std::size_t i = 0; i < p.size();)
    if (on_line(i + p.size() - 1) && on_line(i) && on_line(i + 1))
      p.erase(p.begin() + static_cast<std::ptrdiff_t>(i)), i = 0;
    else
      ++i;
}

/// What lies where x < at; all of it where the outline crosses itself on the line. A corner on the line
/// counts as beyond it. An opening on the line becomes a hollow.
std::vector<Region> left_of(const Region& r, double at) {
  std::vector<PlanRing> rings{r.outline};
  for (const auto& opening : r.openings)
    rings.emplace_back(opening.corners.rbegin(), opening.corners.rend());
  const auto line = crossings(rings, at);
  std::vector<Region> parts;
  bool in_turn = line.size() % 2 == 0;
  for (std::size_t k = 0; k < line.size(); ++k)
    in_turn = in_turn && line[k].leaves == (k % 2 == 0);
  if (line.empty() || !in_turn) {
    if (!in_turn || r.outline.front().x < at) parts.push_back(r);
    return parts;
  }
  std::vector<bool> done(line.size());
  for (std::size_t first = 1; first < line.size(); first += 2) {
    PlanRing part;
    for (std::size_t back = first; !done[back];) {
      done[back] = true;
      add(part, {at, line[back].y});
      const auto& ring = rings[line[back].ring];
      auto i = (line[back].edge + 1) % ring.size();
      for (; ring[i].x < at && ring[(i + 1) % ring.size()].x < at; i = (i + 1) % ring.size())
        add(part, ring[i]);
      add(part, ring[i]);
      const auto out = std::find_if(line.begin(), line.end(),
                                    [&](const auto& c) { return c.ring == line[back].ring && c.edge == i; });
      add(part, {at, out->y});
      back = static_cast<std::size_t>(out - line.begin()) + 1;
    }
    if (part.size() > 1 && std::abs(part.front().y - part.back().y) < kSame) part.pop_back();
    straighten(part, at);
    if (part.size() > 2) parts.push_back({std::move(part)});
  }
  for (const auto& opening : r.openings)
    if (most_x(opening.corners) < at)
      for (auto& part : parts)
        if (holds(part.outline, opening.corners.front())) part.openings.push_back(opening);
  return parts;
}

std::vector<Region> right_of(const Region& r, double at) {
  auto parts = left_of(changed(r, mirrored), -at);
  for (auto& part : parts)
    part = changed(std::move(part), mirrored);
  return parts;
}

/// Seams from left to right, from the leftmost corner.
std::vector<Length> seams(Length width, const BreadthRule& rule) {
  std::vector<Length> at;
  if (width + rule.edge_trim * 2 <= rule.usable) return at;
  const Length usable = floor_to(rule.usable, rule.grid);
  Length step = usable - rule.seam_trim * 2;
  if (rule.repeat) step = *rule.repeat * (step.ticks / rule.repeat->ticks);
  if (step <= Length{}) return at;
  Length seam = step + rule.seam_trim - rule.edge_trim; // the first breadth is cut as wide as the others
  at.push_back(seam);
  for (; width - seam + rule.seam_trim + rule.edge_trim > usable; at.push_back(seam))
    seam += step;
  const Length fill = width - seam, short_by = kLeastFill - fill;
  if (short_by > Length{}) {
    const Length by = rule.repeat ? ceil_to(short_by, *rule.repeat) : ceil_to(short_by, rule.grid);
    if (by < step && fill + by + rule.seam_trim + rule.edge_trim <= usable) at.back() = seam - by;
  }
  return at;
}

/// Seams across a fill, from its front; each piece is cut as long as the others.
std::vector<Length> fill_seams(Length length, const BreadthRule& rule) {
  std::vector<Length> at;
  for (int pieces = rule.fill_pieces; pieces > 1; --pieces) {
    const Length seams = rule.seam_trim * 2 * (pieces - 1);
    const Length each{(length + rule.edge_trim * 2 + seams).ticks / pieces}, step = each - rule.seam_trim * 2;
    const Length first = step + rule.seam_trim - rule.edge_trim;
    if (first < kLeastFill) continue;
    for (int i = 0; i + 1 < pieces; ++i)
      at.push_back(ceil_to(first + step * i, rule.grid));
    break;
  }
  return at;
}

/// What lies before each of the seams, and behind the last.
template <class Take>
void divide(Region whole, double from, const std::vector<Length>& seams, Take take) {
  std::vector<Region> rest{std::move(whole)};
  for (std::size_t i = 0; i < seams.size(); ++i) {
    std::vector<Region> further;
    for (const auto& part : rest) {
      for (auto& here : left_of(part, from + seams[i].mm()))
        take(i, std::move(here));
      for (auto& there : right_of(part, from + seams[i].mm()))
        further.push_back(std::move(there));
    }
    rest = std::move(further);
  }
  for (auto& part : rest)
    take(seams.size(), std::move(part));
}

} // namespace

std::vector<FloorPart> in_breadths(const Floor& floor, const BreadthRule& rule) {
  Region whole{floor.corners, floor.openings};
  for (auto& opening : whole.openings)
    if (area_mm2(opening.corners) < 0) std::reverse(opening.corners.begin(), opening.corners.end());
  const double left = least_x(whole.outline);
  const auto along = seams(from_mm_up(most_x(whole.outline) - left), rule);
  // A part of a floor with arms need not reach to both seams.
  const auto reaches = [](double end, double from, const std::vector<Length>& seams, std::size_t i) {
    return i < seams.size() && std::abs(end - from - seams[i].mm()) < kSame;
  };
  std::vector<FloorPart> parts;
  double covered = 0;
  divide(whole, left, along, [&](std::size_t breadth, Region slab) {
    const bool fill = breadth > 0 && breadth == along.size();
    slab = changed(std::move(slab), transposed);
    const double front = least_x(slab.outline);
    const auto across =
        fill ? fill_seams(from_mm_up(most_x(slab.outline) - front), rule) : std::vector<Length>{};
    divide(std::move(slab), front, across, [&](std::size_t piece, Region part) {
      auto& one = parts.emplace_back();
      one.fill = fill;
      one.seam_front = reaches(least_x(part.outline), front, across, piece - 1);
      one.seam_back = reaches(most_x(part.outline), front, across, piece);
      part = changed(std::move(part), transposed);
      one.seam_left = reaches(least_x(part.outline), left, along, breadth - 1);
      one.seam_right = reaches(most_x(part.outline), left, along, breadth);
      covered += area_mm2(part);
      one.corners = std::move(part.outline), one.openings = std::move(part.openings);
    });
  });
  if (std::abs(covered - area_mm2(whole)) < 1 + kSame * covered) return parts;
  return {{whole.outline, whole.openings}}; // its outline crosses itself
}

double seams_mm(const std::vector<FloorPart>& parts) {
  double sum = 0;
  for (const auto& part : parts) {
    const double right = most_x(part.corners), back = most_x(transposed(part.corners));
    for (std::size_t i = 0; i < part.corners.size(); ++i) {
      const auto &a = part.corners[i], &b = part.corners[(i + 1) % part.corners.size()];
      if (part.seam_right && std::min(a.x, b.x) > right - kSame) sum += std::abs(a.y - b.y);
      if (part.seam_back && std::min(a.y, b.y) > back - kSame) sum += std::abs(a.x - b.x);
    }
  }
  return sum;
}

} // namespace treadfold
