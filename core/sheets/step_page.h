// Parts of a piece's pages: what piece and how large, its account, steps whose strip and pad are alike.
#pragma once

#include "sheets/page.h"

#include "plan.h"

namespace treadfold {

inline constexpr double kGap = 3.5; // between the parts of a page

/// Pages that fill from the top, each part drawn by hand below `y`.
struct Pages {
  PaperSize paper;
  std::vector<Drawing> pages;
  double y = 0;
  explicit Pages(PaperSize p) : paper(p) { turn(); }
  Drawing& page() { return pages.back(); }
  Box rest() const {
    Box box = content_box(pages.back());
    box.top = y;
    return box;
  }
  void turn() {
    pages.push_back(blank_page(paper));
    y = content_box(pages.back()).top;
  }
  double left_over() const { return content_box(pages.back()).bottom - y; }
};

/// What piece, how large. Returns the y below it.
double draw_head(Drawing& page, double left, double right, double top, const Plan& plan, const Piece& piece);

/// A piece's items as the reader calls them.
std::vector<SizeItem> items_in_words(std::vector<SizeItem> items, const Reader& reader);
/// One direction's account: each item, and below the line what is cut. Returns the y below it.
double draw_account(Drawing& page, double left, double right, double top, const std::string& title,
                    const std::vector<SizeItem>& items, Length cut, const Reader& reader);
/// Across and along side by side; returns the y below them.
double draw_accounts(Drawing& page, double left, double right, double top, const Piece& piece,
                     const Reader& reader);
double account_height(const Piece& piece);

void small_heading(Drawing& page, PagePoint at, const std::string& text);

/// Steps of the piece whose strip and pad are drawn alike, lowest first, the first of each kind drawn.
struct AlikeSteps {
  const Step* step = nullptr;
  const Fixings* fixings = nullptr;
  std::vector<int> numbers;
};

std::vector<AlikeSteps> fixings_to_draw(const Plan& plan, const PlannedPiece& planned);
/// "step 4", "steps 1, 2, 5".
std::string numbers_of(const Reader& reader, const std::vector<int>& steps);

/// The page of a piece that must not be cut.
void draw_failed(Pages& out, const PlannedPiece& planned, const Reader& reader);

} // namespace treadfold
