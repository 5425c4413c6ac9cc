#include "sheets/flat_view.h"

#include "sheets/edge_marks.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace treadfold {
namespace {

constexpr double kNames = 40; // most room for names at the right
constexpr double kLetters = kMarkWords + kSmallType + 0.6;
constexpr double kArrows[] = {0.2, 0.3, 0.7, 0.8, 0.1}; // of the width, where the pile arrow may stand
constexpr double kArrowRoom = 5;                        // at each side of it
constexpr double kNamesAt[] = {0.5, 0.4, 0.6};          // of the width, clear of the arrow

bool level(const FlatLine& l) {
  if (is_relief(l)) return false;
  return is_hole(l) || (l.points.size() >= 2 && std::abs(l.points.front().v - l.points.back().v) < 1);
}
/// Along the piece, and worth a letter.
bool lettered(const FlatLine& l) {
  return !is_hole(l) && l.points.size() >= 2 && wants_letter(l) && l.role != LineRole::seam &&
         std::abs(l.points.front().u - l.points.back().u) < 1;
}

bool in_one_detail(const FlatPath& path, const std::vector<CornerDetail>& details) {
  return std::any_of(details.begin(), details.end(), [&](const CornerDetail& d) {
    return std::all_of(path.begin(), path.end(), [&](FlatPoint p) { return d.holds(p); });
  });
}

/// What this view dimensions: the cut rectangle, and every corner that no detail shows.
std::vector<FlatPoint> dimensioned(const Piece& piece, const std::vector<CornerDetail>& details) {
  auto points = cut_rectangle(piece);
  for (const auto& p : corner_points(piece))
    if (!in_one_detail({p}, details)) points.push_back(p);
  return points;
}

/// Along the piece also where its long folds lie, though their ends be in details.
std::vector<FlatPoint> dimensioned_along(const Piece& piece, const std::vector<CornerDetail>& details) {
  auto points = dimensioned(piece, details);
  for (const auto& l : piece.lines)
    if (level(l) && l.role != LineRole::glue &&
        std::abs(l.points.front().u - l.points.back().u) > piece.net_width.mm() / 2)
      points.push_back(l.points.front());
  return points;
}

double widest(const std::vector<EdgeMark>& marks) {
  double width = 0;
  for (const auto& m : marks)
    width = std::max(width, text_width(m.lines[0], kCutType, true));
  return width;
}

/// The line's ends; of a hole, its sides at mid-height.
std::pair<FlatPoint, FlatPoint> named_by(const FlatLine& l) {
  if (!is_hole(l)) return {l.points.front(), l.points.back()};
  const auto across =
      std::minmax_element(l.points.begin(), l.points.end(), [](auto a, auto b) { return a.u < b.u; });
  const auto along =
      std::minmax_element(l.points.begin(), l.points.end(), [](auto a, auto b) { return a.v < b.v; });
  const double v = (along.first->v + along.second->v) / 2;
  return {{across.first->u, v}, {across.second->u, v}};
}

/// Level lines by their labels at the right, or lines along the piece by their letters at the foot; those
/// that coincide once.
std::vector<EdgeMark> name_marks(const Piece& piece, const std::vector<CornerDetail>& details,
                                 const Viewport& view, bool levels, const Keys& keys, double width,
                                 const Reader& reader) {
  std::vector<EdgeMark> out;
  for (const auto& l : piece.lines) {
    if (!(levels ? level(l) && !l.label.empty() : lettered(l)) || in_one_detail(l.points, details)) continue;
    const auto [begin, end] = named_by(l);
    const PagePoint a = view.at(begin.u, begin.v), b = view.at(end.u, end.v);
    EdgeMark mark{levels ? a.y : a.x, levels ? std::max(a.x, b.x) : std::max(a.y, b.y), {}, !levels};
    if (levels)
      mark.lines = wrap(reader.said(short_label(l.label)), width, kSmallType);
    else
      mark.lines = {key_letter(keys, short_label(l.label))};
    const auto same = std::find_if(out.begin(), out.end(), [&](const EdgeMark& m) {
      return m.lines == mark.lines && std::abs(m.a - mark.a) < 0.3;
    });
    if (same == out.end())
      out.push_back(mark);
    else
      same->from_b = std::max(same->from_b, mark.from_b);
  }
  std::stable_sort(out.begin(), out.end(), [](const auto& x, const auto& y) { return x.a < y.a; });
  return out;
}

/// Where words may stand along the edges. Level words may hang over; the lines that lead to turned ones may
/// not, lest they run through the words at left and right.
Box number_room(const FlatLayout& f, const Box& box, bool level_words) {
  const double over = level_words ? 12 : kMarkWords - 1;
  return {f.edges.left - over, f.edges.top - 4, std::min(f.edges.right + over, box.right),
          f.edges.bottom + 7};
}

Box box_of(const FlatPath& path, const Viewport& view) {
  Box box{1e12, 1e12, -1e12, -1e12};
  for (const auto& p : path) {
    const PagePoint q = view.at(p.u, p.v);
    box.left = std::min(box.left, q.x), box.right = std::max(box.right, q.x);
    box.top = std::min(box.top, q.y), box.bottom = std::max(box.bottom, q.y);
  }
  return box;
}

/// Where across the face words that reach `half` to each side stand clear of holes and slits: at the first of
/// these shares of its width, or nowhere.
template <std::size_t N>
std::optional<double> clear_of_holes(const Piece& piece, const Viewport& view, const Box& face, double half,
                                     const double (&shares)[N]) {
  for (const double share : shares) {
    const double x = face.left + share * face.width();
    const auto near = [&](const FlatPath& path) {
      double left = 1e12, right = -1e12;
      for (const auto& p : path)
        left = std::min(left, view.at(p.u, p.v).x), right = std::max(right, view.at(p.u, p.v).x);
      return left < x + half && right > x - half;
    };
    if (std::none_of(piece.openings.begin(), piece.openings.end(),
                     [&](const Opening& o) { return near(o.hole) || near(o.slit); }))
      return x;
  }
  return {};
}

/// Words in the piece interrupt the lines that lead to its marks.
void ground(Drawing& page, PagePoint middle, double width, double height) {
  rectangle(page, {middle.x - width / 2, middle.y - height / 2, middle.x + width / 2, middle.y + height / 2},
            Pen::none, Fill::carpet);
}

/// The pile's arrow on the largest face, clear of its folds.
void draw_pile(Drawing& page, const FlatLayout& f, const Piece& piece, const Reader& reader) {
  Box largest;
  for (const auto& face : piece.faces) {
    const Box box = box_of(face.outline, f.view);
    if (!face.hidden && box.width() * box.height() > largest.width() * largest.height()) largest = box;
  }
  const double x = clear_of_holes(piece, f.view, largest, kArrowRoom, kArrows)
                       .value_or(largest.left + kArrows[0] * largest.width());
  const double shaft = std::min(0.7 * largest.height(), 24.0), y = largest.centre().y;
  ground(page, {x - 2.7, y}, 3.6, text_width(reader.say("pile"), kBodyType, true) + 0.6); // beside the shaft
  pile_arrow(page, {x, y - shaft / 2}, {x, y + shaft / 2}, reader);
}

void draw_names(Drawing& page, const FlatLayout& f, const Piece& piece, const Reader& reader) {
  for (const auto& face : piece.faces) {
    const Box box = box_of(face.outline, f.view);
    if (face.hidden || face.bend_rad != 0 || box.height() < 8 || box.width() < 40) continue;
    std::string name = reader.said(face.name);
    if (piece.steps.size() > 1) name += " " + std::to_string(face.step);
    const double width = text_width(name, kBodyType, false), y = box.centre().y;
    const auto clear = clear_of_holes(piece, f.view, box, width / 2 + 1, kNamesAt);
    if (!clear && piece.steps.empty()) continue; // a floor's heading names it
    const double x = clear.value_or(box.centre().x);
    ground(page, {x, y + 0.3}, width + 0.6, 3.8);
    write(page, {x, y + 1.3}, name, {kBodyType, false, false, Anchor::middle});
  }
  for (const auto& opening : piece.openings) {
    const Box box = box_of(opening.hole, f.view);
    if (opening.step > 0 || text_width(opening.what, kBodyType, false) > box.width() - 2) continue;
    write(page, {box.centre().x, box.centre().y + 1.3}, opening.what,
          {kBodyType, false, false, Anchor::middle});
  }
}

void draw_shape(Drawing& page, const FlatLayout& f, const Piece& piece, bool warning) {
  rectangle(page, f.edges, warning ? Pen::warning : Pen::knife, Fill::paper);
  page.paths.push_back(transformed(piece.outline, f.view, true, warning ? Pen::warning : Pen::none,
                                   warning ? Fill::warning : Fill::carpet));
  for (const auto& opening : piece.openings)
    page.paths.push_back(transformed(opening.hole, f.view, true, Pen::none, Fill::paper));
  if (!warning)
    for (const auto& e : edge_stretches(piece))
      if (e.pen != Pen::none) page.paths.push_back(transformed(e.points, f.view, false, e.pen));
  for (const auto& l : piece.lines)
    page.paths.push_back(transformed(l.points, f.view, false, pen_of(l)));
}

} // namespace

