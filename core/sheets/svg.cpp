#include "sheets/lettering.h"
#include "sheets/looks.h"

namespace treadfold {

namespace {

std::string escape(const std::string& text) {
  std::string out;
  for (const char c : printable(text)) {
    if (c == '&')
      out += "&amp;";
    else if (c == '<')
      out += "&lt;";
    else if (c == '>')
      out += "&gt;";
    else if (c == '"')
      out += "&quot;";
    else
      out += c;
  }
  return out;
}

std::string at(PagePoint p) { return decimal(p.x) + " " + decimal(p.y); }

std::string path_data(const Path& path) {
  std::string d;
  for (std::size_t i = 0; i < path.points.size(); ++i)
    d += (i == 0 ? "M" : "L") + at(path.points[i]);
  return path.closed ? d + "Z" : d;
}

/// A path's beginning; its layer for programs that sort lines by it.
std::string path_tag(const std::string& classes, const std::string& layer) {
  return "<path class=\"" + classes + "\"" + (layer.empty() ? "" : " data-layer=\"" + escape(layer) + "\"") +
         " d=\"";
}

std::string style_sheet() {
  std::string css = "path{fill:none;stroke:none;stroke-linejoin:round}"
                    "text{font-family:Helvetica,Arial,'Liberation Sans',sans-serif;white-space:pre;fill:" +
                    std::string(kInk) + "}.w{fill:" + std::string(kWarningInk) + "}.b{font-weight:bold}";
  for (int i = 1; i <= static_cast<int>(kLastPen); ++i) {
    const PenLook& pen = look(static_cast<Pen>(i));
    css += "path.p-" + std::string(pen.name) + "{stroke:" + std::string(pen.colour) +
           ";stroke-width:" + decimal(pen.width_mm);
    std::string dash;
    for (const double mm : pen.dash_mm)
      dash += (dash.empty() ? "" : ",") + decimal(mm);
    if (!dash.empty()) css += ";stroke-dasharray:" + dash;
    css += "}";
  }
  for (int i = 1; i <= static_cast<int>(kLastFill); ++i) {
    const FillLook& fill = look(static_cast<Fill>(i));
    css += "path.f-" + std::string(fill.name) + "{fill:" + std::string(fill.tone) + "}";
    if (fill.hatch_mm > 0)
      css += "path.h-" + std::string(fill.name) + "{stroke:" + std::string(fill.hatch_colour) +
             ";stroke-width:" + decimal(kHatchWidth) + "}";
  }
  return css;
}

void write_path(std::string& out, const Path& path) {
  if (path.points.size() < 2) return;
  const FillLook& fill = look(path.fill);
  const std::vector<HatchLine> lines = path.closed ? hatch(path.points, fill) : std::vector<HatchLine>{};
  const std::string d = path_data(path);
  const std::string fill_class = path.fill == Fill::none ? "" : "f-" + std::string(fill.name);
  const std::string pen_class = path.stroke == Pen::none ? "" : "p-" + std::string(look(path.stroke).name);
  // The hatch lies between fill and stroke, so a hatched shape takes three paths.
  if (lines.empty()) {
    const std::string both = fill_class + (fill_class.empty() || pen_class.empty() ? "" : " ") + pen_class;
    out += path_tag(both, path.layer) + d + "\"/>\n";
    return;
  }
  out += "<path class=\"" + fill_class + "\" d=\"" + d + "\"/>\n<path class=\"h-" + std::string(fill.name) +
         "\" d=\"";
  for (const HatchLine& line : lines)
    out += "M" + at(line.from) + "L" + at(line.to);
  out += "\"/>\n";
  if (!pen_class.empty()) out += path_tag(pen_class, path.layer) + d + "\"/>\n";
}

void write_text(std::string& out, const Text& text) {
  static constexpr const char* kAnchors[] = {"start", "middle", "end"};
  out += "<text x=\"" + decimal(text.at.x) + "\" y=\"" + decimal(text.at.y) + "\" font-size=\"" +
         decimal(text.size_mm) + "\"";
  if (text.anchor != Anchor::left)
    out += std::string(" text-anchor=\"") + kAnchors[static_cast<int>(text.anchor)] + "\"";
  if (text.bold || text.warning)
    out += std::string(" class=\"") + (text.bold ? "b" : "") + (text.bold && text.warning ? " " : "") +
           (text.warning ? "w" : "") + "\"";
  if (text.turn_deg != 0) out += " transform=\"rotate(" + decimal(-text.turn_deg) + " " + at(text.at) + ")\"";
  out += ">" + escape(text.text) + "</text>\n";
}

} // namespace

std::string write_svg(const Drawing& page) {
  const std::string w = decimal(page.width_mm), h = decimal(page.height_mm);
  std::string out = "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n"
                    "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" +
                    w + "mm\" height=\"" + h + "mm\" viewBox=\"0 0 " + w + " " + h + "\">\n<style>" +
                    style_sheet() + "</style>\n<path style=\"fill:#ffffff\" d=\"M0 0H" + w + "V" + h +
                    "H0Z\"/>\n";
  for (const Path& path : page.paths)
    write_path(out, path);
  for (const Text& text : page.texts)
    write_text(out, text);
  return out + "</svg>\n";
}

} // namespace treadfold
