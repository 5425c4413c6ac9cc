#include "sheets/edge_marks.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr double kKink = 4.5;    // from the edge: where the kinked line ends
constexpr double kRow = 1.12;    // of the type's size, from one line of words to the next
constexpr double kApart = 2.2;   // mm between words side by side
constexpr double kFarthest = 17; // mm that level words may stand away from their mark

double widest(const std::vector<EdgeMark>& marks, double size_mm) {
  double width = 0;
  for (const auto& m : marks)
    for (const auto& text : m.lines)
      width = std::max(width, text_width(text, size_mm, m.bold));
  return width;
}

std::vector<double> wanted_places(const std::vector<EdgeMark>& marks) {
  std::vector<double> wanted;
  for (const auto& m : marks)
    wanted.push_back(m.a);
  return wanted;
}

} // namespace

std::vector<double> spread(const std::vector<double>& wanted, double gap, double least, double most) {
  // Least squares under order: with the gaps taken off, neighbours out of order pool into their mean.
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

bool fit_level(const std::vector<EdgeMark>& marks, double least, double most, double size_mm) {
  const double gap = widest(marks, size_mm) + kApart;
  if (gap * static_cast<double>(marks.size()) > most - least) return false;
  const auto wanted = wanted_places(marks);
  const auto places = spread(wanted, gap, least + gap / 2, most - gap / 2);
  for (std::size_t i = 0; i < marks.size(); ++i)
    if (std::abs(places[i] - wanted[i]) > kFarthest) return false;
  return true;
}

double draw_marks(Drawing& page, const std::vector<EdgeMark>& marks, Edge edge, double edge_b, double least,
                  double most, double size_mm, bool turned) {
  if (marks.empty()) return least;
  const bool vertical = edge == Edge::left || edge == Edge::right;
  const double out = edge == Edge::top || edge == Edge::left ? -1 : 1;
  std::size_t deepest = 1;
  for (const auto& m : marks)
    deepest = std::max(deepest, m.lines.size());
  double size = size_mm, gap = 0;
  if (vertical || turned) {
    const double rows = kRow * static_cast<double>(deepest);
    size = std::clamp((most - least) / static_cast<double>(marks.size()) / rows, 2.2, size_mm);
    gap = rows * size;
  } else {
    gap = widest(marks, size) + kApart;
  }
  const auto places = spread(wanted_places(marks), gap, least + gap / 2, most - gap / 2);
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
    const double b = edge_b + out * kMarkWords, low = 0.36 * size;
    for (std::size_t k = 0; k < m.lines.size(); ++k) {
      const double shift =
          (static_cast<double>(k) - static_cast<double>(m.lines.size() - 1) / 2) * kRow * size;
      Text text{{}, size, m.lines[k], Anchor::middle, m.bold, 0, false};
      if (vertical)
        text.at = {b, place + low + shift}, text.anchor = edge == Edge::left ? Anchor::right : Anchor::left;
      else if (turned)
        text.at = {place + low + shift, b}, text.anchor = edge == Edge::top ? Anchor::left : Anchor::right,
        text.turn_deg = 90;
      else // the last line of words next to the edge at top, the first at the bottom
        text.at = {place, b + shift + (edge == Edge::bottom ? 0.5 * size : 0)};
      page.texts.push_back(text);
    }
  }
  return places.back() + gap / 2;
}

std::vector<EdgeMark> running_marks(const Piece& piece, const std::vector<FlatPoint>& points, bool across,
                                    LengthUnit unit, const Viewport& view) {
  const FlatPoint origin = cut_corner(piece);
  std::vector<EdgeMark> out;
  for (const auto& r : running_dimensions(piece, points, across, unit)) {
    const PagePoint p = across ? view.at(origin.u + r.at_mm, origin.v + r.reach_mm)
                               : view.at(origin.u + r.reach_mm, origin.v + r.at_mm);
    out.push_back({across ? p.x : p.y, across ? p.y : p.x, {r.text}, true});
  }
  return out;
}

} // namespace treadfold
