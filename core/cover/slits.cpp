#include "cover/slits.h"

#include "cover/placed_face.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace treadfold {

namespace {

constexpr double kClear_mm = 3; // between slits, and between a slit and another hole
constexpr double kOn_mm = 1e-4;

struct Slit {
  FlatPath path; // from the hole to the edge
  FlatPoint end; // with what goes on past that edge
  std::string label;
  double length() const { return distance_mm(path[0], path[1]); }
};

FlatPoint along(FlatPoint from, FlatPoint direction, double by) {
  return {from.u + by * direction.u, from.v + by * direction.v};
}

/// How far from `from` the ray meets a closed path, `least` or farther.
std::optional<double> meets(const FlatPath& closed, FlatPoint from, FlatPoint direction, double least) {
  std::optional<double> nearest;
  for (std::size_t i = 0; i < closed.size(); ++i) {
    const auto &a = closed[i], &b = closed[(i + 1) % closed.size()];
    const double du = b.u - a.u, dv = b.v - a.v, turn = direction.u * dv - direction.v * du;
    if (std::abs(turn) < 1e-12) continue;
    const double at = ((a.u - from.u) * dv - (a.v - from.v) * du) / turn;
    const double share = ((a.u - from.u) * direction.v - (a.v - from.v) * direction.u) / turn;
    if (share < -1e-9 || share > 1 + 1e-9 || at < least) continue;
    if (!nearest || at < *nearest) nearest = at;
  }
  return nearest;
}

double distance_to(FlatPoint p, FlatPoint a, FlatPoint b) {
  const double du = b.u - a.u, dv = b.v - a.v, square = du * du + dv * dv;
  const double t = square > 0 ? std::clamp(((p.u - a.u) * du + (p.v - a.v) * dv) / square, 0.0, 1.0) : 0.0;
  return steady::hypot(p.u - a.u - t * du, p.v - a.v - t * dv);
}

bool cross(FlatPoint a, FlatPoint b, FlatPoint c, FlatPoint d) {
  const auto side = [](FlatPoint p, FlatPoint q, FlatPoint r) {
    return (q.u - p.u) * (r.v - p.v) - (q.v - p.v) * (r.u - p.u) > 0;
  };
  return side(a, b, c) != side(a, b, d) && side(c, d, a) != side(c, d, b);
}

/// Between a slit and a path, closed or not.
double distance_between(const FlatPath& slit, const FlatPath& path, bool closed) {
  double nearest = 1e300;
  for (std::size_t i = 0; i + (closed ? 0 : 1) < path.size(); ++i) {
    const auto &a = path[i], &b = path[(i + 1) % path.size()];
    if (cross(slit[0], slit[1], a, b)) return 0;
    nearest = std::min({nearest, distance_to(a, slit[0], slit[1]), distance_to(b, slit[0], slit[1]),
                        distance_to(slit[0], a, b), distance_to(slit[1], a, b)});
  }
  return nearest;
}

bool on(FlatPoint p, const FlatPath& edge) {
  for (std::size_t i = 0; i + 1 < edge.size(); ++i)
    if (distance_to(p, edge[i], edge[i + 1]) < kOn_mm) return true;
  return false;
}

class Slitter {
public:
  Slitter(Piece& piece, std::vector<Unslit> holes) : piece_(piece), todo_(std::move(holes)) {}

  void run() {
    while (!todo_.empty()) {
      auto best = shortest(&Slitter::to_an_edge);
      if (!best.slit) best = shortest(&Slitter::to_a_hole);
      if (!best.slit) return;
      auto& opening = piece_.openings[todo_[best.todo].opening];
      opening.slit = {best.slit->path[0], best.slit->end};
      opening.way = best.slit->label;
      piece_.lines.push_back({LineRole::cut, opening.slit, opening.way});
      todo_.erase(todo_.begin() + static_cast<std::ptrdiff_t>(best.todo));
    }
  }

private:
  struct Best {
    std::size_t todo = 0;
    std::optional<Slit> slit;
  };

