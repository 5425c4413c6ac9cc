#include "commands.h"

#include "files.h"
#include "outcome.h"
#include "sheets/files.h"
#include "sheets/recut_sheet.h"
#include "summary.h"
#include "units/words.h"

#include <fmt/format.h>

#include <algorithm>
#include <filesystem>

namespace treadfold {
namespace {

Length length_of(const std::string& option, const std::string& text, LengthUnit unit) {
  const auto length = parse_length(text, unit);
  if (!length || *length < Length{})
    throw UsageError(
        fmt::format("{}: \"{}\" is not a length such as \"11 ft\" or \"3400 mm\"", option, text));
  return *length;
}

/// "11 ft to 11 ft 2 in".
Flaw flaw_of(const std::string& text, LengthUnit unit) {
  const std::string between = " to ";
  const auto at = text.find(between);
  if (at == std::string::npos)
    throw UsageError(fmt::format("--flaw: \"{}\" is not two lengths such as \"11 ft to 11 ft 2 in\"", text));
  const Flaw flaw{length_of("--flaw", text.substr(0, at), unit),
                  length_of("--flaw", text.substr(at + between.size()), unit)};
  if (flaw.to <= flaw.from) throw UsageError(fmt::format("--flaw: \"{}\" ends before it begins", text));
  return flaw;
}

Remedy way_of(const std::string& text) {
  std::vector<std::string> words;
  for (const Remedy how : kRemedies)
    if (words.emplace_back(word(how)) == text) return how;
  throw UsageError(fmt::format("--way: \"{}\" is none of {}", text, joined(words)));
}

/// What the options say, added to what the job says.
class Told {
public:
  explicit Told(Plan& plan) : plan_(plan) {}

  void add(const RecutArguments& arguments) {
    for (const auto& id : arguments.cut)
      cutting_of("--cut", id).cut.push_back(id);
    for (const auto& id : arguments.spoiled)
      cutting_of("--spoiled", id).spoiled.push_back({id, {}, {}});
    const LengthUnit unit = plan_.job.unit;
    if (!arguments.roll_length.empty())
      only("--roll-length").roll_length = length_of("--roll-length", arguments.roll_length, unit);
    for (const auto& flaw : arguments.flaws)
      only("--flaw").flaws.push_back(flaw_of(flaw, unit));
    if (!arguments.way.empty()) only("--way").way = way_of(arguments.way);
    if (arguments.remnant.empty()) return;
    auto& cutting = only("--remnant");
    if (cutting.way != Remedy::other_remnant) throw UsageError("--remnant: it goes with --way other_remnant");
    cutting.remnant = arguments.remnant;
  }

private:
  Cutting& cutting_of_carpet(const std::string& carpet) {
    auto& all = plan_.job.cuttings;
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Cutting& c) { return c.carpet == carpet; });
    if (found != all.end()) return *found;
    all.emplace_back().carpet = carpet;
    all.back().where = fmt::format("/cutting/{}", all.size() - 1);
    return all.back();
  }

  Cutting& cutting_of(const std::string& option, const std::string& id) {
    const auto piece = std::find_if(plan_.pieces.begin(), plan_.pieces.end(),
                                    [&](const PlannedPiece& p) { return p.piece.id == id; });
    if (piece != plan_.pieces.end()) return cutting_of_carpet(piece->piece.carpet);
    std::string all;
    for (const auto& p : plan_.pieces)
      all += (all.empty() ? "" : ", ") + p.piece.id;
    throw UsageError(fmt::format("{}: the job has no piece \"{}\"; it has {}", option, id, all));
  }

  /// The carpet that is spoken of, when none is named.
  Cutting& only(const std::string& option) {
    if (plan_.job.cuttings.size() == 1) return plan_.job.cuttings.front();
    if (plan_.job.cuttings.empty() && plan_.layouts.size() == 1)
      return cutting_of_carpet(plan_.layouts.front().carpet);
    throw UsageError(
        fmt::format("{}: the job has several carpets; say it under \"cutting\" in the job", option));
  }

  Plan& plan_;
};

std::string text_of(const Recut& recut, LengthUnit unit) {
  std::string text = fmt::format("Carpet {}: {} cut, {} spoiled, {} to cut\n", printable(recut.carpet),
                                 recut.cut.size(), recut.spoiled.size(), recut.to_cut.size());
  if (recut.to_cut.empty()) return text + "  everything is cut\n";
  if (recut.ways.empty()) return text + fmt::format("  there is no way: {}\n", printable(recut.why_not));
  const Way& taken = recut.ways[recut.taken];
  text += fmt::format("  {}: {}\n", printable(taken.words), outcome_in_words(taken, {unit}));
  for (const auto& part : taken.recovered.parts) {
    std::vector<std::string> ids;
    for (const auto& p : part.layout.placements)
      ids.push_back(p.piece);
    text += fmt::format("  {} from {}, {}\n", joined(ids), printable(part.layout.stock),
                        printable(place_in_words(part, {unit})));
  }
  for (std::size_t i = 0; i < recut.ways.size(); ++i)
    if (i != recut.taken)
      text += fmt::format("  or: {}: {}\n", printable(recut.ways[i].words),
                          outcome_in_words(recut.ways[i], {unit}));
  return text;
}

std::vector<OutputFile> files_of(const Plan& plan, const Recuts& recuts) {
  std::vector<OutputFile> files{{"recut.json", recut_json(recuts)}};
  const std::vector<Sheet> sheets{recut_sheet(plan, recuts)};
  for (const auto& file : sheet_files(sheets))
    if (file.sheet) files.push_back({file.name, write_sheet_file(file, sheets, plan.job.site.title)});
  return files;
}

} // namespace

ExitStatus run_recut(const RecutArguments& arguments) {
  auto [plan, problems] = plan_file(arguments.job);
  if (!plan || has_errors(problems)) {
    if (arguments.json) write_standard_output(problems_json(problems));
    fmt::print(stderr, "{}{}Nothing was planned anew: mend the job first.\n", listing(problems, 20),
               closing_sentence(problems, arguments.job));
    return kProblems;
  }
  Told(*plan).add(arguments);
  const auto recuts = recut(*plan);
  if (arguments.json) write_standard_output(recut_json(recuts));
  if (has_errors(recuts.problems)) {
    fmt::print(stderr, "{}{}Nothing was planned anew.\n", listing(recuts.problems, 20),
               closing_sentence(recuts.problems, arguments.job));
    return kProblems;
  }
  if (!recuts.problems.empty()) fmt::print(stderr, "{}", listing(recuts.problems, 20));
  if (!arguments.folder.empty()) {
    refuse_folder_with(arguments.folder, "plan.json", "the sheets of a plan");
    refuse_folder_with(arguments.folder, "templates.json", "templates");
    write_folder(arguments.folder, files_of(*plan, recuts));
  }
  if (arguments.json) return kDone;
  std::string text;
  for (const auto& recut : recuts.carpets)
    text += text_of(recut, plan->job.unit);
  if (!arguments.folder.empty())
    text += fmt::format("The strokes are in {}\n",
                        printable((std::filesystem::path(arguments.folder) / "recut.pdf").string()));
  write_standard_output(text);
  return kDone;
}

} // namespace treadfold
