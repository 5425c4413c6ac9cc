// Small jobs for the tests of cut.
#pragma once

#include "cut/check.h"
#include "cut/layout.h"

#include <fmt/format.h>
#include <gtest/gtest.h>

namespace treadfold {

inline Length feet(std::int64_t n) { return kFoot * n; }

/// Goods sold by the inch from 12 ft rolls of 100 ft.
inline Carpet plain_carpet() {
  Carpet c;
  c.id = "plain", c.name = "Plain", c.where = "/carpets/0";
  c.roll_widths = {feet(12)};
  c.roll_length = feet(100);
  c.sold_in = kInch;
  return c;
}

inline void add(std::vector<CutPiece>& pieces, int count, Length width, Length length,
                const std::string& group = "flight") {
  for (int i = 0; i < count; ++i)
    pieces.push_back({fmt::format("P{}", pieces.size() + 1), width, length, group, false, "", {}, {}});
}

inline std::vector<CutPiece> steps(int count, Length width, Length length) {
  std::vector<CutPiece> pieces;
  add(pieces, count, width, length);
  return pieces;
}

/// Lays out, expects no problem and no breach.
inline Layout good_layout(const std::vector<CutPiece>& pieces, const Carpet& carpet,
                          LayoutOptions options = {}) {
  Problems problems;
  Layout layout = lay_out(pieces, carpet, options, problems);
  for (const auto& p : problems)
    ADD_FAILURE() << p.where << ": " << p.found << ", " << p.expected;
  for (const auto& b : check_layout(pieces, carpet, layout))
    ADD_FAILURE() << b;
  return layout;
}

inline const RollLayout& only_roll(const Layout& layout) {
  EXPECT_EQ(layout.rolls.size(), 1u);
  return layout.rolls.at(0);
}

/// Pieces in the row that begins at v = 0.
inline int across(const Layout& layout) {
  int n = 0;
  for (const auto& p : only_roll(layout).placements)
    n += p.v == Length{};
  return n;
}

} // namespace treadfold
