#include "sheets/template_words.h"

#include "units/steady.h"

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

constexpr double kClear = 0.7;             // mm between words and what is around them
constexpr double kUp = 0.73, kDown = 0.22; // of the em: above and below the baseline
constexpr double kRaster = 3;              // mm

using Quad = std::array<PagePoint, 4>;

Quad quad_of(const Text& text) {
  const double width = text_width(text.text, text.size_mm, text.bold);
  const double back = text.anchor == Anchor::left ? 0 : text.anchor == Anchor::middle ? width / 2 : width;
  const double angle = text.turn_deg * steady::acos(-1.0) / 180, c = steady::cos(angle),
               s = steady::sin(angle);
  const auto at = [&](double along, double below) {
    return PagePoint{text.at.x + along * c + below * s, text.at.y - along * s + below * c};
  };
  const double down = kDown * text.size_mm + kClear, up = kUp * text.size_mm + kClear;
  return {at(-back - kClear, down), at(width - back + kClear, down), at(width - back + kClear, -up),
          at(-back - kClear, -up)};
}

/// Does an edge of `quad` part it from all of `others`?
template <typename Points>
bool parts(const Quad& quad, const Points& others) {
  for (std::size_t i = 0; i < 4; ++i) {
    const PagePoint a = quad[i], b = quad[(i + 1) % 4];
    const double nx = a.y - b.y, ny = b.x - a.x; // outward: quad_of() runs so
    if (std::all_of(others.begin(), others.end(),
                    [&](PagePoint p) { return nx * (p.x - a.x) + ny * (p.y - a.y) >= 0; }))
      return true;
  }
  return false;
}

/// Does the line through `line` part the quad from it?
bool on_one_side(const Quad& quad, const std::array<PagePoint, 2>& line) {
  int left = 0, right = 0;
  for (const PagePoint& p : quad) {
    const double side =
        (line[1].x - line[0].x) * (p.y - line[0].y) - (line[1].y - line[0].y) * (p.x - line[0].x);
    ++(side > 0 ? left : right);
  }
  return left == 0 || right == 0;
}

} // namespace

void WordPlacer::keep_off(const std::vector<PagePoint>& path, bool closed) {
  for (std::size_t i = 0; i + (closed ? 0 : 1) < path.size(); ++i)
    lines_.push_back({path[i], path[(i + 1) % path.size()]});
}

bool WordPlacer::clear(const Quad& quad) const {
  const bool inside = std::all_of(quad.begin(), quad.end(), [&](PagePoint p) {
    return p.x >= room_.left && p.x <= room_.right && p.y >= room_.top && p.y <= room_.bottom;
  });
  return inside &&
         std::all_of(words_.begin(), words_.end(),
                     [&](const Quad& w) { return parts(quad, w) || parts(w, quad); }) &&
         std::all_of(lines_.begin(), lines_.end(),
                     [&](const auto& line) { return parts(quad, line) || on_one_side(quad, line); });
}

bool WordPlacer::set(Drawing& page, const Text& text) {
  const Quad quad = quad_of(text);
  if (!clear(quad)) return false;
  words_.push_back(quad);
  page.texts.push_back(text);
  return true;
}

bool WordPlacer::take(const Box& box) {
  const Quad quad{
      {{box.left, box.bottom}, {box.right, box.bottom}, {box.right, box.top}, {box.left, box.top}}};
  if (!clear(quad)) return false;
  words_.push_back(quad);
  return true;
}

std::optional<Box> WordPlacer::take_anywhere(const Box& within, double width, double height) {
  for (double y = within.top; y + height <= within.bottom; y += kRaster)
    for (double x = within.left; x + width <= within.right; x += kRaster)
      if (const Box box{x, y, x + width, y + height}; take(box)) return box;
  return std::nullopt;
}

bool WordPlacer::set_beside(Drawing& page, const std::vector<PagePoint>& path, Text text, bool along_only) {
  const double pi = steady::acos(-1.0), width = text_width(text.text, text.size_mm, text.bold);
  text.anchor = Anchor::middle;
  double whole = 0;
  std::vector<double> from;
  for (std::size_t i = 0; i + 1 < path.size(); ++i) {
    from.push_back(whole);
    whole += steady::hypot(path[i + 1].x - path[i].x, path[i + 1].y - path[i].y);
  }
  if (along_only && whole < width) return false;
  for (const double part : {0.5, 0.35, 0.65, 0.2, 0.8, 0.1, 0.9}) {
    const double at = part * whole;
    std::size_t i = 0;
    while (i + 1 < from.size() && from[i + 1] < at)
      ++i;
    const PagePoint a = path[i], b = path[i + 1];
    const double length = steady::hypot(b.x - a.x, b.y - a.y);
    if (length == 0) continue;
    double dx = (b.x - a.x) / length, dy = (b.y - a.y) / length;
    const PagePoint p{a.x + dx * (at - from[i]), a.y + dy * (at - from[i])};
    if (dx < -1e-9 || (std::abs(dx) <= 1e-9 && dy > 0))
      dx = -dx, dy = -dy; // read from below or from the right
    text.turn_deg = along_only || width > 2 * text.size_mm ? -steady::atan2(dy, dx) * 180 / pi : 0;
    const double gap = kClear + 0.5;
    for (const double off : {-(kDown * text.size_mm + gap), kUp * text.size_mm + gap}) {
      if (text.turn_deg != 0 || std::abs(dy) < 1e-9) {
        text.at = {p.x - dy * off, p.y + dx * off};
      } else { // a level letter beside a line that is not level
        const double beside = (off < 0 ? -1 : 1) * (width / 2 + gap + 0.4 * text.size_mm);
        text.at = {p.x - dy * beside, p.y + dx * beside + 0.36 * text.size_mm};
      }
      if (set(page, text)) return true;
    }
  }
  return false;
}

} // namespace treadfold
