#include "outcome.h"

#include "files.h"
#include "progress.h"
#include "summary.h"

#include <fmt/format.h>

namespace treadfold {

Outcome plan_file(const std::string& path) {
  std::string text;
  {
    const Progress progress(path == "-" ? "waiting for the job on standard input" : "reading the job");
    text = read_input(path);
  }
  const Progress progress("planning");
  const JobReading reading = read_job(text);
  if (has_errors(reading.problems)) return {std::nullopt, reading.problems};
  Outcome out;
  out.plan = plan(reading);
  out.problems = out.plan->problems;
  return out;
}

std::string closing_sentence(const Problems& problems, const std::string& path) {
  return fmt::format("{} in {}\n", tally(problems), path == "-" ? "standard input" : printable(path));
}

} // namespace treadfold
