#include "sheets/folded_view.h"

#include "sheets/edge_marks.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kWords = 46; // mm beside the strip for words at one side
constexpr double kRow = 1.25 * kBodyType;

/// A line across the strip, and what it is called at its edges; an edge without a word has no mark.
struct Across {
  FlatPoint left, right;
  Pen pen;
  std::string left_word, right_word;
  bool bold = true;
};

const RunnerPleat* pleat_of(const Piece& piece, int step) {
  for (const auto& pleat : piece.runner->pleats)
    if (pleat.step == step) return &pleat;
  return nullptr;
}

double foot_end(const Piece& piece) { return piece.net_origin.v + (piece.net_length + piece.trim_foot).mm(); }

Across across(const RunnerLine& line, Pen pen, const std::string& word) {
  return {line.left, line.right, pen, word, word};
}

/// What lies in the crotch below a mark of the strip, from the top.
void add_crotch(std::vector<Across>& lines, const Piece& piece, std::size_t mark, const Reader& reader) {
  const auto& marks = piece.runner->marks;
  const auto &above = marks[mark], &below = marks[mark + 1];
  const auto* pleat = pleat_of(piece, above.step);
  if (!pleat) {
    const auto middle = [](FlatPoint p, FlatPoint q) { return FlatPoint{(p.u + q.u) / 2, (p.v + q.v) / 2}; };
    lines.push_back({middle(above.foot.left, below.back.left), middle(above.foot.right, below.back.right),
                     Pen::tuck, reader.say("crotch"), reader.say("crotch")});
    return;
  }
  const auto last = pleat->creases.size() - 1;
  for (std::size_t k = 0; k <= last; ++k) {
    const auto& crease = pleat->creases[k];
    const std::string word = k == 0       ? reader.say("foot {}", above.step)
                             : k == last  ? reader.say("back {}", below.step)
                             : k % 2 == 1 ? reader.say("top")
                                          : reader.say("crotch");
    const std::string point = k == 0 ? reader.say("foot {}, back {}", above.step, below.step) : std::string();
    const Pen pen = k % 2 == 1 ? Pen::fold_up : Pen::tuck;
    if (pleat->narrow_left)
      lines.push_back({crease[1], crease[0], pen, word, point, k % 2 == 0});
    else
      lines.push_back({crease[0], crease[1], pen, point, word, k % 2 == 0});
  }
}

std::vector<Across> lines_of(const Piece& piece, std::size_t first, std::size_t last, const Reader& reader) {
  const auto& marks = piece.runner->marks;
  std::vector<Across> lines;
  if (first > 0)
    lines.push_back(across(marks[first].back, Pen::tuck, reader.say("back {}", marks[first].step)));
  else if (piece.trim_back > Length{})
    lines.push_back(across(marks.front().back, Pen::hem, reader.say("net")));
  for (std::size_t i = first; i <= last; ++i) {
    lines.push_back(across(marks[i].nosing, Pen::fold_under, reader.say("nosing {}", marks[i].step)));
    if (i + 1 < marks.size())
      add_crotch(lines, piece, i, reader);
    else
      lines.push_back(across(marks[i].foot, Pen::tuck, reader.say("foot {}", marks[i].step)));
  }
  return lines;
}

/// The highest and the lowest v of what a page shows.
std::pair<double, double> reach(const Piece& piece, std::size_t first, std::size_t last) {
  const auto& marks = piece.runner->marks;
  const double zero = foot_end(piece);
  const auto &top = marks[first].back, &low = marks[std::min(last + 1, marks.size() - 1)].back;
  constexpr double kBeyond_mm = 40; // where the strip goes on overleaf
  return {first == 0 ? zero - piece.cut_length.mm() : std::min(top.left.v, top.right.v) - kBeyond_mm,
          last + 1 == marks.size() ? zero : std::max(low.left.v, low.right.v) + kBeyond_mm};
}

