#include "sheets/runner_sheet.h"

#include "measure/runner_band.h"
#include "sheets/fixing_view.h"
#include "sheets/folded_view.h"
#include "sheets/line_roles.h"
#include "sheets/order_view.h"
#include "sheets/runner_view.h"
#include "sheets/work.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr std::size_t kStepsOnPage = 16, kFoldedOnPage = 7; // folded: each crotch has up to five lines
constexpr double kPictures = 52, kLargest = 84;

/// "5", "1 to 13".
std::string run_of(const Reader& reader, int low, int high) {
  return low == high ? std::to_string(low) : reader.say("{} to {}", low, high);
}

double along(const RunnerLine& a, const RunnerLine& b) {
  return ((b.left.v - a.left.v) + (b.right.v - a.right.v)) / 2;
}

/// One stretch of the runner, and what it is called on its own.
struct Stretch {
  double mm = 0;
  std::string name;
};

/// Those that read alike as one: `several` tells how many, and how long each is: "12 steps, each 19 1/8\"".
template <typename Several>
void add_alike(std::vector<SizeItem>& items, const std::vector<Stretch>& stretches, LengthUnit unit,
               const Several& several) {
  const auto words = [&](const Stretch& s) { return show_length(from_mm(s.mm), unit); };
  for (std::size_t i = 0; i < stretches.size();) {
    std::size_t end = i;
    double sum = 0;
    for (; end < stretches.size() && words(stretches[end]) == words(stretches[i]); ++end)
      sum += stretches[end].mm;
    items.push_back({end - i == 1 ? stretches[i].name : several(end - i, words(stretches[i])), sum});
    i = end;
  }
}

/// What it is long, step by step instead of bend by bend.
std::vector<SizeItem> short_account(const Piece& piece, const Reader& reader) {
  const auto& marks = piece.runner->marks;
  const bool folded = !piece.runner->pleats.empty();
  std::vector<Stretch> steps, creases;
  double net = 0;
  for (std::size_t i = 0; i < marks.size(); ++i) {
    steps.push_back({along(marks[i].back, marks[i].foot), reader.say("step {}", marks[i].step)});
    net += steps.back().mm;
    if (i == 0) continue;
    creases.push_back({along(marks[i - 1].foot, marks[i].back),
                       folded ? reader.say("a fold in the crotch") : reader.say("a crease in the crotch")});
    net += creases.back().mm;
  }
  std::vector<SizeItem> items;
  add_alike(items, steps, reader,
            [&](std::size_t n, const std::string& each) { return reader.say("{} steps, each {}", n, each); });
  add_alike(items, creases, reader, [&](std::size_t n, const std::string& each) {
    return folded ? reader.say("{} folds, each {}", n, each) : reader.say("{} creases, each {}", n, each);
  });
  double sum = 0;
  for (const auto& item : items_in_words(piece.along, reader)) { // what comes after the net is kept
    if (sum > net - 1e-3) items.push_back(item);
    sum += item.mm;
  }
  return items;
}

/// One row for each stretch of steps whose bare wood reads alike.
void draw_places(Drawing& page, double left, double right, double top, const PlannedPiece& planned,
                 const Reader& reader) {
  const LengthUnit unit = reader;
  struct Row {
    int low, high;
    std::string left, right;
  };
  std::vector<Row> rows;
  for (const auto& mark : planned.piece.runner->marks) {
    Row row{mark.step, mark.step, show_length(from_mm(mark.foot.bare_left_mm), unit),
            show_length(from_mm(mark.foot.bare_right_mm), unit)};
    if (!rows.empty() && rows.back().left == row.left && rows.back().right == row.right)
      rows.back().low = row.low;
    else
      rows.push_back(row);
  }
  double y =
      paragraph(page, left, right, top, reader.say("Bare wood beside it, on the riser"), {kBodyType, true}) +
      1;
  const double column = (right - left) / 3, step = 1.2 * kCutType;
  write(page, {left, y + kSmallType}, reader.say("steps"), {kSmallType, true});
  write(page, {left + 2 * column - 2, y + kSmallType}, reader.say("left"),
        {kSmallType, true, false, Anchor::right});
  write(page, {right, y + kSmallType}, reader.say("right"), {kSmallType, true, false, Anchor::right});
  y += kSmallType + 1;
  line(page, {left, y}, {right, y}, Pen::dimension);
  for (const auto& row : rows) {
    y += step;
    write(page, {left, y}, run_of(reader, row.low, row.high), {kCutType});
    write(page, {left + 2 * column - 2, y}, row.left, {kCutType, true, false, Anchor::right});
    write(page, {right, y}, row.right, {kCutType, true, false, Anchor::right});
  }
}

std::vector<LegendEntry> legend(const Piece& piece, const Reader& reader) {
  std::vector<LegendEntry> out{{Pen::fold_under, reader.say("over a nosing")},
                               {Pen::tuck, reader.say("into a crotch")}};
  const bool shift = std::any_of(piece.lines.begin(), piece.lines.end(),
                                 [](const FlatLine& l) { return l.label.starts_with("wear shift"); });
  if (piece.trim_back > Length{})
    out.push_back({Pen::hem, shift ? reader.say("fold under from here") : reader.say("net at the top")});
  return out;
}

/// Whether the strip goes round winders, so that its lines lie askew.
bool askew(const PlannedPiece& planned) {
  const auto& runner = *planned.piece.runner;
  return !runner.pleats.empty() || std::any_of(planned.steps.begin(), planned.steps.end(),
                                               [&](const Step& s) { return turns(s, runner.width); });
}

