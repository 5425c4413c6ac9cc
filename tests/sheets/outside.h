// Readers that share no code with us: run as commands on files in the test's folder.
#pragma once

#include <string>

namespace treadfold {

/// Standard output and error of `command` together, and its exit status.
struct CommandResult {
  std::string output;
  int status = -1;
};
CommandResult run(const std::string& command);

/// Writes `bytes` to a file of its own under the test folder and returns its path.
std::string in_file(const std::string& bytes, const std::string& name);

} // namespace treadfold
