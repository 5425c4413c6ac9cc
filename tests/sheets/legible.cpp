#include "legible.h"

#include <fmt/format.h>

#include "sheets/lettering.h"

#include <algorithm>
#include <cmath>
#include <cstdio>

namespace treadfold {

namespace {

using Quad = std::array<PagePoint, 4>;

std::string quoted(const Text& text) { return "'" + text.text + "'"; }

/// Is there a straight line between the two? (Separating axes of both.)
bool apart(const Quad& a, const Quad& b) {
  for (const Quad* q : {&a, &b})
    for (int i = 0; i < 2; ++i) {
      const double nx = (*q)[i + 1].y - (*q)[i].y, ny = (*q)[i].x - (*q)[i + 1].x;
      const auto reach = [&](const Quad& of) {
        double least = 1e300, most = -1e300;
        for (const PagePoint& p : of) {
          least = std::min(least, nx * p.x + ny * p.y);
          most = std::max(most, nx * p.x + ny * p.y);
        }
        return std::array{least, most};
      };
      const auto ra = reach(a), rb = reach(b);
      if (ra[1] <= rb[0] || rb[1] <= ra[0]) return true;
    }
  return false;
}

/// Does the stretch from p to q run through the inside of the quad?
bool runs_through(PagePoint p, PagePoint q, const Quad& quad) {
  double enter = 0, leave = 1;
  for (std::size_t i = 0; i < 4; ++i) {
    const PagePoint a = quad[i], b = quad[(i + 1) % 4];
    const double nx = a.y - b.y, ny = b.x - a.x; // covered_by() runs so that this points outward
    const double dp = nx * (p.x - a.x) + ny * (p.y - a.y), dq = nx * (q.x - a.x) + ny * (q.y - a.y);
    if (dp >= 0 && dq >= 0) return false;
    if (dp > 0)
      enter = std::max(enter, dp / (dp - dq));
    else if (dq > 0)
      leave = std::min(leave, dp / (dp - dq));
  }
  return enter < leave;
}

/// Is p inside the closed path (even-odd)?
bool inside(PagePoint p, const std::vector<PagePoint>& outline) {
  bool in = false;
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const PagePoint a = outline[i], b = outline[(i + 1) % outline.size()];
    if ((a.y > p.y) != (b.y > p.y) && p.x < a.x + (b.x - a.x) * (p.y - a.y) / (b.y - a.y)) in = !in;
  }
  return in;
}

/// Where the marks begin that can be seen through `quad`: at the last fill that lies under all of it.
std::size_t ground_of(const Quad& quad, const std::vector<Path>& paths) {
  for (std::size_t i = paths.size(); i-- > 0;)
    if (paths[i].closed && paths[i].fill != Fill::none && paths[i].fill != Fill::ink &&
        std::all_of(quad.begin(), quad.end(), [&](PagePoint p) { return inside(p, paths[i].points); }))
      return i;
  return 0;
}

} // namespace

std::array<PagePoint, 4> covered_by(const Text& text) {
  const double width = text_width(text.text, text.size_mm, text.bold);
  const double back = text.anchor == Anchor::left ? 0 : text.anchor == Anchor::middle ? width / 2 : width;
  const double angle = text.turn_deg * std::acos(-1.0) / 180, c = std::cos(angle), s = std::sin(angle);
  const double down = 0.207 * text.size_mm, up = 0.718 * text.size_mm; // Helvetica.afm: Descender, Ascender
  const auto at = [&](double along, double below) {
    return PagePoint{text.at.x + along * c + below * s, text.at.y - along * s + below * c};
  };
  return {at(-back, down), at(width - back, down), at(width - back, -up), at(-back, -up)};
}

std::vector<std::string> faults_of(const Drawing& page, double margin_mm) {
  std::vector<std::string> faults;
  const auto inside = [&](PagePoint p) {
    return p.x >= margin_mm && p.y >= margin_mm && p.x <= page.width_mm - margin_mm &&
           p.y <= page.height_mm - margin_mm;
  };
  std::vector<Quad> quads;
  for (const Text& text : page.texts) {
    quads.push_back(covered_by(text));
    if (!std::all_of(quads.back().begin(), quads.back().end(), inside))
      faults.push_back(quoted(text) + " leaves the page");
    if (printable(text.text) != text.text) faults.push_back(quoted(text) + " has signs the face lacks");
  }
  for (const Path& path : page.paths)
    for (const PagePoint& p : path.points)
      if (!inside(p)) {
        faults.push_back("a line leaves the page at " + std::to_string(p.x) + ", " + std::to_string(p.y));
        break;
      }
  for (std::size_t i = 0; i < quads.size(); ++i)
    for (std::size_t j = i + 1; j < quads.size(); ++j)
      if (!apart(quads[i], quads[j]))
        faults.push_back(quoted(page.texts[i]) + " overlaps " + quoted(page.texts[j]));
  return faults;
}

std::vector<std::string> struck_words(const Drawing& page) {
  std::vector<std::string> faults;
  for (const Text& text : page.texts) {
    const Quad quad = covered_by(text);
    for (std::size_t k = ground_of(quad, page.paths); k < page.paths.size(); ++k) {
      const Path& path = page.paths[k];
      if (path.stroke == Pen::none || path.points.size() < 2) continue;
      bool struck = false;
      for (std::size_t i = 0; i + 1 < path.points.size() + (path.closed ? 1 : 0); ++i)
        struck = struck || runs_through(path.points[i], path.points[(i + 1) % path.points.size()], quad);
      if (struck) {
        faults.push_back(fmt::format("a line of pen {} from ({:.1f}, {:.1f}) runs through {} at ({:.1f}, "
                                     "{:.1f}), size {:.1f}, turned {:.0f}; {} points to ({:.1f}, {:.1f})",
                                     static_cast<int>(path.stroke), path.points[0].x, path.points[0].y,
                                     quoted(text), text.at.x, text.at.y, text.size_mm, text.turn_deg,
                                     path.points.size(), path.points[1].x, path.points[1].y));
        break;
      }
    }
  }
  return faults;
}

} // namespace treadfold
