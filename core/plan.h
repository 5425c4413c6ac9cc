// The whole way from a job to everything the user could see, as plain data.
#pragma once

#include "cover/certainty.h"
#include "cover/cover.h"
#include "cover/fixings.h"
#include "cover/refold.h"
#include "job/job.h"

namespace treadfold {

struct PlanOptions {
  LayoutOptions layout;
};

struct PlannedPiece {
  Piece piece;
  std::vector<Step> steps; // highest first; empty for a floor piece
  Proof proof;             // floor pieces pass trivially: flat is flat
};

/// What a carpet's order would be with every step on its own.
struct StepsSingly {
  std::string carpet;
  Length width, to_buy; // of the roll
};

struct Plan {
  Job job;
  Problems problems; // of the job; of each flight's measures and pieces; of the layouts
  std::vector<PlannedPiece> pieces;
  std::vector<FlightFixings> fixings;    // one a flight, in job order over all stairs
  std::vector<StairCertainty> certainty; // one a stair; of pieces whose proof passed
  std::vector<Layout> layouts;           // one a carpet in use
  std::vector<StepsSingly> singly;       // of each carpet for which joins were chosen, if it can be laid out
  Takeoff takeoff;
  Quote quote;
};

/// REQUIRES: !has_errors(reading.problems). The plan has errors of its own when a piece fits no roll; it then
/// has pieces and problems, but no layout for that goods.
Plan plan(const JobReading& reading, const PlanOptions& options = {});

/// The first part of plan(): every piece and its proof; no layout, nothing to buy, no joins chosen.
Plan covered(const JobReading& reading);

/// Of each piece: how far its highest nosing lies, along the carpet, below that at which the run of straight
/// steps begins in which it is. 0 for what is not straight, and for floors.
std::vector<double> along_run_mm(const std::vector<PlannedPiece>& pieces);

/// What the rolls must supply for one piece over `steps`, highest first. `along_mm`: as above, where a
/// pattern flows.
CutPiece cut_piece(const Piece& piece, const std::vector<Step>& steps, const Carpet& carpet, LengthUnit unit,
                   double along_mm);

/// What `carpet`'s rolls must supply: the pieces whose proof passed. On patterned goods the same motif stands
/// at the middle of the riser, or of the runner, and on the nosing of each piece's highest step; where the
/// pattern flows, of the highest of each run of straight steps, and goes on from there.
std::vector<CutPiece> cut_pieces(const Plan& plan, const Carpet& carpet);

/// How sure the cut of each stair's pieces is, by the job's tolerances; part of plan().
std::vector<StairCertainty> certainty_of(const Plan& plan);

/// plan.json, as documented by plan_schema().
std::string plan_json(const Plan& plan);

/// fold.json, as documented by fold_schema(): each piece folding onto its step, for viewers.
std::string fold_json(const Plan& plan);

/// Only what is wrong, for programs: {"treadfold_problems": 1, "errors": 0, "warnings": 1, "problems": […]},
/// each problem as in plan.json.
std::string problems_json(const Problems& problems);

} // namespace treadfold
