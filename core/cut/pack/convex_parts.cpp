#include "cut/pack/convex_parts.h"

#include <cassert>
#include <optional>

namespace treadfold::pack {
namespace {

/// Without repeated corners and corners on straight lines; the wanted way round.
Ring tidy(Ring ring, bool counter_clockwise) {
  for (bool again = true; again && ring.size() > 2;) {
    again = false;
    for (std::size_t i = 0; i < ring.size() && ring.size() > 2;) {
      const auto& before = ring[(i + ring.size() - 1) % ring.size()];
      if (turn(before, ring[i], ring[(i + 1) % ring.size()]) != 0) {
        ++i;
        continue;
      }
      ring.erase(ring.begin() + static_cast<std::ptrdiff_t>(i));
      again = true;
    }
  }
  if ((area_twice(ring) > 0) != counter_clockwise) std::reverse(ring.begin(), ring.end());
  return ring;
}

int sign(Ticks x) { return (x > 0) - (x < 0); }

/// Do the segments have a point in common that is not an end of ab?
bool obstructs(Corner a, Corner b, Corner c, Corner d) {
  if (std::max(a.u, b.u) < std::min(c.u, d.u) || std::max(c.u, d.u) < std::min(a.u, b.u) ||
      std::max(a.v, b.v) < std::min(c.v, d.v) || std::max(c.v, d.v) < std::min(a.v, b.v))
    return false;
  const int s = sign(turn(a, b, c)), t = sign(turn(a, b, d)), p = sign(turn(c, d, a)),
            q = sign(turn(c, d, b));
  if (s * t < 0 && p * q < 0) return true;
  const auto within = [&](Corner x) { // a corner on ab, not at its ends
    return x != a && x != b && turn(a, b, x) == 0 && std::min(a.u, b.u) <= x.u && x.u <= std::max(a.u, b.u) &&
           std::min(a.v, b.v) <= x.v && x.v <= std::max(a.v, b.v);
  };
  return within(c) || within(d);
}

/// Does a step from corner i of the ring towards `to` lead into its inside?
bool leads_inside(const Ring& ring, std::size_t i, Corner to) {
  const auto& before = ring[(i + ring.size() - 1) % ring.size()];
  const auto &at = ring[i], &after = ring[(i + 1) % ring.size()];
  if (turn(before, at, after) >= 0) return turn(at, after, to) > 0 && turn(before, at, to) > 0;
  return turn(at, after, to) > 0 || turn(before, at, to) > 0;
}

/// One ring with the holes joined to it, each by a bridge there and back.
Ring one_ring(const Outline& outline) {
  Ring ring = tidy(outline.ring, true);
  std::vector<Ring> holes;
  for (const auto& h : outline.holes)
    if (auto hole = tidy(h, false); hole.size() > 2) holes.push_back(std::move(hole));
  while (!holes.empty()) {
    struct Bridge {
      std::size_t hole, from, to;
      Ticks length;
    };
    std::optional<Bridge> best;
    const auto free = [&](Corner a, Corner b) {
      const auto crossed = [&](const Ring& r) {
        for (std::size_t i = 0, j = r.size() - 1; i < r.size(); j = i++)
          if (obstructs(a, b, r[j], r[i])) return true;
        return false;
      };
      return !crossed(ring) && std::none_of(holes.begin(), holes.end(), crossed);
    };
    for (std::size_t h = 0; h < holes.size(); ++h)
      for (std::size_t i = 0; i < ring.size(); ++i)
        for (std::size_t k = 0; k < holes[h].size(); ++k) {
          const auto d = holes[h][k] - ring[i];
          const Ticks length = d.u * d.u + d.v * d.v;
          if (best && length >= best->length) continue;
          if (length == 0 || (leads_inside(ring, i, holes[h][k]) && leads_inside(holes[h], k, ring[i]) &&
                              free(ring[i], holes[h][k])))
            best = Bridge{h, i, k, length};
        }
    assert(best.has_value());
    Ring& hole = holes[best->hole];
    std::rotate(hole.begin(), hole.begin() + static_cast<std::ptrdiff_t>(best->to), hole.end());
    hole.push_back(hole.front());
    hole.push_back(ring[best->from]);
    ring.insert(ring.begin() + static_cast<std::ptrdiff_t>(best->from) + 1, hole.begin(), hole.end());
    holes.erase(holes.begin() + static_cast<std::ptrdiff_t>(best->hole));
  }
  return ring;
}

bool in_triangle(Corner a, Corner b, Corner c, Corner p) {
  return turn(a, b, p) >= 0 && turn(b, c, p) >= 0 && turn(c, a, p) >= 0;
}

/// Cuts the ring along diagonals, each from a dent: first those that make it and another dent convex, then
/// those that make it convex; of each the shortest.
void cut(const Ring& ring, std::vector<Ring>& parts) {
  const std::size_t n = ring.size();
  if (n < 3) return;
  struct Diagonal {
    std::size_t from, to;
    int cures;
    Ticks length;
  };
  std::vector<Diagonal> all;
  const auto before = [&](std::size_t i) { return ring[(i + n - 1) % n]; };
  const auto after = [&](std::size_t i) { return ring[(i + 1) % n]; };
  const auto dent = [&](std::size_t i) { return turn(before(i), ring[i], after(i)) < 0; };
  const auto cured = [&](std::size_t i, Corner to) {
    return dent(i) && turn(before(i), ring[i], to) >= 0 && turn(to, ring[i], after(i)) >= 0;
  };
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t k = 0; dent(i) && k < n; ++k) {
      if (k == i || k == (i + 1) % n || i == (k + 1) % n || ring[i] == ring[k]) continue;
      if (!leads_inside(ring, i, ring[k]) || !leads_inside(ring, k, ring[i])) continue;
      const auto d = ring[k] - ring[i];
      all.push_back({i, k, (cured(i, ring[k]) ? 1 : 0) + (cured(k, ring[i]) ? 1 : 0), d.u * d.u + d.v * d.v});
    }
  if (all.empty()) {
    parts.push_back(ring);
    return;
  }
  std::stable_sort(all.begin(), all.end(), [](const Diagonal& a, const Diagonal& b) {
    return a.cures != b.cures ? a.cures > b.cures : a.length < b.length;
  });
  const auto free = [&](const Diagonal& d) {
    for (std::size_t i = 0, j = n - 1; i < n; j = i++)
      if (obstructs(ring[d.from], ring[d.to], ring[j], ring[i])) return false;
    return true;
  };
  const auto best = std::find_if(all.begin(), all.end(), free);
  assert(best != all.end());
  for (const auto& [from, to] : {std::pair{best->from, best->to}, std::pair{best->to, best->from}}) {
    Ring half;
    for (std::size_t i = from; i != to; i = (i + 1) % n)
      half.push_back(ring[i]);
    half.push_back(ring[to]);
    cut(tidy(std::move(half), true), parts);
  }
}

/// Both as one, if they share an edge and what comes out is convex.
std::optional<Ring> joined(const Ring& a, const Ring& b) {
  for (std::size_t i = 0; i < a.size(); ++i)
    for (std::size_t k = 0; k < b.size(); ++k) {
      if (a[i] != b[(k + 1) % b.size()] || a[(i + 1) % a.size()] != b[k]) continue;
      Ring both;
      for (std::size_t n = 1; n <= a.size(); ++n)
        both.push_back(a[(i + n) % a.size()]);
      for (std::size_t n = 2; n < b.size(); ++n)
        both.push_back(b[(k + n) % b.size()]);
      for (std::size_t n = 0; n < both.size(); ++n)
        if (turn(both[n], both[(n + 1) % both.size()], both[(n + 2) % both.size()]) < 0) return std::nullopt;
      return tidy(std::move(both), true);
    }
  return std::nullopt;
}

} // namespace

