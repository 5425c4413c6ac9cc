#include "sheets/lettering.h"
#include "sheets/looks.h"
#include "units/steady.h"

#include <cstdint>
#include <numbers>

namespace treadfold {

namespace {

constexpr double kPointsPerMm = 72.0 / 25.4;

std::string points(double mm) { return decimal(mm * kPointsPerMm); }

/// "#rrggbb" as three numbers from 0 to 1.
std::string rgb(std::string_view colour) {
  const auto digit = [](char c) { return c <= '9' ? c - '0' : c - 'a' + 10; };
  std::string out;
  for (std::size_t i = 1; i + 1 < colour.size(); i += 2)
    out += decimal((16 * digit(colour[i]) + digit(colour[i + 1])) / 255.0) + " ";
  return out;
}

/// A PDF string in hex: safe whatever the bytes.
std::string hex(std::string_view bytes) {
  static constexpr char kDigits[] = "0123456789abcdef";
  std::string out = "<";
  for (const char byte : bytes) {
    const auto b = static_cast<unsigned char>(byte);
    out += kDigits[b >> 4];
    out += kDigits[b & 15];
  }
  return out + ">";
}

/// A readable PDF string for a page's words.
std::string literal(const std::string& text) {
  std::string out = "(";
  for (const char byte : win_ansi(text)) {
    const auto b = static_cast<unsigned char>(byte);
    if (b == '(' || b == ')' || b == '\\') out += '\\';
    if (b < 0x7F) {
      out += byte;
    } else {
      out += '\\';
      for (const int shift : {6, 3, 0})
        out += static_cast<char>('0' + ((b >> shift) & 7));
    }
  }
  return out + ")";
}

class Page {
public:
  explicit Page(const Drawing& drawing) : drawing_(drawing) {
    body_ = "1 j\n"; // round joins: mitres of acute carpet corners would stand out of the line
    for (const Path& path : drawing.paths)
      draw(path);
    for (const Text& text : drawing.texts)
      write(text);
  }
  const std::string& body() const { return body_; }

private:
  std::string at(PagePoint p) const { return points(p.x) + " " + points(drawing_.height_mm - p.y) + " "; }

  std::string trace(const Path& path) const {
    std::string out;
    for (std::size_t i = 0; i < path.points.size(); ++i)
      out += at(path.points[i]) + (i == 0 ? "m\n" : "l\n");
    return path.closed ? out + "h " : out;
  }

  void draw(const Path& path) {
    if (path.points.size() < 2) return;
    if (path.fill != Fill::none && path.closed) {
      const FillLook& fill = look(path.fill);
      body_ += rgb(fill.tone) + "rg\n" + trace(path) + "f*\n";
      const std::vector<HatchLine> lines = hatch(path.points, fill);
      if (!lines.empty()) body_ += "[] 0 d " + rgb(fill.hatch_colour) + "RG " + points(kHatchWidth) + " w\n";
      for (const HatchLine& line : lines)
        body_ += at(line.from) + "m " + at(line.to) + "l S\n";
    }
    if (path.stroke == Pen::none) return;
    const PenLook& pen = look(path.stroke);
    body_ += rgb(pen.colour) + "RG " + points(pen.width_mm) + " w [";
    for (const double mm : pen.dash_mm)
      body_ += points(mm) + " ";
    body_ += "] 0 d\n" + trace(path) + "S\n";
  }

  void write(const Text& text) {
    double back = 0;
    if (text.anchor != Anchor::left) back = text_width(text.text, text.size_mm, text.bold);
    if (text.anchor == Anchor::middle) back /= 2;
    const double angle = text.turn_deg * std::numbers::pi / 180;
    const double c = steady::cos(angle), s = steady::sin(angle);
    const PagePoint start{text.at.x - back * c, text.at.y + back * s};
    body_ += "BT " + rgb(text.warning ? kWarningInk : kInk) + "rg /" + (text.bold ? "B" : "R") + " " +
             points(text.size_mm) + " Tf ";
    body_ += decimal(c) + " " + decimal(s) + " " + decimal(-s) + " " + decimal(c) + " " + at(start) + "Tm " +
             literal(text.text) + " Tj ET\n";
  }

