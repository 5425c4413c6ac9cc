#include "sheets/page.h"

#include "sheets/lettering.h"

#include <algorithm>

namespace treadfold {

namespace {

constexpr double kCellPad = 1.4; // mm, at each side of a cell
constexpr double kRise = 0.95;   // baseline below the top of its line, in em

/// Widths of the columns, their padding included, no wider together than `room`.
std::vector<double> column_widths(const Table& table, const TableLook& look, double room) {
  std::vector<double> widths(look.columns.size(), 0);
  const auto measure = [&](const std::vector<std::string>& row, bool head) {
    for (std::size_t c = 0; c < std::min(row.size(), widths.size()); ++c)
      widths[c] =
          std::max(widths[c], text_width(row[c], look.size_mm, head || look.columns[c].bold) + 2 * kCellPad);
  };
  measure(table.header, true);
  for (const auto& row : table.rows)
    measure(row, false);

  double stiff = 0, soft = 0;
  for (std::size_t c = 0; c < widths.size(); ++c)
    (look.columns[c].wraps ? soft : stiff) += widths[c];
  if (stiff + soft <= room) return widths;
  const bool all_give_way = soft == 0 || room - stiff < std::min(soft, 0.25 * room);
  std::vector<double*> giving;
  for (std::size_t c = 0; c < widths.size(); ++c)
    if (all_give_way || look.columns[c].wraps) giving.push_back(&widths[c]);
  // The narrow keep what they need; the wide share the rest evenly.
  std::stable_sort(giving.begin(), giving.end(), [](const double* a, const double* b) { return *a < *b; });
  double left = all_give_way ? room : room - stiff;
  for (std::size_t i = 0; i < giving.size(); ++i) {
    *giving[i] = std::min(*giving[i], left / static_cast<double>(giving.size() - i));
    left -= *giving[i];
  }
  return widths;
}

/// One line that is known to fit, its top at `top`.
void set_line(Drawing& page, double left, double right, double top, const std::string& words,
              const Type& type) {
  const double x = type.anchor == Anchor::left    ? left
                   : type.anchor == Anchor::right ? right
                                                  : (left + right) / 2;
  write(page, {x, top + kRise * type.size_mm}, words, type);
}

} // namespace

Flow::Flow(PaperSize paper) : paper_(paper) { new_page(); }

void Flow::new_page() {
  pages_.push_back(blank_page(paper_));
  y_ = content_box(page()).top;
}

Box Flow::rest() const {
  Box box = content_box(pages_.back());
  box.top = y_;
  return box;
}

void Flow::need(double mm) {
  const Box whole = content_box(page());
  if (y_ + mm > whole.bottom && y_ > whole.top) new_page();
}

void Flow::heading(const std::string& text) {
  if (y_ > content_box(page()).top) skip(3);
  need(leading(kHeadType) + 12); // a heading keeps with what it heads
  paragraph(text, {kHeadType, true});
  skip(0.8);
}

void Flow::paragraph(const std::string& text, const Type& type) {
  for (const std::string& words : wrap(text, rest().width(), type.size_mm, type.bold)) {
    need(leading(type.size_mm));
    set_line(page(), rest().left, rest().right, y_, words, type);
    y_ += leading(type.size_mm);
  }
  skip(0.25 * type.size_mm);
}

void Flow::list(const std::vector<std::string>& items, bool numbered, double size_mm) {
  const double indent =
      numbered ? text_width(std::to_string(items.size()) + ".", size_mm, true) + 2 : 0.9 * size_mm;
  for (std::size_t i = 0; i < items.size(); ++i) {
    bool first = true;
    for (const std::string& words : wrap(items[i], rest().width() - indent, size_mm)) {
      need(leading(size_mm));
      const double left = rest().left;
      if (first)
        write(page(), {left, y_ + 0.95 * size_mm}, numbered ? std::to_string(i + 1) + "." : "•",
              {size_mm, numbered});
      first = false;
      set_line(page(), left + indent, rest().right, y_, words, {size_mm});
      y_ += leading(size_mm);
    }
    skip(0.18 * size_mm);
  }
}

void Flow::warning(const std::string& text, double size_mm) {
  const double pad = 2, sign = 7;
  std::vector<std::string> lines = wrap(text, rest().width() - 2 * pad - sign, size_mm, true);
  while (!lines.empty()) {
    const Box whole = content_box(page());
    need(std::min(static_cast<double>(lines.size()) * leading(size_mm) + 2 * pad, whole.height()));
    const auto room = static_cast<std::size_t>(std::max(1.0, (rest().height() - 2 * pad) / leading(size_mm)));
    const std::size_t here = std::min(room, lines.size());
    const double height = std::max(static_cast<double>(here) * leading(size_mm) + 2 * pad, 8.0);
    const Box box{whole.left + 0.6, y_ + 0.6, whole.right - 0.6, y_ + height};
    rectangle(page(), box, Pen::warning);
    // A triangle with an exclamation mark: the frame alone must not carry the meaning.
    const double x = box.left + 1.6, y = box.top + 1.4;
    page().paths.push_back({{{x, y + 5}, {x + 2.9, y}, {x + 5.8, y + 5}}, true, Pen::outline, Fill::none});
    line(page(), {x + 2.9, y + 1.6}, {x + 2.9, y + 3.3}, Pen::outline);
    line(page(), {x + 2.9, y + 3.9}, {x + 2.9, y + 4.4}, Pen::outline);
    double at = y_ + pad;
    for (std::size_t i = 0; i < here; ++i) {
      set_line(page(), box.left + sign + pad, box.right, at, lines[i], {size_mm, true, true});
      at += leading(size_mm);
    }
    lines.erase(lines.begin(), lines.begin() + static_cast<std::ptrdiff_t>(here));
    y_ += height;
    skip(2);
  }
}

void Flow::table(const Table& table, const TableLook& look) {
  const std::vector<double> widths = column_widths(table, look, rest().width());
  double total = 0;
  for (const double w : widths)
    total += w;
  const double step = leading(look.size_mm), pad = 0.3 * look.size_mm;

  const auto draw_row = [&](const std::vector<std::string>& row, bool head, bool band, const auto& overleaf) {
    std::vector<std::vector<std::string>> cells(widths.size());
    std::size_t deepest = 1;
    for (std::size_t c = 0; c < std::min(row.size(), widths.size()); ++c) {
      cells[c] = wrap(row[c], widths[c] - 2 * kCellPad + 1e-6, look.size_mm, head || look.columns[c].bold);
      deepest = std::max(deepest, cells[c].size());
    }
    for (std::size_t done = 0; done < deepest;) { // a row taller than a page goes on overleaf
      const double left_over = static_cast<double>(deepest - done) * step + 2 * pad;
      const Box whole = content_box(page());
      if (y_ + std::min(left_over, 0.6 * whole.height()) > whole.bottom) overleaf();
      const auto room = static_cast<std::size_t>(std::max(1.0, (rest().height() - 2 * pad) / step));
      const std::size_t here = std::min(room, deepest - done);
      const double height = static_cast<double>(here) * step + 2 * pad;
      if (band || head)
        rectangle(page(), {whole.left, y_, whole.left + total, y_ + height}, Pen::none,
                  head ? Fill::carpet : Fill::paper);
      double x = whole.left;
      for (std::size_t c = 0; c < widths.size(); ++c) {
        for (std::size_t i = done; i < std::min(done + here, cells[c].size()); ++i)
          set_line(page(), x + kCellPad, x + widths[c] - kCellPad,
                   y_ + pad + static_cast<double>(i - done) * step, cells[c][i],
                   {look.size_mm, head || look.columns[c].bold, false, look.columns[c].anchor});
        x += widths[c];
      }
      y_ += height;
      line(page(), {whole.left, y_}, {whole.left + total, y_}, head ? Pen::dimension : Pen::hairline);
      done += here;
    }
  };
  const auto nothing = [] {};
  const auto draw_header = [&] {
    if (!table.header.empty()) draw_row(table.header, true, false, nothing);
  };
  need(6 * step);
  draw_header();
  for (std::size_t r = 0; r < table.rows.size(); ++r)
    draw_row(table.rows[r], false, r % 2 == 1, [&] {
      new_page();
      draw_header();
    });
  skip(2);
}

} // namespace treadfold
