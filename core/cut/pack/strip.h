// Rectangles of one orientation on a strip of fixed width: the least length, and a bound that says how far
// off it can be.
//
// Guarantees
//  1. Boxes never overlap, none is turned, none leaves the strip, each is packed once.
//  2. length >= bound; no packing shorter than `bound` exists. proved() means that they meet.
//  3. The same answer for the same boxes, width, seed and work.
//  4. More work never makes the length longer, nor the bound shorter.
//  5. Neither the order of the boxes nor the unit of length matters.
//  6. guillotine: straight strokes from edge to edge free every box (straight_cuts.h counts them).
#pragma once

#include "cut/pack/sheet.h"

#include <functional>
#include <string>

namespace treadfold::pack {

struct StripOptions {
  std::int64_t work = 20'000'000; // steps of the search, of about three nanoseconds each
  unsigned seed = 1;
  bool guillotine = false; // every piece can be freed by straight cuts from edge to edge
  Ticks sold_in = 1;       // lengths are bought in whole multiples: a shorter one of as many is no better
  /// No packing is shorter, as far as linear programs tell: the caller has tried them already. 0: not yet.
  Ticks known_bound = 0;
  Ticks longest_in_hand = 0; // guillotine: no more of the strip's length is cut off at once; 0: any
  /// Asked now and then; the search ends when it says yes. The answer then depends on when it did: for users
  /// who wait, not for answers that must come out the same again.
  std::function<bool()> should_stop;
};

struct StripAnswer {
  std::vector<Spot> at; // by box
  Ticks length = 0;
  Ticks bound = 0;
  std::string bound_name;
  std::int64_t work = 0; // done; it ends early where `length` and `bound` are bought as one
  bool proved() const { return length == bound; }
};

/// REQUIRES: no box wider than `width`, none longer than `longest_in_hand`; 0 < sizes < 2^31.
StripAnswer pack_strip(const std::vector<Box>& boxes, Ticks width, const StripOptions& options);

} // namespace treadfold::pack
