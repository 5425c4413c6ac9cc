#include "sheets/page.h"

#include "sheets/lettering.h"

#include <algorithm>
#include <tuple>

namespace treadfold {

namespace {

constexpr double kCellPad = 1.4; // mm, at each side of a cell
constexpr double kRise = 0.95;   // baseline below the top of its line, in em

double type_of(const TableLook& look, std::size_t column, bool head) {
  const double own = look.columns[column].size_mm;
  return head || own == 0 ? look.size_mm : own;
}

std::vector<std::string> words_of(const std::string& text) {
  std::vector<std::string> words(1);
  for (const char c : text) {
    if (c == ' ')
      words.emplace_back();
    else
      words.back() += c;
  }
  return words;
}

/// Widths of the columns, their padding included, no wider together than `room`.
std::vector<double> column_widths(const Table& table, const TableLook& look, double room) {
  std::vector<double> widths(look.columns.size(), 2 * kCellPad);
  const auto widen = [&](std::size_t c, const std::string& text, bool head) {
    const double width = text_width(text, type_of(look, c, head), head || look.columns[c].bold);
    widths[c] = std::max(widths[c], width + 2 * kCellPad);
  };
  for (std::size_t c = 0; c < std::min(table.header.size(), widths.size()); ++c)
    for (const std::string& word : words_of(table.header[c]))
      widen(c, word, true);
  for (const auto& row : table.rows)
    for (std::size_t c = 0; c < std::min(row.size(), widths.size()); ++c)
      widen(c, row[c], false);

  double stiff = 0, soft = 0;
  for (std::size_t c = 0; c < widths.size(); ++c)
    (look.columns[c].wraps ? soft : stiff) += widths[c];
  if (stiff + soft <= room) {
    for (std::size_t c = 0; look.full_width && c < widths.size(); ++c)
      if (look.columns[c].wraps) {
        widths[c] += room - stiff - soft;
        break;
      }
    return widths;
  }
  constexpr double kLeastSoft = 14; // mm that a column which wraps can do with
  double least = 0;
  for (std::size_t c = 0; c < widths.size(); ++c)
    if (look.columns[c].wraps) least += std::min(widths[c], kLeastSoft);
  const bool all_give_way = soft == 0 || room - stiff < least;
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

Flow::Flow(PaperSize paper, bool landscape) : paper_(paper) { new_page(landscape); }

void Flow::new_page(bool landscape) {
  landscape_ = landscape;
  pages_.push_back(blank_page(paper_, landscape));
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
  need(leading(kHeadType) + 30); // a heading keeps with what it heads
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
  std::vector<std::string> lines = wrap(text, rest().width() - 3 * pad - sign, size_mm, true);
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

void Flow::two_columns(const std::string& left_head, const std::vector<std::string>& left,
                       const std::string& right_head, const std::vector<std::string>& right) {
  const Box box = rest();
  const double width = box.width() / 2 - 4, step = leading(kCutType);
  const auto lines_of = [&](const std::vector<std::string>& texts) {
    std::vector<std::string> lines;
    for (const std::string& text : texts)
      for (std::string& words : wrap(text, width, kCutType))
        lines.push_back(std::move(words));
    return lines;
  };
  const std::vector<std::string> a = lines_of(left), b = lines_of(right);
  const double height = step * static_cast<double>(std::max(a.size(), b.size())) + leading(kSmallType);
  if (height > 0.4 * content_box(page()).height()) {
    for (const auto& [head, texts] : {std::pair{&left_head, &left}, std::pair{&right_head, &right}}) {
      paragraph(*head, {kSmallType, true});
      for (const std::string& text : *texts)
        paragraph(text, {kCutType});
    }
    return;
  }
  need(height);
  const double top = y_;
  for (const auto& [head, lines, x] :
       {std::tuple{&left_head, &a, rest().left}, std::tuple{&right_head, &b, rest().left + width + 8}}) {
    double y = top;
    if (!lines->empty()) set_line(page(), x, x + width, y, *head, {kSmallType, true});
    y += leading(kSmallType);
    for (const std::string& words : *lines) {
      set_line(page(), x, x + width, y, words, {kCutType});
      y += step;
    }
  }
  y_ = top + height;
  skip(2);
}

void Flow::table(const Table& table, const TableLook& look) {
  const std::vector<double> widths = column_widths(table, look, rest().width());
  double total = 0;
  for (const double w : widths)
    total += w;
  const double pad = 0.3 * look.size_mm;

  const auto draw_row = [&](const std::vector<std::string>& row, bool head, const auto& overleaf) {
    std::vector<std::vector<std::string>> cells(widths.size());
    std::vector<Type> types;
    double largest = 0, deepest = 0;
    for (std::size_t c = 0; c < widths.size(); ++c) {
      types.push_back({type_of(look, c, head), head || look.columns[c].bold, false, look.columns[c].anchor});
      largest = std::max(largest, types[c].size_mm);
      if (c < row.size())
        cells[c] = wrap(row[c], widths[c] - 2 * kCellPad + 1e-6, types[c].size_mm, types[c].bold);
    }
    const auto lower = [&](std::size_t c) {
      return kRise * (largest - types[c].size_mm);
    }; // first lines share a baseline
    const auto depth = [&](std::size_t c) {
      return lower(c) + leading(types[c].size_mm) * static_cast<double>(cells[c].size());
    };
    for (std::size_t c = 0; c < widths.size(); ++c)
      deepest = std::max(deepest, depth(c));
    deepest = std::max(deepest, leading(largest));
    const Box whole = content_box(page());
    if (y_ + std::min(deepest + 2 * pad, 0.6 * whole.height()) > whole.bottom) overleaf();
    while (true) { // a row taller than a page goes on overleaf
      const double room = std::max(rest().height() - 2 * pad, leading(largest));
      const double height = std::min(deepest, room) + 2 * pad;
      if (head) rectangle(page(), {whole.left, y_, whole.left + total, y_ + height}, Pen::none, Fill::carpet);
      bool more = false;
      deepest = 0;
      double x = whole.left;
      for (std::size_t c = 0; c < widths.size(); ++c) {
        const double step = leading(types[c].size_mm), top = y_ + pad + lower(c);
        const auto fits = static_cast<std::size_t>((room - lower(c) + 1e-6) / step);
        const std::size_t here = std::min(fits, cells[c].size());
        for (std::size_t i = 0; i < here; ++i)
          set_line(page(), x + kCellPad, x + widths[c] - kCellPad, top + static_cast<double>(i) * step,
                   cells[c][i], types[c]);
        cells[c].erase(cells[c].begin(), cells[c].begin() + static_cast<std::ptrdiff_t>(here));
        deepest = std::max(deepest, depth(c));
        more = more || !cells[c].empty();
        x += widths[c];
      }
      y_ += height;
      line(page(), {whole.left, y_}, {whole.left + total, y_}, head ? Pen::dimension : Pen::hairline);
      if (!more) break;
      overleaf();
    }
  };
  const auto nothing = [] {};
  const auto draw_header = [&] {
    if (!table.header.empty()) draw_row(table.header, true, nothing);
  };
  need(6 * leading(look.size_mm));
  draw_header();
  for (const auto& row : table.rows)
    draw_row(row, false, [&] {
      new_page();
      draw_header();
    });
  skip(2);
}

} // namespace treadfold
