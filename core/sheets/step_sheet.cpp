#include "sheets/step_sheet.h"

#include "sheets/fixing_view.h"
#include "sheets/flat_view.h"
#include "sheets/order_view.h"
#include "sheets/runner_sheet.h"
#include "sheets/runner_view.h"
#include "sheets/solid_view.h"
#include "sheets/step_page.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {
namespace {

constexpr double kPictures = 38, kLargest = 80;      // height of the row of pictures, least and most
constexpr double kBenchFlat = 88, kJoinedFlat = 165; // height of the flat view above its details
constexpr int kKeyColumns = 3;                       // below a view without details
constexpr double kLegend = 10;                       // two rows: room for a legend, at least
constexpr double kDetailScale = 2.5;                 // a detail drawn smaller than 1:2.5 wants a fresh page

void draw_pictures(Pages& out, const Plan& plan, const PlannedPiece& planned, double height) {
  const Reader reader = plan.job.reader();
  const auto fixings = fixings_to_draw(plan, planned);
  const Box box = out.rest();
  const double column = (box.width() - 6) / 2, head = leading(kBodyType) + 0.5;
  if (const auto& runner = planned.piece.runner) {
    const auto& step = planned.steps.front();
    small_heading(out.page(), {box.left, box.top}, reader.say("Step {} from above", step.number));
    draw_band(out.page(), {box.left, box.top + head, box.left + column, box.top + height}, step,
              runner->marks.front(), reader);
  } else {
    small_heading(out.page(), {box.left, box.top}, reader.say("On the stair"));
    draw_solid(out.page(), planned, box.left, box.top + head, column, height - head);
  }
  for (std::size_t i = 0; i < fixings.size(); ++i) {
    if (i > 0 && out.left_over() < height) out.turn();
    const Box row = out.rest();
    const bool right = i == 0 || i % 2 == 0;
    const double left = right ? row.right - column : row.left;
    small_heading(out.page(), {left, row.top},
                  reader.say("Strip and pad, {}", numbers_of(reader, fixings[i].numbers)));
    draw_fixings(out.page(), {left, row.top + head, left + column, row.top + height}, *fixings[i].step,
                 *fixings[i].fixings, plan.job.strip, reader);
    if (right) out.y += height + kGap;
  }
  if (fixings.size() != 1 && (fixings.empty() || fixings.size() % 2 == 0)) out.y += height + kGap;
}

// ---- sheets

double room_for_legend(const Piece& piece, const Box& box, const Reader& reader) {
  return std::max(kLegend, legend_height(box.width(), legend_of(piece, reader)) + 0.5);
}

/// The greatest height at which flat view, legend and `others` still fit below `top`; 0 if none is fair.
double flat_height_beside(const Box& rest, const Piece& piece, const Reader& reader, double others) {
  const double most = flat_layout(rest, piece, {}, reader).edges.height(), fair = std::min(28.0, most);
  const double legend = room_for_legend(piece, rest, reader);
  for (double height = 120; height >= 48; height -= 2) {
    const FlatLayout f = flat_layout({rest.left, rest.top, rest.right, rest.top + height}, piece, {}, reader);
    if (f.bottom + legend + others <= rest.bottom && f.edges.height() >= fair) return height;
  }
  return 0;
}

/// Flat view and legend from the top of the rest of the page.
void draw_whole(Pages& out, const Piece& piece, const std::vector<CornerDetail>& details, const Keys& keys,
                const Reader& reader, double height) {
  const Box rest = out.rest(), box{rest.left, rest.top, rest.right, rest.top + height};
  draw_flat(out.page(), box, piece, details, keys, reader);
  const double below = flat_layout(box, piece, details, reader).bottom;
  out.y = draw_legend(out.page(), rest.left, rest.right, below + 0.5, legend_of(piece, reader)) + kGap;
  if (details.empty() && !keys.empty()) {
    const Box keys_box{rest.left, out.y - kGap + 1, rest.right, rest.bottom};
    out.y = draw_keys(out.page(), keys_box, kKeyColumns, keys, reader) + kGap;
  }
}

/// Two and two, the lines' words below the first on the left.
void draw_details(Pages& out, const Piece& piece, const std::vector<CornerDetail>& details, const Keys& keys,
                  const Reader& reader) {
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
      return (!two || corner_denominator(a, piece, *drawn[i], reader) <= kDetailScale) &&
             corner_denominator(b, piece, *drawn[two ? i + 1 : i], reader) <= kDetailScale;
    };
    if (!fair()) out.turn();
    auto [a, b] = columns();
    double left_bottom = a.top;
    if (two)
      left_bottom =
          draw_corner(out.page(), {a.left, a.top, a.right, a.bottom - list}, piece, *drawn[i], keys, reader);
    double bottom = draw_corner(out.page(), b, piece, *drawn[two ? i + 1 : i], keys, reader);
    if (!words)
      left_bottom = draw_keys(out.page(), {a.left, left_bottom + 4, a.right, a.bottom}, 2, keys, reader);
    words = true;
    out.y = std::max(bottom, left_bottom) + kGap;
  }
}

