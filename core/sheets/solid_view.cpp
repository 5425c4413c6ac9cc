#include "sheets/solid_view.h"

#include "measure/uprights.h"
#include "units/steady.h"

#include "measure/tread_plan.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {
namespace {

constexpr double kPi = 3.14159265358979323846;
constexpr double kSameDepth_mm = 0.05; // layers nearer than this do not hide each other
constexpr double kSeam_mm = 1.0;       // edges nearer than this are drawn as one seam; the proof measures it

Point3 minus(const Point3& a, const Point3& b) { return {a[0] - b[0], a[1] - b[1], a[2] - b[2]}; }
double dot(const Point3& a, const Point3& b) { return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]; }
double distance(const Point3& a, const Point3& b) { return std::sqrt(dot(minus(a, b), minus(a, b))); }
Point3 middle(const Point3& a, const Point3& b) {
  return {(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2};
}

/// Newell's normal: twice the polygon's area, along its axis.
Point3 normal(const std::vector<Point3>& p) {
  Point3 n{};
  for (std::size_t i = 0; i < p.size(); ++i) {
    const Point3 &a = p[i], &b = p[(i + 1) % p.size()];
    n[0] += (a[1] - b[1]) * (a[2] + b[2]);
    n[1] += (a[2] - b[2]) * (a[0] + b[0]);
    n[2] += (a[0] - b[0]) * (a[1] + b[1]);
  }
  return n;
}

double distance_to_segment(const Point3& p, const Point3& a, const Point3& b) {
  const Point3 d = minus(b, a);
  const double t = dot(d, d) > 0 ? std::clamp(dot(minus(p, a), d) / dot(d, d), 0.0, 1.0) : 0.0;
  return distance(p, {a[0] + t * d[0], a[1] + t * d[1], a[2] + t * d[2]});
}

Fill tone(const std::vector<Point3>& points) {
  const Point3 n = normal(points);
  const double x = std::abs(n[0]), y = std::abs(n[1]), z = std::abs(n[2]);
  if (z >= x && z >= y) return Fill::paper;
  return x > y ? Fill::carpet_dark : Fill::carpet;
}

struct FaceEdge {
  int face;
  Point3 a, b;
};

/// All edges that only one polygon of a face has: the outline of each face.
std::vector<FaceEdge> outlines(const std::vector<FoldedFace>& faces) {
  std::vector<FaceEdge> out;
  for (std::size_t f = 0; f < faces.size(); ++f) {
    std::vector<FaceEdge> all;
    for (const auto& polygon : faces[f].polygons)
      for (std::size_t i = 0; i < polygon.size(); ++i)
        all.push_back({static_cast<int>(f), polygon[i], polygon[(i + 1) % polygon.size()]});
    for (std::size_t i = 0; i < all.size(); ++i) {
      bool shared = false;
      for (std::size_t j = 0; j < all.size() && !shared; ++j)
        shared = i != j && ((distance(all[i].a, all[j].b) < 0.01 && distance(all[i].b, all[j].a) < 0.01) ||
                            (distance(all[i].a, all[j].a) < 0.01 && distance(all[i].b, all[j].b) < 0.01));
      if (!shared) out.push_back(all[i]);
    }
  }
  return out;
}

SolidEdge kind_of(const Piece& piece, int face, const Point3& a, const Point3& b,
                  const std::vector<FaceEdge>& edges) {
  const bool outline = std::any_of(edges.begin(), edges.end(), [&](const FaceEdge& e) {
    return e.face == face && distance(e.a, a) < 0.01 && distance(e.b, b) < 0.01;
  });
  if (!outline) return SolidEdge::none;
  const Point3 m = middle(a, b);
  SolidEdge kind = SolidEdge::free;
  for (const auto& e : edges) {
    if (e.face == face || distance_to_segment(m, e.a, e.b) > kSeam_mm) continue;
    const bool hinge = piece.faces[static_cast<std::size_t>(face)].parent == e.face ||
                       piece.faces[static_cast<std::size_t>(e.face)].parent == face;
    if (hinge) return SolidEdge::bend;
    kind = SolidEdge::seam;
  }
  return kind;
}

SolidPolygon wood(std::vector<Point3> points) {
  std::vector<SolidEdge> edges(points.size(), SolidEdge::bend);
  return {std::move(points), std::move(edges), Fill::wood};
}

/// Where the step's own frame lies in the frame of the piece's highest step: back and down by what is
/// between.
std::vector<Point3> origins(const std::vector<Step>& steps) {
  std::vector<Point3> out(steps.size());
  for (std::size_t i = 1; i < steps.size(); ++i)
    out[i] = {0, out[i - 1][1] - steps[i].going.mm(), out[i - 1][2] - steps[i].rise.mm()};
  return out;
}

/// A little of the stair round the carpet: the tread below, the riser behind, the stringer at an open end.
void add_wood(const std::vector<Step>& steps, std::vector<SolidPolygon>& out) {
  constexpr double past = 60, apart = 2; // mm shown, and set off so that it never ties with the carpet
  const auto at = origins(steps);
  const Step& top = steps.front();
  const double bottom_z = at.back()[2] - apart, bottom_y = at.back()[1];
  const double w = top.width.mm();
  out.push_back(wood({{0, bottom_y - 2 * past, bottom_z},
                      {w, bottom_y - 2 * past, bottom_z},
                      {w, bottom_y, bottom_z},
                      {0, bottom_y, bottom_z}}));
  if (!top.landing_edge) {
    const auto l = side_line(top, Hand::left).back(), r = side_line(top, Hand::right).back();
    const double y0 = l.y + apart, y1 = r.y + apart, z = top.rise.mm();
    out.push_back(wood({{l.x, y0, z}, {r.x, y1, z}, {r.x, y1, z + past}, {l.x, y0, z + past}}));
  }
  for (std::size_t i = 0; i < steps.size(); ++i) {
    const double low = i + 1 == steps.size() ? at[i][2] - apart : at[i][2] - past;
    const double high = at[i][2] + (steps[i].rise - steps[i].nosing.thickness).mm() - apart;
    for (int side = 0; side < 2; ++side) {
      if ((side ? steps[i].right : steps[i].left).closed()) continue;
      const auto face = side_line(steps[i], side ? Hand::right : Hand::left);
      const double in = side ? -apart : apart, y = at[i][1];
      const double x0 = face[0].x + in, x1 = face[1].x + in, y0 = y + apart, y1 = y + face[1].y;
      out.push_back(wood({{x0, y0, low}, {x1, y1, low}, {x1, y1, high}, {x0, y0, high}}));
    }
  }
}

/// What stands on the treads, cut off above.
void add_uprights(const PlannedPiece& planned, std::vector<SolidPolygon>& out) {
  constexpr double kHigh = 110, kApart = 1; // mm above the tread, and above its carpet
  const auto at = origins(planned.steps);
  for (std::size_t i = 0; i < planned.steps.size(); ++i)
    for (const auto& upright : planned.steps[i].uprights) {
      const double tread = at[i][2] + planned.steps[i].rise.mm();
      const double low = tread + planned.piece.root_height_mm + kApart, high = tread + kHigh;
      std::vector<PlanPoint> foot;
      const auto outline = footprint(upright);
      for (std::size_t k = 0; k < outline.size(); k += upright.round ? 4 : 1) // corners enough for the eye
        foot.push_back(outline[k]);
      const auto corner = [&](std::size_t k, double z) {
        const auto& p = foot[k % foot.size()];
        return Point3{p.x, p.y + at[i][1], z};
      };
      std::vector<Point3> top;
      for (std::size_t k = 0; k < foot.size(); ++k) {
        top.push_back(corner(k, high));
        auto side = wood({corner(k, low), corner(k + 1, low), corner(k + 1, high), corner(k, high)});
        if (upright.round) side.edges[1] = side.edges[3] = SolidEdge::none;
        out.push_back(std::move(side));
      }
      out.push_back(wood(std::move(top)));
    }
}

struct Screen {
  std::vector<Point3> points; // seen()
  double a = 0, b = 0, c = 0; // depth = a + b·x + c·y on its plane
  double min_x = 0, max_x = 0, min_y = 0, max_y = 0, mean = 0;
  bool edge_on = false;
};

Screen on_screen(const SolidPolygon& polygon, const View& view) {
  Screen s;
  for (const auto& p : polygon.points)
    s.points.push_back(seen(view, p));
  const Point3 n = normal(s.points);
  s.edge_on = std::abs(n[2]) <= 1e-6 * std::sqrt(dot(n, n)) || n[2] == 0;
  s.min_x = s.max_x = s.points[0][0], s.min_y = s.max_y = s.points[0][1];
  for (const auto& p : s.points) {
    s.min_x = std::min(s.min_x, p[0]), s.max_x = std::max(s.max_x, p[0]);
    s.min_y = std::min(s.min_y, p[1]), s.max_y = std::max(s.max_y, p[1]);
    s.mean += p[2] / static_cast<double>(s.points.size());
  }
  if (!s.edge_on) {
    s.b = -n[0] / n[2], s.c = -n[1] / n[2];
    s.a = s.points[0][2] - s.b * s.points[0][0] - s.c * s.points[0][1];
  }
  return s;
}

bool inside(const Screen& s, double x, double y) {
  bool in = false;
  for (std::size_t i = 0, j = s.points.size() - 1; i < s.points.size(); j = i++) {
    const Point3 &p = s.points[i], &q = s.points[j];
    if ((p[1] > y) != (q[1] > y) && x < (q[0] - p[0]) * (y - p[1]) / (q[1] - p[1]) + p[0]) in = !in;
  }
  return in;
}

/// How much deeper j lies than i where they overlap on the screen: the difference of greatest size, 0 if
/// none.
double deeper_by(const Screen& i, const Screen& j) {
  if (i.max_x <= j.min_x || j.max_x <= i.min_x || i.max_y <= j.min_y || j.max_y <= i.min_y) return 0;
  double most = 0;
  const auto depth = [](const Screen& s, double x, double y) { return s.a + s.b * x + s.c * y; };
  const auto compare = [&](double x, double y) {
    const double d = depth(j, x, y) - depth(i, x, y);
    if (std::abs(d) > std::abs(most)) most = d;
  };
  for (const auto& p : i.points)
    if (inside(j, p[0], p[1])) compare(p[0], p[1]);
  for (const auto& p : j.points)
    if (inside(i, p[0], p[1])) compare(p[0], p[1]);
  for (std::size_t k = 0; k < i.points.size(); ++k)
    for (std::size_t l = 0; l < j.points.size(); ++l) {
      const Point3 &p = i.points[k], &q = i.points[(k + 1) % i.points.size()];
      const Point3 &r = j.points[l], &s = j.points[(l + 1) % j.points.size()];
      const double den = (q[0] - p[0]) * (s[1] - r[1]) - (q[1] - p[1]) * (s[0] - r[0]);
      if (std::abs(den) < 1e-9) continue;
      const double t = ((r[0] - p[0]) * (s[1] - r[1]) - (r[1] - p[1]) * (s[0] - r[0])) / den;
      const double u = ((r[0] - p[0]) * (q[1] - p[1]) - (r[1] - p[1]) * (q[0] - p[0])) / den;
      if (t > 1e-6 && t < 1 - 1e-6 && u > 1e-6 && u < 1 - 1e-6)
        compare(p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]));
    }
  return std::abs(most) > kSameDepth_mm ? most : 0;
}