  Best shortest(std::optional<Slit> (Slitter::*way)(const Unslit&) const) const {
    Best best;
    for (std::size_t i = 0; i < todo_.size(); ++i) {
      auto slit = (this->*way)(todo_[i]);
      if (slit && (!best.slit || slit->length() < best.slit->length() - kOn_mm)) best = {i, std::move(slit)};
    }
    return best;
  }

  const FlatPath& hole(std::size_t opening) const { return piece_.openings[opening].hole; }

  std::optional<Slit> to_an_edge(const Unslit& from) const {
    std::optional<Slit> best;
    for (const auto& way : from.ways) {
      const double leaves = meets(hole(from.opening), from.middle, way.direction, 0).value_or(0);
      const auto at = meets(piece_.outline, from.middle, way.direction, leaves - kOn_mm);
      if (!at) continue;
      Slit slit{
          {along(from.middle, way.direction, leaves), along(from.middle, way.direction, *at)}, {}, way.label};
      slit.end = slit.path[1];
      if (!on(slit.path[1], way.edge) || !clear(slit.path, from.opening, from.opening)) continue;
      if (best && best->length() <= slit.length()) continue;
      if (way.left_long)
        slit.end = along(from.middle, way.direction, to_rectangle(from.middle, way.direction));
      best = std::move(slit);
    }
    return best;
  }

  /// The nearest hole that is done, centre to centre.
  std::optional<Slit> to_a_hole(const Unslit& from) const {
    std::optional<Slit> best;
    for (std::size_t i = 0; i < piece_.openings.size(); ++i) {
      if (std::any_of(todo_.begin(), todo_.end(), [&](const Unslit& u) { return u.opening == i; })) continue;
      FlatPoint middle{};
      for (const auto& p : hole(i))
        middle = {middle.u + p.u / static_cast<double>(hole(i).size()),
                  middle.v + p.v / static_cast<double>(hole(i).size())};
      const double far = distance_mm(from.middle, middle);
      const FlatPoint direction{(middle.u - from.middle.u) / far, (middle.v - from.middle.v) / far};
      const double leaves = meets(hole(from.opening), from.middle, direction, 0).value_or(0);
      const auto at = meets(hole(i), from.middle, direction, leaves);
      if (!at) continue;
      Slit slit{{along(from.middle, direction, leaves), along(from.middle, direction, *at)},
                {},
                "slit to the next hole"};
      slit.end = slit.path[1];
      if (clear(slit.path, from.opening, i) && (!best || slit.length() < best->length()))
        best = std::move(slit);
    }
    return best;
  }

  bool clear(const FlatPath& slit, std::size_t own, std::size_t target) const {
    for (std::size_t i = 0; i < piece_.openings.size(); ++i) {
      const auto& other = piece_.openings[i];
      if (i != own && i != target && distance_between(slit, other.hole, true) < kClear_mm) return false;
      if (i != own && !other.slit.empty() && distance_between(slit, other.slit, false) < kClear_mm)
        return false;
    }
    return true;
  }

  /// To the edge of what is cut from the roll.
  double to_rectangle(FlatPoint from, FlatPoint direction) const {
    const double u0 = piece_.net_origin.u - piece_.trim_left.mm(),
                 v0 = piece_.net_origin.v - piece_.trim_back.mm();
    const double u1 = u0 + piece_.cut_width.mm(), v1 = v0 + piece_.cut_length.mm();
    return meets({{u0, v0}, {u1, v0}, {u1, v1}, {u0, v1}}, from, direction, 0).value_or(0);
  }

  Piece& piece_;
  std::vector<Unslit> todo_;
};

} // namespace

void slit_holes(Piece& piece, std::vector<Unslit> holes) { Slitter(piece, std::move(holes)).run(); }

} // namespace treadfold
