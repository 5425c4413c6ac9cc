#include "sheets/corner_view.h"

#include "sheets/edge_marks.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr double kReach = 50; // mm on the piece: a corner's seams and points lie no farther apart
constexpr double kDetailType = 3.7, kHead = 6;
constexpr double kLeastSide = 22; // mm on the page

// ---- clipping to a detail

bool clip_segment(FlatPoint& a, FlatPoint& b, const CornerDetail& d) {
  double t0 = 0, t1 = 1;
  const double du = b.u - a.u, dv = b.v - a.v;
  const double p[4] = {-du, du, -dv, dv}, q[4] = {a.u - d.u0, d.u1 - a.u, a.v - d.v0, d.v1 - a.v};
  for (int i = 0; i < 4; ++i) {
    if (p[i] == 0) {
      if (q[i] < 0) return false;
      continue;
    }
    const double t = q[i] / p[i];
    if (p[i] < 0)
      t0 = std::max(t0, t);
    else
      t1 = std::min(t1, t);
  }
  if (t0 >= t1) return false;
  const FlatPoint from = a;
  a = {from.u + t0 * du, from.v + t0 * dv};
  b = {from.u + t1 * du, from.v + t1 * dv};
  return true;
}

/// The parts of `path` inside the detail, each as long as it goes on unbroken.
std::vector<FlatPath> clipped(const FlatPath& path, const CornerDetail& d) {
  std::vector<FlatPath> out;
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    FlatPoint a = path[i], b = path[i + 1];
    if (!clip_segment(a, b, d)) continue;
    const bool goes_on = !out.empty() && out.back().back().u == a.u && out.back().back().v == a.v;
    if (!goes_on) out.push_back({a});
    out.back().push_back(b);
  }
  return out;
}

/// The area of a closed path inside the detail; edges along the frame may run double, so fill it, no stroke.
FlatPath clipped_area(FlatPath area, const CornerDetail& d) {
  for (int side = 0; side < 4; ++side) {
    const auto depth = [&](FlatPoint p) {
      return side == 0 ? p.u - d.u0 : side == 1 ? d.u1 - p.u : side == 2 ? p.v - d.v0 : d.v1 - p.v;
    };
    FlatPath out;
    for (std::size_t i = 0; i < area.size(); ++i) {
      const FlatPoint a = area[i], b = area[(i + 1) % area.size()];
      const double da = depth(a), db = depth(b);
      if (da >= 0) out.push_back(a);
      if ((da >= 0) != (db >= 0)) {
        const double t = da / (da - db);
        out.push_back({a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)});
      }
    }
    area = std::move(out);
  }
  return area;
}

// ---- letters beside lines

