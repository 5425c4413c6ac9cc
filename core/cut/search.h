// The search for a short layout on one strip: a fixed set of orders and rules, then seeded changes to the
// best.
#pragma once

#include "cut/rows.h"

namespace treadfold::rows {

/// What is wanted, best first: least to buy, largest clean offcut, fewest strokes, least used.
struct Goal {
  Ticks sold_in = 1, least_order = 0;
  Ticks good_enough = 0;            // no shorter layout is of use: a lower bound, or what a remnant has
  bool stop_at_good_enough = false; // else the fixed set is tried to its end, for offcuts and strokes
  Ticks roll_width = 0;             // nominal, for the offcuts
  Ticks selvage = 0;
  std::int64_t fixed_steps = 4'000'000; // spaces looked at in the fixed set of orders, before it is cut short
  int work = 0;                         // changes tried after the fixed set, where a pattern is kept
  unsigned seed = 1;

  Ticks to_buy(Ticks used) const;
  /// The longest use that is less to buy than `used`; 0 if none is.
  Ticks longest_cheaper(Ticks used) const;
};

struct Found {
  std::vector<Spot> at; // by index of Rect, from the strip's left edge
  Ticks used = 0;       // from strip.begin on
  Ticks whole_rows = 0; // by hand, in the given order, with the same pattern
};

/// Guarantees: used <= whole_rows. Same answer for the same input. Work is bounded whatever the number of
/// pieces.
/// REQUIRES: rects not empty, each fits the strip; find_motif_places(…) has filled the strip.
Found search(const std::vector<Rect>& rects, const Strip& strip, const Goal& goal);

} // namespace treadfold::rows
