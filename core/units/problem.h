// What is wrong with what the user gave us, as a value. All problems are collected; none is thrown.
#pragma once

#include <string>
#include <vector>

namespace treadfold {

/// error: no plan can be made. warning: a plan is made, and the installer must look. note: worth knowing.
enum class Severity { error, warning, note };

struct Problem {
  Severity severity = Severity::error;
  std::string where;           // JSON Pointer into the job file, "" for the whole file
  std::string found;           // what stood there: "-3"
  std::string expected;        // what should stand there: "a length from 1 in to 40 ft"
  std::vector<int> steps = {}; // that it names, of the flight in which `where` lies
};

using Problems = std::vector<Problem>;

inline bool has_errors(const Problems& problems) {
  for (const auto& p : problems)
    if (p.severity == Severity::error) return true;
  return false;
}

/// One clear sentence: "/stairs/0/flights/0/rise: found -3, expected a length from 2 in to 15 in."
std::string sentence(const Problem& problem);

} // namespace treadfold
