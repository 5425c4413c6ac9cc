#include "files.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cerrno>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>
#include <fcntl.h>
#include <filesystem>
#include <set>
#include <sys/stat.h>
#include <unistd.h>
#include <utility>

namespace treadfold {
namespace {

namespace fs = std::filesystem;

constexpr std::size_t kMostInput = 8 * 1024 * 1024 + 1;
constexpr const char* kList = ".treadfold";

[[noreturn]] void fail(const std::string& doing, const fs::path& path, int error) {
  throw FileError(fmt::format("cannot {} {}: {}", doing, path.string(), std::strerror(error)));
}

/// An open file; closing is checked by close(), and quiet when another failure is already on its way.
struct Descriptor {
  int fd;
  explicit Descriptor(int open_fd) : fd(open_fd) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (fd >= 0) ::close(fd);
  }
  bool close() { return ::close(std::exchange(fd, -1)) == 0; }
};

void write_all(int fd, const std::string& bytes, const fs::path& path) {
  std::size_t done = 0;
  while (done < bytes.size()) {
    const ssize_t n = ::write(fd, bytes.data() + done, bytes.size() - done);
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) fail("write", path, errno);
    done += static_cast<std::size_t>(n);
  }
}

void create(const fs::path& path, const std::string& bytes) {
  Descriptor file(::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666));
  if (file.fd < 0) fail("write", path, errno);
  write_all(file.fd, bytes, path);
  if (!file.close()) fail("write", path, errno);
}

/// Waits until a file or folder is on the disk, so that a full or failing disk is noticed now.
void flush(const fs::path& path) {
  Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.fd < 0) fail("read back", path, errno);
  if (::fsync(file.fd) != 0 && errno != EINVAL) fail("write", path, errno);
}

/// A new folder with a name of its own; gone again at the end of the scope, with what is left in it.
struct Staging {
  fs::path path;
  Staging(const fs::path& where, const fs::path& named_after) {
    std::string pattern = (where / ("." + named_after.string() + "-XXXXXX")).string();
    if (!::mkdtemp(pattern.data())) fail("write in", where.empty() ? "." : where, errno);
    path = pattern;
  }
  Staging(const Staging&) = delete;
  Staging& operator=(const Staging&) = delete;
  ~Staging() {
    std::error_code ignored;
    fs::remove_all(path, ignored);
  }
};

volatile std::sig_atomic_t asked_to_stop = 0;

/// While files are half written, a signal to stop waits until they are cleared away.
struct StopLater {
  static constexpr std::array<int, 3> kSignals = {SIGINT, SIGTERM, SIGHUP};
  std::array<struct sigaction, 3> before{};
  StopLater() {
    struct sigaction note {};
    note.sa_handler = [](int signal) { asked_to_stop = signal; };
    for (std::size_t i = 0; i < kSignals.size(); ++i)
      ::sigaction(kSignals[i], &note, &before[i]);
  }
  StopLater(const StopLater&) = delete;
  StopLater& operator=(const StopLater&) = delete;
  ~StopLater() {
    for (std::size_t i = 0; i < kSignals.size(); ++i)
      ::sigaction(kSignals[i], &before[i], nullptr);
    if (asked_to_stop != 0) ::raise(asked_to_stop);
  }
  static void look() {
    if (asked_to_stop != 0) throw FileError("stopped before the sheets were written");
  }
};

mode_t usual_folder_mode() {
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0777 & ~mask;
}

std::string listed(const std::set<std::string>& names) {
  std::string text;
  for (const auto& name : names)
    text += name + "\n";
  return text;
}

/// What an earlier run says it wrote here.
std::set<std::string> earlier(const fs::path& folder) {
  std::set<std::string> names;
  if (!fs::exists(folder / kList)) return names;
  const std::string text = read_input((folder / kList).string());
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find('\n', at), text.size());
    const std::string name = text.substr(at, end - at);
    if (!name.empty() && name.find('/') == std::string::npos && name != "." && name != "..")
      names.insert(name);
    at = end + 1;
  }
  return names;
}

void move_over(const fs::path& from, const fs::path& to) {
  if (::rename(from.c_str(), to.c_str()) != 0) fail("write", to, errno);
}

/// Moves the staged files over those in the folder; puts the old ones back if one cannot be moved.
void replace_in(const fs::path& folder, const fs::path& staged, const std::vector<OutputFile>& files) {
  const fs::path old = staged / "old";
  if (::mkdir(old.c_str(), 0777) != 0) fail("write in", staged, errno);
  std::size_t moved = 0;
  try {
    for (; moved < files.size(); ++moved) {
      const auto& name = files[moved].name;
      // A second name for the old file; where the disk knows no such thing, there is no way back from here.
      if (::link((folder / name).c_str(), (old / name).c_str()) != 0 && errno != ENOENT && errno != EPERM &&
          errno != EOPNOTSUPP)
        fail("keep the old", folder / name, errno);
      move_over(staged / name, folder / name);
    }
  } catch (const FileError&) {
    for (std::size_t i = 0; i < moved; ++i) {
      const auto& name = files[i].name;
      if (::rename((old / name).c_str(), (folder / name).c_str()) != 0 && errno == ENOENT)
        ::unlink((folder / name).c_str());
    }
    throw;
  }
}

