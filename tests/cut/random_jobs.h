// Jobs at random for the properties of cut.
#pragma once

#include "jobs.h"

#include <rapidcheck/gtest.h>

namespace treadfold {

inline Length random_length(int low_16ths, int high_16ths) {
  return inches(0, *rc::gen::inRange(low_16ths, high_16ths), 16);
}

/// The rectangle without two of its corners; or L-shaped; or a frame.
inline GoodsOutline random_outline(Length w, Length l) {
  const auto part = [](Length x, std::int64_t least = 0) {
    return Length{*rc::gen::inRange<std::int64_t>(least, x.ticks)};
  };
  if (*rc::gen::inRange(0, 3) == 0) {
    const Length u = part(w, 1), v = part(l, 1);
    return {{{{}, {}}, {u, {}}, {u, v}, {w, v}, {w, l}, {{}, l}}};
  }
  if (*rc::gen::inRange(0, 3) == 0 && w > inches(2) && l > inches(2)) {
    const Length rim = inches(0, 1, 2), right = part(w - rim, 2 * rim.ticks),
                 foot = part(l - rim, 2 * rim.ticks);
    return {{{{}, {}}, {w, {}}, {w, l}, {{}, l}}, {{{rim, rim}, {rim, foot}, {right, foot}, {right, rim}}}};
  }
  const Length left = part(w), right = part(w), top = part(l), foot = part(l);
  const GoodsRing outline{{left, {}}, {w, {}}, {w, l - foot}, {w - right, l}, {{}, l}, {{}, top}};
  GoodsRing corners; // one where a cut is of no size
  for (const auto& c : outline)
    if (corners.empty() || (corners.back() != c && corners.front() != c)) corners.push_back(c);
  return {corners};
}

inline std::vector<CutPiece> random_pieces(bool matched, int most = 25) {
  std::vector<CutPiece> pieces;
  const int n = *rc::gen::inRange(1, most + 1);
  const int kinds = *rc::gen::inRange(1, 6);
  std::vector<std::pair<Length, Length>> sizes;
  for (int i = 0; i < kinds; ++i)
    sizes.emplace_back(random_length(16, 16 * 140), random_length(16, 16 * 90));
  for (int i = 0; i < n; ++i) {
    const auto [w, l] = sizes[static_cast<std::size_t>(*rc::gen::inRange(0, kinds))];
    add(pieces, 1, w, l, *rc::gen::inRange(0, 2) ? "lower flight" : "upper flight");
    if (*rc::gen::inRange(0, 3) == 0) pieces.back().outline = random_outline(w, l);
    if (matched && *rc::gen::inRange(0, 4) > 0) {
      pieces.back().matched = true;
      pieces.back().match_group = *rc::gen::inRange(0, 3) ? "stair" : "landing";
      if (*rc::gen::inRange(0, 2)) pieces.back().phase_v = random_length(-320, 320);
    }
  }
  return pieces;
}

inline Carpet random_carpet(bool patterned, bool remnants) {
  Carpet c = plain_carpet();
  c.selvage = random_length(0, 33);
  c.roll_widths = {feet(12), inches(162)};
  c.sold_in = *rc::gen::element(kInch, inches(3), kFoot);
  if (patterned) {
    const Length repeat = random_length(16, 16 * 40);
    c.pattern = Pattern{random_length(16, 16 * 40), repeat, {}};
    const int part = *rc::gen::inRange(1, 5); // 1: set match, 2: half-drop …
    c.pattern->drop = part == 1 ? Length{} : Length{repeat.ticks / part};
  }
  if (remnants)
    for (int i = *rc::gen::inRange(0, 3); i > 0; --i)
      c.remnants.push_back({fmt::format("remnant {}", i), random_length(320, 16 * 160),
                            random_length(160, 16 * 200), *rc::gen::inRange(0, 2) ? "B7" : "", ""});
  if (*rc::gen::inRange(0, 2)) c.dye_lot = "B7";
  c.laid = *rc::gen::element(Laid::straight, Laid::close, Laid::outlines);
  c.directional = *rc::gen::inRange(0, 2) > 0;
  if (*rc::gen::inRange(0, 4) == 0)
    c.roll_length = random_length(16 * 90, 16 * 200); // an order of several cuts
  if (*rc::gen::inRange(0, 3) == 0) c.in_hand = random_length(16 * 20, 16 * 120);
  return c;
}

} // namespace treadfold