/// An arrow lying on the tread from its back to the nosing, as the pile leans.
std::vector<Point3> pile_arrow(const Step& step, const Point3& origin, double root_height) {
  const double x = origin[0] + step.width.mm() * 0.5, z = origin[2] + step.rise.mm() + root_height + 1;
  const double back = origin[1] + step.going.mm() * 0.8, front = origin[1] + step.going.mm() * 0.15;
  const double half = step.going.mm() * 0.035, head = half * 3.2;
  return {{x - half, back, z},         {x + half, back, z}, {x + half, front + head, z},
          {x + head, front + head, z}, {x, front, z},       {x - head, front + head, z},
          {x - half, front + head, z}};
}

} // namespace

std::vector<SolidPolygon> solid_of(const PlannedPiece& planned) {
  auto faces = fold(planned.piece, planned.steps);
  assert(faces.size() == planned.piece.faces.size());
  for (std::size_t f = 0; f < faces.size(); ++f)
    if (planned.piece.faces[f].hidden) faces[f].polygons.clear(); // behind what is seen, at its very depth
  const auto edges = outlines(faces);
  std::vector<SolidPolygon> out;
  for (std::size_t f = 0; f < faces.size(); ++f)
    for (const auto& points : faces[f].polygons) {
      if (points.size() < 3) continue;
      SolidPolygon polygon{points, {}, tone(points)};
      for (std::size_t i = 0; i < points.size(); ++i)
        polygon.edges.push_back(
            kind_of(planned.piece, static_cast<int>(f), points[i], points[(i + 1) % points.size()], edges));
      out.push_back(std::move(polygon));
    }
  if (!planned.steps.empty()) add_wood(planned.steps, out);
  add_uprights(planned, out);
  return out;
}

