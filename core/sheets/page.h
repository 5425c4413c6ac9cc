// What the sheets share: the page with its head and foot, type that wraps, tables, scaled views, dimension
// lines.
//
// Guarantees
//  1. Nothing drawn through Flow leaves content_box(): long words break, long tables go on overleaf.
//  2. A dimension's words never touch its line: they stand in a gap of it, or beyond its end.
#pragma once

#include "job/job.h"
#include "sheets/drawing.h"

#include <string>
#include <vector>

namespace treadfold {

/// Sizes of type, mm of em. What is read at arm's length while cutting is kCutType or larger.
inline constexpr double kSmallType = 3.1, kBodyType = 3.7, kCutType = 4.6, kHeadType = 5.0, kTitleType = 7.0;
inline constexpr double kMargin = 14; // mm of paper that stays white, for printers that cannot reach the edge

/// A rectangle on the page, mm; y runs down.
struct Box {
  double left = 0, top = 0, right = 0, bottom = 0;
  double width() const { return right - left; }
  double height() const { return bottom - top; }
  PagePoint centre() const { return {(left + right) / 2, (top + bottom) / 2}; }
};

Drawing blank_page(PaperSize paper, bool landscape = false);
/// Where a sheet may draw: inside the margins, between head and foot.
Box content_box(const Drawing& page);
/// Head (title, job, "sheet 2 of 19, page 1 of 2") and foot on every page; draw_sheets does it once for all.
void frame_pages(Sheet& sheet, const Job& job, int number, int count);

// ---- marks

void line(Drawing& page, PagePoint from, PagePoint to, Pen pen);
void rectangle(Drawing& page, const Box& box, Pen pen, Fill fill = Fill::none);
/// A filled head with its tip at `tip`, pointing along (dx, dy).
void arrow_head(Drawing& page, PagePoint tip, double dx, double dy, double length_mm = 2.4);
/// An arrow for the pile: a shaft, a head at `to`, and "pile" beside it, clear of the shaft.
void pile_arrow(Drawing& page, PagePoint from, PagePoint to, const Reader& reader);

// ---- words

struct Type {
  double size_mm = kBodyType;
  bool bold = false;
  bool warning = false;
  Anchor anchor = Anchor::left;
};
inline constexpr double leading(double size_mm) { return 1.28 * size_mm; }

/// `baseline` is the left end, middle or right end of the line, as the anchor says.
void write(Drawing& page, PagePoint baseline, const std::string& text, const Type& type = {});
/// Lines no wider than `width`, broken at spaces, but not within a size ("9' 2 1/2\"", "617 mm"); a word
/// wider than the line is broken anywhere.
std::vector<std::string> wrap(const std::string& text, double width_mm, double size_mm, bool bold = false);
/// `text` cut short with "…" if it is wider than `width`.
std::string shortened(const std::string& text, double width_mm, double size_mm, bool bold = false);
/// Wrapped into the column from `left` to `right`; returns the y below it. The caller sees to it that it
/// fits.
double paragraph(Drawing& page, double left, double right, double top, const std::string& text,
                 const Type& type = {});

// ---- a view to scale

/// Model millimetres to the page: x = origin.x + u/denominator, y = origin.y + v/denominator (v runs down).
struct Viewport {
  PagePoint origin;
  double denominator = 1;
  PagePoint at(double u, double v) const { return {origin.x + u / denominator, origin.y + v / denominator}; }
  double length(double mm) const { return mm / denominator; }
  std::string name() const; // "1:10"
};
/// The largest round scale at which the model box [u0, u1] × [v0, v1] fits `box`, centred in it.
Viewport fit(const Box& box, double u0, double v0, double u1, double v1);
/// `points` need members u and v, as FlatPoint has.
template <typename Points>
Path transformed(const Points& points, const Viewport& view, bool closed, Pen pen, Fill fill = Fill::none) {
  Path path{{}, closed, pen, fill};
  for (const auto& p : points)
    path.points.push_back(view.at(p.u, p.v));
  return path;
}

// ---- dimensions

/// A dimension line parallel to an edge of the page, with extension lines from the two measured points.
struct Dimension {
  PagePoint from, to; // measured points on the page
  bool vertical = false;
  double line_at = 0; // the line's y; its x if vertical
  std::string text;
  double size_mm = kCutType;
  bool bold = false;
};
/// Draws it and returns what it takes up. Words stand in a gap of the line (turned to read from the right if
/// vertical); where they are too long for that, beyond the end with the greater coordinate.
Box dimension(Drawing& page, const Dimension& d);

// ---- pages that fill from top to bottom

struct Column {
  Anchor anchor = Anchor::left;
  bool wraps = false; // gives way when the table is too wide
  bool bold = false;
  double size_mm = 0; // of the type; 0: the table's
};
struct TableLook {
  std::vector<Column> columns;
  double size_mm = kBodyType;
  bool full_width = false; // the first column that wraps takes what room is left
};

class Flow {
public:
  explicit Flow(PaperSize paper, bool landscape = false);

  Drawing& page() { return pages_.back(); }
  /// What is left of the page.
  Box rest() const;
  double y() const { return y_; }
  void skip(double mm) { y_ += mm; }
  /// A new page, unless `mm` are left on this one or it is still empty.
  void need(double mm);
  void new_page() { new_page(landscape_); }
  void new_page(bool landscape); // and so for the pages after it

  void heading(const std::string& text);
  void paragraph(const std::string& text, const Type& type = {});
  void list(const std::vector<std::string>& items, bool numbered = false, double size_mm = kBodyType);
  /// Framed in the warning style, with a sign before it.
  void warning(const std::string& text, double size_mm = kBodyType);
  /// Two short lists side by side, each under its head; one below the other if they are not short. Empty
  /// lines are left out.
  void two_columns(const std::string& left_head, const std::vector<std::string>& left,
                   const std::string& right_head, const std::vector<std::string>& right);
  /// Columns take their natural widths; those that wrap share what is left. Words of the header may stand one
  /// below the other; it is repeated overleaf.
  void table(const Table& table, const TableLook& look);

  std::vector<Drawing> finish() { return std::move(pages_); }

private:
  PaperSize paper_;
  bool landscape_ = false;
  std::vector<Drawing> pages_;
  double y_ = 0;
};

// ---- sizes in the job's unit

/// "38 1/2\" × 21 5/8\"".
std::string show_size(Length width, Length length, LengthUnit unit);

} // namespace treadfold
