#include "shell.h"

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <sys/wait.h>

namespace treadfold::test {
namespace {

std::filesystem::path new_folder() {
  std::string pattern = (std::filesystem::temp_directory_path() / "treadfold-test-XXXXXX").string();
  if (!mkdtemp(pattern.data())) ADD_FAILURE() << "no folder for the test";
  return pattern;
}

} // namespace

Shell::Shell() : folder_(new_folder()), notes_(new_folder()) {
  std::filesystem::permissions(folder_, std::filesystem::perms(0755));
}

Shell::~Shell() {
  std::error_code ignored;
  std::filesystem::remove_all(folder_, ignored);
  std::filesystem::remove_all(notes_, ignored);
}

Result Shell::run(const std::string& commands) const {
  {
    std::ofstream script(notes_ / "script");
    script << "cd " << folder_ << " || exit 99\nPATH=" << std::filesystem::path(TREADFOLD).parent_path()
           << ":$PATH\nexec >" << notes_ / "out"
           << " 2>" << notes_ / "err"
           << " </dev/null\n"
           << commands << "\n";
  }
  const int raw = std::system(("bash " + (notes_ / "script").string()).c_str());
  return {WIFEXITED(raw) ? WEXITSTATUS(raw) : 128 + WTERMSIG(raw), bytes_of(notes_ / "out"),
          bytes_of(notes_ / "err")};
}

std::string bytes_of(const std::filesystem::path& file) {
  std::ifstream in(file, std::ios::binary);
  std::ostringstream text;
  text << in.rdbuf();
  return text.str();
}

} // namespace treadfold::test