Point3 seen(const View& view, const Point3& point) {
  const double turn = (view.from_right ? 1 : -1) * view.turn_deg * kPi / 180,
               tilt = view.tilt_deg * kPi / 180;
  const double across = point[0] * steady::cos(turn) + point[1] * steady::sin(turn);
  const double away = -point[0] * steady::sin(turn) + point[1] * steady::cos(turn);
  return {across, -(point[2] * steady::cos(tilt) + away * steady::sin(tilt)),
          away * steady::cos(tilt) - point[2] * steady::sin(tilt)};
}

std::vector<int> painting_order(const std::vector<SolidPolygon>& polygons, const View& view) {
  const std::size_t n = polygons.size();
  std::vector<Screen> screens;
  for (const auto& p : polygons)
    screens.push_back(on_screen(p, view));
  std::vector<std::vector<int>> hidden_by(n); // those to be painted after
  std::vector<int> waits_for(n, 0);
  for (std::size_t i = 0; i < n; ++i)
    for (std::size_t j = i + 1; j < n; ++j) {
      if (screens[i].edge_on || screens[j].edge_on) continue;
      const double d = deeper_by(screens[i], screens[j]);
      if (d == 0) continue;
      const std::size_t far = d > 0 ? j : i, near = d > 0 ? i : j;
      hidden_by[far].push_back(static_cast<int>(near));
      ++waits_for[near];
    }
  std::vector<int> order;
  std::vector<bool> done(n, false);
  while (order.size() < n) {
    // The deepest of those that wait for nothing; of all, should three hide each other in a ring.
    std::size_t next = n;
    for (int ring = 0; ring < 2 && next == n; ++ring)
      for (std::size_t i = 0; i < n; ++i)
        if (!done[i] && (ring == 1 || waits_for[i] == 0) &&
            (next == n || screens[i].mean > screens[next].mean))
          next = i;
    done[next] = true;
    order.push_back(static_cast<int>(next));
    for (int later : hidden_by[next])
      --waits_for[static_cast<std::size_t>(later)];
  }
  return order;
}

