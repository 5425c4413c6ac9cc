#include "sheets/step_sheet.h"

#include "sheets/fixing_view.h"
#include "sheets/flat_view.h"
#include "sheets/solid_view.h"
#include "sheets/working_order.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {
namespace {

constexpr double kSizeType = 9;  // the cut size
constexpr double kGap = 4;       // between the parts of a page
constexpr double kMark = 6.5;    // room before an instruction for its number or sign
constexpr double kPictures = 52; // least height of the two pictures

/// "Step 7 of 14", "Steps 5 to 7 of 14", or the floor's name.
std::string place_of(const Plan& plan, const Piece& piece) {
  const Flight* flight = flight_of(plan, piece);
  if (!flight || piece.steps.empty()) return piece.flight;
  const auto [low, high] = std::minmax_element(piece.steps.begin(), piece.steps.end());
  if (*low == *high) return fmt::format("Step {} of {}", *low, flight->steps.size());
  return fmt::format("Steps {} to {} of {}", *low, *high, flight->steps.size());
}

std::string goods_name(const Plan& plan, const Piece& piece) {
  for (const auto& c : plan.job.carpets)
    if (c.id == piece.carpet) return c.name.empty() ? c.id : c.name;
  return piece.carpet;
}

/// One direction's account: each item, and below the line what is cut. Returns the y below it.
double draw_account(Drawing& page, double left, double right, double top, const std::string& title,
                    const std::vector<SizeItem>& items, Length cut, LengthUnit unit) {
  const double step = leading(kSmallType);
  double y = top + kSmallType;
  write(page, {left, y}, title, {kSmallType, true});
  for (const auto& item : items) {
    y += step;
    const std::string value = show_length(from_mm(item.mm), unit);
    write(page, {left, y},
          shortened(item.what, right - left - text_width(value, kSmallType, false) - 1.5, kSmallType),
          {kSmallType});
    write(page, {right, y}, value, {kSmallType, false, false, Anchor::right});
  }
  y += 1;
  line(page, {left, y}, {right, y}, Pen::dimension);
  y += step - 0.4;
  write(page, {left, y}, "cut", {kSmallType, true});
  write(page, {right, y}, show_length(cut, unit), {kSmallType, true, false, Anchor::right});
  return y + 1;
}

double draw_head(Drawing& page, const Box& box, const Plan& plan, const Piece& piece) {
  const LengthUnit unit = plan.job.unit;
  const double account = 0.5 * box.width(), middle = box.right - account, column = (account - 6) / 2;
  double y = paragraph(page, box.left, middle - 4, box.top, piece.kind + ", " + goods_name(plan, piece),
                       {kBodyType, true});
  y += 1 + kSizeType * 0.8;
  const std::string size = show_size(piece.cut_width, piece.cut_length, unit);
  const double fits =
      std::min(kSizeType, kSizeType * (middle - 4 - box.left) / text_width(size, kSizeType, true));
  write(page, {box.left, y}, size, {std::max(fits, 6.0), true});
  y += leading(kBodyType) + 0.5;
  write(page, {box.left, y}, "cut: across × along the pile", {kBodyType});
  y += leading(kCutType);
  write(page, {box.left, y}, "net " + show_size(piece.net_width, piece.net_length, unit), {kCutType});
  const double a =
      draw_account(page, middle, middle + column, box.top, "across", piece.across, piece.cut_width, unit);
  const double b = draw_account(page, box.right - column, box.right, box.top, "along", piece.along,
                                piece.cut_length, unit);
  return std::max({y + 1.5, a, b});
}

// ---- working order

struct OrderLines {
  Instruction instruction;
  std::string mark; // number; empty for a caution
  std::vector<std::string> lines;
  double height = 0;
};

std::vector<OrderLines> set_order(const std::vector<Instruction>& order, double width, double size) {
  std::vector<OrderLines> out;
  int number = 0;
  for (const auto& i : order) {
    OrderLines o{i, i.caution ? "" : fmt::format("{}.", ++number), {}, 0};
    o.lines = wrap(i.text, width - kMark, size, i.caution);
    o.height = static_cast<double>(o.lines.size()) * leading(size) + 0.35 * size;
    out.push_back(std::move(o));
  }
  return out;
}

/// Where the second column starts: the columns as even as they can be. A caution stays with what it is about.
std::size_t column_break(const std::vector<OrderLines>& order) {
  double total = 0, first = 0;
  for (const auto& o : order)
    total += o.height;
  std::size_t best = order.size();
  double least = total;
  for (std::size_t i = 0; i < order.size(); ++i) {
    first += order[i].height;
    if (order[i].instruction.caution) continue;
    if (std::max(first, total - first) < least) least = std::max(first, total - first), best = i + 1;
  }
  return best;
}

double order_height(const std::vector<OrderLines>& order) {
  const std::size_t at = column_break(order);
  double first = 0, second = 0;
  for (std::size_t i = 0; i < order.size(); ++i)
    (i < at ? first : second) += order[i].height;
  return std::max(first, second);
}

void caution_sign(Drawing& page, double x, double y) {
  page.paths.push_back({{{x, y + 3.9}, {x + 2.3, y}, {x + 4.6, y + 3.9}}, true, Pen::outline, Fill::none});
  write(page, {x + 2.3, y + 3.5}, "!", {3.0, true, true, Anchor::middle});
}

void draw_order(Drawing& page, const Box& box, const std::vector<OrderLines>& order, double size) {
  const double column = (box.width() - 6) / 2;
  const std::size_t at = column_break(order);
  double y = box.top, left = box.left;
  for (std::size_t i = 0; i < order.size(); ++i) {
    if (i == at) y = box.top, left = box.right - column;
    const auto& o = order[i];
    if (o.instruction.caution)
      caution_sign(page, left, y + 0.1);
    else
      write(page, {left, y + 0.95 * size}, o.mark, {size, true});
    double line_y = y;
    for (const auto& words : o.lines) {
      write(page, {left + kMark, line_y + 0.95 * size}, words,
            {size, o.instruction.caution, o.instruction.caution});
      line_y += leading(size);
    }
    y += o.height;
  }
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

/// The order in the largest type that fits what is left of the page; on a new page if none does.
void place_order(Pages& out, const std::vector<Instruction>& order) {
  const double head = leading(kBodyType) + 1.5;
  for (int page = 0; page < 2; ++page) {
    const Box box = out.rest();
    for (const double size : {kBodyType, 3.4, kSmallType}) {
      const auto set = set_order(order, (box.width() - 6) / 2, size);
      if (order_height(set) + head > box.height()) continue;
      small_heading(out.page(), {box.left, box.top}, "In this order");
      draw_order(out.page(), {box.left, box.top + head, box.right, box.bottom}, set, size);
      out.y += order_height(set) + head;
      return;
    }
    out.turn();
  }
}

double order_needs(const Box& box, const std::vector<Instruction>& order) {
  return order_height(set_order(order, (box.width() - 6) / 2, kSmallType)) + leading(kBodyType) + 1.5;
}

// ---- sheets

void draw_failed(Pages& out, const PlannedPiece& planned, LengthUnit unit) {
  Drawing& page = out.page();
  Box box = out.rest();
  rectangle(page, {box.left, box.top, box.right, box.top + 24}, Pen::warning, Fill::warning);
  write(page, {(box.left + box.right) / 2, box.top + 17}, "DO NOT CUT", {15, true, true, Anchor::middle});
  const std::string reason =
      planned.proof.reason.empty() ? "Folded back, this piece does not fit its step." : planned.proof.reason;
  double y = paragraph(page, box.left, box.right, box.top + 30, reason, {6.5, true, true});
  y = paragraph(
      page, box.left, box.right, y + 3,
      "The piece was folded back onto the step as measured, and did not fit. Measure the step again and "
      "plan anew.",
      {kCutType});
  box.top = y + kGap;
  box.bottom = std::min(box.bottom, box.top + 110);
  draw_flat(page, box, planned.piece, {}, unit, true);
}

Sheet sheet_of(const Plan& plan, const PlannedPiece& planned) {
  const Piece& piece = planned.piece;
  const LengthUnit unit = plan.job.unit;
  Sheet sheet;
  sheet.name = "step-" + piece.id;
  sheet.title = piece.id + "   " + place_of(plan, piece);
  Pages out(plan.job.paper);
  if (!planned.proof.passed) {
    draw_failed(out, planned, unit);
    sheet.pages = std::move(out.pages);
    return sheet;
  }

  const auto order = working_order(plan, planned);
  out.y = draw_head(out.page(), out.rest(), plan, piece) + kGap / 2;
  const auto legend = legend_of(piece);
  const Box rest = out.rest();
  // All on one page if that leaves the piece a fair size; else this page is the bench's and the next the
  // stair's.
  const bool solid = !planned.steps.empty();
  const double others = (solid ? kPictures + kGap : 0) + order_needs(rest, order) + 2 * kGap + 12;
  const auto details =
      corner_details(piece, whole_view_denominator(piece, {rest.left, rest.top, rest.right, rest.top + 110}));
  const bool one_page = details.empty() && planned.steps.size() < 2 && rest.height() - others > 60;
  const double most = one_page ? rest.height() - others : details.empty() ? rest.height() - 12 : 112;
  const double flat =
      flat_height(piece, rest.width(), std::min(most, details.empty() && !one_page ? 200.0 : 112.0));
  draw_flat(out.page(), {rest.left, rest.top, rest.right, rest.top + flat}, piece, details, unit, false);
  out.y = draw_legend(out.page(), rest.left, rest.right, rest.top + flat + 1, legend) + kGap;

  for (std::size_t i = 0; i < details.size(); i += 2) {
    const double needed = 88;
    if (out.left_over() < needed) out.turn();
    const Box box = out.rest();
    const double height = std::min(box.height(), 118.0), column = (box.width() - 4) / 2;
    for (std::size_t k = i; k < std::min(i + 2, details.size()); ++k) {
      const double left = k == i ? box.left : box.right - column;
      draw_corner(out.page(), {left, box.top, left + column, box.top + height}, piece, details[k], unit);
    }
    out.y += height + kGap;
  }

  if (solid) {
    const double needed = kPictures + kGap + order_needs(rest, order);
    if (out.left_over() < needed) out.turn();
    const double spare = out.left_over() - kGap - order_needs(rest, order);
    draw_pictures(out, plan, planned, std::clamp(spare * 0.8, kPictures, 85.0));
  }
  place_order(out, order);
  sheet.pages = std::move(out.pages);
  return sheet;
}

} // namespace

std::vector<Sheet> step_sheets(const Plan& plan) {
  std::vector<Sheet> out;
  for (const auto& planned : plan.pieces)
    out.push_back(sheet_of(plan, planned));
  return out;
}

} // namespace treadfold
