// The command: arguments in, exit status out.
#include "commands.h"
#include "files.h"
#include "summary.h"

#include <CLI/CLI.hpp>
#include <fmt/format.h>

#include <iostream>

namespace treadfold {
namespace {

CLI::App* add_plan(CLI::App& app, PlanArguments& arguments) {
  auto* command = app.add_subcommand("plan", "Plan a job and write all its sheets into a folder");
  command->add_option("JOB", arguments.job, "The job file; - for standard input")->required();
  command->add_option("-o,--output", arguments.folder,
                      "The folder for the sheets; JOB-sheets in this folder if not given");
  command->add_flag("--json", arguments.json, "Write plan.json to standard output; with no -o, nothing else");
  command->add_flag("--no-fold", arguments.no_fold,
                    "Leave out fold.json, the pieces as they fold, for viewers");
  command->footer("Examples:\n"
                  "  treadfold plan hall.json\n"
                  "  treadfold plan hall.json -o ~/jobs/hall\n"
                  "  treadfold plan - --json <hall.json >plan.json");
  return command;
}

CLI::App* add_templates(CLI::App& app, TemplateArguments& arguments) {
  auto* command =
      app.add_subcommand("templates", "Write full-size templates of a job's pieces into a folder");
  command->add_option("JOB", arguments.job, "The job file; - for standard input")->required();
  command->add_option("-o,--output", arguments.folder,
                      "The folder for the templates; JOB-templates in this folder if not given");
  command->add_option("--piece", arguments.pieces, "Only this piece, such as A-05; may be given again")
      ->allow_extra_args(false);
  command
      ->add_option(
          "--format", arguments.formats,
          "Only this form; may be given again: pdf, pages to join on the job's paper; plotter, a PDF "
          "of one page; dxf, R12 in mm for cutting tables; svg, at 1:1")
      ->check(CLI::IsMember({"pdf", "plotter", "dxf", "svg"}))
      ->allow_extra_args(false);
  command
      ->add_option(
          "--side", arguments.side,
          "Which side of the carpet is up: backing, where it is marked, so that the template is the mirror "
          "image of the sheets; or pile")
      ->check(CLI::IsMember({"backing", "pile"}))
      ->capture_default_str();
  command->add_flag("--json", arguments.json,
                    "Write the list of templates to standard output; with no -o, nothing else");
  command->footer("Print at 100 %, no scaling, and measure the rulers on the paper before you cut.\n"
                  "Examples:\n"
                  "  treadfold templates hall.json\n"
                  "  treadfold templates hall.json --piece A-05 --format pdf\n"
                  "  treadfold templates hall.json --format dxf --side pile -o ~/jobs/hall-table");
  return command;
}

CLI::App* add_recut(CLI::App& app, RecutArguments& arguments) {
  auto* command = app.add_subcommand(
      "recut", "Plan the rest on what is left: a piece is spoiled, the roll is short or has a flaw");
  command
      ->add_option("JOB", arguments.job,
                   "The job file, with what is cut under \"cutting\"; - for standard input")
      ->required();
  const auto pieces = [&](const char* name, auto& list, const char* words) {
    command->add_option(name, list, words)->delimiter(',')->allow_extra_args(false);
  };
  pieces("--cut", arguments.cut, "Pieces that are cut and good, such as A-14,A-13; may be given again");
  pieces("--spoiled", arguments.spoiled, "Pieces that will not do and must be cut again; may be given again");
  command->add_option("--roll-length", arguments.roll_length, "How long the roll was, if not as ordered");
  command
      ->add_option("--flaw", arguments.flaws,
                   "A fault across the roll, from its end: \"11 ft to 11 ft 2 in\"; may be given again")
      ->allow_extra_args(false);
  command->add_option(
      "--way", arguments.way,
      "The way out to take, if not the best: as_planned, laid_anew, other_remnant, smaller_join "
      "or hidden_seam");
  command->add_option("--remnant", arguments.remnant, "Which remnant, with --way other_remnant");
  command->add_option("-o,--output", arguments.folder,
                      "A folder for the sheet of strokes; without it none is written");
  command->add_flag("--json", arguments.json, "Write recut.json to standard output");
  command->footer(
      "Says whether what is left will do, where each piece comes from, and the least to buy if not.\n"
      "Examples:\n"
      "  treadfold recut hall.json --cut A-14,A-13 --spoiled A-12\n"
      "  treadfold recut hall.json --spoiled A-12 --way laid_anew\n"
      "  treadfold recut hall.json --flaw \"11 ft to 11 ft 2 in\" -o hall-recut\n"
      "  treadfold recut hall.json --roll-length \"24 ft 6 in\" --json");
  return command;
}

CLI::App* add_check(CLI::App& app, CheckArguments& arguments) {
  auto* command = app.add_subcommand("check", "Show the problems of a job and write nothing");
  command->add_option("JOB", arguments.job, "The job file; - for standard input")->required();
  command->add_flag("--json", arguments.json, "Write the problems as JSON");
  command->footer("Exit status 1 if there is an error; warnings alone are 0.\n"
                  "Examples:\n"
                  "  treadfold check hall.json\n"
                  "  treadfold check hall.json --json");
  return command;
}

CLI::App* add_new(CLI::App& app, NewArguments& arguments) {
  auto* command = app.add_subcommand("new", "Write a starting job with a note beside each choice");
  const auto option = [&](const char* name, auto& value, const char* words) {
    return command->add_option(name, value, words)->capture_default_str();
  };
  option("FILE", arguments.file, "The job file to write; - for standard output")->required();
  option("--risers", arguments.risers, "How many risers, the one up to the floor included")
      ->check(CLI::Range(1, 400));
  option("--rise", arguments.rise, "Usual rise, tread to tread");
  option("--going", arguments.going, "Usual going, riser face to riser face");
  option("--width", arguments.width, "Usual width of a riser");
  option("--units", arguments.unit, "What a number without a unit means")
      ->check(CLI::IsMember({"in", "mm", "cm"}));
  option("--left", arguments.left, "The left side, looking up")
      ->check(CLI::IsMember({"wall", "skirt", "open"}));
  option("--right", arguments.right, "The right side")->check(CLI::IsMember({"wall", "skirt", "open"}));
  command->add_flag("--force", arguments.force, "Replace the file if it exists");
  command->footer("Examples:\n"
                  "  treadfold new hall.json\n"
                  "  treadfold new hall.json --risers 14 --rise \"7 5/8\" --width \"3 ft\" --right open\n"
                  "  treadfold new - --units mm --rise 190 --going 240 --width 860");
  return command;
}

CLI::App* add_serve(CLI::App& app, ServeArguments& arguments) {
  auto* command = app.add_subcommand("serve", "Open the app in the browser; hand it out until Ctrl-C");
  command->add_option("JOB", arguments.job, "A job file that the app offers to open; it is not changed");
  command
      ->add_option("--port", arguments.port,
                   "The port; 0 takes any that is free. The browser keeps jobs by address and port")
      ->check(CLI::Range(0, 65535))
      ->capture_default_str();
  command->add_flag(
      "--lan", arguments.lan,
      "For a phone in the same house: on all of this machine's addresses, for whoever enters the code shown");
  command->add_flag("--no-open", arguments.no_open, "Open no browser; with --lan none is opened");
  command->add_option("--site", arguments.site, "The folder of the built app, if it stands elsewhere");
  command->footer("Examples:\n"
                  "  treadfold serve\n"
                  "  treadfold serve hall.json\n"
                  "  treadfold serve --lan");
  return command;
}

CLI::App* add_schema(CLI::App& app, std::string& which) {
  auto* command =
      app.add_subcommand("schema", "Show the JSON Schema of a job file, plan.json, fold.json or recut.json");
  command->add_option("WHICH", which, "job, plan, fold or recut")
      ->check(CLI::IsMember({"job", "plan", "fold", "recut"}))
      ->capture_default_str();
  command->footer("Examples:\n"
                  "  treadfold schema >job.schema.json\n"
                  "  treadfold schema plan");
  return command;
}

ExitStatus run(int argc, char** argv) {
  CLI::App app{"Plans the carpeting of stairs: from a job file with the sizes by tape to every\n"
               "cut size, the roll layout, the shopping list, the quote and a sheet for each step."};
  app.name("treadfold");
  app.require_subcommand(0, 1); // after one command, a word such as "plan" is an argument
  app.set_version_flag("--version", "treadfold " TREADFOLD_VERSION);
  app.footer("Exit status: 0 done, 1 the job has errors, 2 wrong arguments, 3 a file could not\n"
             "be read or written.\n"
             "Examples:\n"
             "  treadfold new hall.json --risers 14 --right open\n"
             "  treadfold check hall.json\n"
             "  treadfold plan hall.json -o hall-sheets\n"
             "More: man treadfold");
  PlanArguments for_plan;
  TemplateArguments for_templates;
  CheckArguments for_check;
  RecutArguments for_recut;
  NewArguments for_new;
  ServeArguments for_serve;
  std::string for_schema = "job";
  const auto* plan_command = add_plan(app, for_plan);
  const auto* templates_command = add_templates(app, for_templates);
  const auto* recut_command = add_recut(app, for_recut);
  const auto* check_command = add_check(app, for_check);
  const auto* new_command = add_new(app, for_new);
  const auto* serve_command = add_serve(app, for_serve);
  const auto* schema_command = add_schema(app, for_schema);

  try {
    app.parse(argc, argv);
  } catch (const CLI::ParseError& error) {
    if (error.get_exit_code() != 0)
      throw UsageError(fmt::format("{}; treadfold --help shows how", error.what()));
    app.exit(error); // --help and --version come this way
    return kDone;
  }
  if (plan_command->parsed()) return run_plan(for_plan);
  if (templates_command->parsed()) return run_templates(for_templates);
  if (recut_command->parsed()) return run_recut(for_recut);
  if (check_command->parsed()) return run_check(for_check);
  if (new_command->parsed()) return run_new(for_new);
  if (serve_command->parsed()) return run_serve(for_serve);
  if (schema_command->parsed()) return run_schema(for_schema);
  throw UsageError(
      "which command: plan, templates, recut, check, new, serve or schema? treadfold --help shows how");
}

} // namespace
} // namespace treadfold

int main(int argc, char** argv) {
  using namespace treadfold;
  const auto say = [](const char* sentence) { fmt::print(stderr, "treadfold: {}\n", printable(sentence)); };
  try {
    const auto status = run(argc, argv);
    if (!std::cout.flush() || std::fflush(stdout) != 0) throw FileError("cannot write standard output");
    return status;
  } catch (const UsageError& error) {
    say(error.what());
    return kUsage;
  } catch (const std::bad_alloc&) {
    say("not enough memory for this job");
    return kFiles;
  } catch (const std::exception& error) { // of files: a job's own problems are values
    say(error.what());
    return kFiles;
  }
}
