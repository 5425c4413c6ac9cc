// Plan to JSON: the whole. Its parts are in plan_json_*.cpp.
#include "plan_json_parts.h"

#include <algorithm>

namespace treadfold {

using namespace in_json;

namespace {

constexpr int kPlanVersion = 1;

const char* name(Severity s) {
  return s == Severity::error ? "error" : s == Severity::warning ? "warning" : "note";
}

const char* name(LengthUnit unit) {
  return unit == LengthUnit::inch ? "in" : unit == LengthUnit::millimetre ? "mm" : "cm";
}

Json site(const Site& s) {
  return {{"title", s.title},     {"customer", s.customer},   {"address", s.address},
          {"contact", s.contact}, {"installer", s.installer}, {"installer_contact", s.installer_contact},
          {"date", s.date},       {"access", s.access},       {"notes", s.notes}};
}

} // namespace

Json in_json::problem(const Problem& p) {
  Json out{{"severity", name(p.severity)},
           {"where", p.where},
           {"found", p.found},
           {"expected", p.expected},
           {"sentence", sentence(p)}};
  if (!p.steps.empty()) out["steps"] = p.steps;
  return out;
}

std::string plan_json(const Plan& plan) {
  const auto fixings = [&](const FlightFixings& f) { return fixings_of_flight(f, plan.job.strip); };
  const auto laid = [&](const Layout& l) {
    auto out = layout(l);
    for (const auto& singly : plan.singly)
      if (singly.carpet == l.carpet)
        out["singly"] = {{"width_mm", mm(singly.width)}, {"length_to_buy_mm", mm(singly.to_buy)}};
    return out;
  };
  Json out{{"treadfold_plan", kPlanVersion},
           {"unit", name(plan.job.unit)},
           {"paper", plan.job.paper == PaperSize::letter ? "letter" : "a4"},
           {"site", site(plan.job.site)},
           {"problems", list(plan.problems, problem)},
           {"stairs", list(plan.job.stairs, stair)},
           {"pieces", list(plan.pieces, piece)},
           {"fixings", list(plan.fixings, fixings)},
           {"certainty", certainty(plan)},
           {"layouts", list(plan.layouts, laid)},
           {"takeoff", takeoff(plan.takeoff)},
           {"quote", quote(plan.quote)}};
  add_runners(plan, out);
  return text(out);
}

std::string problems_json(const Problems& problems) {
  const auto count = [&](Severity severity) {
    return std::count_if(problems.begin(), problems.end(),
                         [&](const Problem& p) { return p.severity == severity; });
  };
  return text({{"treadfold_problems", kPlanVersion},
               {"errors", count(Severity::error)},
               {"warnings", count(Severity::warning)},
               {"problems", list(problems, problem)}});
}

} // namespace treadfold
