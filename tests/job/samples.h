// Jobs to test with.
#pragma once

#include "job/job.h"

#include <algorithm>
#include <fstream>
#include <iterator>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace treadfold::samples {

using Json = nlohmann::json;

inline std::string read_file(const std::string& path) {
  std::ifstream in(std::string(SOURCE_DIR) + "/" + path, std::ios::binary);
  return {std::istreambuf_iterator<char>(in), {}};
}

inline const std::vector<std::string>& example_texts() {
  static const std::vector<std::string> texts = {
      read_file("examples/box-stair.json"), read_file("examples/open-stair.json"),
      read_file("examples/grand-stair.json"), read_file("examples/runner.json")};
  return texts;
}

inline Json parse(const std::string& text) { return Json::parse(text, nullptr, true, true); }

/// Fourteen steps in ten lines, and the goods.
inline Json small_job() {
  return parse(R"({
    "treadfold": 1, "units": "in", "paper": "letter", "code": "none",
    "site": {"title": "Test stair"},
    "stairs": [{"name": "Stair", "flights": [{
      "name": "main", "risers": 14, "rise": "7 1/2", "going": "10", "width": "36",
      "nosing": {"projection": "1", "thickness": "1", "profile": "square", "arris_radius": "1/8"},
      "left": "wall", "right": {"open": {"overhang": "1 1/4", "return": "1"}},
      "pile": "down", "cover": "waterfall", "carpet": "plain"}]}],
    "carpets": [{"id": "plain", "name": "Plain", "widths": ["12 ft"], "roll_length": "100 ft",
                 "sold_in": "1 ft", "backing": "1/8", "thickness": "1/2"}],
    "cushion": "none", "strip": {"stock_length": "4 ft"}, "finished_floors": {"foot": "0", "landing": "0"}
  })");
}

inline constexpr const char* kFlight = "/stairs/0/flights/0";

inline Json with(Json job, const std::string& pointer, Json value) {
  job[Json::json_pointer(pointer)] = std::move(value);
  return job;
}

inline Json without(Json job, const std::string& pointer) {
  const Json::json_pointer p(pointer);
  Json& parent = job[p.parent_pointer()];
  if (parent.is_array())
    parent.erase(static_cast<std::size_t>(std::stoul(p.back())));
  else
    parent.erase(p.back());
  return job;
}

inline JobReading read(const Json& job) { return read_job(job.dump()); }

inline std::string told(const Problems& problems) {
  std::string out;
  for (const auto& p : problems)
    out += sentence(p) + "\n";
  return out;
}

inline bool says_error_at(const Problems& problems, const std::string& where) {
  return std::any_of(problems.begin(), problems.end(),
                     [&](const Problem& p) { return p.severity == Severity::error && p.where == where; });
}

} // namespace treadfold::samples
