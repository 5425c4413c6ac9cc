#include "sheets/line_roles.h"

#include "sheets/running.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>

namespace treadfold {

namespace {

constexpr double kKeyIndent = 4.2;

constexpr double kOnLine = 0.05; // mm

/// Where the piece is left long for the stair.
bool stays_long(const FlatLine& line) {
  return line.role == LineRole::tuck || line.role == LineRole::trim ||
         (line.role == LineRole::seam &&
          (line.label.starts_with("seam to the landing") || line.label.starts_with("seam to the floor")));
}

double distance_to(FlatPoint p, FlatPoint a, FlatPoint b, bool prolonged) {
  const double du = b.u - a.u, dv = b.v - a.v, square = du * du + dv * dv;
  double t = square > 0 ? ((p.u - a.u) * du + (p.v - a.v) * dv) / square : 0;
  if (!prolonged) t = std::clamp(t, 0.0, 1.0);
  return steady::hypot(p.u - a.u - t * du, p.v - a.v - t * dv);
}

bool on(const FlatLine& line, FlatPoint p) {
  for (std::size_t i = 0; i + 1 < line.points.size(); ++i)
    if (distance_to(p, line.points[i], line.points[i + 1], false) < kOnLine) return true;
  return false;
}

bool prolongs(FlatPoint a, FlatPoint b, const FlatLine& line) {
  for (std::size_t i = 0; i + 1 < line.points.size(); ++i)
    if (distance_to(a, line.points[i], line.points[i + 1], true) < kOnLine &&
        distance_to(b, line.points[i], line.points[i + 1], true) < kOnLine)
      return true;
  return false;
}

Pen pen_of_edge(const Piece& piece, FlatPoint a, FlatPoint b) {
  double foot = a.v;
  for (const auto& p : piece.outline)
    foot = std::max(foot, p.v);
  const auto along = [&](FlatPoint p) {
    return std::any_of(piece.lines.begin(), piece.lines.end(),
                       [&](const FlatLine& l) { return stays_long(l) && on(l, p); });
  };
  for (const auto& line : piece.lines) {
    if (!stays_long(line) || !prolongs(a, b, line)) continue;
    const bool at_foot = !piece.steps.empty() && foot - a.v < kOnLine && foot - b.v < kOnLine;
    if (!at_foot && !(along(a) && along(b))) continue;
    return along({(a.u + b.u) / 2, (a.v + b.v) / 2}) ? Pen::none : pen_of(line);
  }
  return Pen::outline;
}

} // namespace

std::vector<DrawnStretch> edge_stretches(const Piece& piece) {
  const FlatPath outline = without_repeats(piece.outline, true);
  std::vector<DrawnStretch> out;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const FlatPoint a = outline[i], b = outline[(i + 1) % outline.size()];
    const Pen pen = pen_of_edge(piece, a, b);
    if (out.empty() || out.back().pen != pen) out.push_back({{a}, pen});
    out.back().points.push_back(b);
  }
  if (out.size() > 1 && out.front().pen == out.back().pen) { // the ring closes within a stretch
    out.back().points.insert(out.back().points.end(), out.front().points.begin() + 1,
                             out.front().points.end());
    out.erase(out.begin());
  }
  return out;
}

std::string legend_words(Pen pen, const Reader& reader) {
  switch (pen) {
  case Pen::knife:
    return reader.say("rectangle to cut from the roll");
  case Pen::outline:
    return reader.say("cut here: edge of the piece");
  case Pen::fold_under:
    return reader.say("fold down, pile outside");
  case Pen::fold_up:
    return reader.say("fold up, pile inside");
  case Pen::cut:
    return reader.say("cut");
  case Pen::seam:
    return reader.say("edges that meet");
  case Pen::hem:
    return reader.say("hem, folds under itself");
  case Pen::tuck:
    return reader.say("tuck, with a stair tool");
  case Pen::trim:
    return reader.say("trim on the stair, up to here");
  case Pen::strip:
    return reader.say("strip below");
  case Pen::glue:
    return reader.say("hot glue");
  default:
    assert(false && "a pen that no line of a piece is drawn with");
    return "";
  }
}

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

std::vector<LegendEntry> legend_of(const Piece& piece, const Reader& reader) {
  std::vector<LegendEntry> out{{Pen::knife, legend_words(Pen::knife, reader)}};
  const auto edges = edge_stretches(piece);
  if (std::any_of(edges.begin(), edges.end(), [](const DrawnStretch& e) { return e.pen == Pen::outline; }))
    out.push_back({Pen::outline, legend_words(Pen::outline, reader)});
  for (const auto& l : piece.lines) {
    const Pen pen = pen_of(l);
    if (std::none_of(out.begin(), out.end(), [&](const LegendEntry& e) { return e.pen == pen; }))
      out.push_back({pen, legend_words(pen, reader)});
  }
  return out;
}

double legend_height(double width, const std::vector<LegendEntry>& legend) {
  Drawing nowhere;
  return draw_legend(nowhere, 0, width, 0, legend);
}

double draw_legend(Drawing& page, double left, double right, double top,
                   const std::vector<LegendEntry>& legend) {
  const double sample = 13, gap = 5, row = leading(kSmallType) + 0.6;
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

double keys_height(std::size_t count, int columns) {
  const auto n = static_cast<std::size_t>(columns);
  return leading(kSmallType) * static_cast<double>((count + n - 1) / n);
}

double draw_keys(Drawing& page, const Box& box, int columns, const Keys& keys, const Reader& reader) {
  const auto n = static_cast<std::size_t>(columns), rows = (keys.size() + n - 1) / n;
  double left = box.left;
  for (std::size_t first = 0; first < keys.size(); first += rows) {
    double widest = 0;
    for (std::size_t i = first; i < std::min(first + rows, keys.size()); ++i) {
      const double y = box.top + leading(kSmallType) * static_cast<double>(i - first) + kSmallType;
      const std::string words = shortened(reader.said(keys[i]), box.right - left - kKeyIndent, kSmallType);
      write(page, {left, y}, key_letter(keys, keys[i]), {kSmallType, true});
      write(page, {left + kKeyIndent, y}, words, {kSmallType});
      widest = std::max(widest, text_width(words, kSmallType, false));
    }
    left += std::max(kKeyIndent + widest + 3, 0.4 * box.width());
  }
  return box.top + keys_height(keys.size(), columns);
}

std::string key_letter(const Keys& keys, const std::string& label) {
  const auto at = std::find(keys.begin(), keys.end(), label) - keys.begin();
  std::string letters(1, static_cast<char>('a' + at % 26));
  if (at >= 26) letters += letters; // aa, bb …
  return letters;
}

std::string short_label(const std::string& label) {
  std::string out = label.substr(0, label.find(", step"));
  for (const std::string side : {", left", ", right"})
    if (out.ends_with(side)) out.resize(out.size() - side.size());
  return out;
}

bool is_relief(const FlatLine& line) { return line.label.starts_with("relief cut"); }

bool wants_letter(const FlatLine& line) {
  if (is_relief(line)) return false;
  switch (line.role) {
  case LineRole::fold:
  case LineRole::cut:
  case LineRole::seam:
    return !line.label.empty();
  default:
    return false;
  }
}

} // namespace treadfold