std::vector<std::string> cells(const RunnerLine& line, LengthUnit unit) {
  return {show_length(from_mm(line.bare_left_mm), unit), show_length(from_mm(line.bare_right_mm), unit)};
}

struct Row {
  int low = 0, high = 0;
  std::vector<std::string> cells;
};

/// Steps that read alike are one row; highest first.
std::vector<Row> bare_rows(const Piece& piece, LengthUnit unit) {
  std::vector<Row> rows;
  for (const auto& mark : piece.runner->marks) {
    Row row{mark.step, mark.step, cells(mark.foot, unit)};
    for (const auto* line : {&mark.nosing, &mark.back})
      for (auto& cell : cells(*line, unit))
        row.cells.push_back(std::move(cell));
    if (!rows.empty() && rows.back().cells == row.cells)
      rows.back().low = row.low;
    else
      rows.push_back(std::move(row));
  }
  return rows;
}

std::vector<Row> pleat_rows(const Piece& piece, const Reader& reader) {
  const LengthUnit unit = reader;
  std::vector<Row> rows;
  for (const auto& p : piece.runner->pleats) {
    const auto jog = show_length(from_mm(std::abs(p.jog_mm)), unit);
    rows.push_back(
        {p.step,
         p.step,
         {p.tucks == 1 ? reader.say("one") : reader.say("two"), show_length(from_mm_up(p.depth_mm), unit),
          p.jog_mm > 0 ? reader.say("{} wider", jog) : reader.say("{} narrower", jog),
          p.snip_mm > 0 ? show_length(from_mm_up(p.snip_mm), unit) : reader.say("none")}});
  }
  return rows;
}

double draw_rows(Drawing& page, const Box& box, const std::string& title,
                 const std::vector<std::string>& heads, const std::vector<Row>& rows, const Reader& reader) {
  double y = paragraph(page, box.left, box.right, box.top, title, {kBodyType, true}) + 1;
  const double first = 0.14 * box.width(),
               column = (box.width() - first) / static_cast<double>(heads.size() - 1);
  const auto right = [&](std::size_t i) { return box.left + first + static_cast<double>(i + 1) * column; };
  write(page, {box.left, y + kSmallType}, heads[0], {kSmallType, true});
  for (std::size_t i = 1; i < heads.size(); ++i)
    write(page, {right(i - 1), y + kSmallType}, heads[i], {kSmallType, true, false, Anchor::right});
  y += kSmallType + 1;
  line(page, {box.left, y}, {box.right, y}, Pen::dimension);
  for (const auto& row : rows) {
    y += kRow;
    write(page, {box.left, y},
          row.low == row.high ? std::to_string(row.low) : reader.say("{} to {}", row.low, row.high),
          {kBodyType});
    for (std::size_t i = 0; i < row.cells.size(); ++i)
      write(page, {right(i), y}, row.cells[i], {kBodyType, true, false, Anchor::right});
  }
  return y + 4;
}

} // namespace