void draw_solid(Drawing& page, const PlannedPiece& planned, double x, double y, double width, double height) {
  assert(!planned.steps.empty());
  const auto& steps = planned.steps;
  const bool left_only = steps.front().right.closed() && !steps.front().left.closed();
  View view;
  view.from_right = !left_only;
  const auto solid = solid_of(planned);

  double min_x = 1e9, max_x = -1e9, min_y = 1e9, max_y = -1e9;
  for (const auto& polygon : solid)
    for (const auto& p : polygon.points) {
      const Point3 s = seen(view, p);
      min_x = std::min(min_x, s[0]), max_x = std::max(max_x, s[0]);
      min_y = std::min(min_y, s[1]), max_y = std::max(max_y, s[1]);
    }
  const double scale = std::min(width / (max_x - min_x), height / (max_y - min_y));
  const double dx = x + (width - scale * (max_x - min_x)) / 2 - scale * min_x;
  const double dy = y + (height - scale * (max_y - min_y)) / 2 - scale * min_y;
  const auto to_page = [&](const Point3& p) {
    const Point3 s = seen(view, p);
    return PagePoint{dx + scale * s[0], dy + scale * s[1]};
  };

  for (int i : painting_order(solid, view)) {
    const auto& polygon = solid[static_cast<std::size_t>(i)];
    std::vector<PagePoint> points;
    for (const auto& p : polygon.points)
      points.push_back(to_page(p));
    page.paths.push_back({points, true, Pen::none, polygon.fill});
    for (std::size_t k = 0; k < points.size(); ++k) {
      const SolidEdge kind = polygon.edges[k];
      if (kind == SolidEdge::none) continue;
      const Pen pen = kind == SolidEdge::seam   ? Pen::seam
                      : kind == SolidEdge::free ? Pen::outline
                                                : Pen::hairline;
      page.paths.push_back({{points[k], points[(k + 1) % points.size()]}, false, pen, Fill::none});
    }
  }

  const auto at = origins(steps);
  for (std::size_t i = 0; i < steps.size() && !planned.piece.hanging; ++i) {
    Path arrow{{}, true, Pen::none, Fill::ink};
    for (const auto& p : pile_arrow(steps[i], at[i], planned.piece.root_height_mm))
      arrow.points.push_back(to_page(p));
    page.paths.push_back(arrow);
    const double size = std::clamp(0.4 * scale * steps[i].rise.mm(), 2.6, 4.6);
    PagePoint number = to_page({steps[i].width.mm() * 0.5, at[i][1] - steps[i].nosing.projection.mm(),
                                at[i][2] + steps[i].rise.mm() * 0.5});
    number.y += size * 0.35;
    // On a ground of its own: where the drop is low on the page, its edges would run through the number.
    const std::string words = fmt::format("{}", steps[i].number);
    const double half = text_width(words, size, true) / 2 + 0.3;
    page.paths.push_back({{{number.x - half, number.y - 0.78 * size},
                           {number.x + half, number.y - 0.78 * size},
                           {number.x + half, number.y + 0.24 * size},
                           {number.x - half, number.y + 0.24 * size}},
                          true,
                          Pen::none,
                          Fill::carpet});
    page.texts.push_back({number, size, words, Anchor::middle, true});
  }
}

} // namespace treadfold
