// Words in a row.
#pragma once

#include <string>
#include <vector>

namespace treadfold {

/// "A-14, A-13". Not fmt::join: g++ 12 warns within it.
inline std::string joined(const std::vector<std::string>& words, const std::string& between = ", ") {
  std::string text;
  for (const auto& word : words)
    text += (text.empty() ? "" : between) + word;
  return text;
}

} // namespace treadfold
