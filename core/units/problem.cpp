#include "units/problem.h"

#include <fmt/format.h>

namespace treadfold {

std::string sentence(const Problem& problem) {
  const auto where = problem.where.empty() ? std::string("the job file") : problem.where;
  return fmt::format("{}: found {}, expected {}.", where, problem.found, problem.expected);
}

} // namespace treadfold
