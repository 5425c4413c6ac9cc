#include "cover/breadths.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

using Polygon = std::vector<PlanPoint>;

constexpr double kSame = 1e-6;           // mm
constexpr Length kLeastFill = inches(6); // narrower ones are hard to stretch (common practice, no source)

double least_x(const Polygon& p) {
  return std::min_element(p.begin(), p.end(), [](auto a, auto b) { return a.x < b.x; })->x;
}
double most_x(const Polygon& p) {
  return std::max_element(p.begin(), p.end(), [](auto a, auto b) { return a.x < b.x; })->x;
}

double area_mm2(const Polygon& p) {
  double twice = 0;
  for (std::size_t i = 0; i < p.size(); ++i)
    twice += cross(p[i] - p[0], p[(i + 1) % p.size()] - p[0]);
  return twice / 2;
}

/// Keeps the polygon counter-clockwise.
Polygon mirrored(Polygon p) {
  for (auto& c : p)
    c.x = -c.x;
  std::reverse(p.begin(), p.end());
  return p;
}
Polygon transposed(Polygon p) {
  for (auto& c : p)
    std::swap(c.x, c.y);
  std::reverse(p.begin(), p.end());
  return p;
}

/// Where an edge passes the line, and whether it leaves what is kept.
struct Crossing {
  std::size_t edge = 0;
  double y = 0;
  bool leaves = false;
};

/// From the line's lower end on, leaving and coming back in turn, as a counter-clockwise outline does.
std::vector<Crossing> crossings(const Polygon& p, double at) {
  std::vector<Crossing> found;
  for (std::size_t i = 0; i < p.size(); ++i) {
    const auto &a = p[i], &b = p[(i + 1) % p.size()];
    const bool leaves = a.x < at && b.x >= at, enters = b.x < at && a.x >= at;
    if (leaves || enters) found.push_back({i, a.y + (at - a.x) / (b.x - a.x) * (b.y - a.y), leaves});
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

void add(Polygon& p, PlanPoint c) {
  if (p.empty() || std::abs(p.back().x - c.x) > kSame || std::abs(p.back().y - c.y) > kSame) p.push_back(c);
}

/// What lies where x < at; all of it where the outline crosses itself on the line. A corner on the line
/// counts as beyond it.
std::vector<Polygon> left_of(const Polygon& p, double at) {
  const auto line = crossings(p, at);
  std::vector<Polygon> parts;
  bool in_turn = line.size() % 2 == 0;
  for (std::size_t k = 0; k < line.size(); ++k)
    in_turn = in_turn && line[k].leaves == (k % 2 == 0);
  if (line.empty() || !in_turn) {
    if (!in_turn || p.front().x < at) parts.push_back(p);
    return parts;
  }
  std::vector<bool> done(line.size());
  for (std::size_t first = 1; first < line.size(); first += 2) {
    Polygon part;
    for (std::size_t back = first; !done[back];) {
      done[back] = true;
      add(part, {at, line[back].y});
      auto i = (line[back].edge + 1) % p.size();
      for (; p[i].x < at && p[(i + 1) % p.size()].x < at; i = (i + 1) % p.size())
        add(part, p[i]);
      add(part, p[i]);
      const auto out = std::find_if(line.begin(), line.end(), [&](const auto& c) { return c.edge == i; });
      add(part, {at, out->y});
      back = static_cast<std::size_t>(out - line.begin()) + 1;
    }
    if (part.size() > 1 && std::abs(part.front().y - part.back().y) < kSame) part.pop_back();
    if (part.size() > 2) parts.push_back(std::move(part));
  }
  return parts;
}

std::vector<Polygon> right_of(const Polygon& p, double at) {
  auto parts = left_of(mirrored(p), -at);
  for (auto& part : parts)
    part = mirrored(std::move(part));
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
void divide(Polygon whole, double from, const std::vector<Length>& seams, Take take) {
  std::vector<Polygon> rest{std::move(whole)};
  for (std::size_t i = 0; i < seams.size(); ++i) {
    std::vector<Polygon> further;
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

std::vector<FloorPart> in_breadths(const std::vector<PlanPoint>& floor, const BreadthRule& rule) {
  const double left = least_x(floor);
  const auto along = seams(from_mm_up(most_x(floor) - left), rule);
  // A part of a floor with arms need not reach to both seams.
  const auto reaches = [](double end, double from, const std::vector<Length>& seams, std::size_t i) {
    return i < seams.size() && std::abs(end - from - seams[i].mm()) < kSame;
  };
  std::vector<FloorPart> parts;
  double covered = 0;
  divide(floor, left, along, [&](std::size_t breadth, Polygon slab) {
    const bool fill = breadth > 0 && breadth == along.size();
    slab = transposed(std::move(slab));
    const double front = least_x(slab);
    const auto across = fill ? fill_seams(from_mm_up(most_x(slab) - front), rule) : std::vector<Length>{};
    divide(std::move(slab), front, across, [&](std::size_t piece, Polygon part) {
      auto& one = parts.emplace_back();
      one.fill = fill;
      one.seam_front = reaches(least_x(part), front, across, piece - 1);
      one.seam_back = reaches(most_x(part), front, across, piece);
      one.corners = transposed(std::move(part));
      one.seam_left = reaches(least_x(one.corners), left, along, breadth - 1);
      one.seam_right = reaches(most_x(one.corners), left, along, breadth);
      covered += area_mm2(one.corners);
    });
  });
  if (std::abs(covered - area_mm2(floor)) < 1 + kSame * covered) return parts;
  return {{floor}}; // its outline crosses itself
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
