#include "sheets/line_roles.h"

#include <algorithm>
#include <cassert>

namespace treadfold {

namespace {

constexpr double kKeyIndent = 4.2;

std::string words_of(Pen pen) {
  switch (pen) {
  case Pen::knife:
    return "rectangle to cut from the roll";
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
    return "trim on the stair, up to here";
  case Pen::strip:
    return "strip below";
  case Pen::glue:
    return "hot glue";
  default:
    assert(false && "a pen that no line of a piece is drawn with");
    return "";
  }
}

} // namespace

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

std::vector<LegendEntry> legend_of(const Piece& piece) {
  std::vector<LegendEntry> out{{Pen::knife, words_of(Pen::knife)}, {Pen::outline, words_of(Pen::outline)}};
  for (const auto& l : piece.lines) {
    const Pen pen = pen_of(l);
    if (std::none_of(out.begin(), out.end(), [&](const LegendEntry& e) { return e.pen == pen; }))
      out.push_back({pen, words_of(pen)});
  }
  return out;
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

double draw_keys(Drawing& page, const Box& box, int columns, const Keys& keys) {
  const auto n = static_cast<std::size_t>(columns), rows = (keys.size() + n - 1) / n;
  double left = box.left;
  for (std::size_t first = 0; first < keys.size(); first += rows) {
    double widest = 0;
    for (std::size_t i = first; i < std::min(first + rows, keys.size()); ++i) {
      const double y = box.top + leading(kSmallType) * static_cast<double>(i - first) + kSmallType;
      const std::string words = shortened(keys[i], box.right - left - kKeyIndent, kSmallType);
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

bool wants_letter(const FlatLine& line) {
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