double draw_folded_strip(Drawing& page, const Box& box, const Piece& piece, std::size_t first,
                         std::size_t last, const Reader& reader) {
  const auto& marks = piece.runner->marks;
  const auto [from, to] = reach(piece, first, last);
  const double u0 = piece.net_origin.u, u1 = u0 + piece.net_width.mm(), zero = foot_end(piece);
  const double heads = 2 * leading(kSmallType);
  const Viewport view =
      fit({box.left + kWords, box.top + heads, box.right - kWords, box.bottom}, u0, from, u1, to);
  const PagePoint a = view.at(u0, from), b = view.at(u1, to);
  rectangle(page, {a.x, a.y, b.x, b.y}, Pen::outline, Fill::carpet);

  std::vector<EdgeMark> left, right;
  const auto mark = [&](std::vector<EdgeMark>& edge, double v, const std::string& word, bool bold) {
    const double at = view.at(0, v).y;
    const auto length = show_length(from_mm(zero - v), reader, true);
    edge.push_back({at, at, {word.empty() ? length : length + " " + word}, bold});
  };
  if (first == 0)
    for (auto* edge : {&left, &right})
      mark(*edge, from, reader.say("end"), false);
  for (const auto& l : lines_of(piece, first, last, reader)) {
    line(page, view.at(l.left.u, l.left.v), view.at(l.right.u, l.right.v), l.pen);
    if (!l.left_word.empty()) mark(left, l.left.v, l.left_word, l.bold);
    if (!l.right_word.empty()) mark(right, l.right.v, l.right_word, l.bold);
  }
  for (const auto& l : piece.lines) {
    const bool here = !l.points.empty() && l.points[0].v > from && l.points[0].v < to;
    if (here && (l.label.starts_with("snip") || l.label.starts_with("corner")))
      page.paths.push_back(transformed(l.points, view, false, pen_of(l)));
  }
  for (std::size_t i = first; i <= last; ++i) { // on the longer of tread and drop
    const auto middle = [](const RunnerLine& l) { return (l.left.v + l.right.v) / 2; };
    const double back = middle(marks[i].back), over = middle(marks[i].nosing), low = middle(marks[i].foot);
    const PagePoint m =
        view.at((u0 + u1) / 2, over - back > 0.8 * (low - over) ? (back + over) / 2 : (over + low) / 2);
    write(page, {m.x, m.y + 0.36 * kBodyType}, fmt::format("{}", marks[i].step),
          {kBodyType, true, false, Anchor::middle});
  }
  if (last + 1 == marks.size())
    for (auto* edge : {&left, &right})
      mark(*edge, to, reader.say("end"), false);
  for (auto* edge : {&left, &right}) {
    std::stable_sort(edge->begin(), edge->end(),
                     [](const EdgeMark& p, const EdgeMark& q) { return p.a < q.a; });
    for (auto& m : *edge)
      m.from_b = edge == &left ? a.x : b.x;
  }
  draw_marks(page, left, Edge::left, a.x, box.top + heads, box.bottom, kBodyType);
  draw_marks(page, right, Edge::right, b.x, box.top + heads, box.bottom, kBodyType);
  write(page, {a.x - kMarkWords, box.top + kSmallType}, reader.say("left edge"),
        {kSmallType, true, false, Anchor::right});
  write(page, {b.x + kMarkWords, box.top + kSmallType}, reader.say("right edge"), {kSmallType, true});
  return b.y;
}

std::vector<LegendEntry> folded_legend(const Piece& piece, const Reader& reader) {
  std::vector<LegendEntry> out{{Pen::fold_under, reader.say("over a nosing; corner behind a fold")},
                               {Pen::tuck, reader.say("into a crotch")}};
  if (!piece.runner->pleats.empty())
    out.push_back({Pen::fold_up, reader.say("top of a tuck behind the riser")});
  const auto& pleats = piece.runner->pleats;
  if (std::any_of(pleats.begin(), pleats.end(), [](const RunnerPleat& p) { return p.snip_mm > 0; }))
    out.push_back({Pen::cut, reader.say("snip")});
  if (piece.trim_back > Length{}) out.push_back({Pen::hem, reader.say("net at the top")});
  return out;
}

double draw_folded_tables(Drawing& page, const Box& box, const Piece& piece, const Reader& reader) {
  Box rest = box;
  const auto right = reader.say("right");
  rest.top = draw_rows(page, rest, reader.say("Bare wood beside it, at its left and at its right"),
                       {reader.say("steps"), reader.say("riser, left"), right, reader.say("nosing, left"),
                        right, reader.say("back, left"), right},
                       bare_rows(piece, reader), reader);
  if (piece.runner->pleats.empty()) return rest.top;
  return draw_rows(page, rest, reader.say("Folded up behind the risers, at the narrow edge"),
                   {reader.say("riser of"), reader.say("tucks"), reader.say("deep"),
                    reader.say("the tread below is"), reader.say("snip")},
                   pleat_rows(piece, reader), reader);
}

} // namespace treadfold
