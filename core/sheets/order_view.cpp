#include "sheets/order_view.h"

#include <algorithm>
#include <cassert>
#include <fmt/format.h>

namespace treadfold {
namespace {

constexpr double kMark = 6.5;  // room before an instruction for its number or sign
constexpr double kBetween = 6; // the columns
constexpr double kHead = leading(kBodyType) + 1.5;

struct SetInstruction {
  bool caution = false;
  std::string mark; // the number; empty for a caution
  std::vector<std::string> lines;
  double height = 0;
};

struct SetOrder {
  std::vector<SetInstruction> items;
  std::size_t second = 0; // first item of the second column
  double height = 0;
  int last = 0; // number
};

/// The columns as even as they can be. A caution stays in one column with what it is about.
SetOrder set_order(const std::vector<Instruction>& order, double width, double size, int number = 0) {
  SetOrder set;
  double total = 0, first = 0;
  for (const auto& i : order) {
    SetInstruction s{i.caution, i.caution ? "" : fmt::format("{}.", ++number), {}, 0};
    s.lines = wrap(i.text, (width - kBetween) / 2 - kMark, size, i.caution);
    s.height = static_cast<double>(s.lines.size()) * leading(size) + 0.35 * size;
    total += s.height;
    set.items.push_back(std::move(s));
  }
  set.last = number;
  set.second = set.items.size();
  set.height = total;
  for (std::size_t i = 0; i < set.items.size(); ++i) {
    first += set.items[i].height;
    if (set.items[i].caution || std::max(first, total - first) >= set.height) continue;
    set.height = std::max(first, total - first);
    set.second = i + 1;
  }
  return set;
}

/// A triangle with its stroke and dot, drawn: it must be told from a number at a glance.
void caution_sign(Drawing& page, double x, double y) {
  const double m = x + 2.3;
  page.paths.push_back({{{x, y + 3.9}, {m, y}, {x + 4.6, y + 3.9}}, true, Pen::outline, Fill::none});
  page.paths.push_back(
      {{{m - 0.32, y + 1.35}, {m + 0.32, y + 1.35}, {m + 0.18, y + 2.6}, {m - 0.18, y + 2.6}},
       true,
       Pen::none,
       Fill::ink});
  rectangle(page, {m - 0.25, y + 2.85, m + 0.25, y + 3.35}, Pen::none, Fill::ink);
}

/// What is numbered goes on from `number`; returns the last.
int draw_part(Drawing& page, const Box& box, const std::vector<Instruction>& order, int number,
              const Reader& reader) {
  double size = kBodyType;
  while (size > kSmallType && order_height(order, box.width(), size) > box.height())
    size = std::max(size - 0.2, kSmallType);
  const SetOrder set = set_order(order, box.width(), size, number);
  assert(set.height + kHead <= box.height() + 1e-6);
  write(page, {box.left, box.top + kBodyType}, reader.say("In this order"), {kBodyType, true});
  double y = box.top + kHead, left = box.left;
  for (std::size_t i = 0; i < set.items.size(); ++i) {
    const auto& s = set.items[i];
    if (i == set.second) y = box.top + kHead, left = box.left + (box.width() + kBetween) / 2;
    if (s.caution)
      caution_sign(page, left, y + 0.1);
    else
      write(page, {left, y + 0.95 * size}, s.mark, {size, true});
    for (std::size_t k = 0; k < s.lines.size(); ++k)
      write(page, {left + kMark, y + 0.95 * size + static_cast<double>(k) * leading(size)}, s.lines[k],
            {size, s.caution, s.caution});
    y += s.height;
  }
  return set.last;
}

} // namespace

double order_height(const std::vector<Instruction>& order, double width, double size_mm) {
  return set_order(order, width, size_mm).height + kHead;
}

void draw_order(Pages& out, std::vector<Instruction> order, const Reader& reader) {
  if (order_height(order, out.rest().width(), kSmallType) > out.left_over()) out.turn();
  for (int number = 0; !order.empty();) {
    const Box box = out.rest();
    auto part = order; // as many as fit, and no caution parted from what it is about
    const auto ends_well = [&] { return part.size() == order.size() || !part.back().caution; };
    while (part.size() > 1 && (order_height(part, box.width(), kSmallType) > box.height() || !ends_well()))
      part.pop_back();
    number = draw_part(out.page(), box, part, number, reader);
    order.erase(order.begin(), order.begin() + static_cast<std::ptrdiff_t>(part.size()));
    if (!order.empty()) out.turn();
  }
}

} // namespace treadfold