double distance_to(PagePoint p, PagePoint a, PagePoint b) {
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  const double t = square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0.0;
  return steady::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/// Places small letters beside lines where they are clear of every line and of each other.
class Letters {
public:
  /// `right`: how far to the right of the frame letters may go where it is full.
  Letters(Drawing& page, const Box& frame, double right, std::vector<Path> lines)
      : page_(page), frame_(frame), right_(right), lines_(std::move(lines)) {}

  void put(const std::string& letter, const std::vector<PagePoint>& line) {
    Spot best;
    for (const double off : {2.4, 3.6, 5.0, 7.0, 9.5, 12.0})
      for (const double t : {0.5, 0.35, 0.65, 0.2, 0.8, 0.05, 0.95})
        for (const double side : {1, -1}) {
          PagePoint on, normal;
          point_on(line, t, on, normal);
          consider({on.x + side * off * normal.x, on.y + side * off * normal.y}, on, best);
        }
    if (best.worth < kTaken) { // anywhere, with a leader
      for (const double t : {0.5, 0.25, 0.75, 0.0, 1.0}) {
        PagePoint on, normal;
        point_on(line, t, on, normal);
        for (double y = frame_.top + 2; y < frame_.bottom - 1; y += 1)
          for (double x = frame_.left + 2; x < right_ - 2; x += 1)
            consider({x, y}, on, best);
      }
    }
    taken_.push_back(best.at);
    letters_.push_back(letter);
    const double dx = best.at.x - best.foot.x, dy = best.at.y - best.foot.y, far = steady::hypot(dx, dy);
    if (far <= 3) return;
    const double part = (far - 2.2) / far;
    treadfold::line(page_, best.foot, {best.foot.x + dx * part, best.foot.y + dy * part}, Pen::dimension);
    lines_.push_back(page_.paths.back());
  }

  /// In a thicket a letter breaks the lines, as on any drawing.
  void finish() {
    for (std::size_t i = 0; i < letters_.size(); ++i) {
      const PagePoint at = taken_[i];
      const double half = std::max(text_width(letters_[i], kSmallType, true) / 2, 0.5 * kSmallType) + 0.2;
      if (clearance_of_lines(at) < 1.5 * half)
        rectangle(page_, {at.x - half, at.y - half, at.x + half, at.y + half + 0.3}, Pen::none, Fill::paper);
      write(page_, {at.x, at.y + 0.36 * kSmallType}, letters_[i], {kSmallType, true, false, Anchor::middle});
    }
  }

private:
  static constexpr double kTaken = -100;
  struct Spot {
    PagePoint at, foot;
    double worth = -1e9;
  };
  /// Clear of lines by 2 mm is enough; nearer to its own line is better than clearer still.
  void consider(PagePoint at, PagePoint foot, Spot& best) const {
    const double worth =
        std::min(clearance(at, foot), 2.0) - 0.05 * steady::hypot(at.x - foot.x, at.y - foot.y);
    if (worth > best.worth) best = {at, foot, worth};
  }
  static void point_on(const std::vector<PagePoint>& line, double t, PagePoint& on, PagePoint& normal) {
    double total = 0;
    for (std::size_t i = 1; i < line.size(); ++i)
      total += steady::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
    double left = t * total;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double dx = line[i].x - line[i - 1].x, dy = line[i].y - line[i - 1].y,
                   length = steady::hypot(dx, dy);
      if ((left > length && i + 1 < line.size()) || length == 0) {
        left -= length;
        continue;
      }
      on = {line[i - 1].x + dx * left / length, line[i - 1].y + dy * left / length};
      normal = {-dy / length, dx / length};
      return;
    }
    on = line.front(), normal = {0, 1};
  }
  double clearance(PagePoint p, PagePoint foot) const {
    // Inside the frame, or right of it.
    double least = std::min({p.x - frame_.left - 1, std::abs(frame_.right - p.x) - 1, right_ - 1 - p.x,
                             p.y - frame_.top - 1, frame_.bottom - 1 - p.y});
    for (const auto& t : taken_) {
      if (steady::hypot(t.x - p.x, t.y - p.y) < 4.2) return 10 * kTaken; // never on another letter
      if (distance_to(t, foot, p) < 2.4) least = 2 * kTaken;             // nor a leader through one
    }
    return std::min(least, clearance_of_lines(p));
  }
  double clearance_of_lines(PagePoint p) const {
    double least = 1e9;
    for (const auto& l : lines_)
      for (std::size_t i = 1; i < l.points.size(); ++i)
        least = std::min(least, distance_to(p, l.points[i - 1], l.points[i]));
    return least;
  }
  Drawing& page_;
  Box frame_;
  double right_;
  std::vector<Path> lines_;
  std::vector<PagePoint> taken_;
  std::vector<std::string> letters_;
};

// ---- finding the corners

/// "back corner, right", after the seam that is closed there; with the step in a joined piece.
std::string name_of_corner(const Piece& piece, const CornerDetail& d) {
  for (const auto& s : piece.seams)
    for (const auto& p : s.a)
      if (d.holds(p)) {
        std::string name, part;
        for (const char c : s.name + ",") {
          if (c != ',') {
            if (c != ' ' || !part.empty()) part += c;
            continue;
          }
          const bool step = part.rfind("step", 0) == 0;
          if (name.empty() || part == "left" || part == "right" || (step && piece.steps.size() > 1))
            name += (name.empty() ? "" : ", ") + part;
          part.clear();
        }
        return name;
      }
  return "corner";
}

std::vector<FlatPoint> inside(const std::vector<FlatPoint>& points, const CornerDetail& d) {
  std::vector<FlatPoint> out;
  std::copy_if(points.begin(), points.end(), std::back_inserter(out),
               [&](FlatPoint p) { return d.holds(p); });
  return out;
}

/// Whether `left` shows nothing but the mirror image of `right`.
bool mirrors(const std::vector<FlatPoint>& corners, const CornerDetail& left, const CornerDetail& right) {
  constexpr double alike = 0.2; // mm
  const double mirror = left.u0 + right.u1;
  if (std::abs(left.u1 + right.u0 - mirror) > alike || std::abs(left.v0 - right.v0) > alike ||
      std::abs(left.v1 - right.v1) > alike)
    return false;
  const auto l = inside(corners, left), r = inside(corners, right);
  const auto has = [&](const std::vector<FlatPoint>& points, FlatPoint p) {
    return std::any_of(points.begin(), points.end(), [&](FlatPoint q) {
      return std::abs(q.u - (mirror - p.u)) < 2 && std::abs(q.v - p.v) < 2;
    });
  };
  return std::all_of(l.begin(), l.end(), [&](FlatPoint p) { return has(r, p); }) &&
         std::all_of(r.begin(), r.end(), [&](FlatPoint p) { return has(l, p); });
}

