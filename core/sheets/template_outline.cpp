#include "sheets/template_outline.h"

#include "sheets/line_roles.h"
#include "sheets/running.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr double kOn = 0.01; // mm

/// How far along the stretch a → b the foot of p lies, from 0 to 1.
double along_of(FlatPoint p, FlatPoint a, FlatPoint b) {
  const double du = b.u - a.u, dv = b.v - a.v, square = du * du + dv * dv;
  return square > 0 ? ((p.u - a.u) * du + (p.v - a.v) * dv) / square : 0;
}

FlatPoint between(FlatPoint a, FlatPoint b, double t) {
  return {a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)};
}

double signed_area(const FlatPath& ring) {
  double sum = 0;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const FlatPoint a = ring[i], b = ring[(i + 1) % ring.size()];
    sum += a.u * b.v - b.u * a.v;
  }
  return sum / 2;
}

/// The rectangle's edge as one line, measured around from its top left corner: to the right, down, back, up.
struct Rim {
  FlatPoint least, most;
  double width() const { return most.u - least.u; }
  double height() const { return most.v - least.v; }
  double length() const { return 2 * (width() + height()); }

  double at(FlatPoint p) const {
    const double top = std::abs(p.v - least.v), right = std::abs(p.u - most.u), foot = std::abs(p.v - most.v),
                 left = std::abs(p.u - least.u);
    const double nearest = std::min({top, right, foot, left});
    if (nearest == top) return p.u - least.u;
    if (nearest == right) return width() + p.v - least.v;
    if (nearest == foot) return width() + height() + most.u - p.u;
    return 2 * width() + height() + most.v - p.v;
  }
  /// Where the ray from p, which is inside, leaves.
  FlatPoint hit(FlatPoint p, double du, double dv) const {
    const double far = 1e12;
    const double tu = du > 0 ? (most.u - p.u) / du : du < 0 ? (least.u - p.u) / du : far;
    const double tv = dv > 0 ? (most.v - p.v) / dv : dv < 0 ? (least.v - p.v) / dv : far;
    const double t = std::max(0.0, std::min(tu, tv));
    return {std::clamp(p.u + t * du, least.u, most.u), std::clamp(p.v + t * dv, least.v, most.v)};
  }
  /// The corners passed on the way from one point to another; `forward` is the way of at().
  FlatPath corners(FlatPoint from, FlatPoint to, bool forward) const {
    const FlatPath all{least, {most.u, least.v}, most, {least.u, most.v}};
    const double start = at(from), whole = length();
    const auto way = [&](double s) {
      const double d = std::fmod((forward ? s - start : start - s) + 2 * whole, whole);
      return whole - d < kOn ? 0 : d;
    };
    std::vector<std::pair<double, FlatPoint>> met;
    for (const auto& c : all)
      if (const double d = way(at(c)); d > kOn && d < way(at(to)) - kOn) met.emplace_back(d, c);
    std::stable_sort(met.begin(), met.end(), [](const auto& a, const auto& b) { return a.first < b.first; });
    FlatPath out;
    for (const auto& m : met)
      out.push_back(m.second);
    return out;
  }
};

/// Runs of the net outline, by turns cut at the bench and left long; around once.
struct Run {
  FlatPath points;
  bool cut = false;
};

std::vector<Run> runs_of(const Piece& piece) {
  std::vector<Run> runs;
  for (const auto& e : edge_stretches(piece)) {
    const bool cut = e.pen == Pen::outline;
    if (runs.empty() || runs.back().cut != cut)
      runs.push_back({e.points, cut});
    else
      runs.back().points.insert(runs.back().points.end(), e.points.begin() + 1, e.points.end());
  }
  if (runs.size() > 1 && runs.front().cut == runs.back().cut) {
    auto& last = runs.back().points;
    last.insert(last.end(), runs.front().points.begin() + 1, runs.front().points.end());
    runs.erase(runs.begin());
  }
  return runs;
}

double turn(FlatPoint a, FlatPoint b, FlatPoint c) {
  return (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u);
}

/// Does the way from a to b cross an edge of the ring? To touch it is not to cross it.
bool crosses(FlatPoint a, FlatPoint b, const FlatPath& ring) {
  const double way = distance_mm(a, b);
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const FlatPoint c = ring[i], d = ring[(i + 1) % ring.size()];
    const double edge = distance_mm(c, d);
    if (way < kOn || edge < 1e-9) continue;
    const double p = turn(a, b, c) / way, q = turn(a, b, d) / way, r = turn(c, d, a) / edge,
                 s = turn(c, d, b) / edge;
    if (std::min(p, q) < -1e-6 && std::max(p, q) > 1e-6 && std::min(r, s) < -1e-6 && std::max(r, s) > 1e-6)
      return true;
  }
  return false;
}

/// From where a cut meets an edge that is left long, out to the rim: straight on, or back along a slit that
/// came in from there; square out where that would be too flat. Where the net is in the way, back along the
/// cut as far as need be: there both its sides are carpet. `cut` begins at the edge that runs on to
/// `long_to`.
FlatPath way_out(const Rim& rim, const FlatPath& cut, FlatPoint long_to, bool forward, const FlatPath& net) {
  constexpr double kFlat = 0.5; // sine of the least angle to the long edge
  const FlatPoint p = cut[0];
  const double side = forward ? 1 : -1, du = long_to.u - p.u, dv = long_to.v - p.v, d = steady::hypot(du, dv);
  const FlatPoint out{side * dv / d, -side * du / d};
  FlatPoint way{p.u - cut[1].u, p.v - cut[1].v};
  const double rise = (way.u * out.u + way.v * out.v) / steady::hypot(way.u, way.v);
  if (rise < 0) way = {-way.u, -way.v};
  if (std::abs(rise) < kFlat) way = out;
  FlatPath path;
  for (const auto& from : cut) {
    path.push_back(from);
    const FlatPoint end = rim.hit(from, way.u, way.v);
    if (!crosses(from, end, net)) {
      path.push_back(end);
      return path;
    }
    way = out;
  }
  return {p, rim.hit(p, out.u, out.v)};
}

