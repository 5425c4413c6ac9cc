// The job file: JSON text in, a checked Job or a list of problems out. `//` comments are read.
#pragma once

#include "cut/cutting.h"
#include "measure/code.h"
#include "measure/site.h"
#include "measure/tolerances.h"
#include "price/quote.h"
#include "text/reader.h"

namespace treadfold {

inline constexpr int kJobVersion = 1;

enum class PaperSize { letter, a4 };

struct Job {
  LengthUnit unit = LengthUnit::inch;
  Language language = Language::english; // of the sheets
  PaperSize paper = PaperSize::letter;
  StairCode code = StairCode::none;
  Site site;
  std::vector<Stair> stairs;
  std::vector<Carpet> carpets;
  Cushion cushion;
  TackStrip strip;
  Allowances allowances;
  Tolerances tolerances;
  Supplies supplies;
  Terms terms;
  Length foot_build_up,
      landing_build_up;          // what will lie on the floors at foot and head, for the trip warning
  std::vector<Cutting> cuttings; // one a carpet at most; only recut() looks at them

  Reader reader() const { return {unit, language}; }
};

struct JobReading {
  Job job;
  Problems problems; // job may be used only if !has_errors(problems)
};

/// Reads, upgrades and checks. Never throws; every problem carries its place. Limits: 8 MB, 32 levels, 400
/// steps a flight.
JobReading read_job(std::string_view text);

/// The JSON Schema (draft-07) of the job file, of plan.json, fold.json and recut.json.
std::string_view job_schema();
std::string_view plan_schema();
std::string_view fold_schema();
std::string_view recut_schema();

/// A starting job with a `//` note beside each choice. A size left at 0 becomes the usual one: rise 7 1/2 in,
/// going 10 in, width 36 in; in metric jobs 190, 250 and 900 mm.
struct NewJob {
  int risers = 13;
  LengthUnit unit = LengthUnit::inch;
  Length rise = {}, going = {}, width = {};
  SideKind left = SideKind::wall, right = SideKind::wall;
};
std::string new_job(const NewJob& choices);

} // namespace treadfold
