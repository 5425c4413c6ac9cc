#include "growth.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold::bench {
namespace {

constexpr double kWide = 300, kHigh = 220;                     // of a panel
constexpr double kLeft = 60, kTop = 40, kGap = 80, kFoot = 80; // round the panels
constexpr const char* kColours[] = {"#1f5fa8", "#b4501e"};

/// Whole powers of ten.
struct Axis {
  int low = 0, high = 1;
  double share(double value) const { return (std::log10(value) - low) / (high - low); }
};

Axis axis_of(const std::vector<double>& values) {
  const auto [least, most] = std::minmax_element(values.begin(), values.end());
  const int low = static_cast<int>(std::floor(std::log10(*least)));
  return {low, std::max(low + 1, static_cast<int>(std::ceil(std::log10(*most))))};
}

std::string number(int power) {
  return power < 0 ? fmt::format("{:.{}f}", std::pow(10, power), -power)
                   : fmt::format("{:.0f}", std::pow(10, power));
}

std::string text(double x, double y, const char* anchor, const std::string& words) {
  return fmt::format("<text x=\"{:.1f}\" y=\"{:.1f}\" text-anchor=\"{}\">{}</text>\n", x, y, anchor, words);
}

std::string line(double x1, double y1, double x2, double y2) {
  return fmt::format("<path d=\"M{:.1f} {:.1f}L{:.1f} {:.1f}\" stroke=\"#ccc\"/>\n", x1, y1, x2, y2);
}

/// One quantity over the number of boxes; hollow where 2 % was not reached.
std::string panel(double left, const char* title, const std::vector<Growth>& points,
                  double Growth::*quantity) {
  std::vector<double> across, up;
  for (const auto& p : points)
    across.push_back(p.boxes), up.push_back(std::max(1e-4, p.*quantity));
  const Axis x = axis_of(across), y = axis_of(up);
  const auto at_x = [&](double boxes) { return left + kWide * x.share(boxes); };
  const auto at_y = [&](double value) { return kTop + kHigh * (1 - y.share(value)); };
  std::string svg = text(left, kTop - 14, "start", title);
  for (int p = x.low; p <= x.high; ++p)
    svg += line(at_x(std::pow(10, p)), kTop, at_x(std::pow(10, p)), kTop + kHigh) +
           text(at_x(std::pow(10, p)), kTop + kHigh + 16, "middle", number(p));
  for (int p = y.low; p <= y.high; ++p)
    svg += line(left, at_y(std::pow(10, p)), left + kWide, at_y(std::pow(10, p))) +
           text(left - 6, at_y(std::pow(10, p)) + 4, "end", number(p));
  for (int family = 0; family < 2; ++family) {
    std::string path, marks;
    for (std::size_t i = 0; i < points.size(); ++i) {
      if (points[i].family != family) continue;
      const double px = at_x(across[i]), py = at_y(up[i]);
      path += fmt::format("{}{:.1f} {:.1f}", path.empty() ? "M" : "L", px, py);
      marks += fmt::format("<circle cx=\"{:.1f}\" cy=\"{:.1f}\" r=\"4\" fill=\"{}\" stroke=\"{}\"/>\n", px,
                           py, points[i].reached ? kColours[family] : "#fff", kColours[family]);
    }
    svg += fmt::format("<path d=\"{}\" fill=\"none\" stroke=\"{}\" stroke-width=\"1.5\"{}/>\n", path,
                       kColours[family], family == 0 ? "" : " stroke-dasharray=\"5 3\"") +
           marks;
  }
  return svg + text(left + kWide / 2, kTop + kHigh + 34, "middle", "pieces");
}

} // namespace

std::string draw_growth(const std::vector<Growth>& points) {
  const double wide = 2 * kLeft + 2 * kWide + kGap - 30, high = kTop + kHigh + kFoot;
  std::string svg = fmt::format("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0:.0f} {1:.0f}\" "
                                "width=\"{0:.0f}\" height=\"{1:.0f}\" font-family=\"sans-serif\" "
                                "font-size=\"12\">\n<rect width=\"100%\" height=\"100%\" fill=\"#fff\"/>\n",
                                wide, high);
  svg += panel(kLeft, "CPU seconds to 2 % over the bound", points, &Growth::cpu_seconds);
  svg += panel(kLeft + kWide + kGap, "greatest memory, MB", points, &Growth::peak_mb);
  for (int family = 0; family < 2; ++family) {
    const double x = kLeft + 170 * family, y = kTop + kHigh + 60;
    svg += fmt::format("<path d=\"M{:.1f} {:.1f}h24\" stroke=\"{}\" stroke-width=\"1.5\"{}/>\n", x, y - 4,
                       kColours[family], family == 0 ? "" : " stroke-dasharray=\"5 3\"") +
           text(x + 30, y, "start", kGrowthFamilies[family]);
  }
  svg += text(kLeft + 340, kTop + kHigh + 60, "start", "hollow: 2 % not reached in a minute");
  return svg + "</svg>\n";
}

} // namespace treadfold::bench