void write_list(const fs::path& folder, const fs::path& staged, const std::set<std::string>& names) {
  create(staged / kList, listed(names));
  flush(staged / kList);
  move_over(staged / kList, folder / kList);
}

void write_new_folder(const fs::path& folder, const std::vector<OutputFile>& files,
                      const std::set<std::string>& names) {
  const fs::path parent = folder.parent_path();
  std::error_code error;
  if (!parent.empty()) fs::create_directories(parent, error);
  if (error) fail("make the folder", parent, error.value());
  const Staging staging(parent, folder.filename());
  for (const auto& file : files) {
    StopLater::look();
    create(staging.path / file.name, file.bytes);
  }
  create(staging.path / kList, listed(names));
  for (const auto& name : names)
    flush(staging.path / name);
  if (::chmod(staging.path.c_str(), usual_folder_mode()) != 0) fail("write", staging.path, errno);
  StopLater::look();
  move_over(staging.path, folder);
  flush(parent.empty() ? "." : parent);
}

void write_into_folder(const fs::path& folder, const std::vector<OutputFile>& files,
                       const std::set<std::string>& names) {
  const auto ours = earlier(folder);
  for (const auto& name : names)
    if (!ours.contains(name) && fs::symlink_status(folder / name).type() != fs::file_type::not_found)
      throw FileError(fmt::format("{} is in the way and no earlier run wrote it; move it, or choose another "
                                  "folder with -o",
                                  (folder / name).string()));
  const Staging staging(folder, "treadfold");
  for (const auto& file : files) {
    StopLater::look();
    create(staging.path / file.name, file.bytes);
  }
  for (const auto& name : names)
    flush(staging.path / name);
  StopLater::look();
  auto either = ours; // were we stopped from here on, the next run must know both as ours
  either.insert(names.begin(), names.end());
  write_list(folder, staging.path, either);
  try {
    replace_in(folder, staging.path, files);
  } catch (const FileError&) {
    write_list(folder, staging.path, ours);
    throw;
  }
  for (const auto& name : ours)
    if (!names.contains(name)) ::unlink((folder / name).c_str());
  write_list(folder, staging.path, names);
  flush(folder);
}

} // namespace

std::string read_input(const std::string& path) {
  const bool standard = path == "-";
  const std::string name = standard ? "standard input" : path;
  Descriptor file(standard ? ::dup(STDIN_FILENO) : ::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  if (file.fd < 0) fail("read", name, errno);
  std::string text;
  std::array<char, 65536> block; // NOLINT(cppcoreguidelines-pro-type-member-init): filled by read()
  while (text.size() < kMostInput) {
    const ssize_t n = ::read(file.fd, block.data(), std::min(block.size(), kMostInput - text.size()));
    if (n < 0 && errno == EINTR) continue;
    if (n < 0) fail("read", name, errno);
    if (n == 0) break;
    text.append(block.data(), static_cast<std::size_t>(n));
  }
  return text;
}

void write_file(const std::string& path, const std::string& text, bool force) {
  const fs::path target(path);
  const auto in_the_way = [&] {
    return FileError(fmt::format("{} exists; --force replaces it", target.string()));
  };
  const auto found = fs::symlink_status(target).type();
  if (found == fs::file_type::directory) fail("write", target, EISDIR);
  if (found != fs::file_type::not_found && !force) throw in_the_way();
  const StopLater stop_later;
  const Staging staging(target.parent_path(), "treadfold");
  const fs::path staged = staging.path / "file";
  create(staged, text);
  flush(staged);
  StopLater::look();
  if (force) return move_over(staged, target);
  // Another program may have made the file meanwhile: link() never replaces, rename() would.
  if (::link(staged.c_str(), target.c_str()) == 0) return;
  if (errno == EEXIST) throw in_the_way();
  move_over(staged, target);
}

void write_standard_output(const std::string& text) {
  std::fflush(stdout);
  write_all(STDOUT_FILENO, text, "standard output");
}

void write_folder(const std::string& folder, const std::vector<OutputFile>& files) {
  fs::path path(folder);
  if (!path.has_filename() && path.has_relative_path()) path = path.parent_path(); // "out/" is "out"
  std::set<std::string> names{kList};
  for (const auto& file : files)
    names.insert(file.name);
  names.erase(kList);

  const StopLater stop_later;
  struct stat found {};
  if (::stat(path.c_str(), &found) == 0) {
    if (!S_ISDIR(found.st_mode)) throw FileError(fmt::format("{} is a file, not a folder", path.string()));
    write_into_folder(path, files, names);
  } else if (errno == ENOENT) {
    write_new_folder(path, files, names);
  } else {
    fail("write in", path, errno);
  }
}

void refuse_folder_with(const std::string& folder, const std::string& index, const std::string& what) {
  if (earlier(folder).contains(index))
    throw FileError(fmt::format("{} holds {}; choose another folder with -o", folder, what));
}

} // namespace treadfold