std::vector<Ring> convex_parts(const Outline& outline) {
  std::vector<Ring> parts;
  cut(one_ring(outline), parts);
  for (std::size_t i = 0; i < parts.size(); ++i)
    for (std::size_t k = 0; k < parts.size(); ++k) {
      if (i == k) continue;
      auto both = joined(parts[i], parts[k]);
      if (!both) continue;
      parts[i] = std::move(*both);
      parts.erase(parts.begin() + static_cast<std::ptrdiff_t>(k));
      if (k < i) --i;
      k = static_cast<std::size_t>(-1); // it may take in others now
    }
  return parts;
}

Outline without_dents(const Outline& outline, int most, double share) {
  Outline filled{tidy(outline.ring, true), {}};
  for (const auto& h : outline.holes)
    filled.holes.push_back(tidy(h, false));
  double left = share * static_cast<double>(area_twice(filled));
  while (true) {
    Ring* shallowest = nullptr;
    std::size_t at = 0;
    Ticks least = 0;
    int dents = 0;
    const auto look = [&](Ring& ring) {
      for (std::size_t i = 0; i < ring.size() && ring.size() > 3; ++i) {
        const auto &a = ring[(i + ring.size() - 1) % ring.size()], &b = ring[i],
                   &c = ring[(i + 1) % ring.size()];
        const Ticks gain = -turn(a, b, c);
        dents += gain > 0;
        if (gain <= 0 || (shallowest && gain >= least) || static_cast<double>(gain) > left) continue;
        const auto in_the_way = [&](const Ring& r) {
          return std::any_of(r.begin(), r.end(),
                             [&](Corner p) { return p != a && p != b && p != c && in_triangle(a, c, b, p); });
        };
        if (in_the_way(filled.ring) || std::any_of(filled.holes.begin(), filled.holes.end(), in_the_way))
          continue;
        shallowest = &ring, at = i, least = gain;
      }
    };
    look(filled.ring);
    for (auto& h : filled.holes)
      look(h);
    if (!shallowest || dents <= most) return filled;
    left -= static_cast<double>(least);
    shallowest->erase(shallowest->begin() + static_cast<std::ptrdiff_t>(at));
    const bool outer = shallowest == &filled.ring;
    *shallowest = tidy(std::move(*shallowest), outer);
  }
}

} // namespace treadfold::pack
