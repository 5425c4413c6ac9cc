#include "cut/pack/no_fit.h"

namespace treadfold::pack {
namespace {

Ticks cross(Corner a, Corner b) { return a.u * b.v - a.v * b.u; }

/// Does an edge in this direction come before the ring is at its highest?
bool rises(Corner d) { return d.v > 0 || (d.v == 0 && d.u > 0); }

bool within(const Ring& inner, const Ring& outer) {
  for (std::size_t i = 0, j = outer.size() - 1; i < outer.size(); j = i++)
    for (const auto& c : inner)
      if (turn(outer[j], outer[i], c) < 0) return false;
  return true;
}

} // namespace

Ring from_lowest(Ring ring) {
  const auto lower = [](Corner a, Corner b) { return a.v != b.v ? a.v < b.v : a.u < b.u; };
  std::rotate(ring.begin(), std::min_element(ring.begin(), ring.end(), lower), ring.end());
  return ring;
}

Ring minkowski_sum(const Ring& a, const Ring& b) {
  Ring sum;
  sum.reserve(a.size() + b.size());
  for (std::size_t i = 0, k = 0; i < a.size() || k < b.size();) {
    const Corner p = a[i < a.size() ? i : 0], q = b[k < b.size() ? k : 0];
    sum.push_back(p + q);
    // The edge that turns less comes first; both at once if they are parallel.
    const Corner d = a[i + 1 < a.size() ? i + 1 : 0] - p, e = b[k + 1 < b.size() ? k + 1 : 0] - q;
    const Ticks t = i == a.size()          ? -1
                    : k == b.size()        ? 1
                    : rises(d) != rises(e) ? (rises(d) ? 1 : -1)
                                           : cross(d, e);
    if (t >= 0) ++i;
    if (t <= 0) ++k;
  }
  return sum;
}

NoFit::NoFit(const std::vector<Ring>& still, const std::vector<Ring>& turned) {
  struct Sum {
    Ring ring;
    Extent box;
    double size;
  };
  std::vector<Sum> sums;
  sums.reserve(still.size() * turned.size());
  std::size_t corners = 0;
  for (const auto& b : still)
    for (const auto& a : turned) {
      Ring ring = minkowski_sum(b, a);
      const Extent box = extent(ring);
      corners += ring.size();
      sums.push_back({std::move(ring), box, static_cast<double>(box.w()) * static_cast<double>(box.l())});
    }
  // The largest first; those within one of them tell nothing new.
  std::stable_sort(sums.begin(), sums.end(), [](const Sum& a, const Sum& b) { return a.size > b.size; });
  std::vector<const Sum*> kept;
  polygons_.reserve(sums.size()), joints_.reserve(2 * corners + 4 * sums.size());
  for (const auto& s : sums) {
    const auto holds = [&s](const Sum* k) {
      return k->box.low.u <= s.box.low.u && k->box.low.v <= s.box.low.v && k->box.high.u >= s.box.high.u &&
             k->box.high.v >= s.box.high.v && within(s.ring, k->ring);
    };
    if (std::any_of(kept.begin(), kept.end(), holds)) continue;
    kept.push_back(&s);
    add(s.ring, s.box);
  }
}

void NoFit::add(const Ring& convex, const Extent& box) {
  Polygon p;
  p.low = {static_cast<Small>(box.low.u), static_cast<Small>(box.low.v)};
  p.high = {static_cast<Small>(box.high.u), static_cast<Small>(box.high.v)};
  const std::size_t n = convex.size();
  // Counter-clockwise, the edges of the four sides: lower and upper where lines go across, that is left and
  // right; and where they go along. Each side begins after an edge that is not of it.
  const auto sides = [](Corner d) { return std::array{d.v<0, d.v> 0, d.u > 0, d.u < 0}; };
  std::array<std::size_t, 4> first{};
  auto before = sides(convex[0] - convex[n - 1]);
  for (std::size_t i = 0; i < n; ++i) {
    const auto now = sides(convex[i + 1 < n ? i + 1 : 0] - convex[i]);
    for (std::size_t s = 0; s < 4; ++s)
      if (now[s] && !before[s]) first[s] = i;
    before = now;
  }
  for (std::size_t s = 0; s < 4; ++s) {
    const Axis axis = s < 2 ? Axis::across : Axis::along, c = other(axis);
    const bool rising = s == 1 || s == 2;
    const auto start = static_cast<std::ptrdiff_t>(joints_.size());
    p.chain[s] = static_cast<std::uint32_t>(start);
    for (std::size_t i = first[s];; i = i + 1 < n ? i + 1 : 0) {
      joints_.push_back({static_cast<Small>(on(c, convex[i])), static_cast<Small>(on(axis, convex[i]))});
      const Ticks step = on(c, convex[i + 1 < n ? i + 1 : 0]) - on(c, convex[i]);
      if (rising ? step <= 0 : step >= 0) break;
    }
    if (!rising) std::reverse(joints_.begin() + start, joints_.end());
  }
  p.chain[4] = static_cast<std::uint32_t>(joints_.size());
  polygons_.push_back(p);
}

Ticks NoFit::at(std::uint32_t from, std::uint32_t to, Ticks c, bool up) const {
  // Which half cannot be foretold, so without branches.
  for (std::uint32_t edges = to - from - 1; edges > 1;) {
    const std::uint32_t half = edges / 2;
    from += joints_[from + half].c <= c ? half : 0;
    edges -= half;
  }
  const Joint &a = joints_[from], &b = joints_[from + 1];
  const Ticks n = (c - a.c) * (static_cast<Ticks>(b.at) - a.at), d = static_cast<Ticks>(b.c) - a.c;
  // n / d rounded down: what doubles say is about right, whole numbers put it right.
  const double about = static_cast<double>(n) / static_cast<double>(d);
  auto q = static_cast<Ticks>(about);
  q -= static_cast<double>(q) > about;
  Ticks rest = n - q * d;
  for (; rest < 0; rest += d)
    --q;
  for (; rest >= d; rest -= d)
    ++q;
  if (up && rest > 0) ++q;
  return a.at + q;
}

} // namespace treadfold::pack
