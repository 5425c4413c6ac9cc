#include "commands.h"

#include "files.h"
#include "outcome.h"
#include "progress.h"
#include "sheets/runner_sheet.h"
#include "sheets/template.h"
#include "summary.h"

#include <fmt/format.h>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <filesystem>
#include <utility>

namespace treadfold {
namespace {

constexpr std::pair<TemplateFormat, const char*> kFormats[] = {{TemplateFormat::tiles, "pdf"},
                                                               {TemplateFormat::plotter, "plotter"},
                                                               {TemplateFormat::dxf, "dxf"},
                                                               {TemplateFormat::svg, "svg"}};

const char* word(TemplateFormat format) {
  return std::find_if(std::begin(kFormats), std::end(kFormats),
                      [&](const auto& f) { return f.first == format; })
      ->second;
}

std::vector<TemplateFormat> formats_of(const std::vector<std::string>& words) {
  std::vector<TemplateFormat> out;
  for (const auto& [format, name] : kFormats)
    if (words.empty() || std::find(words.begin(), words.end(), name) != words.end()) out.push_back(format);
  return out;
}

/// Without ids all but a runner's strips, whose sheets have all that is marked on them.
std::vector<const PlannedPiece*> pieces_of(const Plan& plan, const std::vector<std::string>& ids) {
  for (const auto& id : ids) {
    const auto named = [&](const PlannedPiece& p) { return p.piece.id == id; };
    if (std::any_of(plan.pieces.begin(), plan.pieces.end(), named)) continue;
    std::string all;
    for (const auto& p : plan.pieces)
      all += (all.empty() ? "" : ", ") + p.piece.id;
    throw UsageError(fmt::format("--piece: the job has no piece \"{}\"; it has {}", id, all));
  }
  std::vector<const PlannedPiece*> out;
  for (const auto& p : plan.pieces)
    if (ids.empty() ? !is_strip(p.piece) : std::find(ids.begin(), ids.end(), p.piece.id) != ids.end())
      out.push_back(&p);
  return out;
}

struct Made {
  std::vector<OutputFile> files; // templates.json first
  std::size_t pieces = 0;
  std::vector<const PlannedPiece*> failed;
};

Made make(const Plan& plan, const std::vector<const PlannedPiece*>& pieces, TemplateSide side,
          const std::vector<TemplateFormat>& formats) {
  const Progress progress("drawing the templates");
  Made made;
  using Json = nlohmann::ordered_json;
  Json index{{"treadfold_templates", 1}, {"side", side == TemplateSide::backing ? "backing" : "pile"}};
  Json list = Json::array(), none = Json::array();
  made.files.emplace_back();
  for (const auto* planned : pieces) {
    const Piece& piece = planned->piece;
    auto files = template_files(plan, *planned, side, formats);
    if (files.empty()) {
      made.failed.push_back(planned);
      none.push_back({{"piece", piece.id}, {"reason", planned->proof.reason}});
      continue;
    }
    ++made.pieces;
    for (auto& file : files) {
      list.push_back({{"piece", piece.id},
                      {"format", word(file.format)},
                      {"file", file.name},
                      {"pages", file.pages},
                      {"width_mm", piece.cut_width.mm()},
                      {"length_mm", piece.cut_length.mm()}});
      made.files.push_back({std::move(file.name), std::move(file.bytes)});
    }
  }
  index["templates"] = std::move(list);
  index["not_cut"] = std::move(none);
  made.files.front() = {"templates.json", index.dump(2, ' ', false, Json::error_handler_t::replace) + "\n"};
  return made;
}

std::string told(const Made& made, TemplateSide side, const std::string& folder) {
  return fmt::format(
      "{} {} at full size, {} files in {}\n{} up: {}\nPrint at 100 %, no scaling, and measure the "
      "rulers before you cut.\n",
      made.pieces, made.pieces == 1 ? "piece" : "pieces", made.files.size() - 1, printable(folder),
      side == TemplateSide::backing ? "Backing" : "Pile",
      side == TemplateSide::backing ? "to lie on the carpet's back, the mirror image of the sheets."
                                    : "to lie on the pile, as on the sheets.");
}

} // namespace

ExitStatus run_templates(TemplateArguments arguments) {
  const auto [plan, problems] = plan_file(arguments.job);
  const auto status = has_errors(problems) ? kProblems : kDone;
  if (!plan) {
    if (arguments.json) write_standard_output(problems_json(problems));
    fmt::print(stderr, "{}{}No templates were written.\n", listing(problems, 20),
               closing_sentence(problems, arguments.job));
    return status;
  }
  if (arguments.folder.empty() && !arguments.json)
    arguments.folder = arguments.job == "-"
                           ? "templates"
                           : std::filesystem::path(arguments.job).stem().string() + "-templates";
  const auto side = arguments.side == "pile" ? TemplateSide::pile : TemplateSide::backing;
  const auto made = make(*plan, pieces_of(*plan, arguments.pieces), side, formats_of(arguments.formats));
  if (!arguments.folder.empty()) {
    refuse_folder_with(arguments.folder, "plan.json", "the sheets of a plan");
    const Progress progress("writing the templates");
    write_folder(arguments.folder, made.files);
  }
  write_standard_output(arguments.json ? made.files.front().bytes : told(made, side, arguments.folder));
  for (const auto* planned : made.failed)
    fmt::print(stderr, "treadfold: {} has no template, for it must not be cut: {}\n", planned->piece.id,
               printable(planned->proof.reason));
  if (status != kDone) fmt::print(stderr, "{}", closing_sentence(problems, arguments.job));
  return status;
}

} // namespace treadfold
