// How many seeded cases a test tries.
#pragma once

#include <cstdlib>

namespace treadfold {

/// `usual`, or as many per cent of it as TREADFOLD_CASES says: under the sanitizers a case takes ten times as
/// long, and before a release one may want more.
inline int cases(int usual) {
  const char* percent = std::getenv("TREADFOLD_CASES");
  return percent != nullptr ? usual * std::atoi(percent) / 100 : usual;
}

} // namespace treadfold
