// The door to the core for JavaScript: text in, text or bytes out. treadfold.mjs is its other side.
//
// A call reads what was put into tf_input() and leaves its answer in tf_answer(). It returns 1; where 0 has a
// meaning, the call says which. An instance holds one plan: start two to hold two. A broken invariant stops
// the instance, which is thrown away.
#include "recut.h"
#include "sheets/files.h"
#include "sheets/recut_sheet.h"
#include "sheets/sheets.h"
#include "sheets/template.h"

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
  std::vector<TemplateFile> templates; // of the piece last asked for
  std::vector<Sheet> rest;             // the recut's sheet, if it could be planned
  std::vector<SheetFile> rest_files;
  std::string rest_title;
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

template <class Files>
std::string names_of(const Files& files) {
  auto names = nlohmann::json::array();
  for (const auto& file : files)
    names.push_back(file.name);
  return names.dump();
}

template <class Files>
auto named(const Files& files, const std::string& name) {
  const auto file = std::find_if(files.begin(), files.end(), [&](const auto& f) { return f.name == name; });
  return file != files.end() ? &*file : nullptr;
}

const PlannedPiece* piece_of(const std::string& id) {
  if (!held.plan) return nullptr;
  const auto& pieces = held.plan->pieces;
  const auto found =
      std::find_if(pieces.begin(), pieces.end(), [&](const auto& p) { return p.piece.id == id; });
  return found != pieces.end() ? &*found : nullptr;
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

/// In: {"risers": 14, "units": "in", "left": "wall", "right": "open"}, each as `treadfold new` takes it and
/// as it does if left out. Out: that starting job without its notes, JSON. 0: a choice is none of these.
int DOOR(tf_new)() {
  const auto asked = nlohmann::json::parse(held.input, nullptr, false);
  if (!asked.is_object()) return refuse("");
  const auto one_of = [&](const char* key, auto words, auto& choice) {
    if (!asked.contains(key)) return true;
    for (const auto& [word, value] : words)
      if (asked[key] == word) return choice = value, true;
    return false;
  };
  NewJob choices;
  using Units = std::pair<const char*, LengthUnit>[3];
  using Sides = std::pair<const char*, SideKind>[3];
  const Units units{{"in", LengthUnit::inch}, {"mm", LengthUnit::millimetre}, {"cm", LengthUnit::centimetre}};
  const Sides sides{{"wall", SideKind::wall}, {"skirt", SideKind::skirt}, {"open", SideKind::open}};
  if (asked.contains("risers")) {
    if (!asked["risers"].is_number_integer()) return refuse("");
    choices.risers = asked["risers"].get<int>();
  }
  if (choices.risers < 1 || choices.risers > 400 || !one_of("units", std::to_array(units), choices.unit) ||
      !one_of("left", std::to_array(sides), choices.left) ||
      !one_of("right", std::to_array(sides), choices.right))
    return refuse("");
  return answer(nlohmann::ordered_json::parse(new_job(choices), nullptr, true, true).dump(2));
}

/// In: a job file. Out: plan.json, its problems within. 0: the job cannot be read as one; out: the problems
/// alone, as `treadfold check --json` prints them, and no plan is held.
int DOOR(tf_plan)() {
  const JobReading reading = read_job(held.input);
  held.plan.reset();
  held.sheets.clear();
  held.files.clear();
  held.templates.clear();
  if (has_errors(reading.problems)) return refuse(problems_json(reading.problems));
  held.plan = plan(reading);
  return answer(plan_json(*held.plan));
}

/// In: a job file whose "cutting" says how far its cutting has come. Out: recut.json; the held plan stays as
/// it is. 0: the job cannot be planned; out: its problems, as of tf_plan. Its sheet, recut.pdf, recut.svg and
/// recut.csv, can be had until the next recut, unless there is none.
int DOOR(tf_recut)() {
  held.rest.clear();
  held.rest_files.clear();
  const JobReading reading = read_job(held.input);
  if (has_errors(reading.problems)) return refuse(problems_json(reading.problems));
  const auto planned = plan(reading);
  if (has_errors(planned.problems)) return refuse(problems_json(planned.problems));
  const auto recuts = recut(planned);
  if (!has_errors(recuts.problems)) {
    held.rest = {recut_sheet(planned, recuts)};
    held.rest_files = sheet_files(held.rest);
    std::erase_if(held.rest_files, [](const auto& file) { return !file.sheet; }); // it is not bound
    held.rest_title = planned.job.site.title;
  }
  return answer(recut_json(recuts));
}

/// Out: fold.json of the held plan. 0: no plan is held.
int DOOR(tf_fold)() { return held.plan ? answer(fold_json(*held.plan)) : refuse(""); }

/// Out: the names of the held plan's sheets, as files, an array; empty if no plan is held.
int DOOR(tf_files)() { return answer(names_of(drawn_files())); }

/// In: {"piece": "A-05", "side": "backing"}, side up; or "pile". Out: the names of that piece's templates, an
/// array, empty if it must not be cut. They can be had until the next ones are made. 0: the held plan has no
/// such piece, or the side is neither.
int DOOR(tf_templates)() {
  held.templates.clear();
  const auto asked = nlohmann::json::parse(held.input, nullptr, false);
  const auto text = [&](const char* key) {
    const bool there = asked.is_object() && asked.contains(key) && asked[key].is_string();
    return there ? asked[key].get<std::string>() : std::string();
  };
  const auto* planned = piece_of(text("piece"));
  const auto side = text("side");
  if (planned == nullptr || (side != "backing" && side != "pile")) return refuse("");
  held.templates =
      template_files(*held.plan, *planned, side == "pile" ? TemplateSide::pile : TemplateSide::backing,
                     {std::begin(kTemplateFormats), std::end(kTemplateFormats)});
  return answer(names_of(held.templates));
}

/// In: one of these names. Out: the bytes of that file. 0: there is none of this name.
int DOOR(tf_file)() {
  if (const auto* file = named(held.rest_files, held.input))
    return answer(write_sheet_file(*file, held.rest, held.rest_title));
  if (const auto* file = named(drawn_files(), held.input))
    return answer(write_sheet_file(*file, held.sheets, held.plan->job.site.title));
  if (const auto* file = named(held.templates, held.input)) return answer(file->bytes);
  return refuse("");
}

} // extern "C"
