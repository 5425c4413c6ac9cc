// What the terminal shows after a plan: at most 24 lines of at most 80 columns.
#pragma once

#include "plan.h"

namespace treadfold {

inline constexpr int kScreenLines = 24, kScreenColumns = 80;

/// Where the plan's files lie.
struct Written {
  std::string folder;
  std::size_t files = 0; // in it, all-sheets.pdf among them
};

std::string summary(const Plan& plan, const Written& written);

/// One line a problem, "error: …" first; at most `most` lines and one more that counts the rest.
std::string listing(const Problems& problems, std::size_t most);

/// "1 error, 2 warnings"; "no problems".
std::string tally(const Problems& problems);

/// The text without control characters, which a terminal would obey.
std::string printable(const std::string& text);

} // namespace treadfold