/// Does the path turn back on itself at b?
bool spike(FlatPoint a, FlatPoint b, FlatPoint c) {
  const double ab = distance_mm(a, b), bc = distance_mm(b, c);
  if (ab < 1e-9 || bc < 1e-9) return true;
  const FlatPoint foot = ab > bc ? between(b, a, along_of(c, b, a)) : between(b, c, along_of(a, b, c));
  const bool back = (a.u - b.u) * (c.u - b.u) + (a.v - b.v) * (c.v - b.v) > 0;
  return back && distance_mm(foot, ab > bc ? c : a) < 1e-6;
}

/// Takes out of the ring what is passed to and fro.
std::vector<FlatPath> take_spikes(FlatPath& ring) {
  std::vector<FlatPath> out;
  for (std::size_t i = 0, calm = 0; calm < ring.size() && ring.size() > 3;) {
    const std::size_t n = ring.size(), before = (i + n - 1) % n, after = (i + 1) % n;
    const FlatPoint a = ring[before], b = ring[i], c = ring[after];
    if (!spike(a, b, c)) {
      i = after;
      ++calm;
      continue;
    }
    const FlatPoint root = distance_mm(a, b) < distance_mm(b, c) ? a : c;
    if (distance_mm(root, b) > kOn) out.push_back({root, b});
    ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
    i = (i + ring.size() - 1) % ring.size();
    calm = 0;
  }
  return out;
}

} // namespace

bool lies_on(FlatPoint p, const FlatPath& path, bool closed) {
  for (std::size_t i = 0; i + (closed ? 0 : 1) < path.size(); ++i) {
    const FlatPoint a = path[i], b = path[(i + 1) % path.size()];
    if (distance_mm(p, between(a, b, std::clamp(along_of(p, a, b), 0.0, 1.0))) < kOn) return true;
  }
  return false;
}

std::vector<FlatPath> parts(const FlatPath& path, const FlatPath& ring, bool along) {
  std::vector<FlatPath> out;
  bool going = false;
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    const FlatPoint a = path[i], b = path[i + 1];
    // Where a stretch begins or ends to run along the ring, one of the two has a corner.
    std::vector<double> cuts{0, 1};
    for (const auto& p : ring)
      if (const double t = along_of(p, a, b); t > 0 && t < 1 && distance_mm(p, between(a, b, t)) < kOn)
        cuts.push_back(t);
    std::sort(cuts.begin(), cuts.end());
    for (std::size_t k = 0; k + 1 < cuts.size(); ++k) {
      const FlatPoint from = between(a, b, cuts[k]), to = between(a, b, cuts[k + 1]);
      if (distance_mm(from, to) < 1e-9) continue;
      const bool on = lies_on(between(from, to, 0.5), ring, true) &&
                      lies_on(between(from, to, 0.25), ring, true) &&
                      lies_on(between(from, to, 0.75), ring, true);
      if (on != along) {
        going = false;
        continue;
      }
      if (!going) out.push_back({from});
      out.back().push_back(to);
      going = true;
    }
  }
  return out;
}

CutOutline cut_outline(const Piece& piece) {
  const auto rectangle = cut_rectangle(piece);
  const Rim rim{rectangle[0], rectangle[2]};
  const auto runs = runs_of(piece);
  CutOutline out;
  if (runs.size() == 1 && !runs[0].cut) out.outline = rectangle;
  const auto net = without_repeats(piece.outline, true);
  const bool forward = signed_area(net) > 0;
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const Run &run = runs[i], &before = runs[(i + runs.size() - 1) % runs.size()],
              &after = runs[(i + 1) % runs.size()];
    auto& ring = out.outline;
    if (run.cut) {
      ring.insert(ring.end(), run.points.begin(), run.points.end());
    } else if (runs.size() > 1) {
      const auto& p = run.points;
      const auto from = way_out(rim, {before.points.rbegin(), before.points.rend()}, p[1], forward, net);
      const auto to = way_out(rim, after.points, p[p.size() - 2], !forward, net);
      ring.insert(ring.end(), from.begin(), from.end());
      for (const auto& corner : rim.corners(from.back(), to.back(), forward))
        ring.push_back(corner);
      ring.insert(ring.end(), to.rbegin(), to.rend());
    }
  }
  out.outline = without_repeats(out.outline, true);
  auto spikes = take_spikes(out.outline);
  for (const auto& line : piece.lines)
    if (line.role == LineRole::cut)
      for (auto& part : parts(line.points, out.outline, false))
        out.slits.push_back({LineRole::cut, std::move(part), line.label});
  for (auto& spike : spikes) {
    const FlatPoint middle = between(spike[0], spike[1], 0.5);
    const bool there = lies_on(middle, out.outline, true) ||
                       std::any_of(out.slits.begin(), out.slits.end(),
                                   [&](const FlatLine& s) { return lies_on(middle, s.points, false); });
    if (!there) out.slits.push_back({LineRole::cut, std::move(spike), "slit"});
  }
  return out;
}

} // namespace treadfold
