// How far off a length may be, by how it came about.
#pragma once

#include "units/length.h"

namespace treadfold {

/// Each is two standard deviations of a normal: 19 times in 20 the truth lies no further off.
struct Tolerances {
  Length tape;   // a reading, of whoever reads it
  Length knife;  // a cut, across or along a piece
  Length spread; // of steps of which only the usual one was measured
};

} // namespace treadfold
