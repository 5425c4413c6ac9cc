#include "sheets/step_page.h"

#include "sheets/flat_view.h"
#include "sheets/working_order.h"

#include <algorithm>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kSizeType = 9; // the cut size

std::string goods_name(const Plan& plan, const Piece& piece) {
  for (const auto& c : plan.job.carpets)
    if (c.id == piece.carpet) return c.name.empty() ? c.id : c.name;
  return piece.carpet;
}

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

} // namespace

std::vector<SizeItem> items_in_words(std::vector<SizeItem> items, const Reader& reader) {
  for (auto& item : items)
    item.what = reader.said(item.what);
  return items;
}

double draw_account(Drawing& page, double left, double right, double top, const std::string& title,
                    const std::vector<SizeItem>& items, Length cut, const Reader& reader) {
  const double step = 1.16 * kSmallType;
  const std::string nothing = show_length(Length{}, reader);
  double y = top + kSmallType;
  write(page, {left, y}, title, {kSmallType, true});
  for (const auto& item : items) {
    const std::string value = show_length(from_mm(item.mm), reader);
    if (value == nothing) continue;
    y += step;
    const double room = right - left - text_width(value, kSmallType, false) - 1.5;
    write(page, {left, y}, shortened(item.what, room, kSmallType), {kSmallType});
    write(page, {right, y}, value, {kSmallType, false, false, Anchor::right});
  }
  y += 1;
  line(page, {left, y}, {right, y}, Pen::dimension);
  y += step - 0.4;
  write(page, {left, y}, reader.say("cut"), {kSmallType, true});
  write(page, {right, y}, show_length(cut, reader), {kSmallType, true, false, Anchor::right});
  return y + 1;
}

double account_height(const Piece& piece) {
  return 1.16 * kSmallType * static_cast<double>(std::max(piece.across.size(), piece.along.size()) + 2) + 3;
}

double draw_accounts(Drawing& page, double left, double right, double top, const Piece& piece,
                     const Reader& reader) {
  const double column = (right - left - 6) / 2;
  const double a = draw_account(page, left, left + column, top, reader.say("across"),
                                items_in_words(piece.across, reader), piece.cut_width, reader);
  const double b = draw_account(page, right - column, right, top, reader.say("along"),
                                items_in_words(piece.along, reader), piece.cut_length, reader);
  return std::max(a, b);
}

double draw_head(Drawing& page, double left, double right, double top, const Plan& plan, const Piece& piece) {
  const Reader reader = plan.job.reader();
  double y = paragraph(page, left, right, top, reader.said(piece.kind) + ", " + goods_name(plan, piece),
                       {kBodyType, true});
  const std::string size = show_size(piece.cut_width, piece.cut_length, reader);
  const double fits = std::min(1.0, (right - left) / text_width(size, kSizeType, true)) * kSizeType;
  y += 1 + fits * 0.8;
  write(page, {left, y}, size, {fits, true});
  y += leading(kBodyType) + 0.5;
  write(page, {left, y}, reader.say("cut: across × along the pile"), {kBodyType});
  y += leading(kCutType);
  write(page, {left, y}, reader.say("net {}", show_size(piece.net_width, piece.net_length, reader)),
        {kCutType});
  return y + 1.5;
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

std::string numbers_of(const Reader& reader, const std::vector<int>& steps) {
  std::string numbers;
  for (const int step : steps)
    numbers += (numbers.empty() ? "" : ", ") + std::to_string(step);
  return steps.size() == 1 ? reader.say("step {}", numbers) : reader.say("steps {}", numbers);
}

void small_heading(Drawing& page, PagePoint at, const std::string& text) {
  write(page, {at.x, at.y + kBodyType}, text, {kBodyType, true});
}

void draw_failed(Pages& out, const PlannedPiece& planned, const Reader& reader) {
  Drawing& page = out.page();
  Box box = out.rest();
  rectangle(page, {box.left, box.top, box.right, box.top + 24}, Pen::warning, Fill::warning);
  write(page, {box.centre().x, box.top + 17}, reader.say("DO NOT CUT"), {15, true, true, Anchor::middle});
  const std::string reason = planned.proof.reason.empty()
                                 ? reader.say("folded back, the piece does not fit its step")
                                 : reader.said(planned.proof.reason);
  double y = paragraph(page, box.left, box.right, box.top + 30, reason, {6.5, true, true});
  y = paragraph(
      page, box.left, box.right, y + 3,
      reader.say(
          "This piece was folded back onto the step as measured, and did not fit. Measure the step again "
          "and plan anew."),
      {kCutType});
  box.top = y + kGap;
  box.bottom = std::min(box.bottom, box.top + 110);
  draw_flat_warning(page, box, planned.piece, reader);
}

} // namespace treadfold
