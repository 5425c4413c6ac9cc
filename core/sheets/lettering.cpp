#include "sheets/lettering.h"

#include "sheets/drawing.h"

#include <array>
#include <cmath>
#include <cstdint>

namespace treadfold {

namespace {

using Widths = std::array<std::uint16_t, 224>;

// Advance widths in thousandths of the em, codes 32 to 255 of WinAnsiEncoding. Source: the AFM files of URW's
// Nimbus Sans (Debian, fonts-urw-base35), made to the metrics of the published Adobe Core 14 Helvetica and
// Helvetica-Bold. A test compares them with poppler's own tables.
constexpr Widths kRegular{
    278,  278, 355, 556, 556, 889,  667,  191,  333, 333,  389, 584, 278,  333, 278, 278, //
    556,  556, 556, 556, 556, 556,  556,  556,  556, 556,  278, 278, 584,  584, 584, 556, //
    1015, 667, 667, 722, 722, 667,  611,  778,  722, 278,  500, 667, 556,  833, 722, 778, //
    667,  778, 722, 667, 611, 722,  667,  944,  667, 667,  611, 278, 278,  278, 469, 556, //
    333,  556, 556, 500, 556, 556,  278,  556,  556, 222,  222, 500, 222,  833, 556, 556, //
    556,  556, 333, 500, 278, 556,  500,  722,  500, 500,  500, 334, 260,  334, 584, 350, //
    556,  350, 222, 556, 333, 1000, 556,  556,  333, 1000, 667, 333, 1000, 350, 611, 350, //
    350,  222, 222, 333, 333, 350,  556,  1000, 333, 1000, 500, 333, 944,  350, 500, 667, //
    278,  333, 556, 556, 556, 556,  260,  556,  333, 737,  370, 556, 584,  333, 737, 333, //
    400,  584, 333, 333, 333, 556,  537,  278,  333, 333,  365, 556, 834,  834, 834, 611, //
    667,  667, 667, 667, 667, 667,  1000, 722,  667, 667,  667, 667, 278,  278, 278, 278, //
    722,  722, 778, 778, 778, 778,  778,  584,  778, 722,  722, 722, 722,  667, 667, 611, //
    556,  556, 556, 556, 556, 556,  889,  500,  556, 556,  556, 556, 278,  278, 278, 278, //
    556,  556, 556, 556, 556, 556,  556,  584,  611, 556,  556, 556, 556,  500, 556, 500};
constexpr Widths kBold{278, 333, 474, 556, 556, 889,  722,  238,  333, 333,  389, 584, 278,  333, 278, 278, //
                       556, 556, 556, 556, 556, 556,  556,  556,  556, 556,  333, 333, 584,  584, 584, 611, //
                       975, 722, 722, 722, 722, 667,  611,  778,  722, 278,  556, 722, 611,  833, 722, 778, //
                       667, 778, 722, 667, 611, 722,  667,  944,  667, 667,  611, 333, 278,  333, 584, 556, //
                       333, 556, 611, 556, 611, 556,  333,  611,  611, 278,  278, 556, 278,  889, 611, 611, //
                       611, 611, 389, 556, 333, 611,  556,  778,  556, 556,  500, 389, 280,  389, 584, 350, //
                       556, 350, 278, 556, 500, 1000, 556,  556,  333, 1000, 667, 333, 1000, 350, 611, 350, //
                       350, 278, 278, 500, 500, 350,  556,  1000, 333, 1000, 556, 333, 944,  350, 500, 667, //
                       278, 333, 556, 556, 556, 556,  280,  556,  333, 737,  370, 556, 584,  333, 737, 333, //
                       400, 584, 333, 333, 333, 611,  556,  278,  333, 333,  365, 556, 834,  834, 834, 611, //
                       722, 722, 722, 722, 722, 722,  1000, 722,  667, 667,  667, 667, 278,  278, 278, 278, //
                       722, 722, 778, 778, 778, 778,  778,  584,  778, 722,  722, 722, 722,  667, 667, 611, //
                       556, 556, 556, 556, 556, 556,  889,  556,  556, 556,  556, 556, 278,  278, 278, 278, //
                       611, 611, 611, 611, 611, 611,  611,  584,  611, 611,  611, 611, 611,  556, 611, 556};

// Code points of WinAnsi's 0x80 to 0x9F; 0 where it has none.
constexpr std::array<char32_t, 32> kWindowsRow{
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160,
    0x2039, 0x0152, 0,      0x017D, 0,      0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022,
    0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178};

constexpr char32_t kBad = 0xFFFFFFFF;

/// The code point at `i`, which moves past it; kBad, and one byte on, where there is none.
char32_t next_code_point(std::string_view s, std::size_t& i) {
  const auto byte = [&](std::size_t k) { return static_cast<unsigned char>(s[k]); };
  const unsigned char lead = byte(i++);
  if (lead < 0x80) return lead;
  const int more = lead >= 0xF0 ? 3 : lead >= 0xE0 ? 2 : 1;
  if (lead < 0xC2 || lead > 0xF4 || i + static_cast<std::size_t>(more) > s.size()) return kBad;
  char32_t c = lead & (0x3Fu >> more);
  for (int k = 0; k < more; ++k) {
    const unsigned char next = byte(i + static_cast<std::size_t>(k));
    if ((next & 0xC0) != 0x80) return kBad;
    c = (c << 6) | (next & 0x3Fu);
  }
  i += static_cast<std::size_t>(more);
  const bool overlong = (more == 2 && c < 0x800) || (more == 3 && c < 0x10000);
  return overlong || c > 0x10FFFF || (c >= 0xD800 && c < 0xE000) ? kBad : c;
}

char32_t nearest_likeness(char32_t c) {
  switch (c) {
  case 0x2032:
    return '\''; // prime
  case 0x2033:
    return '"'; // double prime
  case 0x2212:
    return 0x2013;
  case 0x2010:
  case 0x2011:
    return '-';
  case 0x2009:
  case 0x202F:
    return ' ';
  default:
    return c;
  }
}

unsigned char win_ansi_code(char32_t c) {
  c = nearest_likeness(c);
  if (c < 0x20 || c == 0x7F) return ' ';
  if (c < 0x7F || (c >= 0xA0 && c <= 0xFF)) return static_cast<unsigned char>(c);
  for (std::size_t i = 0; i < kWindowsRow.size(); ++i)
    if (kWindowsRow[i] == c && c != 0) return static_cast<unsigned char>(0x80 + i);
  return '?';
}

} // namespace

std::string win_ansi(std::string_view utf8) {
  std::string out;
  for (std::size_t i = 0; i < utf8.size();)
    out += static_cast<char>(win_ansi_code(next_code_point(utf8, i)));
  return out;
}

std::string printable(std::string_view utf8) {
  std::string out;
  for (const char byte : win_ansi(utf8)) {
    const auto code = static_cast<unsigned char>(byte);
    const char32_t c = code >= 0x80 && code < 0xA0 ? kWindowsRow[code - 0x80u] : code;
    if (c < 0x80) {
      out += static_cast<char>(c);
    } else if (c < 0x800) {
      out += static_cast<char>(0xC0 | (c >> 6));
      out += static_cast<char>(0x80 | (c & 0x3F));
    } else {
      out += static_cast<char>(0xE0 | (c >> 12));
      out += static_cast<char>(0x80 | ((c >> 6) & 0x3F));
      out += static_cast<char>(0x80 | (c & 0x3F));
    }
  }
  return out;
}

std::string decimal(double x) {
  const long long thousandths = std::llround(x * 1000);
  const long long size = thousandths < 0 ? -thousandths : thousandths;
  std::string out = (thousandths < 0 ? "-" : "") + std::to_string(size / 1000);
  if (size % 1000 == 0) return out;
  std::string fraction = std::to_string(1000 + size % 1000).substr(1);
  fraction.erase(fraction.find_last_not_of('0') + 1);
  return out + "." + fraction;
}

double text_width(const std::string& text, double size_mm, bool bold) {
  const Widths& widths = bold ? kBold : kRegular;
  long thousandths = 0;
  for (const char byte : win_ansi(text))
    thousandths += widths[static_cast<unsigned char>(byte) - 32u];
  return static_cast<double>(thousandths) * size_mm / 1000;
}

} // namespace treadfold
