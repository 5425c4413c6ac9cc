// A small vector drawing model. Drawing is data; the writers are dumb.
#pragma once

#include <string>
#include <vector>

namespace treadfold {

/// Page coordinates: mm, origin at the top left, x right, y down.
struct PagePoint {
  double x = 0, y = 0;
};

/// How a line looks. Every role differs in dash and weight, so that black-and-white printers lose no meaning.
enum class Pen {
  none,
  outline,
  fold_up,
  fold_under,
  cut,
  seam,
  hem,
  trim,
  strip,
  knife,
  dimension,
  hairline,
  warning,
  tuck,
  glue
};
enum class Fill { none, paper, carpet, carpet_dark, pad, wood, strip, offcut, warning, ink };

struct Path {
  std::vector<PagePoint> points;
  bool closed = false;
  Pen stroke = Pen::outline;
  Fill fill = Fill::none;
  std::string layer{}; // "CUT-OUTLINE": by which machines sort lines. Empty: of the sheet, not of the piece
};

enum class Anchor { left, middle, right };

struct Text {
  PagePoint at;       // baseline
  double size_mm = 4; // of the letters' em
  std::string text;   // UTF-8
  Anchor anchor = Anchor::left;
  bool bold = false;
  double turn_deg = 0; // counter-clockwise
  bool warning = false;
};

struct Drawing {
  double width_mm = 215.9, height_mm = 279.4;
  std::vector<Path> paths; // drawn first, in order
  std::vector<Text> texts;
};

/// A sheet: pages for SVG and PDF, and a table for CSV where it is one.
struct Table {
  std::vector<std::string> header;
  std::vector<std::vector<std::string>> rows;
};

struct Sheet {
  std::string name;  // file stem: "roll-main", "step-main-03"
  std::string title; // "Roll layout"
  std::vector<Drawing> pages;
  Table table; // header empty: no CSV
};

/// Width in mm of UTF-8 `text` set in the drawing's face at `size_mm` (Helvetica metrics).
double text_width(const std::string& text, double size_mm, bool bold);

std::string write_svg(const Drawing& page);
/// One PDF 1.4 of all pages, deterministic: no date, no id, /PrintScaling /None.
std::string write_pdf(const std::vector<Drawing>& pages, const std::string& title);
/// DXF R12 (AC1009), ASCII, millimetres, y up from the page's foot: each path that has a layer as one
/// POLYLINE on it, the layer dashed and coloured by the pen of its first path; texts on NOTES. No fills.
std::string write_dxf(const Drawing& page);
/// RFC 4180.
std::string write_csv(const Table& table);

} // namespace treadfold