double distance(const FlatPath& a, const FlatPath& b) {
  double least = 1e300;
  for (const auto& p : a)
    for (const auto& q : b)
      least = std::min(least, steady::hypot(p.u - q.u, p.v - q.v));
  return least;
}

/// Seams that lie close together, and the corners of the net about them.
std::vector<CornerDetail> clusters(const Piece& piece) {
  std::vector<FlatPath> groups; // points of the seams of one corner
  for (const auto& seam : piece.seams) {
    if (seam.pressed) continue; // relief cuts are many and alike: the template has them
    FlatPath points = seam.a;
    points.insert(points.end(), seam.b.begin(), seam.b.end());
    for (auto group = groups.begin(); group != groups.end();)
      if (distance(*group, points) <= kReach) {
        points.insert(points.end(), group->begin(), group->end());
        group = groups.erase(group);
      } else {
        ++group;
      }
    groups.push_back(std::move(points));
  }
  const auto corners = outline_corners(piece);
  std::vector<CornerDetail> out;
  for (auto& group : groups) {
    const FlatPath seams = group;
    for (const auto& p : corners)
      if (distance(seams, {p}) <= kReach) group.push_back(p);
    CornerDetail d{1e12, 1e12, -1e12, -1e12, "", "", true, {}};
    for (const auto& p : group) {
      d.u0 = std::min(d.u0, p.u), d.u1 = std::max(d.u1, p.u);
      d.v0 = std::min(d.v0, p.v), d.v1 = std::max(d.v1, p.v);
    }
    const double margin = 0.08 * std::max(d.u1 - d.u0, d.v1 - d.v0);
    d.u0 -= margin, d.u1 += margin, d.v0 -= margin, d.v1 += margin;
    out.push_back(d);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return a.v0 != b.v0 ? a.v0 < b.v0 : a.u0 < b.u0; });
  return out;
}

// ---- drawing

/// The left corner's numbers, standing at the mirrored places.
std::vector<EdgeMark> mirrored_marks(const Piece& piece, std::vector<FlatPoint> points, double mirror,
                                     LengthUnit unit, const Viewport& view, double edge) {
  for (auto& p : points)
    p.u = mirror - p.u;
  std::vector<EdgeMark> out;
  for (const auto& r : running_dimensions(piece, points, true, unit))
    out.push_back({view.at(mirror - (cut_corner(piece).u + r.at_mm), 0).x, edge, {r.text}, true});
  std::reverse(out.begin(), out.end());
  return out;
}

double room_for(const std::vector<EdgeMark>& marks) {
  double width = 0;
  for (const auto& m : marks)
    width = std::max(width, text_width(m.lines[0], kDetailType, true));
  return width + kMarkWords + 0.5;
}

struct CornerLayout {
  std::vector<FlatPoint> points;
  Viewport view;
  Box edges;
  double below = 0; // room for the mirrored numbers
};

CornerLayout corner_layout(const Box& box, const Piece& piece, const CornerDetail& detail, LengthUnit unit) {
  CornerLayout c;
  c.points = inside(corner_points(piece), detail);
  const double top = room_for(running_marks(piece, c.points, true, unit, {}));
  const double left = room_for(running_marks(piece, c.points, false, unit, {}));
  if (detail.mirror) c.below = room_for(mirrored_marks(piece, c.points, *detail.mirror, unit, {}, 0)) + 5;
  const Box inner{box.left + left, box.top + kHead + top, box.right - 1, box.bottom - c.below - 1};
  c.view = fit(inner, detail.u0, detail.v0, detail.u1, detail.v1);
  const PagePoint p = c.view.at(detail.u0, detail.v0); // up and to the left, not centred
  c.view.origin.x -= p.x - inner.left, c.view.origin.y -= p.y - inner.top;
  const PagePoint a = c.view.at(detail.u0, detail.v0), b = c.view.at(detail.u1, detail.v1);
  c.edges = {a.x, a.y, b.x, b.y};
  return c;
}

} // namespace

