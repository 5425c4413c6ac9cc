// DXF R12, by the group codes of Autodesk's "DXF Reference", release 12; from memory, and read back by ezdxf
// in the tests.
#include "sheets/lettering.h"
#include "sheets/looks.h"

#include <algorithm>
#include <string_view>

namespace treadfold {

namespace {

constexpr double kCapital = 0.72; // height of a capital, which DXF asks for, in em
constexpr std::string_view kNotes = "NOTES";

/// Colours of the AutoCAD index, so that a table's program can sort by colour too.
int colour_of(Pen pen) {
  switch (pen) {
  case Pen::cut:
    return 1; // red
  case Pen::knife:
    return 30; // orange
  case Pen::fold_under:
    return 5; // blue
  case Pen::fold_up:
    return 4; // cyan
  case Pen::seam:
    return 3; // green
  case Pen::hem:
    return 6; // magenta
  case Pen::tuck:
    return 140;
  case Pen::trim:
    return 8; // grey
  case Pen::strip:
    return 9;
  case Pen::glue:
    return 40;
  case Pen::dimension:
    return 250;
  default:
    return 7; // black or white, whichever the ground is not
  }
}

/// One group a pair of lines: its code and its value.
class Groups {
public:
  Groups& operator()(int code, std::string_view value) {
    const std::string digits = std::to_string(code);
    out_ += std::string(digits.size() < 3 ? 3 - digits.size() : 0, ' ') + digits + "\r\n";
    out_ += value;
    out_ += "\r\n";
    return *this;
  }
  Groups& whole(int code, int value) { return (*this)(code, std::to_string(value)); }
  Groups& real(int code, double value) {
    const std::string digits = decimal(value);
    return (*this)(code, digits.find('.') == std::string::npos ? digits + ".0" : digits);
  }
  Groups& point(int code, double x, double y) { return real(code, x).real(code + 10, y).real(code + 20, 0); }
  std::string take() { return std::move(out_); }

private:
  std::string out_;
};

/// "%%" begins a sign of its own in DXF.
std::string plain(const std::string& text) {
  std::string out = win_ansi(text);
  for (std::size_t at = 0; (at = out.find("%%", at)) != std::string::npos; at += 2)
    out.insert(at + 1, " ");
  return out;
}

struct Layer {
  std::string name;
  Pen pen = Pen::none;
  std::string line_type() const { return look(pen).dash_mm.empty() ? "CONTINUOUS" : upper(look(pen).name); }
  static std::string upper(std::string_view name) {
    std::string out(name);
    for (char& c : out)
      if (c >= 'a' && c <= 'z') c = static_cast<char>(c - 'a' + 'A');
    return out;
  }
};

std::vector<Layer> layers_of(const Drawing& page) {
  std::vector<Layer> out{{"0", Pen::none}, {std::string(kNotes), Pen::none}};
  for (const Path& path : page.paths) {
    const auto same = [&](const Layer& l) { return l.name == path.layer; };
    if (!path.layer.empty() && std::none_of(out.begin(), out.end(), same))
      out.push_back({path.layer, path.stroke});
  }
  return out;
}

void head(Groups& g, const Drawing& page) {
  g(0, "SECTION")(2, "HEADER");
  g(9, "$ACADVER")(1, "AC1009");
  g(9, "$DWGCODEPAGE")(3, "ansi_1252");
  g(9, "$INSBASE").point(10, 0, 0);
  g(9, "$EXTMIN").point(10, 0, 0);
  g(9, "$EXTMAX").point(10, page.width_mm, page.height_mm);
  g(9, "$LIMMIN").real(10, 0).real(20, 0);
  g(9, "$LIMMAX").real(10, page.width_mm).real(20, page.height_mm);
  g(9, "$LTSCALE").real(40, 1);
  g(9, "$LUNITS").whole(70, 2); // decimal
  // Younger than R12, and honoured by readers that know them: millimetres, metric.
  g(9, "$INSUNITS").whole(70, 4);
  g(9, "$MEASUREMENT").whole(70, 1);
  g(0, "ENDSEC");
}

void line_types(Groups& g, const std::vector<Layer>& layers) {
  std::vector<Pen> dashed;
  for (const Layer& l : layers)
    if (!look(l.pen).dash_mm.empty() && std::find(dashed.begin(), dashed.end(), l.pen) == dashed.end())
      dashed.push_back(l.pen);
  g(0, "TABLE")(2, "LTYPE").whole(70, static_cast<int>(dashed.size()) + 1);
  g(0, "LTYPE")(2, "CONTINUOUS").whole(70, 0)(3, "Solid line").whole(72, 65).whole(73, 0).real(40, 0);
  for (const Pen pen : dashed) {
    const auto& dash = look(pen).dash_mm;
    double length = 0;
    for (const double mm : dash)
      length += mm;
    const std::string name = Layer::upper(look(pen).name);
    g(0, "LTYPE")(2, name).whole(70, 0)(3, name).whole(72, 65).whole(73, static_cast<int>(dash.size()));
    g.real(40, length);
    for (std::size_t i = 0; i < dash.size(); ++i)
      g.real(49, i % 2 == 0 ? dash[i] : -dash[i]);
  }
  g(0, "ENDTAB");
}

void tables(Groups& g, const std::vector<Layer>& layers) {
  g(0, "SECTION")(2, "TABLES");
  line_types(g, layers);
  g(0, "TABLE")(2, "LAYER").whole(70, static_cast<int>(layers.size()));
  for (const Layer& l : layers)
    g(0, "LAYER")(2, l.name).whole(70, 0).whole(62, colour_of(l.pen))(6, l.line_type());
  g(0, "ENDTAB");
  g(0, "TABLE")(2, "STYLE").whole(70, 1);
  g(0, "STYLE")(2, "STANDARD").whole(70, 0).real(40, 0).real(41, 1).real(50, 0).whole(71, 0).real(42, 4);
  g(3, "txt")(4, "")(0, "ENDTAB");
  g(0, "ENDSEC");
}

void polyline(Groups& g, const Path& path, double height) {
  g(0, "POLYLINE")(8, path.layer).whole(66, 1).point(10, 0, 0).whole(70, path.closed ? 1 : 0);
  for (const PagePoint& p : path.points)
    g(0, "VERTEX")(8, path.layer).point(10, p.x, height - p.y);
  g(0, "SEQEND")(8, path.layer);
}

void words(Groups& g, const Text& text, double height) {
  const double x = text.at.x, y = height - text.at.y;
  g(0, "TEXT")(8, kNotes).point(10, x, y).real(40, kCapital * text.size_mm)(1, plain(text.text));
  if (text.turn_deg != 0) g.real(50, text.turn_deg);
  if (text.anchor == Anchor::left) return;
  g.whole(72, text.anchor == Anchor::middle ? 1 : 2).point(11, x, y);
}

} // namespace

std::string write_dxf(const Drawing& page) {
  Groups g;
  head(g, page);
  tables(g, layers_of(page));
  g(0, "SECTION")(2, "BLOCKS")(0, "ENDSEC");
  g(0, "SECTION")(2, "ENTITIES");
  for (const Path& path : page.paths)
    if (!path.layer.empty() && path.points.size() > 1) polyline(g, path, page.height_mm);
  for (const Text& text : page.texts)
    words(g, text, page.height_mm);
  g(0, "ENDSEC")(0, "EOF");
  return g.take();
}

} // namespace treadfold