  const Drawing& drawing_;
  std::string body_;
};

/// Objects in the order of their numbers, and the table that says where each begins.
class File {
public:
  File() { out_ = "%PDF-1.4\n%\xE2\xE3\xCF\xD3\n"; }

  void object(const std::string& body) {
    offsets_.push_back(out_.size());
    out_ += std::to_string(offsets_.size()) + " 0 obj\n" + body + "\nendobj\n";
  }

  std::string finish() {
    const std::size_t table = out_.size();
    const std::string count = std::to_string(offsets_.size() + 1);
    out_ += "xref\n0 " + count + "\n0000000000 65535 f \n";
    for (const std::size_t offset : offsets_) {
      const std::string digits = std::to_string(offset);
      out_ += std::string(10 - digits.size(), '0') + digits + " 00000 n \n";
    }
    out_ += "trailer\n<< /Size " + count + " /Root 1 0 R /Info 3 0 R >>\nstartxref\n" +
            std::to_string(table) + "\n%%EOF\n";
    return std::move(out_);
  }

private:
  std::string out_;
  std::vector<std::size_t> offsets_;
};

/// UTF-16 with its mark: what a PDF's title is written in when it is more than ASCII.
std::string info_text(const std::string& text) {
  std::string out = "\xFE\xFF";
  const std::string clean = printable(text);
  for (std::size_t i = 0; i < clean.size();) {
    const auto b = [&](std::size_t k) {
      return static_cast<unsigned>(static_cast<unsigned char>(clean[i + k]));
    };
    unsigned c = b(0);
    std::size_t length = 1;
    if (c >= 0xE0)
      c = (c & 15) << 12 | (b(1) & 63) << 6 | (b(2) & 63), length = 3;
    else if (c >= 0xC0)
      c = (c & 31) << 6 | (b(1) & 63), length = 2;
    out += static_cast<char>(c >> 8);
    out += static_cast<char>(c & 255);
    i += length;
  }
  return hex(out);
}

std::string font(const char* name) {
  return std::string("<< /Type /Font /Subtype /Type1 /BaseFont /") + name + " /Encoding /WinAnsiEncoding >>";
}

} // namespace

std::string write_pdf(const std::vector<Drawing>& pages, const std::string& title) {
  constexpr int kFirstPage = 6; // 1 catalog, 2 page tree, 3 title, 4 and 5 the face; then page, content, …
  std::string kids;
  for (std::size_t i = 0; i < pages.size(); ++i)
    kids += std::to_string(kFirstPage + 2 * static_cast<int>(i)) + " 0 R ";

  File file;
  file.object("<< /Type /Catalog /Pages 2 0 R /ViewerPreferences << /PrintScaling /None >> >>");
  file.object("<< /Type /Pages /Kids [ " + kids + "] /Count " + std::to_string(pages.size()) + " >>");
  file.object("<< /Title " + info_text(title) + " >>");
  file.object(font("Helvetica"));
  file.object(font("Helvetica-Bold"));
  for (std::size_t i = 0; i < pages.size(); ++i) {
    const std::string content = std::to_string(kFirstPage + 1 + 2 * static_cast<int>(i));
    file.object("<< /Type /Page /Parent 2 0 R /MediaBox [0 0 " + points(pages[i].width_mm) + " " +
                points(pages[i].height_mm) + "] /Resources << /Font << /R 4 0 R /B 5 0 R >> >> /Contents " +
                content + " 0 R >>");
    const Page page(pages[i]);
    file.object("<< /Length " + std::to_string(page.body().size()) + " >>\nstream\n" + page.body() +
                "endstream");
  }
  return file.finish();
}

} // namespace treadfold
