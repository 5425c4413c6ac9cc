// Packing by straight cuts from edge to edge: free parts, each filled on its own.
//
// A piece goes into the corner of a part, which is then cut beside it from edge to edge. What is packed so
// can be cut with a straightedge.
#pragma once

#include "cut/pack/waiting.h"

namespace treadfold::pack {

/// A free rectangle. `strip`: the strip itself, before anything is cut off it.
struct Part {
  Ticks u = 0, v = 0, w = 0, l = 0;
  bool strip = false;
};

/// Which way the first cut beside a piece goes: u is across, v along.
enum class Cut { across, along };

struct SliceRule {
  bool transposed = false; // the strip runs along u
  bool rows = false;       // the strip itself is only ever cut across
  Ticks hand = 0;          // no more of the strip's length is cut off at once; 0: any
  int taste = 0;           // 0 … 3: which of two cuts that waste the same is taken
};

/// The parts left by a piece of w by l in the corner of `part`. The cut lies at `depth`, which is at least
/// the piece's size; what is between is a part too.
void slice(const Part& part, Ticks w, Ticks l, Cut cut, Ticks depth, std::vector<Part>& parts);

/// Whether the strip may be cut so: only across its length, no more at once than the hand takes.
bool in_hand(const Part& part, Cut cut, Ticks depth, const SliceRule& rule);

/// The cut that the rule takes for a piece of w by l. Parts narrower or shorter than the least piece are
/// waste.
Cut choose_cut(const Part& part, Ticks w, Ticks l, Ticks least_w, Ticks least_l, const SliceRule& rule);

/// The part with the least area.
std::size_t most_pressing(const std::vector<Part>& parts);

/// As `Greedy` of greedy.h, in parts.
class GreedySlices {
public:
  Ticks complete(const Sheet& sheet, const std::vector<Part>& from, const std::vector<int>& left,
                 const Order& order, const SliceRule& rule, Ticks free, Ticks limit, std::int64_t& work);
  const std::vector<Placed>& placed() const { return placed_; }

private:
  Waiting waiting_;
  std::vector<Part> parts_;
  std::vector<Placed> placed_;
};

} // namespace treadfold::pack
