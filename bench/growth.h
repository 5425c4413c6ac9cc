// How time and memory grow with the number of pieces.
#pragma once

#include <string>
#include <vector>

namespace treadfold::bench {

struct Growth {
  int family = 0; // of kGrowthFamilies
  int boxes = 0;
  double over_percent = 0; // of the length over the bound
  double cpu_seconds = 0;
  double peak_mb = 0; // of a process that does nothing else
  bool reached = false;
};

inline constexpr const char* kGrowthFamilies[] = {"pieces of stairs", "general sizes"};

/// An SVG of time and memory over the number of boxes, both axes by powers of ten.
std::string draw_growth(const std::vector<Growth>& points);

} // namespace treadfold::bench