FlatLayout flat_layout(const Box& box, const Piece& piece, const std::vector<CornerDetail>& details,
                       const Reader& reader) {
  const auto points = dimensioned(piece, details);
  const double left =
      widest(running_marks(piece, dimensioned_along(piece, details), false, reader, {})) + kMarkWords + 1;
  const double turned = widest(running_marks(piece, points, true, reader, {})) + kMarkWords + 1;
  double names = 14, letters = 8; // what numbers at the corners may stand out
  for (const auto& l : piece.lines) {
    if (level(l) && !l.label.empty())
      names =
          std::max(names, std::min(text_width(reader.said(l.label), kSmallType, false), kNames - kMarkWords) +
                              kMarkWords + 1);
    if (lettered(l)) letters = std::max(letters, kLetters);
  }
  const auto rectangle = cut_rectangle(piece);
  const auto place = [&](double top) {
    FlatLayout f;
    const Box inner{box.left + left, box.top + top, box.right - names, box.bottom - letters};
    f.view = fit(inner, rectangle[0].u, rectangle[0].v, rectangle[2].u, rectangle[2].v);
    f.view.origin.y -= f.view.at(0, rectangle[0].v).y - inner.top; // at the top, not in the middle
    const PagePoint a = f.view.at(rectangle[0].u, rectangle[0].v),
                    b = f.view.at(rectangle[2].u, rectangle[2].v);
    f.edges = {a.x, a.y, b.x, b.y};
    f.bottom = b.y + letters;
    return f;
  };
  FlatLayout f = place(kMarkWords + kCutType);
  f.level_numbers = true;
  const Box room = number_room(f, box, true);
  if (fit_level(running_marks(piece, points, true, reader, f.view), room.left, room.right, kCutType))
    return f;
  return place(turned);
}