Sheet sheet_of(const Plan& plan, const PlannedPiece& planned) {
  const Piece& piece = planned.piece;
  const Reader reader = plan.job.reader();
  Sheet sheet;
  sheet.name = "step-" + piece.id;
  sheet.title = piece.id + "   " + place_of(plan, piece);
  Pages out(plan.job.paper);
  if (!planned.proof.passed) {
    draw_failed(out, planned, reader);
    sheet.pages = std::move(out.pages);
    return sheet;
  }

  if (is_strip(piece)) {
    draw_runner(out, plan, planned);
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
    out.y = std::max(a, draw_accounts(out.page(), middle + 4, whole.right, out.y, piece, reader)) + 2;
    const double others = order_least + kGap + (on_stair ? kPictures + kGap : 0) +
                          (keys.empty() ? 0 : keys_height(keys.size(), kKeyColumns) + 1);
    const double height = flat_height_beside(out.rest(), piece, reader, others);
    draw_whole(out, piece, details, keys, reader,
               height > 0 ? height
                          : std::min(out.left_over() - room_for_legend(piece, whole, reader), 190.0));
    if (height == 0) out.turn();
  } else {
    // One side of the leaf for the bench, one for the stair.
    paragraph(
        out.page(), middle + 12, whole.right, out.y,
        reader.say(
            "Seen with the pile up. If you mark the backing, left and right change places. All numbers run "
            "from the top left corner of the rectangle."),
        {kSmallType});
    out.y = draw_head(out.page(), whole.left, middle + 8, out.y, plan, piece) + 1;
    draw_whole(out, piece, details, keys, reader, bench.height());
    draw_details(out, piece, details, keys, reader);
    const bool account_here = out.left_over() >= account_height(piece);
    if (!account_here) out.turn();
    out.y = draw_accounts(out.page(), whole.left, whole.right, out.y, piece, reader) + kGap;
    if (account_here) out.turn();
  }
  if (on_stair) {
    // The pictures take what the order leaves, most of it, in rows of two; or the page, if it leaves too
    // little.
    const double rows = static_cast<double>(1 + fixings_to_draw(plan, planned).size() / 2);
    const double spare = (out.left_over() - order_least) / rows - kGap;
    const double room = spare < kPictures ? out.left_over() / rows - kGap : 0.75 * spare;
    draw_pictures(out, plan, planned, std::clamp(room, kPictures, kLargest));
  }
  draw_order(out, order, reader);
  sheet.pages = std::move(out.pages);
  return sheet;
}

} // namespace

std::string place_of(const Plan& plan, const Piece& piece) {
  const Flight* flight = flight_of(plan, piece);
  if (!flight || piece.steps.empty()) return piece.flight;
  const auto [low, high] = std::minmax_element(piece.steps.begin(), piece.steps.end());
  if (*low == *high) return plan.job.reader().say("Step {} of {}", *low, flight->steps.size());
  return plan.job.reader().say("Steps {} to {} of {}", *low, *high, flight->steps.size());
}

std::vector<Sheet> step_sheets(const Plan& plan) {
  std::vector<Sheet> out;
  for (const auto& planned : plan.pieces)
    out.push_back(sheet_of(plan, planned));
  return out;
}

} // namespace treadfold
