#include "sheets/step_sheet.h"

#include "sheets/fixing_view.h"
#include "sheets/flat_view.h"
#include "sheets/order_view.h"
#include "sheets/solid_view.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {
namespace {

constexpr double kSizeType = 9;                      // the cut size
constexpr double kGap = 3.5;                         // between the parts of a page
constexpr double kPictures = 38, kLargest = 80;      // height of the row of pictures, least and most
constexpr double kBenchFlat = 88, kJoinedFlat = 165; // height of the flat view above its details
constexpr double kLegend = 10;                       // two rows
constexpr double kDetailScale = 2.5;                 // a detail drawn smaller than 1:2.5 wants a fresh page

std::string goods_name(const Plan& plan, const Piece& piece) {
  for (const auto& c : plan.job.carpets)
    if (c.id == piece.carpet) return c.name.empty() ? c.id : c.name;
  return piece.carpet;
}

/// One direction's account: each item, and below the line what is cut. Returns the y below it.
double draw_account(Drawing& page, double left, double right, double top, const std::string& title,
                    const std::vector<SizeItem>& items, Length cut, LengthUnit unit) {
  const double step = 1.16 * kSmallType;
  const std::string nothing = show_length(Length{}, unit);
  double y = top + kSmallType;
  write(page, {left, y}, title, {kSmallType, true});
  for (const auto& item : items) {
    const std::string value = show_length(from_mm(item.mm), unit);
    if (value == nothing) continue;
    y += step;
    const double room = right - left - text_width(value, kSmallType, false) - 1.5;
    write(page, {left, y}, shortened(item.what, room, kSmallType), {kSmallType});
    write(page, {right, y}, value, {kSmallType, false, false, Anchor::right});
  }
  y += 1;
  line(page, {left, y}, {right, y}, Pen::dimension);
  y += step - 0.4;
  write(page, {left, y}, "cut", {kSmallType, true});
  write(page, {right, y}, show_length(cut, unit), {kSmallType, true, false, Anchor::right});
  return y + 1;
}

double account_height(const Piece& piece) {
  return 1.16 * kSmallType * static_cast<double>(std::max(piece.across.size(), piece.along.size()) + 2) + 3;
}

double draw_accounts(Drawing& page, double left, double right, double top, const Piece& piece,
                     LengthUnit unit) {
  const double column = (right - left - 6) / 2;
  const double a =
      draw_account(page, left, left + column, top, "across", piece.across, piece.cut_width, unit);
  const double b =
      draw_account(page, right - column, right, top, "along", piece.along, piece.cut_length, unit);
  return std::max(a, b);
}

/// What piece, how large. Returns the y below it.
double draw_head(Drawing& page, double left, double right, double top, const Plan& plan, const Piece& piece) {
  const LengthUnit unit = plan.job.unit;
  double y =
      paragraph(page, left, right, top, piece.kind + ", " + goods_name(plan, piece), {kBodyType, true});
  const std::string size = show_size(piece.cut_width, piece.cut_length, unit);
  const double fits = std::min(1.0, (right - left) / text_width(size, kSizeType, true)) * kSizeType;
  y += 1 + fits * 0.8;
  write(page, {left, y}, size, {fits, true});
  y += leading(kBodyType) + 0.5;
  write(page, {left, y}, "cut: across × along the pile", {kBodyType});
  y += leading(kCutType);
  write(page, {left, y}, "net " + show_size(piece.net_width, piece.net_length, unit), {kCutType});
  return y + 1.5;
}

// ---- the parts of the stair's page

/// Steps of the piece whose strip and pad are drawn alike, lowest first, the first of each kind drawn.
struct AlikeSteps {
  const Step* step = nullptr;
  const Fixings* fixings = nullptr;
  std::vector<int> numbers;
};

bool alike(const Fixings& a, const Fixings& b) {
  if (a.strips.size() != b.strips.size() || a.pad.width != b.pad.width || a.pad.length != b.pad.length)
    return false;
  for (std::size_t i = 0; i < a.strips.size(); ++i) {
    const auto &s = a.strips[i], &t = b.strips[i];
    if (s.place != t.place || s.from != t.from || s.to != t.to || s.set_off != t.set_off ||
        s.left_angle_deg != t.left_angle_deg || s.right_angle_deg != t.right_angle_deg)
      return false;
  }
  return true;
}

std::vector<AlikeSteps> fixings_to_draw(const Plan& plan, const PlannedPiece& planned) {
  std::vector<AlikeSteps> out;
  for (auto step = planned.steps.rbegin(); step != planned.steps.rend(); ++step) {
    const Fixings* f = fixings_of(plan, planned.piece, step->number);
    if (!f) continue;
    const auto same =
        std::find_if(out.begin(), out.end(), [&](const AlikeSteps& a) { return alike(*a.fixings, *f); });
    if (same != out.end())
      same->numbers.push_back(step->number);
    else
      out.push_back({&*step, f, {step->number}});
  }
  return out;
}

std::string numbers_of(const std::vector<int>& steps) {
  std::string text = steps.size() == 1 ? "step " : "steps ";
  for (std::size_t i = 0; i < steps.size(); ++i)
    text += (i ? ", " : "") + fmt::format("{}", steps[i]);
  return text;
}

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

void small_heading(Drawing& page, PagePoint at, const std::string& text) {
  write(page, {at.x, at.y + kBodyType}, text, {kBodyType, true});
}

void draw_pictures(Pages& out, const Plan& plan, const PlannedPiece& planned, double height) {
  const auto fixings = fixings_to_draw(plan, planned);
  const Box box = out.rest();
  const double column = (box.width() - 6) / 2, head = leading(kBodyType) + 0.5;
  small_heading(out.page(), {box.left, box.top}, "On the stair");
  draw_solid(out.page(), planned, box.left, box.top + head, column, height - head);
  for (std::size_t i = 0; i < fixings.size(); ++i) {
    if (i > 0 && out.left_over() < height) out.turn();
    const Box row = out.rest();
    const bool right = i == 0 || i % 2 == 0;
    const double left = right ? row.right - column : row.left;
    small_heading(out.page(), {left, row.top}, "Strip and pad, " + numbers_of(fixings[i].numbers));
    draw_fixings(out.page(), {left, row.top + head, left + column, row.top + height}, *fixings[i].step,
                 *fixings[i].fixings, plan.job.strip, plan.job.unit);
    if (right) out.y += height + kGap;
  }
  if (fixings.size() != 1 && (fixings.empty() || fixings.size() % 2 == 0)) out.y += height + kGap;
}

// ---- sheets

void draw_failed(Pages& out, const PlannedPiece& planned) {
  Drawing& page = out.page();
  Box box = out.rest();
  rectangle(page, {box.left, box.top, box.right, box.top + 24}, Pen::warning, Fill::warning);
  write(page, {box.centre().x, box.top + 17}, "DO NOT CUT", {15, true, true, Anchor::middle});
  const std::string reason =
      planned.proof.reason.empty() ? "folded back, the piece does not fit its step" : planned.proof.reason;
  double y = paragraph(page, box.left, box.right, box.top + 30, reason, {6.5, true, true});
  y = paragraph(
      page, box.left, box.right, y + 3,
      "This piece was folded back onto the step as measured, and did not fit. Measure the step again and "
      "plan anew.",
      {kCutType});
  box.top = y + kGap;
  box.bottom = std::min(box.bottom, box.top + 110);
  draw_flat_warning(page, box, planned.piece);
}

/// The greatest height at which flat view, legend and `others` still fit below `top`; 0 if none is fair.
double flat_height_beside(const Box& rest, const Piece& piece, LengthUnit unit, double others) {
  for (double height = 120; height >= 48; height -= 2) {
    const FlatLayout f = flat_layout({rest.left, rest.top, rest.right, rest.top + height}, piece, {}, unit);
    if (f.bottom + kLegend + others <= rest.bottom && f.edges.height() >= 28) return height;
  }
  return 0;
}

/// Flat view and legend from the top of the rest of the page.
void draw_whole(Pages& out, const Piece& piece, const std::vector<CornerDetail>& details, const Keys& keys,
                LengthUnit unit, double height) {
  const Box rest = out.rest(), box{rest.left, rest.top, rest.right, rest.top + height};
  draw_flat(out.page(), box, piece, details, keys, unit);
  const double below = flat_layout(box, piece, details, unit).bottom;
  out.y = draw_legend(out.page(), rest.left, rest.right, below + 0.5, legend_of(piece)) + kGap;
}

/// Two and two, the lines' words below the first on the left.
void draw_details(Pages& out, const Piece& piece, const std::vector<CornerDetail>& details, const Keys& keys,
                  LengthUnit unit) {
  std::vector<const CornerDetail*> drawn;
  for (const auto& d : details)
    if (d.drawn) drawn.push_back(&d);
  bool words = keys.empty();
  for (std::size_t i = 0; i < drawn.size(); i += 2) {
    const auto columns = [&] {
      const Box box = out.rest();
      const double left = 0.56 * box.width();
      Box a{box.left, box.top, box.left + left, box.bottom}, b{a.right + 4, box.top, box.right, box.bottom};
      const double high = std::min(box.height(), 118.0);
      a.bottom = a.top + high, b.bottom = b.top + high;
      return std::pair{a, b};
    };
    const bool two = i + 1 < drawn.size();
    const double list = words ? 0 : keys_height(keys.size(), 2) + 4;
    const auto fair = [&] {
      auto [a, b] = columns();
      if (two) a.bottom -= list;
      if (a.height() < 45) return false;
      return (!two || corner_denominator(a, piece, *drawn[i], unit) <= kDetailScale) &&
             corner_denominator(b, piece, *drawn[two ? i + 1 : i], unit) <= kDetailScale;
    };
    if (!fair()) out.turn();
    auto [a, b] = columns();
    double left_bottom = a.top;
    if (two)
      left_bottom =
          draw_corner(out.page(), {a.left, a.top, a.right, a.bottom - list}, piece, *drawn[i], keys, unit);
    double bottom = draw_corner(out.page(), b, piece, *drawn[two ? i + 1 : i], keys, unit);
    if (!words) left_bottom = draw_keys(out.page(), {a.left, left_bottom + 4, a.right, a.bottom}, 2, keys);
    words = true;
    out.y = std::max(bottom, left_bottom) + kGap;
  }
}

Sheet sheet_of(const Plan& plan, const PlannedPiece& planned) {
  const Piece& piece = planned.piece;
  const LengthUnit unit = plan.job.unit;
  Sheet sheet;
  sheet.name = "step-" + piece.id;
  sheet.title = piece.id + "   " + place_of(plan, piece);
  Pages out(plan.job.paper);
  if (!planned.proof.passed) {
    draw_failed(out, planned);
    sheet.pages = std::move(out.pages);
    return sheet;
  }

  const auto order = working_order(plan, planned);
  const bool on_stair = !planned.steps.empty();
  const Box whole = out.rest();
  const double order_least = order_height(order, whole.width(), kSmallType);
  const bool joined = planned.steps.size() > 1;
  const Box bench{whole.left, whole.top, whole.right, whole.top + (joined ? kJoinedFlat : kBenchFlat)};
  const auto details = corner_details(piece);
  const Keys keys = flat_keys(piece, details);
  const double middle = whole.left + 0.44 * whole.width();
  if (details.empty()) {
    // All on one page, if that leaves the piece a fair size.
    const double a = draw_head(out.page(), whole.left, middle, out.y, plan, piece);
    out.y = std::max(a, draw_accounts(out.page(), middle + 4, whole.right, out.y, piece, unit)) + 2;
    const double others = order_least + kGap + (on_stair ? kPictures + kGap : 0);
    const double height = flat_height_beside(out.rest(), piece, unit, others);
    draw_whole(out, piece, details, keys, unit,
               height > 0 ? height : std::min(out.left_over() - kLegend, 190.0));
    if (height == 0) out.turn();
  } else {
    // One side of the leaf for the bench, one for the stair.
    paragraph(
        out.page(), middle + 12, whole.right, out.y,
        "Seen with the pile up. If you mark the backing, left and right change places. All numbers run from "
        "the top left corner of the rectangle.",
        {kSmallType});
    out.y = draw_head(out.page(), whole.left, middle + 8, out.y, plan, piece) + 1;
    draw_whole(out, piece, details, keys, unit, bench.height());
    draw_details(out, piece, details, keys, unit);
    const bool account_here = out.left_over() >= account_height(piece);
    if (!account_here) out.turn();
    out.y = draw_accounts(out.page(), whole.left, whole.right, out.y, piece, unit) + kGap;
    if (account_here) out.turn();
  }
  if (on_stair) {
    // The pictures take what the order leaves, most of it, in rows of two.
    const double rows = static_cast<double>(1 + fixings_to_draw(plan, planned).size() / 2);
    const double spare = (out.left_over() - order_least) / rows - kGap;
    draw_pictures(out, plan, planned, std::clamp(0.75 * spare, kPictures, kLargest));
  }
  if (order_least > out.left_over()) out.turn();
  draw_order(out.page(), out.rest(), order);
  sheet.pages = std::move(out.pages);
  return sheet;
}

} // namespace

std::string place_of(const Plan& plan, const Piece& piece) {
  const Flight* flight = flight_of(plan, piece);
  if (!flight || piece.steps.empty()) return piece.flight;
  const auto [low, high] = std::minmax_element(piece.steps.begin(), piece.steps.end());
  if (*low == *high) return fmt::format("Step {} of {}", *low, flight->steps.size());
  return fmt::format("Steps {} to {} of {}", *low, *high, flight->steps.size());
}

std::vector<Sheet> step_sheets(const Plan& plan) {
  std::vector<Sheet> out;
  for (const auto& planned : plan.pieces)
    out.push_back(sheet_of(plan, planned));
  return out;
}

} // namespace treadfold
