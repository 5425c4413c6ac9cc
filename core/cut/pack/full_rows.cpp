#include "cut/pack/full_rows.h"

#include "cut/pack/scales.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace treadfold::pack {
namespace {

// Classes cost a program some of its bound: one that has come so near still knows what goes with what.
constexpr double kNearly = 0.97;
constexpr std::size_t kCells = 1000; // across the strip, for the choice of boxes beside each other

/// Kinds with their widths rounded down to a class: what fits still fits.
struct Classes {
  std::vector<Ticks> width;
  std::vector<int> boxes;
  std::vector<double> length; // of all its boxes
  std::vector<std::size_t> of_kind;
};

Classes classes_of(const Sheet& sheet, Ticks number) {
  const Ticks step = std::max<Ticks>(1, sheet.width / number);
  std::vector<std::size_t> by_width(sheet.kinds.size());
  std::iota(by_width.begin(), by_width.end(), std::size_t{0});
  std::stable_sort(by_width.begin(), by_width.end(),
                   [&](auto a, auto b) { return sheet.kinds[a].w < sheet.kinds[b].w; });
  Classes classes;
  classes.of_kind.resize(sheet.kinds.size());
  for (const auto i : by_width) {
    const auto& kind = sheet.kinds[i];
    const Ticks width = std::max<Ticks>(1, kind.w / step * step);
    if (classes.width.empty() || classes.width.back() != width)
      classes.width.push_back(width), classes.boxes.push_back(0), classes.length.push_back(0);
    classes.boxes.back() += kind.count;
    classes.length.back() += static_cast<double>(kind.l) * kind.count;
    classes.of_kind[i] = classes.width.size() - 1;
  }
  return classes;
}

/// Rounded so that it holds whatever the sum has lost.
Ticks bound_of(const Sheet& sheet, const std::vector<double>& values) {
  double sum = 0;
  for (std::size_t i = 0; i < values.size(); ++i)
    sum += values[i] * static_cast<double>(sheet.kinds[i].l) * sheet.kinds[i].count;
  return static_cast<Ticks>(std::ceil(sum * (1 - 1e-9)));
}

} // namespace

RowValues row_values(const Sheet& sheet, Ticks classes, std::int64_t most_work, std::int64_t& work) {
  RowValues by_width, by_program;
  for (const auto& k : sheet.kinds)
    by_width.of_kind.push_back(static_cast<double>(k.w) / static_cast<double>(sheet.width));
  by_width.bound = bound_of(sheet, by_width.of_kind);

  auto of = classes_of(sheet, classes);
  const double all = std::accumulate(of.length.begin(), of.length.end(), 0.0);
  for (auto& l : of.length)
    l /= 2 * all; // the program ends early where weights sum to more than 1
  const auto values = Scale(of.width, of.boxes, sheet.width).best(of.length, most_work, work);
  for (const auto c : of.of_kind)
    by_program.of_kind.push_back(static_cast<double>(values[c]) / static_cast<double>(Scale::kOne));
  by_program.bound = bound_of(sheet, by_program.of_kind);
  if (static_cast<double>(by_program.bound) < kNearly * static_cast<double>(by_width.bound)) return by_width;
  by_program.bound = std::max(by_program.bound, by_width.bound);
  return by_program;
}

std::int64_t work_of_full_rows(const Sheet& sheet, int window) {
  Ticks side_by_side = 0;
  for (const auto& k : sheet.kinds)
    side_by_side += k.w * k.count;
  return side_by_side / sheet.width * window * static_cast<std::int64_t>(kCells) / 2;
}

std::vector<Placed> full_rows(const Sheet& sheet, const RowValues& values, int window, std::int64_t& work) {
  const auto kind = [&](int k) -> const Kind& { return sheet.kinds[static_cast<std::size_t>(k)]; };
  std::vector<int> left; // a kind for each box, the longest first
  for (std::size_t i = 0; i < sheet.kinds.size(); ++i)
    left.insert(left.end(), static_cast<std::size_t>(sheet.kinds[i].count), static_cast<int>(i));
  std::stable_sort(left.begin(), left.end(), [&](int a, int b) { return kind(a).l > kind(b).l; });

  const Ticks cell = std::max<Ticks>(1, sheet.width / static_cast<Ticks>(kCells));
  const auto cells = [&](int k) { return static_cast<std::size_t>((kind(k).w + cell - 1) / cell); };
  const auto full = static_cast<std::size_t>(sheet.width / cell);
  std::vector<double> most(full + 1); // worth, by room in cells
  std::vector<std::vector<char>> taken(static_cast<std::size_t>(window), std::vector<char>(full + 1));

  std::vector<Placed> placed;
  for (Ticks v = 0; !left.empty();) {
    const int first = left.front();
    std::vector<int> row{first};
    const std::size_t near = std::min(left.size() - 1, static_cast<std::size_t>(window));
    const std::size_t room = full - std::min(full, cells(first));
    std::fill(most.begin(), most.end(), 0.0);
    for (std::size_t j = 0; j < near; ++j) {
      const int k = left[j + 1];
      const double worth = values.of_kind[static_cast<std::size_t>(k)] * static_cast<double>(kind(k).l);
      auto& takes = taken[j];
      std::fill(takes.begin(), takes.end(), 0);
      for (std::size_t at = room + 1; at-- > cells(k);)
        if (const double with = most[at - cells(k)] + worth; with > most[at]) most[at] = with, takes[at] = 1;
    }
    work += static_cast<std::int64_t>(near * room / 2);
    std::size_t at = room;
    for (std::size_t j = near; j-- > 0;)
      if (taken[j][at]) {
        const int k = left[j + 1];
        at -= cells(k);
        row.push_back(k);
        left.erase(left.begin() + static_cast<std::ptrdiff_t>(j + 1));
      }
    left.erase(left.begin());
    Ticks u = 0;
    for (const int k : row) {
      placed.push_back({k, u, v});
      u += kind(k).w;
    }
    v += kind(first).l;
  }
  return placed;
}

} // namespace treadfold::pack
