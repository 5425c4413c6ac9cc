#include "cut/pack/outline_check.h"

namespace treadfold::pack {
namespace {

/// From a to b with the outline's inside to the left.
struct Edge {
  Corner a, b;
};

std::vector<Edge> edges(const Outline& o) {
  std::vector<Edge> all;
  const auto add = [&all](const Ring& ring, bool inside) {
    const bool forwards = (area_twice(ring) > 0) == inside;
    for (std::size_t i = 0, j = ring.size() - 1; i < ring.size(); j = i++)
      if (ring[i] != ring[j]) all.push_back(forwards ? Edge{ring[j], ring[i]} : Edge{ring[i], ring[j]});
  };
  add(o.ring, true);
  for (const auto& h : o.holes)
    add(h, false);
  return all;
}

bool apart(const Edge& e, const Edge& f) {
  return std::max(e.a.u, e.b.u) < std::min(f.a.u, f.b.u) || std::max(f.a.u, f.b.u) < std::min(e.a.u, e.b.u) ||
         std::max(e.a.v, e.b.v) < std::min(f.a.v, f.b.v) || std::max(f.a.v, f.b.v) < std::min(e.a.v, e.b.v);
}

bool opposite(Ticks x, Ticks y) { return (x < 0 && y > 0) || (x > 0 && y < 0); }

bool cross(const Edge& e, const Edge& f) {
  return !apart(e, f) && opposite(turn(e.a, e.b, f.a), turn(e.a, e.b, f.b)) &&
         opposite(turn(f.a, f.b, e.a), turn(f.a, f.b, e.b));
}

bool lies_on(Corner p, const Edge& e) { return !apart({p, p}, e) && turn(e.a, e.b, p) == 0; }

/// Is the middle of `stretch` inside the outline of `all`, or on an edge of the same sense? Everything is
/// doubled, so that middles are whole. Insides are told by the edges that a ray to the right crosses.
bool middle_inside(const Edge& stretch, const std::vector<Edge>& all) {
  const Corner m = stretch.a + stretch.b;
  bool inside = false, along = false;
  for (const auto& e : all) {
    const Edge d{e.a + e.a, e.b + e.b};
    if (lies_on(m, d)) { // it runs along this edge, for at a crossing or an end a stretch ends
      const auto x = e.b - e.a, y = stretch.b - stretch.a;
      along = true;
      if (x.u * y.u + x.v * y.v > 0) return true;
    }
    if ((d.a.v > m.v) != (d.b.v > m.v) && (turn(d.a, d.b, m) > 0) == (d.b.v > d.a.v)) inside = !inside;
  }
  return !along && inside;
}

/// Some stretch of a's edges lies inside b, or along it with the inside on the same hand.
bool enters(const std::vector<Edge>& a, const std::vector<Edge>& b) {
  for (const auto& e : a) {
    std::vector<Corner> stops{e.a, e.b};
    for (const auto& f : b) {
      if (apart(e, f)) continue;
      for (const Corner p : {f.a, f.b})
        if (lies_on(p, e)) stops.push_back(p);
      for (const Corner p : {e.a, e.b})
        if (lies_on(p, f)) stops.push_back(p);
    }
    const auto ahead = e.b - e.a;
    const auto far = [&](Corner p) { return (p.u - e.a.u) * ahead.u + (p.v - e.a.v) * ahead.v; };
    std::stable_sort(stops.begin(), stops.end(), [&](Corner p, Corner q) { return far(p) < far(q); });
    for (std::size_t i = 0; i + 1 < stops.size(); ++i)
      if (stops[i] != stops[i + 1] && middle_inside({stops[i], stops[i + 1]}, b)) return true;
  }
  return false;
}

} // namespace

bool insides_meet(const Outline& a, const Outline& b) {
  const auto x = extent(a.ring), y = extent(b.ring);
  if (x.high.u <= y.low.u || y.high.u <= x.low.u || x.high.v <= y.low.v || y.high.v <= x.low.v) return false;
  const auto p = edges(a), q = edges(b);
  for (const auto& e : p)
    for (const auto& f : q)
      if (cross(e, f)) return true;
  return enters(p, q) || enters(q, p);
}

std::string breach(const std::vector<OutlinePiece>& pieces, Ticks width, const OutlineAnswer& answer) {
  if (answer.at.size() != pieces.size()) return "not every piece has a spot";
  std::vector<Outline> all;
  Ticks end = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const auto& spot = answer.at[i];
    if (spot.way < 0 || static_cast<std::size_t>(spot.way) >= pieces[i].ways.size())
      return "a piece lies in a way it may not";
    all.push_back(moved(pieces[i].ways[static_cast<std::size_t>(spot.way)], spot.by));
    const auto e = extent(all.back().ring);
    if (e.low.u < 0 || e.low.v < 0 || e.high.u > width) return "a piece leaves the strip";
    end = std::max(end, e.high.v);
    for (std::size_t k = 0; k < i; ++k)
      if (insides_meet(all[i], all[k])) return "pieces overlap";
  }
  if (end != answer.length) return "the length is not the pieces'";
  if (answer.bound > answer.length) return "the bound is above the length";
  return {};
}

} // namespace treadfold::pack
