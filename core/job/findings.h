// Problems as they are collected while a job is read: bounded, so that a broken file cannot bury its reader.
#pragma once

#include "units/problem.h"

#include <utility>

namespace treadfold {

inline constexpr std::size_t kMaxProblems = 200;

class Findings {
public:
  void error(std::string where, std::string found, std::string expected) {
    add({Severity::error, std::move(where), std::move(found), std::move(expected)});
  }
  void warn(std::string where, std::string found, std::string expected) {
    add({Severity::warning, std::move(where), std::move(found), std::move(expected)});
  }
  void add(Problem problem);
  /// What is added now is only counted: no need to word it well.
  bool full() const { return problems_.size() >= kMaxProblems; }

  /// All problems in the order found; past the limit one last error says how many more there were.
  Problems take();

private:
  Problems problems_;
  std::size_t unsaid_ = 0;
};

} // namespace treadfold
