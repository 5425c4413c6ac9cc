#include "sheets/fixing_view.h"

#include "measure/uprights.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>
#include <numbers>

namespace treadfold {

std::vector<PlanPoint> strip_outline(const StripPiece& piece, double width_mm) {
  const auto run = [&](double angle_deg) { // by which the front edge is longer
    return angle_deg == 90 ? 0.0 : width_mm / steady::tan(angle_deg * std::numbers::pi / 180);
  };
  const double from = piece.from.mm(), to = piece.to.mm();
  const double left = run(piece.left_angle_deg), right = run(piece.right_angle_deg);
  return {{from + std::max(0.0, left), 0},
          {to - std::max(0.0, right), 0},
          {to + std::min(0.0, right), width_mm},
          {from - std::min(0.0, left), width_mm}};
}

std::string end_cut(const Reader& reader, double angle_deg) {
  if (std::abs(angle_deg - 90) < 0.5) return {};
  if (angle_deg < 90) return fmt::format("{:.0f}°", angle_deg);
  return reader.say("{:.0f}° (long behind)", 180 - angle_deg);
}

namespace {

std::string angle_words(const Reader& reader, const StripPiece& s) {
  const auto left = end_cut(reader, s.left_angle_deg), right = end_cut(reader, s.right_angle_deg);
  if (left.empty() && right.empty()) return {};
  if (left == right) return ", " + reader.say("both ends {}", left);
  std::string text;
  if (!left.empty()) text += ", " + reader.say("left end {}", left);
  if (!right.empty()) text += ", " + reader.say("right end {}", right);
  return text;
}

/// A strip on the tread in the view's (x, depth): along the next riser, which need not be square.
std::vector<PlanPoint> on_tread(const StripPiece& strip, const Step& step, double width_mm) {
  const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
  const double length = steady::hypot(right.x - left.x, right.y - left.y);
  const PlanPoint along{(right.x - left.x) / length, (right.y - left.y) / length};
  auto outline = strip_outline(strip, width_mm);
  for (auto& p : outline) {
    const double off = strip.set_off.mm() + p.y;
    p = {left.x + p.x * along.x + off * along.y, step.going.mm() - (left.y + p.x * along.y - off * along.x)};
  }
  return outline;
}

/// A curved front's edge in the view's (x, depth), left to right.
std::vector<PlanPoint> curved_edge(const Step& step) {
  constexpr double kFine_mm = 0.2;
  std::vector<PlanPoint> edge;
  for (const auto& p : facets(step.starter->front.edge, kFine_mm))
    edge.push_back({p.at.x, step.going.mm() - p.at.y});
  return edge;
}

/// The tread's wood from above in (x, depth): walls, ends, next riser.
std::vector<PlanPoint> tread_wood(const Step& step) {
  const double front = -step.nosing.projection.mm();
  std::vector<PlanPoint> outline;
  if (step.starter) {
    outline = curved_edge(step);
    for (const double x : {step.width.mm(), 0.0})
      outline.push_back({x, 0}); // at the next riser
    return outline;
  }
  const auto side = [&](Hand hand) {
    const auto& s = hand == Hand::left ? step.left : step.right;
    auto line = side_line(step, hand);
    if (!s.closed()) { // the end runs beside the stringer's face
      const double dx = line[1].x - line[0].x, dy = line[1].y - line[0].y, sign = hand == Hand::left ? -1 : 1;
      const double off = sign * s.overhang.mm() / steady::hypot(dx, dy);
      for (auto& p : line)
        p = {p.x + off * dy, p.y - off * dx};
    }
    if (step.landing()) // whose sides run square to the riser in front of it
      line.insert(line.begin(), {line[0].x, front});
    else
      line[0] = {side_x(line, front), front};
    return line;
  };
  outline = side(Hand::right);
  const auto left = side(Hand::left);
  outline.insert(outline.end(), left.rbegin(), left.rend());
  for (auto& p : outline)
    p.y = step.going.mm() - p.y;
  return outline;
}

/// ", 1 1/2\" short of the right end": where the hem will lie, or wood stay bare.
std::string short_of(const StripPiece& s, const Step& step, const Reader& reader) {
  const Length left = s.from, right = step.width - s.to;
  if (left > Length{} && left == right)
    return ", " + reader.say("{} short of both ends", show_length(left, reader));
  std::string text;
  if (left > Length{}) text += ", " + reader.say("{} short of the left end", show_length(left, reader));
  if (right > Length{}) text += ", " + reader.say("{} short of the right end", show_length(right, reader));
  return text;
}

/// Of the area within.
PlanPoint centroid(const std::vector<PlanPoint>& corners) {
  PlanPoint sum{0, 0};
  double twice = 0;
  for (std::size_t i = 0; i < corners.size(); ++i) {
    const auto &p = corners[i], &q = corners[(i + 1) % corners.size()];
    const double cross = p.x * q.y - q.x * p.y;
    twice += cross;
    sum.x += (p.x + q.x) * cross, sum.y += (p.y + q.y) * cross;
  }
  return {sum.x / (3 * twice), sum.y / (3 * twice)};
}

} // namespace

void draw_fixings(Drawing& page, const Box& box, const Step& step, const Fixings& fixings,
                  const TackStrip& strip, const Reader& reader) {
  const double going = step.going.mm(), out = step.nosing.projection.mm(), width = step.width.mm();
  const double strip_width = strip.width.mm();
  const auto wood = tread_wood(step);
  double left = 0, right = 0; // past the riser's ends
  for (const auto& p : wood)
    left = std::max(left, -p.x), right = std::max(right, p.x - width);
  double pad_from = 0; // depth on the tread at which the pad starts
  for (const auto& s : fixings.strips)
    if (s.place == StripPlace::tread && step.rectangular()) pad_from = s.set_off.mm() + strip_width;
  if (step.landing()) pad_from = going;     // the rest of the landing's pad is its floor's
  double lowest = going + out, highest = 0; // depths
  for (const auto& p : wood)
    highest = std::min(highest, p.y); // a curved front may come round behind the next riser
  for (const auto& p : fixings.pad.outline)
    lowest = std::max(lowest, pad_from + p.y), highest = std::min(highest, pad_from + p.y);

  // Words stand above each of the two views; the drawing shares what they leave.
  const double words = leading(kSmallType), between = words + 1.6;
  const double model_height = lowest + step.rise.mm();
  const Box inner{box.left, box.top + words + 1, box.right, box.bottom - between};
  const Viewport scale = fit(inner, -left, highest, width + right, model_height);
  const Viewport tread = scale;
  Viewport riser = scale; // flat v: height runs up
  riser.origin.y = scale.at(0, lowest).y + between;

  const auto fill = [&](const Viewport& view, double u0, double v0, double u1, double v1) {
    const PagePoint a = view.at(u0, v0), b = view.at(u1, v1);
    rectangle(page, {a.x, a.y, b.x, b.y}, Pen::hairline, Fill::wood);
  };
  Path tread_path{{}, true, Pen::hairline, Fill::wood};
  for (const auto& p : wood)
    tread_path.points.push_back(tread.at(p.x, p.y));
  page.paths.push_back(tread_path);
  fill(riser, 0, 0, width, step.rise.mm());
  if (!fixings.pad.outline.empty()) {
    Path pad{{}, true, Pen::outline, Fill::pad};
    for (const auto& p : fixings.pad.outline)
      pad.points.push_back(tread.at(p.x, pad_from + p.y));
    page.paths.push_back(pad);
  }
  for (const auto& upright : step.uprights) {
    Path post{{}, true, Pen::outline, Fill::wood};
    for (const auto& p : footprint(upright))
      post.points.push_back(tread.at(p.x, going - p.y));
    page.paths.push_back(post);
  }
  // The nosing's edge, over which the pad goes.
  Path nosing{{}, false, Pen::fold_under, Fill::none};
  for (const auto& p :
       step.starter ? curved_edge(step)
                    : std::vector<PlanPoint>{{wood.back().x, going + out}, {wood.front().x, going + out}})
    nosing.points.push_back(tread.at(p.x, p.y));
  page.paths.push_back(std::move(nosing));
  if (!fixings.pad.outline.empty()) {
    const std::string text = reader.say("pad {}", show_size(fixings.pad.width, fixings.pad.length, reader));
    const PlanPoint c = centroid(fixings.pad.outline); // of a winder's far from the strip, whatever its shape
    const PagePoint m = tread.at(c.x, pad_from + c.y);
    const double wide = tread.length(fixings.pad.width.mm()); // on the page
    const double size = text_width(text, kBodyType, true) < 0.75 * wide ? kBodyType : kSmallType;
    const double half = text_width(text, size, true) / 2 + 1;
    rectangle(page, {m.x - half, m.y - 2.5, m.x + half, m.y + 2.6}, Pen::none, Fill::paper);
    write(page, {m.x, m.y + 0.36 * size}, text, {size, true, false, Anchor::middle});
  }

  const PagePoint middle = tread.at(width / 2, 0);
  std::string tread_words, riser_words;
  for (const auto& s : fixings.strips) {
    Path path{{}, true, Pen::outline, Fill::strip};
    const bool of_tread = s.place == StripPlace::tread;
    for (const auto& p : of_tread ? on_tread(s, step, strip_width) : strip_outline(s, strip_width))
      path.points.push_back(of_tread ? tread.at(p.x, p.y)
                                     : riser.at(p.x, step.rise.mm() - s.set_off.mm() - p.y));
    page.paths.push_back(path);
    std::string& text = of_tread ? tread_words : riser_words;
    text += (text.empty() ? "" : " + ") + show_length(s.length(), reader) + angle_words(reader, s);
    if (!of_tread) text += short_of(s, step, reader);
  }
  const Type small{kSmallType, false, false, Anchor::middle};
  const auto put = [&](double y, const std::string& what_from, const std::string& what,
                       const std::string& strips) {
    const std::string which = strips.empty() ? reader.say("no strip") : reader.say("strip {}", strips);
    std::string text = what_from + ": " + which;
    if (text_width(text, kSmallType, false) > box.width())
      text = what + ": " + which; // its angles matter more
    write(page, {middle.x, y}, shortened(text, box.width(), kSmallType), small);
  };
  put(tread.at(0, highest).y - 1.4, reader.say("tread, from above"), reader.say("tread"), tread_words);
  put(riser.at(0, 0).y - 1.4, reader.say("riser, from the front"), reader.say("riser"), riser_words);
}

} // namespace treadfold
