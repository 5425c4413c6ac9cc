// True outlines on a strip of fixed width: little length, and a bound.
//
// Guarantees
//  1. No two insides overlap, nothing leaves the strip, each piece is packed once, in one of its ways.
//  2. length >= bound; no packing shorter than `bound` exists.
//  3. The same answer for the same pieces, width, seed and work, on every machine.
//  4. More work never makes the length longer.
//  5. Where outlines lie in their own coordinates does not matter.
#pragma once

#include "cut/pack/outline.h"

#include <functional>
#include <string>

namespace treadfold::pack {

/// A piece, as it may lie: one outline for each way round that is allowed, turned by the caller. Ways too
/// wide for the strip are passed over.
struct OutlinePiece {
  std::vector<Outline> ways;
};

/// The way chosen, and by how much its outline is moved.
struct OutlineSpot {
  int way = 0;
  Corner by;
};

struct OutlineOptions {
  std::int64_t work = 20'000'000; // steps of the search, of about three nanoseconds each
  unsigned seed = 1;
  /// As in StripOptions.
  std::function<bool()> should_stop;
};

struct OutlineAnswer {
  std::vector<OutlineSpot> at; // by piece
  Ticks length = 0;
  Ticks bound = 0;
  std::string bound_name;
  std::int64_t work = 0; // done
};

/// REQUIRES: every piece fits the width in one of its ways, and has the same area in all; outlines as
/// outline.h says; coordinates, the width and the pieces' lengths together below 2^28.
OutlineAnswer pack_outlines(const std::vector<OutlinePiece>& pieces, Ticks width,
                            const OutlineOptions& options);

} // namespace treadfold::pack
