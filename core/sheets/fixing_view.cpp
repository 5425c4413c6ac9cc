#include "sheets/fixing_view.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

std::vector<PlanPoint> strip_outline(const StripPiece& piece, double width_mm) {
  const auto run = [&](double angle_deg) {
    return angle_deg >= 90 ? 0.0 : width_mm / std::tan(angle_deg * 3.14159265358979323846 / 180);
  };
  const double from = piece.from.mm(), to = piece.to.mm();
  return {{from + run(piece.left_angle_deg), 0},
          {to - run(piece.right_angle_deg), 0},
          {to, width_mm},
          {from, width_mm}};
}

namespace {

std::string angle_words(const StripPiece& s) {
  if (s.left_angle_deg < 90 && s.left_angle_deg == s.right_angle_deg)
    return fmt::format(", both ends {:.0f}°", s.left_angle_deg);
  std::string text;
  if (s.left_angle_deg < 90) text += fmt::format(", left end {:.0f}°", s.left_angle_deg);
  if (s.right_angle_deg < 90) text += fmt::format(", right end {:.0f}°", s.right_angle_deg);
  return text;
}

/// ", 1 1/2\" short of the right end": where the hem will lie.
std::string short_of(const StripPiece& s, const Step& step, LengthUnit unit) {
  const Length left = step.left.closed() ? Length{} : s.from;
  const Length right = step.right.closed() ? Length{} : step.width - s.to;
  if (left > Length{} && left == right) return ", " + show_length(left, unit) + " short of both ends";
  std::string text;
  if (left > Length{}) text += ", " + show_length(left, unit) + " short of the left end";
  if (right > Length{}) text += ", " + show_length(right, unit) + " short of the right end";
  return text;
}

} // namespace

void draw_fixings(Drawing& page, const Box& box, const Step& step, const Fixings& fixings,
                  const TackStrip& strip, LengthUnit unit) {
  const double going = step.going.mm(), out = step.nosing.projection.mm(), width = step.width.mm();
  const double strip_width = strip.width.mm();
  const double left = step.left.closed() ? 0 : step.left.overhang.mm();
  const double right = step.right.closed() ? 0 : step.right.overhang.mm();
  double pad_from = 0; // depth on the tread, from the riser behind, at which the pad starts
  for (const auto& s : fixings.strips)
    if (s.place == StripPlace::tread) pad_from = s.set_off.mm() + strip_width;
  double lowest = going + out;
  for (const auto& p : fixings.pad.outline)
    lowest = std::max(lowest, pad_from + p.y);

  // Words stand above each of the two views; the drawing shares what they leave.
  const double words = leading(kSmallType), between = words + 1.6;
  const double model_height = lowest + step.rise.mm();
  const Box inner{box.left, box.top + words + 1, box.right, box.bottom - between};
  const Viewport scale = fit(inner, -left, 0, width + right, model_height);
  const Viewport tread = scale;
  Viewport riser = scale; // flat v: height runs up
  riser.origin.y = scale.at(0, lowest).y + between;

  const auto fill = [&](const Viewport& view, double u0, double v0, double u1, double v1) {
    const PagePoint a = view.at(u0, v0), b = view.at(u1, v1);
    rectangle(page, {a.x, a.y, b.x, b.y}, Pen::hairline, Fill::wood);
  };
  fill(tread, -left, 0, width + right, going + out);
  fill(riser, 0, 0, width, step.rise.mm());
  if (!fixings.pad.outline.empty()) {
    Path pad{{}, true, Pen::outline, Fill::pad};
    for (const auto& p : fixings.pad.outline)
      pad.points.push_back(tread.at(p.x, pad_from + p.y));
    page.paths.push_back(pad);
  }
  // The nosing's edge, over which the pad goes.
  line(page, tread.at(-left, going + out), tread.at(width + right, going + out), Pen::fold_under);
  if (!fixings.pad.outline.empty()) {
    const std::string text = "pad " + show_size(fixings.pad.width, fixings.pad.length, unit);
    const PagePoint m = tread.at(width / 2, (pad_from + lowest) / 2);
    const double half = text_width(text, kBodyType, true) / 2 + 1;
    rectangle(page, {m.x - half, m.y - 2.5, m.x + half, m.y + 2.6}, Pen::none, Fill::paper);
    write(page, {m.x, m.y + 0.36 * kBodyType}, text, {kBodyType, true, false, Anchor::middle});
  }

  const PagePoint middle = tread.at(width / 2, 0);
  std::string tread_words, riser_words;
  for (const auto& s : fixings.strips) {
    Path path{{}, true, Pen::outline, Fill::strip};
    const bool on_tread = s.place == StripPlace::tread;
    for (const auto& p : strip_outline(s, strip_width))
      path.points.push_back(on_tread ? tread.at(p.x, s.set_off.mm() + p.y)
                                     : riser.at(p.x, step.rise.mm() - s.set_off.mm() - p.y));
    page.paths.push_back(path);
    std::string& text = on_tread ? tread_words : riser_words;
    text +=
        (text.empty() ? (on_tread ? "tread, from above: strip " : "riser, from the front: strip ") : " + ") +
        show_length(s.length(), unit) + angle_words(s);
    if (!on_tread) text += short_of(s, step, unit);
  }
  const Type small{kSmallType, false, false, Anchor::middle};
  const auto put = [&](double y, const std::string& text) {
    write(page, {middle.x, y}, shortened(text, box.width(), kSmallType), small);
  };
  put(tread.at(0, 0).y - 1.4, tread_words.empty() ? "tread, from above: no strip" : tread_words);
  put(riser.at(0, 0).y - 1.4, riser_words.empty() ? "riser, from the front: no strip" : riser_words);
}

} // namespace treadfold
