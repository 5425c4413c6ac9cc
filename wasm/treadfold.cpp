// The door to the core for JavaScript: text in, text or bytes out. treadfold.mjs is its other side.
//
// A call reads what was put into tf_input() and leaves its answer in tf_answer(). It returns 1; where 0 has a
// meaning, the call says which. An instance holds one plan: start two to hold two. A broken invariant stops
// the instance, which is thrown away.
#include "sheets/files.h"
#include "sheets/sheets.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <optional>

using namespace treadfold;

namespace {

struct Held {
  std::string input, answer;
  std::optional<Plan> plan;
  std::vector<Sheet> sheets; // drawn when first asked for
  std::vector<SheetFile> files;
};

Held held; // the binding's, not the core's: JavaScript keeps no pointers into C++

int answer(std::string text) {
  held.answer = std::move(text);
  return 1;
}

int refuse(std::string text) { return answer(std::move(text)), 0; }

const std::vector<SheetFile>& drawn_files() {
  if (held.files.empty() && held.plan) {
    held.sheets = draw_sheets(*held.plan);
    held.files = sheet_files(held.sheets);
  }
  return held.files;
}

} // namespace

#define DOOR(name) __attribute__((export_name(#name))) name

extern "C" {

/// Room for `size` bytes, which the next call reads.
char* DOOR(tf_input)(std::size_t size) {
  held.input.assign(size, '\0');
  return held.input.data();
}

/// Where the last answer is, good until the next call, and its bytes.
const char* DOOR(tf_answer)() { return held.answer.data(); }
std::size_t DOOR(tf_answer_size)() { return held.answer.size(); }

/// In: a job file. Out: plan.json, its problems within. 0: the job cannot be read as one; out: the problems
/// alone, as `treadfold check --json` prints them, and no plan is held.
int DOOR(tf_plan)() {
  const JobReading reading = read_job(held.input);
  held.plan.reset();
  held.sheets.clear();
  held.files.clear();
  if (has_errors(reading.problems)) return refuse(problems_json(reading.problems));
  held.plan = plan(reading);
  return answer(plan_json(*held.plan));
}

/// Out: the names of the held plan's files, an array; empty if no plan is held.
int DOOR(tf_files)() {
  auto names = nlohmann::json::array();
  for (const auto& file : drawn_files())
    names.push_back(file.name);
  return answer(names.dump());
}

/// In: one of these names. Out: the bytes of that file. 0: there is none of this name.
int DOOR(tf_file)() {
  const auto& files = drawn_files();
  const auto file =
      std::find_if(files.begin(), files.end(), [](const auto& f) { return f.name == held.input; });
  if (file == files.end()) return refuse("");
  return answer(write_sheet_file(*file, held.sheets, held.plan->job.site.title));
}

/// In: "job" or "plan". Out: its JSON Schema. 0: neither of the two.
int DOOR(tf_schema)() {
  if (held.input == "job") return answer(std::string(job_schema()));
  if (held.input == "plan") return answer(std::string(plan_schema()));
  return refuse("");
}

} // extern "C"
