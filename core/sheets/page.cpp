#include "sheets/page.h"

#include "sheets/lettering.h"

#include <algorithm>
#include <cmath>
#include <cstring>
#include <utility>

namespace treadfold {

namespace {

constexpr double kHeadHeight = 15, kFootHeight = 8; // heights taken by head and foot inside the margins

/// Is the space between the two within a size: "9' | 2 | 1/2\"", "617 | mm"?
bool keep_together(const std::string& before, const std::string& after) {
  const auto digit = [](char c) { return c >= '0' && c <= '9'; };
  if (digit(before.back())) {
    for (const char* unit : {"mm", "cm", "m", "m²", "sq", "ft"})
      if (after.rfind(unit, 0) == 0 &&
          after.find_first_of("abcdefghijklmnopqrstuvwxyz", std::strlen(unit)) == std::string::npos)
        return true;
  }
  const bool inches = digit(after.front()) && after.find_first_of("/\"") != std::string::npos;
  return (digit(before.back()) || before.back() == '\'') &&
         (inches || (before.back() == '\'' && digit(after.front())));
}

} // namespace

Drawing blank_page(PaperSize paper, bool landscape) {
  Drawing page;
  if (paper == PaperSize::a4) {
    page.width_mm = 210;
    page.height_mm = 297;
  }
  if (landscape) std::swap(page.width_mm, page.height_mm);
  return page;
}

Box content_box(const Drawing& page) {
  return {kMargin, kMargin + kHeadHeight, page.width_mm - kMargin, page.height_mm - kMargin - kFootHeight};
}

void frame_pages(Sheet& sheet, const Job& job, int number, int count) {
  const Site& site = job.site;
  const Reader reader = job.reader();
  for (std::size_t i = 0; i < sheet.pages.size(); ++i) {
    Drawing& page = sheet.pages[i];
    const double left = kMargin, right = page.width_mm - kMargin;
    const std::string place =
        reader.say("Sheet {} of {}, page {} of {}", number, count, i + 1, sheet.pages.size());
    const double half = (right - left) * 0.62;
    write(page, {left, kMargin + 6.5}, shortened(sheet.title, half, kTitleType, true), {kTitleType, true});
    write(page, {right, kMargin + 3.4}, shortened(site.title, right - left - half - 4, kBodyType, true),
          {kBodyType, true, false, Anchor::right});
    write(page, {right, kMargin + 8.4}, place, {kSmallType, false, false, Anchor::right});
    line(page, {left, kMargin + 11}, {right, kMargin + 11}, Pen::outline);

    const double foot = page.height_mm - kMargin;
    line(page, {left, foot - 5}, {right, foot - 5}, Pen::hairline);
    const std::string advice =
        reader.say("We advise; the installer decides. Measure again on the stair before you cut.");
    write(page, {left, foot - 0.8}, advice, {kSmallType});
    const double room = right - left - text_width(advice, kSmallType, false) - 6;
    write(page, {right, foot - 0.8}, shortened(site.date, room, kSmallType),
          {kSmallType, false, false, Anchor::right});
  }
}

void line(Drawing& page, PagePoint from, PagePoint to, Pen pen) {
  page.paths.push_back({{from, to}, false, pen, Fill::none});
}

void rectangle(Drawing& page, const Box& box, Pen pen, Fill fill) {
  page.paths.push_back(
      {{{box.left, box.top}, {box.right, box.top}, {box.right, box.bottom}, {box.left, box.bottom}},
       true,
       pen,
       fill});
}

void arrow_head(Drawing& page, PagePoint tip, double dx, double dy, double length_mm) {
  const double norm = std::sqrt(dx * dx + dy * dy);
  if (norm == 0) return;
  const double ux = dx / norm, uy = dy / norm, half = length_mm * 0.22;
  const PagePoint back{tip.x - ux * length_mm, tip.y - uy * length_mm};
  page.paths.push_back(
      {{tip, {back.x - uy * half, back.y + ux * half}, {back.x + uy * half, back.y - ux * half}},
       true,
       Pen::none,
       Fill::ink});
}

void pile_arrow(Drawing& page, PagePoint from, PagePoint to, const Reader& reader) {
  line(page, from, to, Pen::outline);
  arrow_head(page, to, to.x - from.x, to.y - from.y, 4.5);
  const PagePoint middle{(from.x + to.x) / 2, (from.y + to.y) / 2};
  const bool upright = std::abs(to.y - from.y) > std::abs(to.x - from.x);
  if (upright)
    page.texts.push_back(
        {{middle.x - 1.8, middle.y}, kBodyType, reader.say("pile"), Anchor::middle, true, 90, false});
  else
    write(page, {middle.x, middle.y - 1.8}, reader.say("pile"), {kBodyType, true, false, Anchor::middle});
}

void write(Drawing& page, PagePoint baseline, const std::string& text, const Type& type) {
  page.texts.push_back({baseline, type.size_mm, text, type.anchor, type.bold, 0, type.warning});
}

std::vector<std::string> wrap(const std::string& text, double width_mm, double size_mm, bool bold) {
  std::vector<std::string> lines;
  std::string current;
  const auto fits = [&](const std::string& s) { return text_width(s, size_mm, bold) <= width_mm; };
  const auto add = [&](std::string word) {
    if (current.empty() ? fits(word) : fits(current + " " + word)) {
      current += (current.empty() ? "" : " ") + word;
      return;
    }
    if (!current.empty()) lines.push_back(std::move(current));
    current.clear();
    while (!fits(word)) { // a word wider than the line: as many signs as go in, at least one
      std::size_t cut = 0;
      double used = 0;
      for (std::size_t i = 0; i < word.size();) {
        std::size_t next = i + 1;
        while (next < word.size() && (static_cast<unsigned char>(word[next]) & 0xC0) == 0x80)
          ++next;
        used += text_width(word.substr(i, next - i), size_mm, bold);
        if (i > 0 && used > width_mm) break;
        cut = i = next;
      }
      if (cut >= word.size()) break;
      lines.push_back(word.substr(0, cut));
      word.erase(0, cut);
    }
    current = std::move(word);
  };

  std::string held; // words that keep together
  std::string word;
  for (const char c : printable(text) + " ") {
    if (c != ' ') {
      word += c;
    } else if (!word.empty()) {
      if (held.empty())
        held = std::move(word);
      else if (keep_together(held, word) && fits(held + " " + word))
        held += " " + word;
      else
        add(std::exchange(held, std::move(word)));
      word.clear();
    }
  }
  if (!held.empty()) add(std::move(held));
  if (!current.empty()) lines.push_back(std::move(current));
  return lines;
}

std::string shortened(const std::string& text, double width_mm, double size_mm, bool bold) {
  std::string out = printable(text);
  if (text_width(out, size_mm, bold) <= width_mm) return out;
  while (!out.empty()) {
    while (!out.empty() && (static_cast<unsigned char>(out.back()) & 0xC0) == 0x80)
      out.pop_back();
    if (!out.empty()) out.pop_back();
    if (text_width(out + "…", size_mm, bold) <= width_mm) break;
  }
  out += "…";
  return out;
}

double paragraph(Drawing& page, double left, double right, double top, const std::string& text,
                 const Type& type) {
  double y = top;
  const double x = type.anchor == Anchor::left    ? left
                   : type.anchor == Anchor::right ? right
                                                  : (left + right) / 2;
  for (const std::string& words : wrap(text, right - left, type.size_mm, type.bold)) {
    write(page, {x, y + type.size_mm * 0.95}, words, type);
    y += leading(type.size_mm);
  }
  return y;
}

std::string Viewport::name() const { return "1:" + decimal(denominator); }

Viewport fit(const Box& box, double u0, double v0, double u1, double v1) {
  static constexpr double kScales[] = {1,  1.25, 1.5, 2,  2.5, 3,  4,  5,  6,  7,  8,  9,  10, 12, 14, 16,
                                       18, 20,   22,  24, 26,  28, 30, 32, 34, 36, 40, 45, 50, 60, 75, 100};
  const double needed = std::max((u1 - u0) / box.width(), (v1 - v0) / box.height());
  double denominator = std::ceil(needed / 100) * 100;
  for (const double scale : kScales)
    if (scale >= needed) {
      denominator = scale;
      break;
    }
  const PagePoint c = box.centre();
  return {{c.x - (u0 + u1) / 2 / denominator, c.y - (v0 + v1) / 2 / denominator}, denominator};
}

std::string show_size(Length width, Length length, LengthUnit unit) {
  return show_length(width, unit) + " × " + show_length(length, unit);
}

} // namespace treadfold