Keys flat_keys(const Piece& piece, const std::vector<CornerDetail>& details) {
  Keys keys = keys_of(piece, details);
  for (const auto& l : piece.lines)
    if (lettered(l) && std::find(keys.begin(), keys.end(), short_label(l.label)) == keys.end())
      keys.push_back(short_label(l.label));
  return keys;
}

void draw_flat(Drawing& page, const Box& box, const Piece& piece, const std::vector<CornerDetail>& details,
               const Keys& keys, const Reader& reader) {
  const FlatLayout f = flat_layout(box, piece, details, reader);
  const Box& edges = f.edges;
  draw_shape(page, f, piece, false);

  const auto points = dimensioned(piece, details);
  const Box room = number_room(f, box, f.level_numbers);
  draw_marks(page, running_marks(piece, points, true, reader, f.view), Edge::top, edges.top, room.left,
             room.right, kCutType, !f.level_numbers);
  draw_marks(page, running_marks(piece, dimensioned_along(piece, details), false, reader, f.view), Edge::left,
             edges.left, room.top, room.bottom, kCutType);
  const double names = box.right - edges.right - kMarkWords;
  draw_marks(page, name_marks(piece, details, f.view, true, keys, names, reader), Edge::right, edges.right,
             room.top, room.bottom, kSmallType);
  draw_marks(page, name_marks(piece, details, f.view, false, keys, names, reader), Edge::bottom, edges.bottom,
             room.left, room.right, kSmallType);
  draw_pile(page, f, piece, reader);
  draw_names(page, f, piece, reader);

  std::vector<PagePoint> centres;
  for (const auto& d : details) {
    const PagePoint a = f.view.at(d.u0, d.v0), b = f.view.at(d.u1, d.v1);
    rectangle(page, {a.x, a.y, b.x, b.y}, Pen::dimension);
    // Its letter stands toward the middle of the piece.
    centres.push_back({(a.x + b.x) / 2 > edges.centre().x ? a.x - 3.4 : b.x + 3.4, (a.y + b.y) / 2});
  }
  for (std::size_t i = 0; i < details.size(); ++i) { // on a ground of its own among the lines
    const PagePoint m = centres[i];
    rectangle(page, {m.x - 2.2, m.y - 2.2, m.x + 2.2, m.y + 2.8}, Pen::none, Fill::carpet);
    write(page, {m.x, m.y + 0.36 * kCutType}, details[i].name, {kCutType, true, false, Anchor::middle});
  }
}

void draw_flat_warning(Drawing& page, const Box& box, const Piece& piece, const Reader& reader) {
  const FlatLayout f = flat_layout(box, piece, {}, {LengthUnit::inch, reader.language});
  draw_shape(page, f, piece, true);
  draw_pile(page, f, piece, reader);
}

} // namespace treadfold