std::vector<CornerDetail> corner_details(const Piece& piece) {
  auto out = clusters(piece);
  const auto corners = corner_points(piece);
  const FlatPoint cut = cut_corner(piece);
  const double middle = 2 * cut.u + piece.cut_width.mm();
  int drawn = 0;
  for (auto& right : out) {
    if (right.u0 + right.u1 < middle) continue;
    for (auto& left : out)
      if (left.u0 + left.u1 < middle && mirrors(corners, left, right)) {
        right.mirror = left.u0 + right.u1;
        left.drawn = false;
      }
  }
  for (auto& d : out) {
    d.what = name_of_corner(piece, d);
    if (d.drawn) d.name = std::string(1, static_cast<char>('A' + drawn++ % 26));
  }
  for (auto& left : out)
    for (const auto& right : out)
      if (!left.drawn && right.mirror && std::abs(*right.mirror - (left.u0 + right.u1)) < 1e-9 &&
          std::abs(left.v0 - right.v0) < 1)
        left.name = right.name;
  return out;
}

Keys keys_of(const Piece& piece, const std::vector<CornerDetail>& details) {
  Keys keys;
  for (const auto& d : details)
    for (const auto& l : piece.lines) {
      const std::string label = short_label(l.label);
      if (d.drawn && wants_letter(l) && !clipped(l.points, d).empty() &&
          std::find(keys.begin(), keys.end(), label) == keys.end())
        keys.push_back(label);
    }
  return keys;
}

double corner_denominator(const Box& box, const Piece& piece, const CornerDetail& detail, LengthUnit unit) {
  const CornerLayout c = corner_layout(box, piece, detail, unit);
  // Not where words fill the box, nor where lines and their letters would crowd each other.
  const bool room = c.edges.bottom + c.below <= box.bottom && c.edges.right <= box.right;
  const bool legible = c.view.denominator <= 1 || std::min(c.edges.width(), c.edges.height()) >= kLeastSide;
  return room && legible ? c.view.denominator : 1e9;
}

double draw_corner(Drawing& page, const Box& box, const Piece& piece, const CornerDetail& detail,
                   const Keys& keys, const Reader& reader) {
  const LengthUnit unit = reader;
  const CornerLayout c = corner_layout(box, piece, detail, unit);
  const Box& edges = c.edges;
  write(page, {box.left, box.top + 4.2}, detail.name, {kHeadType, true});
  write(page, {box.left + 6.5, box.top + 4.2},
        shortened(reader.said(detail.what) + ", " + c.view.name(), box.width() - 6.5, kBodyType),
        {kBodyType});

  const auto outline = without_repeats(piece.outline, true);
  const std::size_t before = page.paths.size();
  rectangle(page, edges, Pen::none, Fill::paper);
  page.paths.push_back(transformed(clipped_area(outline, detail), c.view, true, Pen::none, Fill::carpet));
  std::vector<Path> lines;
  for (const auto& e : edge_stretches(piece))
    if (e.pen != Pen::none)
      for (const auto& part : clipped(e.points, detail))
        lines.push_back(transformed(part, c.view, false, e.pen));
  for (const auto& l : piece.lines)
    for (const auto& part : clipped(l.points, detail))
      lines.push_back(transformed(part, c.view, false, pen_of(l)));
  page.paths.insert(page.paths.end(), lines.begin(), lines.end());
  rectangle(page, edges, Pen::dimension);

  // Words on top and below keep clear of those at the left, which end kMarkWords away from the edge.
  const double least = edges.left - kMarkWords + 1, most = std::max(box.right, edges.right);
  draw_marks(page, running_marks(piece, c.points, true, unit, c.view), Edge::top, edges.top, least, most,
             kDetailType, true);
  const double numbers = draw_marks(
      page, running_marks(piece, c.points, false, unit, c.view), Edge::left, edges.left, edges.top - 6,
      detail.mirror ? edges.bottom + 5 : std::max(edges.bottom + 5, box.bottom), kDetailType);
  double bottom = edges.bottom + 1;
  if (detail.mirror) {
    draw_marks(page, mirrored_marks(piece, c.points, *detail.mirror, unit, c.view, edges.bottom),
               Edge::bottom, edges.bottom, least, most, kDetailType, true);
    bottom = edges.bottom + c.below;
    write(page, {edges.left, bottom - 1}, reader.say("below: left end, its mirror image"), {kSmallType});
  }

  // Letters keep clear of every line in the frame, those that lead to the numbers too.
  lines.assign(page.paths.begin() + static_cast<std::ptrdiff_t>(before), page.paths.end());
  std::erase_if(lines, [](const Path& p) { return p.stroke == Pen::none; });
  Letters letters(page, edges, std::max(edges.right, box.right), lines);
  for (const auto& l : piece.lines)
    for (const auto& part : clipped(l.points, detail))
      if (wants_letter(l))
        letters.put(key_letter(keys, short_label(l.label)),
                    transformed(part, c.view, false, Pen::none).points);
  letters.finish();
  return std::max(bottom, numbers);
}

} // namespace treadfold
