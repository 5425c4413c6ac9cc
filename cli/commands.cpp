#include "commands.h"

#include "files.h"
#include "outcome.h"
#include "progress.h"
#include "sheets/files.h"
#include "sheets/sheets.h"
#include "summary.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <filesystem>
#include <map>
#include <utility>

namespace treadfold {
namespace {

std::vector<OutputFile> files_of(const Plan& plan, bool with_fold) {
  const Progress progress("drawing the sheets");
  std::vector<OutputFile> files{{"plan.json", plan_json(plan)}};
  if (with_fold) files.push_back({"fold.json", fold_json(plan)});
  const auto sheets = draw_sheets(plan);
  for (const auto& file : sheet_files(sheets))
    files.push_back({file.name, write_sheet_file(file, sheets, plan.job.site.title)});
  return files;
}

/// Whose sheets these are, in words: title, customer and address of a plan.json. Empty if it is none.
std::string whose(const std::string& plan_text) {
  const auto plan = nlohmann::json::parse(plan_text, nullptr, false);
  if (!plan.is_object() || !plan.contains("site") || !plan["site"].is_object()) return "";
  std::string words;
  for (const auto* key : {"title", "customer", "address"}) {
    const auto value = plan["site"].find(key);
    if (value == plan["site"].end() || !value->is_string()) continue;
    const auto text = value->get<std::string>();
    if (!text.empty()) words += (words.empty() ? "" : ", ") + text;
  }
  return words;
}

/// The same of the sheets that an earlier run left in the folder. What cannot be read is not worth a failure:
/// the sheets are replaced whoever they are of.
std::string whose_sheets_in(const std::filesystem::path& folder) {
  std::error_code none;
  if (!std::filesystem::is_regular_file(folder / ".treadfold", none) ||
      !std::filesystem::is_regular_file(folder / "plan.json", none))
    return "";
  try {
    return whose(read_input((folder / "plan.json").string()));
  } catch (const FileError&) {
    return "";
  }
}

Length length_argument(const std::string& name, const std::string& text, LengthUnit unit, Length usual) {
  if (text.empty()) return usual;
  const auto length = parse_length(text, unit);
  if (!length || *length <= Length{})
    throw UsageError(fmt::format("--{}: \"{}\" is not a length such as \"7 1/2\" or \"190 mm\"", name, text));
  return *length;
}

/// The same problem, its place named by the option that put the size there: who asks for a new job has not
/// seen the file.
Problem of_option(Problem problem) {
  const auto key = problem.where.substr(problem.where.rfind('/') + 1);
  if (key == "rise" || key == "going" || key == "width") problem.where = "--" + key;
  return problem;
}

} // namespace

ExitStatus run_plan(PlanArguments arguments) {
  const auto [plan, problems] = plan_file(arguments.job);
  const auto status = has_errors(problems) ? kProblems : kDone;
  if (!plan) {
    if (arguments.json) write_standard_output(problems_json(problems));
    fmt::print(stderr, "{}{}No sheets were written.\n", listing(problems, 20),
               closing_sentence(problems, arguments.job));
    return status;
  }
  if (arguments.folder.empty() && !arguments.json)
    arguments.folder =
        arguments.job == "-" ? "sheets" : std::filesystem::path(arguments.job).stem().string() + "-sheets";
  std::size_t count = 0;
  if (!arguments.folder.empty()) {
    refuse_folder_with(arguments.folder, "templates.json", "templates");
    refuse_folder_with(arguments.folder, "recut.json", "what is left to cut");
    const auto files = files_of(*plan, !arguments.no_fold);
    std::string before;
    {
      const Progress progress("writing the sheets");
      before = whose_sheets_in(arguments.folder);
      write_folder(arguments.folder, files);
    }
    count = files.size();
    if (!before.empty() && before != whose(files.front().bytes))
      fmt::print(stderr, "treadfold: the sheets in {} were of another job, {}; they are replaced\n",
                 printable(arguments.folder), printable(before));
  }
  write_standard_output(arguments.json ? plan_json(*plan) : summary(*plan, {arguments.folder, count}));
  if (status != kDone)
    fmt::print(stderr, "{}The sheets lack what cannot be cut: mend the job before you order.\n",
               closing_sentence(problems, arguments.job));
  return status;
}

ExitStatus run_check(const CheckArguments& arguments) {
  const auto outcome = plan_file(arguments.job);
  write_standard_output(arguments.json ? problems_json(outcome.problems)
                                       : listing(outcome.problems, outcome.problems.size()) +
                                             closing_sentence(outcome.problems, arguments.job));
  return has_errors(outcome.problems) ? kProblems : kDone;
}

ExitStatus run_new(const NewArguments& arguments) {
  const std::map<std::string, SideKind> sides{
      {"wall", SideKind::wall}, {"skirt", SideKind::skirt}, {"open", SideKind::open}};
  const std::map<std::string, LengthUnit> units{
      {"in", LengthUnit::inch}, {"mm", LengthUnit::millimetre}, {"cm", LengthUnit::centimetre}};
  NewJob choices;
  choices.risers = arguments.risers;
  choices.unit = units.at(arguments.unit);
  const bool inch = choices.unit == LengthUnit::inch;
  choices.rise =
      length_argument("rise", arguments.rise, choices.unit, inch ? inches(7, 1, 2) : millimetres(190));
  choices.going =
      length_argument("going", arguments.going, choices.unit, inch ? inches(10) : millimetres(250));
  choices.width =
      length_argument("width", arguments.width, choices.unit, inch ? inches(36) : millimetres(900));
  choices.left = sides.at(arguments.left);
  choices.right = sides.at(arguments.right);
  const auto text = new_job(choices);
  const auto problems = read_job(text).problems;
  if (has_errors(problems)) {
    for (const auto& problem : problems)
      if (problem.severity == Severity::error)
        fmt::print(stderr, "treadfold: {}\n", printable(sentence(of_option(problem))));
    return kUsage;
  }
  if (arguments.file == "-") {
    write_standard_output(text);
  } else {
    write_file(arguments.file, text, arguments.force);
    fmt::print("{} is ready: put your own sizes in it, then: treadfold plan {}\n", arguments.file,
               arguments.file);
  }
  return kDone;
}

ExitStatus run_schema(const std::string& which) {
  write_standard_output(std::string(which == "job"    ? job_schema()
                                    : which == "plan" ? plan_schema()
                                    : which == "fold" ? fold_schema()
                                                      : recut_schema()));
  return kDone;
}

} // namespace treadfold
