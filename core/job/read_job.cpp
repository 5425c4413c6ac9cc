#include "job/job.h"

#include "job/read_parts.h"
#include "job/upgrade.h"

namespace treadfold {

namespace {

Site read_site(ObjectReader& root) {
  Site s;
  const Node* node = root.need("site", "an object with at least a title");
  if (!node) return s;
  ObjectReader o(root.context(), *node, root.at("site"));
  s.title = o.name("title");
  s.customer = o.text_or("customer");
  s.address = o.text_or("address");
  s.contact = o.text_or("contact");
  s.installer = o.text_or("installer");
  s.installer_contact = o.text_or("installer_contact");
  s.date = o.text_or("date");
  s.access = o.texts_or("access");
  s.notes = o.texts_or("notes");
  return s;
}

void read_finished_floors(ObjectReader& root, Job& job) {
  const Node* node = root.need("finished_floors", "an object with foot and landing");
  if (!node) return;
  constexpr LengthRange kBuildUp{{}, inches(6)};
  ObjectReader o(root.context(), *node, root.at("finished_floors"));
  job.foot_build_up = o.length("foot", kBuildUp).value_or(Length{});
  job.landing_build_up = o.length("landing", kBuildUp).value_or(Length{});
}

Job read_root(const Node& tree, Findings& findings) {
  Context context{findings};
  ObjectReader root(context, tree, "");
  Job job;
  root.find("treadfold");
  const auto unit = root.choice<LengthUnit>(
      "units", {{"in", LengthUnit::inch}, {"mm", LengthUnit::millimetre}, {"cm", LengthUnit::centimetre}});
  job.unit = context.unit = unit.value_or(LengthUnit::inch);
  context.unit_known = unit.has_value();
  job.paper = root.choice<PaperSize>("paper", {{"letter", PaperSize::letter}, {"a4", PaperSize::a4}})
                  .value_or(PaperSize::letter);
  job.language = root.choice_if<Language>("language", {{"en", Language::english}, {"es", Language::spanish}})
                     .value_or(Language::english);
  job.code = root.choice<StairCode>("code", {{"IRC", StairCode::irc},
                                             {"IBC", StairCode::ibc},
                                             {"UK private", StairCode::uk_private},
                                             {"none", StairCode::none}})
                 .value_or(StairCode::none);
  job.site = read_site(root);
  job.carpets = read_carpets(root);
  job.stairs = read_stairs(root, job.carpets);
  job.cushion = read_cushion(root);
  job.strip = read_strip(root);
  read_finished_floors(root, job);
  job.allowances = read_allowances(root);
  job.tolerances = read_tolerances(root);
  job.supplies = read_supplies(root);
  job.terms = read_terms(root);
  job.cuttings = read_cuttings(root, job.carpets);
  check_allowances(job, context);
  return job;
}

} // namespace

JobReading read_job(std::string_view text) {
  JobReading reading;
  Findings findings;
  auto tree = parse_tree(text, findings);
  if (tree && bring_up_to_date(*tree, upgrades(), findings)) reading.job = read_root(*tree, findings);
  reading.problems = findings.take();
  return reading;
}

} // namespace treadfold
