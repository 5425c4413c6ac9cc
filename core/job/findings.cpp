#include "job/findings.h"

#include <fmt/format.h>

namespace treadfold {

void Findings::add(Problem problem) {
  if (problems_.size() < kMaxProblems)
    problems_.push_back(std::move(problem));
  else
    ++unsaid_;
}

Problems Findings::take() {
  if (unsaid_ > 0)
    problems_.push_back(
        {Severity::error, "", fmt::format("{} more problems", unsaid_), "the ones above to be mended first"});
  unsaid_ = 0;
  return std::move(problems_);
}

} // namespace treadfold
