// What each command does, once its arguments are known.
#pragma once

#include <stdexcept>
#include <string>
#include <vector>

namespace treadfold {

enum ExitStatus { kDone = 0, kProblems = 1, kUsage = 2, kFiles = 3 };

/// Arguments that make no sense; FileError (files.h) is the other way a command fails.
struct UsageError : std::runtime_error {
  using std::runtime_error::runtime_error;
};

struct PlanArguments {
  std::string job, folder; // folder "": named after the job
  bool json = false;
  bool no_fold = false; // leaves out fold.json
};
ExitStatus run_plan(PlanArguments arguments);

struct CheckArguments {
  std::string job;
  bool json = false;
};
ExitStatus run_check(const CheckArguments& arguments);

struct TemplateArguments {
  std::string job, folder;                  // folder "": named after the job
  std::vector<std::string> pieces, formats; // empty: all
  std::string side = "backing";
  bool json = false;
};
ExitStatus run_templates(TemplateArguments arguments);

struct RecutArguments {
  std::string job, folder; // folder "": no sheet is written
  std::vector<std::string> cut, spoiled;
  std::string roll_length;  // "": as ordered
  std::string way, remnant; // "": the best; the first
  std::vector<std::string> flaws;
  bool json = false;
};
ExitStatus run_recut(const RecutArguments& arguments);

struct NewArguments {
  std::string file;
  int risers = 13;
  std::string unit = "in";
  std::string rise, going, width; // "": the usual size
  std::string left = "wall", right = "wall";
  bool force = false;
};
ExitStatus run_new(const NewArguments& arguments);

struct ServeArguments {
  std::string site, job; // site "": the app beside the command; job "": none is offered
  int port = 8723;       // always the same, for the browser keeps jobs by address
  bool lan = false;
  bool no_open = false;
};
/// Returns after Ctrl-C.
ExitStatus run_serve(const ServeArguments& arguments);

/// `which`: "job", "plan", "fold" or "recut".
ExitStatus run_schema(const std::string& which);

} // namespace treadfold
