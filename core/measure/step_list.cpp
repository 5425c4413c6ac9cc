#include "measure/step_list.h"

#include <fmt/format.h>

namespace treadfold {

std::string step_list(const std::vector<int>& numbers) {
  std::vector<std::string> runs;
  for (std::size_t i = 0; i < numbers.size();) {
    std::size_t j = i;
    while (j + 1 < numbers.size() && numbers[j + 1] == numbers[j] + 1)
      ++j;
    if (j == i + 1) {
      runs.push_back(fmt::format("{}", numbers[i]));
      runs.push_back(fmt::format("{}", numbers[j]));
    } else {
      runs.push_back(i == j ? fmt::format("{}", numbers[i]) : fmt::format("{}–{}", numbers[i], numbers[j]));
    }
    i = j + 1;
  }
  std::string list;
  for (std::size_t i = 0; i < runs.size(); ++i)
    list = i == 0                ? runs[i]
           : i + 1 < runs.size() ? fmt::format("{}, {}", list, runs[i])
                                 : fmt::format("{} and {}", list, runs[i]);
  return numbers.size() == 1 ? fmt::format("step {}", list) : fmt::format("steps {}", list);
}

} // namespace treadfold
