// The command: arguments in, exit status out. What it does with a job is in core; this is only the door.
#include "files.h"
#include "progress.h"
#include "sheets/sheets.h"
#include "summary.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <filesystem>
#include <set>

namespace treadfold {
namespace {

enum ExitStatus { kDone = 0, kProblems = 1, kUsage = 2, kFiles = 3 };

struct UsageError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

/// The plan, or only the problems of a job that cannot be planned.
struct Outcome {
  std::optional<Plan> plan;
  Problems problems;
};

Outcome plan_file(const std::string& path) {
  std::string text;
  {
    const Progress progress(path == "-" ? "waiting for the job on standard input" : "reading the job");
    text = read_input(path);
  }
  const Progress progress("planning");
  const JobReading reading = read_job(text);
  if (has_errors(reading.problems)) return {std::nullopt, reading.problems};
  Outcome out;
  out.plan = plan(reading);
  out.problems = out.plan->problems;
  if (has_errors(out.problems)) out.plan.reset();
  return out;
}

std::string closing_sentence(const Problems& problems, const std::string& path) {
  return fmt::format("{} in {}\n", tally(problems), path == "-" ? "standard input" : printable(path));
}

/// A sheet's name as a file name that no earlier file has.
std::string file_stem(const std::string& name, const std::string& ending, std::set<std::string>& taken) {
  std::string stem;
  for (const char c : name)
    stem += std::isalnum(static_cast<unsigned char>(c)) || c == '-' || c == '_' ? c : '-';
  while (!taken.insert(stem + ending).second)
    stem += "-b";
  return stem + ending;
}

std::vector<OutputFile> files_of(const Plan& plan) {
  const Progress progress("drawing the sheets");
  std::vector<OutputFile> files{{"plan.json", plan_json(plan)}};
  std::set<std::string> taken{"plan.json", "all-sheets.pdf"};
  std::vector<Drawing> all;
  for (const auto& sheet : draw_sheets(plan)) {
    for (std::size_t page = 0; page < sheet.pages.size(); ++page) {
      const auto name = page == 0 ? sheet.name : fmt::format("{}-{}", sheet.name, page + 1);
      files.push_back({file_stem(name, ".svg", taken), write_svg(sheet.pages[page])});
    }
    files.push_back({file_stem(sheet.name, ".pdf", taken), write_pdf(sheet.pages, sheet.title)});
    if (!sheet.table.header.empty())
      files.push_back({file_stem(sheet.name, ".csv", taken), write_csv(sheet.table)});
    all.insert(all.end(), sheet.pages.begin(), sheet.pages.end());
  }
  files.push_back({"all-sheets.pdf", write_pdf(all, plan.job.site.title)});
  return files;
}

struct PlanArguments {
  std::string job, folder;
  bool json = false;
};

int run_plan(PlanArguments arguments) {
  const auto outcome = plan_file(arguments.job);
  if (!outcome.plan) {
    if (arguments.json) write_standard_output(problems_json(outcome.problems));
    fmt::print(stderr, "{}{}No sheets were written.\n", listing(outcome.problems, 20),
               closing_sentence(outcome.problems, arguments.job));
    return kProblems;
  }
  if (arguments.folder.empty() && !arguments.json)
    arguments.folder =
        arguments.job == "-" ? "sheets" : std::filesystem::path(arguments.job).stem().string() + "-sheets";
  if (!arguments.folder.empty()) {
    const auto files = files_of(*outcome.plan);
    {
      const Progress progress("writing the sheets");
      write_folder(arguments.folder, files);
    }
    if (!arguments.json) write_standard_output(summary(*outcome.plan, {arguments.folder, files.size()}));
  }
  if (arguments.json) write_standard_output(plan_json(*outcome.plan));
  return kDone;
}

int run_check(const std::string& job, bool json) {
  const auto outcome = plan_file(job);
  if (json)
    write_standard_output(problems_json(outcome.problems));
  else
    write_standard_output(listing(outcome.problems, std::string::npos) +
                          closing_sentence(outcome.problems, job));
  return has_errors(outcome.problems) ? kProblems : kDone;
}

struct NewArguments {
  std::string file;
  int risers = 13;
  std::string unit = "in", rise, going, width;
  std::string left = "wall", right = "wall";
  bool force = false;
};

Length length_argument(const std::string& name, const std::string& text, LengthUnit unit, Length usual) {
  if (text.empty()) return usual;
  const auto length = parse_length(text, unit);
  if (!length)
    throw UsageError(fmt::format("--{}: \"{}\" is not a length such as \"7 1/2\" or \"190 mm\"", name, text));
  return *length;
}

int run_new(const NewArguments& arguments) {
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
  if (has_errors(problems)) throw UsageError("these sizes make no stair: " + listing(problems, 1));
  if (arguments.file == "-") {
    write_standard_output(text);
  } else {
    write_file(arguments.file, text, arguments.force);
    fmt::print("{} is ready: put your own sizes in it, then: treadfold plan {}\n", arguments.file,
               arguments.file);
  }
  return kDone;
}

int run(int argc, char** argv) {
  CLI::App app{
      "Plans the carpeting of stairs: from a job file with the sizes by tape to every cut size, the roll\n"
      "layout, the shopping list, the quote and a sheet for each step."};
  app.name("treadfold");
  app.set_version_flag("--version", "treadfold " TREADFOLD_VERSION);
  app.require_subcommand(1);
  app.footer(
      "Exit status: 0 done, 1 the job has errors, 2 wrong arguments, 3 a file could not be read or written.\n"
      "Examples:\n"
      "  treadfold new hall.json --risers 14 --right open\n"
      "  treadfold check hall.json\n"
      "  treadfold plan hall.json -o hall-sheets\n"
      "More: man treadfold");
  int status = kDone;

  PlanArguments plan_arguments;
  auto* plan_command = app.add_subcommand("plan", "Plan a job and write all its sheets into a folder");
  plan_command->add_option("JOB", plan_arguments.job, "The job file; - for standard input")->required();
  plan_command->add_option("-o,--output", plan_arguments.folder,
                           "The folder for the sheets; JOB-sheets in this folder if not given");
  plan_command->add_flag("--json", plan_arguments.json,
                         "Write plan.json to standard output; with no -o, nothing else");
  plan_command->footer("Examples:\n"
                       "  treadfold plan hall.json\n"
                       "  treadfold plan hall.json -o ~/jobs/hall\n"
                       "  treadfold plan - --json <hall.json >plan.json");
  plan_command->callback([&] { status = run_plan(plan_arguments); });

  std::string check_job;
  bool check_json = false;
  auto* check_command = app.add_subcommand("check", "Show the problems of a job and write nothing");
  check_command->add_option("JOB", check_job, "The job file; - for standard input")->required();
  check_command->add_flag("--json", check_json, "Write the problems as JSON");
  check_command->footer("Exit status 1 if there is an error; warnings alone are 0.\n"
                        "Examples:\n"
                        "  treadfold check hall.json\n"
                        "  treadfold check hall.json --json");
  check_command->callback([&] { status = run_check(check_job, check_json); });

  NewArguments new_arguments;
  auto* new_command = app.add_subcommand("new", "Write a starting job with a note beside each choice");
  new_command->add_option("FILE", new_arguments.file, "The job file to write; - for standard output")
      ->required();
  new_command
      ->add_option("--risers", new_arguments.risers,
                   "Number of risers, the last one up to the floor included")
      ->check(CLI::Range(1, 400))
      ->capture_default_str();
  new_command->add_option("--rise", new_arguments.rise, "Usual rise, tread to tread");
  new_command->add_option("--going", new_arguments.going, "Usual going, riser face to riser face");
  new_command->add_option("--width", new_arguments.width, "Usual width of a riser");
  new_command->add_option("--units", new_arguments.unit, "Unit of a number without one")
      ->check(CLI::IsMember({"in", "mm", "cm"}))
      ->capture_default_str();
  for (auto [name, side] :
       {std::pair{"--left", &new_arguments.left}, std::pair{"--right", &new_arguments.right}})
    new_command->add_option(name, *side, "What is at that side, looking up the stair")
        ->check(CLI::IsMember({"wall", "skirt", "open"}))
        ->capture_default_str();
  new_command->add_flag("--force", new_arguments.force, "Replace the file if it exists");
  new_command->footer(
      "Examples:\n"
      "  treadfold new hall.json\n"
      "  treadfold new hall.json --risers 14 --rise \"7 5/8\" --going 10 --width \"3 ft\" --right open\n"
      "  treadfold new - --units mm --rise 190 --going 240 --width 860");
  new_command->callback([&] { status = run_new(new_arguments); });

  std::string schema = "job";
  auto* schema_command = app.add_subcommand("schema", "Show the JSON Schema of a job file or of plan.json");
  schema_command->add_option("WHICH", schema, "job or plan")
      ->check(CLI::IsMember({"job", "plan"}))
      ->capture_default_str();
  schema_command->footer("Examples:\n"
                         "  treadfold schema >job.schema.json\n"
                         "  treadfold schema plan");
  schema_command->callback(
      [&] { write_standard_output(std::string(schema == "job" ? job_schema() : plan_schema())); });

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    return app.exit(error) == 0 ? kDone : kUsage; // --help and --version come this way too
  }
  return status;
}

} // namespace
} // namespace treadfold

int main(int argc, char** argv) {
  using namespace treadfold;
  try {
    const int status = run(argc, argv);
    if (std::fflush(stdout) != 0) throw FileError("cannot write standard output");
    return status;
  } catch (const UsageError& error) {
    fmt::print(stderr, "treadfold: {}\n", error.what());
    return kUsage;
  } catch (const std::bad_alloc&) {
    fmt::print(stderr, "treadfold: not enough memory for this job\n");
    return kFiles;
  } catch (const std::exception& error) { // of files: a job's own problems are values
    fmt::print(stderr, "treadfold: {}\n", printable(error.what()));
    return kFiles;
  }
}