void draw_bench(Pages& out, const Plan& plan, const PlannedPiece& planned) {
  const Reader reader = plan.job.reader();
  const auto& piece = planned.piece;
  const bool folded = askew(planned);
  const auto on_page = folded ? kFoldedOnPage : kStepsOnPage;
  const auto count = piece.runner->marks.size(), pages = (count + on_page - 1) / on_page;
  for (std::size_t i = 0; i < pages; ++i) {
    const auto first = i * count / pages, last = (i + 1) * count / pages - 1;
    const Box whole = out.rest();
    const double middle = whole.left + (folded ? 0.7 : 0.52) * whole.width();
    const auto meanings = folded ? folded_legend(piece, reader) : legend(piece, reader);
    const double below = std::max(folded ? 10.0 : 6.0, legend_height(whole.width(), meanings) + 0.8);
    const Box strip{whole.left, whole.top, middle, whole.bottom - below - 2};
    if (folded)
      draw_folded_strip(out.page(), strip, piece, first, last, reader);
    else
      draw_strip(out.page(), strip, piece, first, last, reader);
    draw_legend(out.page(), whole.left, whole.right, whole.bottom - below, meanings);
    double y = whole.top;
    if (i == 0) {
      y = draw_head(out.page(), middle + 4, whole.right, y, plan, piece);
      if (reader.unit == LengthUnit::inch && piece.cut_length > kFoot * 2)
        y = paragraph(out.page(), middle + 4, whole.right, y - 1,
                      reader.say("{} to cut from the roll", show_length(piece.cut_length, reader, true)),
                      {kCutType});
      y += 2;
      y = draw_account(out.page(), middle + 4, whole.right, y, reader.say("across"),
                       items_in_words(piece.across, reader), piece.cut_width, reader) +
          2;
      y = draw_account(out.page(), middle + 4, whole.right, y, reader.say("along"),
                       short_account(piece, reader), piece.cut_length, reader) +
          4;
      if (!folded) draw_places(out.page(), middle + 4, whole.right, y, planned, reader);
    }
    const auto words =
        folded
            ? reader.say(
                  "Seen with the pile up; the numbers in it are steps. At each edge all lengths run from its "
                  "foot end: mark both edges, and join the two marks of a line.")
            : reader.say(
                  "Seen with the pile up; the numbers in it are steps. All lengths run from its foot end, "
                  "so one position of the tape gives them all.");
    const double lines = static_cast<double>(wrap(words, whole.right - middle - 4, kSmallType).size());
    const double high = std::max(20.0, lines * leading(kSmallType));
    paragraph(out.page(), middle + 4, whole.right, whole.bottom - below - high, words, {kSmallType});
    out.turn();
  }
}

/// Marks that differ, lowest first, with their steps.
struct AlikeMarks {
  const RunnerMark* mark = nullptr;
  const Step* step = nullptr;
};

/// A plan of the lowest step that is neither the landing edge nor unlike most: one picture is enough, since
/// the table tells the rest.
AlikeMarks usual_mark(const PlannedPiece& planned) {
  auto at = planned.steps.size() / 2;
  for (std::size_t i = 0; i < planned.steps.size(); ++i) // of a folded strip the lowest that turns
    if (turns(planned.steps[i], planned.piece.runner->width)) at = i;
  return {&planned.piece.runner->marks[at], &planned.steps[at]};
}

void draw_pictures(Pages& out, const Plan& plan, const PlannedPiece& planned, double height) {
  const auto fixings = fixings_to_draw(plan, planned);
  const Box box = out.rest();
  const double column = (box.width() - 6) / 2, head = leading(kBodyType) + 0.5;
  const Reader reader = plan.job.reader();
  const auto usual = usual_mark(planned);
  small_heading(out.page(), {box.left, box.top}, reader.say("Step {} from above", usual.step->number));
  draw_band(out.page(), {box.left, box.top + head, box.left + column, box.top + height}, *usual.step,
            *usual.mark, reader);
  for (std::size_t i = 0; i < fixings.size(); ++i) {
    if (i > 0 && out.left_over() < height) out.turn();
    const Box row = out.rest();
    const bool right = i % 2 == 0;
    const double left = right ? row.right - column : row.left;
    small_heading(out.page(), {left, row.top},
                  reader.say("Strip and pad, {}", names(reader, fixings[i].numbers)));
    draw_fixings(out.page(), {left, row.top + head, left + column, row.top + height}, *fixings[i].step,
                 *fixings[i].fixings, plan.job.strip, reader);
    if (right) out.y += height + kGap;
  }
  if (fixings.empty() || fixings.size() % 2 == 0) out.y += height + kGap;
}

} // namespace

bool is_strip(const Piece& piece) {
  if (!piece.runner) return false;
  const auto& p = piece.outline;
  return std::all_of(p.begin(), p.end(), [&](FlatPoint q) {
    return std::abs(q.u - piece.net_origin.u) < 0.01 ||
           std::abs(q.u - piece.net_origin.u - piece.net_width.mm()) < 0.01;
  });
}

void draw_runner(Pages& out, const Plan& plan, const PlannedPiece& planned) {
  draw_bench(out, plan, planned);
  if (askew(planned))
    out.y = draw_folded_tables(out.page(), out.rest(), planned.piece, plan.job.reader()) + kGap;
  const auto order = working_order(plan, planned);
  const double order_least = order_height(order, out.rest().width(), kSmallType);
  const double rows = static_cast<double>(1 + fixings_to_draw(plan, planned).size() / 2);
  const double spare = (out.left_over() - order_least) / rows - kGap;
  draw_pictures(out, plan, planned, std::clamp(0.75 * spare, kPictures, kLargest));
  draw_order(out, order, plan.job.reader());
}

} // namespace treadfold
