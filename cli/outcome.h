// From the name of a job file to its plan, or to what is wrong with it.
#pragma once

#include "plan.h"

#include <optional>
#include <string>

namespace treadfold {

/// `plan` is empty if the job cannot be read as one. A plan may have errors of its own: a piece that fits no
/// roll, or not its step. It is shown all the same, with that piece marked.
struct Outcome {
  std::optional<Plan> plan;
  Problems problems;
};

/// `path`: "-" for standard input. Throws FileError.
Outcome plan_file(const std::string& path);

/// "2 warnings in hall.json".
std::string closing_sentence(const Problems& problems, const std::string& path);

} // namespace treadfold
