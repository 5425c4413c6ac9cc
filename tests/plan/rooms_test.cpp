// The order of rooms, read off the #include lines: data flows one way.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <string>
#include <vector>

#include <gtest/gtest.h>

namespace fs = std::filesystem;

namespace {

const std::vector<std::string> kOrder{"units", "text",  "measure", "cover", "cut",
                                      "buy",   "price", "job",     "plan",  "sheets"};

/// The room of a path below core/: its folder, or "plan" for what lies in core/ itself.
std::string room_of(const std::string& path) {
  const auto slash = path.find('/');
  return slash == std::string::npos ? "plan" : path.substr(0, slash);
}

/// Rooms that `room` must not see. Cut works on rectangles and measure's goods; it knows nothing of cover.
bool may_see(const std::string& room, const std::string& other) {
  if (room == "cut" && other == "cover") return false;
  const auto at = [](const std::string& name) { return std::find(kOrder.begin(), kOrder.end(), name); };
  return at(other) <= at(room);
}

std::vector<std::string> lines_of(const fs::path& path) {
  std::ifstream file(path);
  std::vector<std::string> lines;
  for (std::string line; std::getline(file, line);)
    lines.push_back(line);
  return lines;
}

std::vector<fs::path> core_files() {
  std::vector<fs::path> files;
  for (const auto& entry : fs::recursive_directory_iterator(fs::path(SOURCE_DIR) / "core"))
    if (entry.path().extension() == ".h" || entry.path().extension() == ".cpp") files.push_back(entry.path());
  return files;
}

} // namespace

TEST(Rooms, EachIncludesOnlyRoomsBeforeIt) {
  int checked = 0;
  for (const auto& path : core_files()) {
    const auto room = room_of(fs::relative(path, fs::path(SOURCE_DIR) / "core").generic_string());
    ASSERT_NE(std::find(kOrder.begin(), kOrder.end(), room), kOrder.end()) << path;
    for (const auto& line : lines_of(path)) {
      if (!line.starts_with("#include \"")) continue;
      const auto included = line.substr(10, line.find('"', 10) - 10);
      EXPECT_TRUE(may_see(room, room_of(included))) << path << " includes " << included;
      ++checked;
    }
  }
  EXPECT_GT(checked, 50);
}

// The core is compiled to WebAssembly too: no files, clocks, threads or streams.
TEST(Rooms, CoreTouchesNoFileClockThreadOrStream) {
  for (const auto& path : core_files())
    for (const auto& line : lines_of(path))
      for (const auto* header : {"<fstream>", "<filesystem>", "<thread>", "<mutex>", "<chrono>", "<iostream>",
                                 "<cstdio>", "<random>", "<regex>", "<ctime>", "<future>"})
        EXPECT_FALSE(line.starts_with("#include") && line.find(header) != std::string::npos)
            << path << ": " << line;
}

// C libraries differ in the last bit of these, and then the phone and the command draw different sheets.
TEST(Rooms, CoreTakesTrigonometryFromSteadyAlone) {
  const std::regex differs("std::(sin|cos|tan|asin|acos|atan|atan2|hypot|pow|exp|log|cbrt|lerp)[(]");
  for (const auto& path : core_files())
    for (const auto& line : lines_of(path))
      EXPECT_FALSE(std::regex_search(line, differs)) << path << ": use units/steady.h for: " << line;
}

// Nor is the order of equals the same everywhere where they can be told apart.
TEST(Rooms, CoreSortsStablyInAnOrderOfItsOwn) {
  const std::regex own_order(R"(std::sort\([^;]*\[[^\]]*\]\s*\()"); // up to the [] of a comparison
  for (const auto& path : core_files()) {
    std::string text;
    for (const auto& line : lines_of(path))
      text += line + "\n";
    EXPECT_FALSE(std::regex_search(text, own_order)) << path << ": use std::stable_sort";
  }
}

// Two types of one name are one to the linker, which then takes either's members for both.
TEST(Rooms, NoTwoHeadersDefineTypesOfOneName) {
  const std::regex definition("^(?:struct|class|enum class) (\\w+)[^;]*$"), opening("^namespace (\\S+) \\{$");
  std::map<std::string, fs::path> defined;
  for (const auto& path : core_files()) {
    if (path.extension() != ".h") continue;
    std::string space;
    for (const auto& line : lines_of(path)) {
      std::smatch found;
      if (std::regex_search(line, found, opening)) space = found[1];
      if (!std::regex_search(line, found, definition)) continue;
      const auto name = space + "::" + found[1].str();
      const auto [other, is_new] = defined.emplace(name, path);
      EXPECT_TRUE(is_new) << name << " in " << path << " and in " << other->second;
    }
  }
  EXPECT_GT(defined.size(), 100u);
}
