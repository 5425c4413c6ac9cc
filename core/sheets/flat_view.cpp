#include "sheets/flat_view.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {
namespace {

constexpr double kCorner_rad = 0.2;       // a curve's points turn less than this, corners more
constexpr double kTooClose = 7;           // mm on the page: corners nearer than this want a detail
constexpr int kFewest = 4;                // corners that make a detail worth while
constexpr double kKink = 4.5, kWords = 6; // from an edge: where the kinked lines end, where words begin
constexpr double kNames = 40, kKeys = 11; // most room for names at the right; letters below
constexpr double kDetailType = 3.7;

/// Every role's pen. A fold's depends on which way it goes.
Pen pen_of(const FlatLine& line) {
  switch (line.role) {
  case LineRole::fold:
    return line.angle_rad >= 0 ? Pen::fold_under : Pen::fold_up;
  case LineRole::cut:
    return Pen::cut;
  case LineRole::seam:
    return Pen::seam;
  case LineRole::hem:
    return Pen::hem;
  case LineRole::tuck:
    return Pen::tuck;
  case LineRole::trim:
    return Pen::trim;
  case LineRole::strip:
    return Pen::strip;
  case LineRole::glue:
    return Pen::glue;
  }
  return Pen::outline;
}

std::string words_of(Pen pen) {
  switch (pen) {
  case Pen::outline:
    return "edge of the net";
  case Pen::fold_under:
    return "fold down, pile outside";
  case Pen::fold_up:
    return "fold up, pile inside";
  case Pen::cut:
    return "cut";
  case Pen::seam:
    return "edges that meet";
  case Pen::hem:
    return "hem, folds under itself";
  case Pen::tuck:
    return "tuck, with a stair tool";
  case Pen::trim:
    return "spare, trimmed on the stair";
  case Pen::strip:
    return "strip below";
  case Pen::glue:
    return "hot glue";
  default:
    return "";
  }
}

double turn_at(FlatPoint a, FlatPoint b, FlatPoint c) {
  const double x1 = b.u - a.u, y1 = b.v - a.v, x2 = c.u - b.u, y2 = c.v - b.v;
  return std::abs(std::atan2(x1 * y2 - y1 * x2, x1 * x2 + y1 * y2));
}

void add_corners(const FlatPath& path, bool closed, std::vector<FlatPoint>& out) {
  const std::size_t n = path.size();
  for (std::size_t i = 0; i < n; ++i)
    if ((!closed && (i == 0 || i + 1 == n)) ||
        turn_at(path[(i + n - 1) % n], path[i], path[(i + 1) % n]) > kCorner_rad)
      out.push_back(path[i]);
}

/// Without repeats: the closing point of a ring and doubled points would hide or invent corners.
FlatPath tidy(const FlatPath& path, bool closed) {
  FlatPath out;
  const auto same = [](FlatPoint a, FlatPoint b) { return std::hypot(a.u - b.u, a.v - b.v) < 1e-6; };
  for (const auto& p : path)
    if (out.empty() || !same(out.back(), p)) out.push_back(p);
  while (closed && out.size() > 1 && same(out.front(), out.back()))
    out.pop_back();
  return out;
}

Box cut_box(const Piece& piece) {
  const FlatPoint c = cut_corner(piece);
  return {c.u, c.v, c.u + piece.cut_width.mm(), c.v + piece.cut_length.mm()};
}

std::vector<FlatPoint> rectangle_corners(const Piece& piece) {
  const Box b = cut_box(piece);
  return {{b.left, b.top}, {b.right, b.top}, {b.right, b.bottom}, {b.left, b.bottom}};
}

// ---- marks along an edge

/// A mark at `a` along an edge, which comes from a point at `from_b` across it.
struct EdgeMark {
  double a = 0, from_b = 0;
  std::vector<std::string> lines;
  bool bold = false;
};

/// Which edge the words stand at. Numbers at top and left, names at right, key letters at the bottom.
enum class Edge { top, left, right, bottom };

void draw_marks(Drawing& page, const std::vector<EdgeMark>& marks, Edge edge, double edge_b, double least,
                double most, double size_mm) {
  if (marks.empty()) return;
  const bool vertical = edge == Edge::left || edge == Edge::right;
  const double out = edge == Edge::top || edge == Edge::left ? -1 : 1;
  std::vector<double> wanted;
  for (const auto& m : marks)
    wanted.push_back(m.a);
  std::size_t deepest = 1;
  for (const auto& m : marks)
    deepest = std::max(deepest, m.lines.size());
  const double rows = 1.12 * static_cast<double>(deepest);
  const double size = std::clamp((most - least) / static_cast<double>(marks.size()) / rows, 2.2, size_mm);
  const auto places = spread(wanted, rows * size, least + rows * size / 2, most - rows * size / 2);
  const auto at = [&](double a, double b) { return vertical ? PagePoint{b, a} : PagePoint{a, b}; };
  for (std::size_t i = 0; i < marks.size(); ++i) {
    const EdgeMark& m = marks[i];
    const double place = places[i];
    if ((edge_b - m.from_b) * out > 0.3) line(page, at(m.a, m.from_b), at(m.a, edge_b), Pen::hairline);
    page.paths.push_back({{at(m.a, edge_b), at(m.a, edge_b + out * 1.2),
                           at(place, edge_b + out * (kKink - 0.6)), at(place, edge_b + out * kKink)},
                          false,
                          Pen::dimension,
                          Fill::none});
    const double b = edge_b + out * kWords, low = 0.36 * size;
    for (std::size_t k = 0; k < m.lines.size(); ++k) {
      const double shift =
          (static_cast<double>(k) - static_cast<double>(m.lines.size() - 1) / 2) * 1.12 * size;
      const std::string& text = m.lines[k];
      if (edge == Edge::top)
        page.texts.push_back({{place + low + shift, b}, size, text, Anchor::left, m.bold, 90, false});
      else if (edge == Edge::bottom)
        page.texts.push_back({{place, b + 0.5 * size + shift}, size, text, Anchor::middle, m.bold, 0, false});
      else
        page.texts.push_back({{b, place + low + shift},
                              size,
                              text,
                              edge == Edge::left ? Anchor::right : Anchor::left,
                              m.bold,
                              0,
                              false});
    }
  }
}

void draw_numbers(Drawing& page, const Piece& piece, const std::vector<FlatPoint>& points,
                  const Viewport& view, const Box& edges, const Box& room, LengthUnit unit, double size_mm) {
  const FlatPoint origin = cut_corner(piece);
  std::vector<EdgeMark> top, left;
  for (const auto& r : running_dimensions(piece, points, true, unit)) {
    const PagePoint p = view.at(origin.u + r.at_mm, origin.v + r.reach_mm);
    top.push_back({p.x, p.y, {r.text}, true});
  }
  for (const auto& r : running_dimensions(piece, points, false, unit)) {
    const PagePoint p = view.at(origin.u + r.reach_mm, origin.v + r.at_mm);
    left.push_back({p.y, p.x, {r.text}, true});
  }
  draw_marks(page, top, Edge::top, edges.top, room.left, room.right, size_mm);
  draw_marks(page, left, Edge::left, edges.left, room.top, room.bottom, size_mm);
}

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
std::vector<FlatPath> clipped(const FlatPath& path, bool closed, const CornerDetail& d) {
  std::vector<FlatPath> out;
  const std::size_t n = path.size();
  for (std::size_t i = 0; i + (closed ? 0 : 1) < n; ++i) {
    FlatPoint a = path[i], b = path[(i + 1) % n];
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

// ---- names of lines

bool in_one_detail(const FlatPath& path, const std::vector<CornerDetail>& details) {
  return std::any_of(details.begin(), details.end(), [&](const CornerDetail& d) {
    return std::all_of(path.begin(), path.end(), [&](FlatPoint p) { return d.holds(p); });
  });
}

struct NamedLine {
  std::string label;
  double at = 0;  // page coordinate across the line
  double end = 0; // page coordinate of its end nearest to the words
};

/// Lines that run straight across (`level`) or straight along, by their labels; those that coincide once.
std::vector<NamedLine> named_lines(const Piece& piece, const std::vector<CornerDetail>& details,
                                   const Viewport& view, bool level) {
  std::vector<NamedLine> out;
  for (const auto& l : piece.lines) {
    if (l.label.empty() || l.points.size() < 2 || in_one_detail(l.points, details)) continue;
    const PagePoint a = view.at(l.points.front().u, l.points.front().v);
    const PagePoint b = view.at(l.points.back().u, l.points.back().v);
    if (level ? std::abs(a.y - b.y) > 0.3 || std::abs(a.x - b.x) < 3
              : std::abs(a.x - b.x) > 0.3 || std::abs(a.y - b.y) < 3)
      continue;
    const NamedLine named{l.label, level ? a.y : a.x, level ? std::max(a.x, b.x) : std::max(a.y, b.y)};
    const auto same = std::find_if(out.begin(), out.end(), [&](const NamedLine& n) {
      return n.label == named.label && std::abs(n.at - named.at) < 0.3;
    });
    if (same == out.end())
      out.push_back(named);
    else
      same->end = std::max(same->end, named.end);
  }
  std::stable_sort(out.begin(), out.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
  return out;
}

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

/// Room that the whole view keeps at each side for words, and the view in the middle.
struct WholeView {
  double numbers = 0, names = 0, keys = 0;
  Viewport view;
  Box edges; // of the cut rectangle
};

WholeView whole_view(const Piece& piece, const Box& box) {
  // Every number that could stand there; the unit does not change its width by much.
  WholeView w;
  for (const LengthUnit unit : {LengthUnit::inch, LengthUnit::millimetre})
    for (const bool across : {true, false})
      for (const auto& r : running_dimensions(piece, rectangle_corners(piece), across, unit))
        w.numbers = std::max(w.numbers, text_width(r.text, kCutType, true));
  w.numbers = std::max(w.numbers, text_width("36 15/16\"", kCutType, true)) + kWords + 1;
  w.names = kWords + 1;
  for (const auto& l : piece.lines) {
    if (l.points.size() < 2 || l.label.empty()) continue;
    if (std::abs(l.points.front().v - l.points.back().v) < 1) // level: its name stands at the right
      w.names = std::max(w.names, std::min(text_width(l.label, kSmallType, false) + kWords + 1, kNames));
    else
      w.keys = kKeys;
  }
  const Box c = cut_box(piece);
  w.view = fit({box.left + w.numbers, box.top + w.numbers, box.right - w.names, box.bottom - w.keys}, c.left,
               c.top, c.right, c.bottom);
  w.view.origin.y -= w.view.at(0, c.top).y - (box.top + w.numbers); // at the top, not in the middle
  const PagePoint p0 = w.view.at(c.left, c.top), p1 = w.view.at(c.right, c.bottom);
  w.edges = {p0.x, p0.y, p1.x, p1.y};
  return w;
}

// ---- letters for lines, and what they mean

std::vector<std::string> keys_of(const std::vector<NamedLine>& lines) {
  std::vector<std::string> out;
  for (const auto& l : lines)
    if (std::find(out.begin(), out.end(), l.label) == out.end()) out.push_back(l.label);
  return out;
}

std::string key_letter(const std::vector<std::string>& keys, const std::string& key) {
  const auto at = std::find(keys.begin(), keys.end(), key) - keys.begin();
  return std::string(1, static_cast<char>('a' + at % 26));
}

constexpr int kKeysInRow = 3;

/// In rows of three.
void draw_keys(Drawing& page, const std::vector<std::string>& keys, double left, double right, double top) {
  const double column = (right - left) / kKeysInRow;
  for (std::size_t i = 0; i < keys.size(); ++i) {
    const double x = left + column * static_cast<double>(i % kKeysInRow);
    const double y = top + leading(kSmallType) * static_cast<double>(i / kKeysInRow) + kSmallType;
    write(page, {x, y}, key_letter(keys, keys[i]), {kSmallType, true});
    write(page, {x + 4, y}, shortened(keys[i], column - 6, kSmallType), {kSmallType});
  }
}

/// Height of the rows of words for lines along the piece.
double upright_key_height(const Piece& piece, const WholeView& w) {
  const auto rows = (keys_of(named_lines(piece, {}, w.view, false)).size() + kKeysInRow - 1) / kKeysInRow;
  return leading(kSmallType) * static_cast<double>(rows);
}

/// Without the step's number, which the detail's head gives.
std::string short_label(const std::string& label) { return label.substr(0, label.find(", step")); }

double distance_to(PagePoint p, PagePoint a, PagePoint b) {
  const double dx = b.x - a.x, dy = b.y - a.y, square = dx * dx + dy * dy;
  const double t = square > 0 ? std::clamp(((p.x - a.x) * dx + (p.y - a.y) * dy) / square, 0.0, 1.0) : 0.0;
  return std::hypot(p.x - a.x - t * dx, p.y - a.y - t * dy);
}

/// Places small letters beside lines where they are clear of every line and of each other.
class Letters {
public:
  Letters(Drawing& page, const Box& frame, std::vector<Path> lines)
      : page_(page), frame_(frame), lines_(std::move(lines)) {}

  void put(const std::string& letter, const std::vector<PagePoint>& line) {
    PagePoint best{}, foot{};
    double most = -1e9;
    for (const double t : {0.5, 0.35, 0.65, 0.2, 0.8})
      for (const double off : {2.6, -2.6, 4.2, -4.2, 6.5, -6.5}) {
        PagePoint on, normal;
        point_on(line, t, on, normal);
        const PagePoint at{on.x + off * normal.x, on.y + off * normal.y};
        const double clear = std::min(clearance(at), 2.0) - 0.02 * std::abs(off);
        if (clear > most) most = clear, best = at, foot = on;
      }
    taken_.push_back(best);
    if (std::hypot(best.x - foot.x, best.y - foot.y) > 3)
      treadfold::line(page_, foot, {foot.x + (best.x - foot.x) * 0.6, foot.y + (best.y - foot.y) * 0.6},
                      Pen::dimension);
    write(page_, {best.x, best.y + 0.36 * kSmallType}, letter, {kSmallType, true, false, Anchor::middle});
  }

private:
  static void point_on(const std::vector<PagePoint>& line, double t, PagePoint& on, PagePoint& normal) {
    double total = 0;
    for (std::size_t i = 1; i < line.size(); ++i)
      total += std::hypot(line[i].x - line[i - 1].x, line[i].y - line[i - 1].y);
    double left = t * total;
    for (std::size_t i = 1; i < line.size(); ++i) {
      const double dx = line[i].x - line[i - 1].x, dy = line[i].y - line[i - 1].y,
                   length = std::hypot(dx, dy);
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
  double clearance(PagePoint p) const {
    double least = std::min(
        {p.x - frame_.left - 1, frame_.right - 1 - p.x, p.y - frame_.top - 1, frame_.bottom - 1 - p.y});
    for (const auto& t : taken_)
      least = std::min(least, std::hypot(t.x - p.x, t.y - p.y) - 2.6);
    for (const auto& l : lines_)
      for (std::size_t i = 1; i < l.points.size(); ++i)
        least = std::min(least, distance_to(p, l.points[i - 1], l.points[i]));
    return least;
  }
  Drawing& page_;
  Box frame_;
  std::vector<Path> lines_;
  std::vector<PagePoint> taken_;
};

} // namespace

FlatPoint cut_corner(const Piece& piece) {
  return {piece.net_origin.u - piece.trim_left.mm(), piece.net_origin.v - piece.trim_back.mm()};
}

std::vector<FlatPoint> corner_points(const Piece& piece) {
  std::vector<FlatPoint> out;
  add_corners(tidy(piece.outline, true), true, out);
  for (const auto& l : piece.lines)
    if (l.role != LineRole::strip && l.role != LineRole::glue) add_corners(tidy(l.points, false), false, out);
  return out;
}

std::vector<RunningDimension> running_dimensions(const Piece& piece, const std::vector<FlatPoint>& points,
                                                 bool across, LengthUnit unit) {
  const FlatPoint origin = cut_corner(piece);
  std::vector<RunningDimension> all;
  for (const auto& p : points) {
    const double u = p.u - origin.u, v = p.v - origin.v;
    all.push_back({across ? u : v, across ? v : u, ""});
  }
  std::stable_sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.at_mm < b.at_mm; });
  std::vector<RunningDimension> out;
  for (auto& r : all) {
    r.text = show_length(from_mm(std::abs(r.at_mm) < 1e-6 ? 0 : r.at_mm), unit);
    if (!out.empty() && out.back().text == r.text)
      out.back().reach_mm = std::min(out.back().reach_mm, r.reach_mm);
    else
      out.push_back(r);
  }
  return out;
}

double whole_view_denominator(const Piece& piece, const Box& box) {
  return whole_view(piece, box).view.denominator;
}

double flat_height(const Piece& piece, double width, double most) {
  const WholeView w = whole_view(piece, {0, 0, width, most});
  return w.edges.bottom + w.keys + upright_key_height(piece, w);
}

std::vector<CornerDetail> corner_details(const Piece& piece, double denominator) {
  FlatPath corners;
  add_corners(tidy(piece.outline, true), true, corners);
  // Corners that hang together by steps shorter than kTooClose on the page.
  std::vector<int> group(corners.size(), -1);
  std::vector<CornerDetail> out;
  for (std::size_t seed = 0; seed < corners.size(); ++seed) {
    if (group[seed] >= 0) continue;
    std::vector<std::size_t> members{seed};
    group[seed] = static_cast<int>(seed);
    for (std::size_t k = 0; k < members.size(); ++k)
      for (std::size_t j = 0; j < corners.size(); ++j) {
        const FlatPoint a = corners[members[k]], b = corners[j];
        if (group[j] >= 0 || std::hypot(a.u - b.u, a.v - b.v) > kTooClose * denominator) continue;
        group[j] = static_cast<int>(seed);
        members.push_back(j);
      }
    if (static_cast<int>(members.size()) < kFewest) continue;
    CornerDetail d{1e12, 1e12, -1e12, -1e12, "", ""};
    for (std::size_t m : members) {
      d.u0 = std::min(d.u0, corners[m].u), d.u1 = std::max(d.u1, corners[m].u);
      d.v0 = std::min(d.v0, corners[m].v), d.v1 = std::max(d.v1, corners[m].v);
    }
    const double margin = 0.12 * std::max(d.u1 - d.u0, d.v1 - d.v0);
    d.u0 -= margin, d.u1 += margin, d.v0 -= margin, d.v1 += margin;
    d.what = name_of_corner(piece, d);
    out.push_back(d);
  }
  std::stable_sort(out.begin(), out.end(),
                   [](const auto& a, const auto& b) { return a.v0 != b.v0 ? a.v0 < b.v0 : a.u0 < b.u0; });
  for (std::size_t i = 0; i < out.size(); ++i)
    out[i].name = std::string(1, static_cast<char>('A' + i % 26));
  return out;
}

std::vector<double> spread(const std::vector<double>& wanted, double gap, double least, double most) {
  // Least squares under order: with the gaps taken off, equal neighbours pool into their mean.
  struct Pool {
    double sum;
    int count;
    double mean() const { return sum / count; }
  };
  std::vector<Pool> pools;
  for (std::size_t i = 0; i < wanted.size(); ++i) {
    pools.push_back({wanted[i] - gap * static_cast<double>(i), 1});
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
      pools[pools.size() - 2].sum += pools.back().sum;
      pools[pools.size() - 2].count += pools.back().count;
      pools.pop_back();
    }
  }
  std::vector<double> out;
  const double last = most - gap * (static_cast<double>(wanted.size()) - 1);
  for (const auto& pool : pools)
    for (int k = 0; k < pool.count; ++k)
      out.push_back(std::max(std::min(pool.mean(), last), least) + gap * static_cast<double>(out.size()));
  return out;
}

void draw_flat(Drawing& page, const Box& box, const Piece& piece, const std::vector<CornerDetail>& details,
               LengthUnit unit, bool warning) {
  const WholeView w = whole_view(piece, box);
  const Viewport& view = w.view;
  const Box& edges = w.edges;

  rectangle(page, edges, warning ? Pen::warning : Pen::knife, Fill::paper);
  page.paths.push_back(transformed(piece.outline, view, true, warning ? Pen::warning : Pen::outline,
                                   warning ? Fill::warning : Fill::carpet));
  for (const auto& l : piece.lines)
    page.paths.push_back(transformed(l.points, view, false, pen_of(l)));
  const double arrow_x = edges.left + 0.2 * edges.width();
  pile_arrow(page, {arrow_x, edges.top + 0.3 * edges.height()}, {arrow_x, edges.top + 0.62 * edges.height()});
  if (warning) return;

  const auto in_detail = [&](FlatPoint p) {
    return std::any_of(details.begin(), details.end(), [&](const CornerDetail& d) { return d.holds(p); });
  };
  std::vector<FlatPoint> points = rectangle_corners(piece);
  for (const auto& p : corner_points(piece))
    if (!in_detail(p)) points.push_back(p);
  draw_numbers(page, piece, points, view, edges,
               {edges.left - 8, edges.top - 4, edges.right + 12, box.bottom}, unit, kCutType);

  std::vector<EdgeMark> names, letters;
  for (const auto& n : named_lines(piece, details, view, true))
    names.push_back({n.at, n.end, wrap(n.label, box.right - edges.right - kWords, kSmallType), false});
  draw_marks(page, names, Edge::right, edges.right, edges.top - 8, box.bottom, kSmallType);
  // Lines along the piece have no room for words beside them: letters at the foot, and the words below.
  const auto upright = named_lines(piece, details, view, false);
  const auto keys = keys_of(upright);
  for (const auto& n : upright)
    letters.push_back({n.at, n.end, {key_letter(keys, n.label)}, true});
  draw_marks(page, letters, Edge::bottom, edges.bottom, edges.left - 6, edges.right + 10, kSmallType);
  draw_keys(page, keys, edges.left, box.right, edges.bottom + w.keys);

  for (const auto& d : details) {
    const PagePoint a = view.at(d.u0, d.v0), b = view.at(d.u1, d.v1);
    rectangle(page, {a.x, a.y, b.x, b.y}, Pen::dimension);
    const bool right = d.u0 + d.u1 > 2 * cut_corner(piece).u + piece.cut_width.mm();
    write(page, {right ? a.x - 1.2 : b.x + 1.2, (a.y + b.y) / 2 + 1.6}, d.name,
          {kCutType, true, false, right ? Anchor::right : Anchor::left});
  }
  for (const auto& f : piece.faces) {
    double u0 = 1e12, u1 = -1e12, v0 = 1e12, v1 = -1e12;
    for (const auto& p : f.outline) {
      u0 = std::min(u0, p.u), u1 = std::max(u1, p.u);
      v0 = std::min(v0, p.v), v1 = std::max(v1, p.v);
    }
    if (f.hidden || view.length(v1 - v0) < 8 || view.length(u1 - u0) < 40) continue;
    const PagePoint m = view.at((u0 + u1) / 2, (v0 + v1) / 2);
    write(page, {m.x, m.y + 1.3}, f.name, {kBodyType, false, false, Anchor::middle});
  }
}

void draw_corner(Drawing& page, const Box& box, const Piece& piece, const CornerDetail& detail,
                 LengthUnit unit) {
  // The lines in it, each label once, in the order of the piece.
  std::vector<std::string> keys;
  std::vector<std::pair<std::string, Path>> parts;
  for (const auto& l : piece.lines)
    for (const auto& part : clipped(l.points, false, detail)) {
      if (!l.label.empty() && std::find(keys.begin(), keys.end(), short_label(l.label)) == keys.end())
        keys.push_back(short_label(l.label));
      parts.push_back({short_label(l.label), transformed(part, Viewport{}, false, pen_of(l))});
    }

  std::vector<FlatPoint> points;
  for (const auto& p : corner_points(piece))
    if (detail.holds(p)) points.push_back(p);
  double numbers = 0;
  for (const bool across : {true, false})
    for (const auto& r : running_dimensions(piece, points, across, unit))
      numbers = std::max(numbers, text_width(r.text, kDetailType, true) + kWords + 1);

  const double head = 6, words = static_cast<double>(keys.size()) * leading(kSmallType) + 3;
  const Box inner{box.left + numbers, box.top + head + numbers, box.right - 2, box.bottom - words};
  Viewport view = fit(inner, detail.u0, detail.v0, detail.u1, detail.v1);
  view.origin.y -= view.at(0, detail.v0).y - inner.top;
  const PagePoint p0 = view.at(detail.u0, detail.v0), p1 = view.at(detail.u1, detail.v1);
  const Box edges{p0.x, p0.y, p1.x, p1.y};
  write(page, {box.left, box.top + 4.2}, detail.name, {kHeadType, true});
  write(page, {box.left + 7, box.top + 4.2},
        shortened(detail.what + ", " + view.name(), box.width() - 7, kBodyType), {kBodyType});

  rectangle(page, edges, Pen::none, Fill::paper);
  page.paths.push_back(
      transformed(clipped_area(tidy(piece.outline, true), detail), view, true, Pen::none, Fill::carpet));
  std::vector<Path> lines;
  for (const auto& part : clipped(tidy(piece.outline, true), true, detail))
    lines.push_back(transformed(part, view, false, Pen::outline));
  for (const auto& l : piece.lines)
    for (const auto& part : clipped(l.points, false, detail))
      lines.push_back(transformed(part, view, false, pen_of(l)));
  page.paths.insert(page.paths.end(), lines.begin(), lines.end());
  rectangle(page, edges, Pen::dimension);
  draw_numbers(page, piece, points, view, edges, {edges.left - 10, edges.top - 8, box.right, box.bottom},
               unit, kDetailType);

  Letters letters(page, edges, lines);
  for (const auto& l : piece.lines)
    for (const auto& part : clipped(l.points, false, detail))
      if (!l.label.empty())
        letters.put(key_letter(keys, short_label(l.label)), transformed(part, view, false, Pen::none).points);
  double y = edges.bottom + 2.5;
  for (const auto& key : keys) {
    write(page, {edges.left, y + kSmallType}, key_letter(keys, key), {kSmallType, true});
    write(page, {edges.left + 4, y + kSmallType}, shortened(key, box.right - edges.left - 4, kSmallType),
          {kSmallType});
    y += leading(kSmallType);
  }
}

std::vector<LegendEntry> legend_of(const Piece& piece) {
  std::vector<LegendEntry> out{{Pen::knife, "rectangle to cut from the roll"},
                               {Pen::outline, words_of(Pen::outline)}};
  for (const auto& l : piece.lines) {
    const Pen pen = pen_of(l);
    if (std::none_of(out.begin(), out.end(), [&](const LegendEntry& e) { return e.pen == pen; }))
      out.push_back({pen, words_of(pen)});
  }
  return out;
}

double draw_legend(Drawing& page, double left, double right, double top,
                   const std::vector<LegendEntry>& legend) {
  const double sample = 13, gap = 5, row = leading(kSmallType) + 0.8;
  double x = left, y = top;
  for (const auto& e : legend) {
    const double width = sample + 1.5 + text_width(e.words, kSmallType, false);
    if (x > left && x + width > right) x = left, y += row;
    line(page, {x, y + row / 2}, {x + sample, y + row / 2}, e.pen);
    write(page, {x + sample + 1.5, y + row / 2 + 0.36 * kSmallType}, e.words, {kSmallType});
    x += width + gap;
  }
  return y + row;
}

} // namespace treadfold
