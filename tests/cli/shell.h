// Runs shell commands in a folder of their own, with `treadfold` on the path.
#pragma once

#include <filesystem>
#include <string>

namespace treadfold::test {

struct Result {
  int status = -1; // 128 + n if signal n ended it
  std::string out, err;
};

class Shell {
public:
  Shell();  // a new empty folder
  ~Shell(); // gone, with all in it
  Shell(const Shell&) = delete;
  Shell& operator=(const Shell&) = delete;

  /// The commands, by bash, in the folder.
  Result run(const std::string& commands) const;
  std::filesystem::path operator/(const std::string& name) const { return folder_ / name; }

private:
  std::filesystem::path folder_, notes_;
};

std::string bytes_of(const std::filesystem::path& file);

} // namespace treadfold::test
