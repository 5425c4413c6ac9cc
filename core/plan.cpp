#include "plan.h"

#include "breadth_choice.h"
#include "cover/floor.h"
#include "cover/folded_course.h"
#include "cover/handling.h"
#include "cover/rough_outline.h"
#include "cover/runner.h"
#include "cover/runner_proof.h"
#include "cover/starter_fixings.h"
#include "cover/starter_proof.h"
#include "joins.h"
#include "measure/landing.h"
#include "measure/step_frames.h"
#include "measure/whole_stair.h"
#include "units/chance.h"

#include <algorithm>
#include <cassert>

#include <fmt/format.h>

namespace treadfold {

namespace {

/// "A", "B" … "Z", "AA": one letter a flight, on every sheet.
std::string letters(std::size_t index) {
  std::string text;
  for (++index; index > 0; index = (index - 1) / 26)
    text.insert(text.begin(), static_cast<char>('A' + (index - 1) % 26));
  return text;
}

const Carpet& carpet_of(const Job& job, const std::string& id) {
  const auto found =
      std::find_if(job.carpets.begin(), job.carpets.end(), [&](const auto& c) { return c.id == id; });
  return found != job.carpets.end() ? *found : job.carpets.front();
}

std::vector<Step> steps_of(const Piece& piece, const Flight& flight) {
  std::vector<Step> steps;
  for (const int number : piece.steps)
    steps.push_back(flight.steps[static_cast<std::size_t>(number - 1)]);
  return steps;
}

/// Carpet reaches from the pad down into the gully and the crotch; what the allowances leave for it must be
/// enough.
void check_allowances(Plan& plan, const Flight& flight) {
  const auto& job = plan.job;
  const auto& carpet = carpet_of(job, flight.carpet);
  const auto depth = job.cushion.thickness + carpet.backing;
  const auto warn = [&](const char* where, const std::string& found, const std::string& expected) {
    const Problem problem{Severity::warning, where, found, expected};
    const auto same = [&](const Problem& p) { return p.where == problem.where && p.found == problem.found; };
    if (std::none_of(plan.problems.begin(), plan.problems.end(), same)) plan.problems.push_back(problem);
  };
  const auto show = [&](Length x) { return show_length(x, job.unit); };
  if (job.allowances.tuck_back < depth)
    warn("/allowances/tuck_back", show(job.allowances.tuck_back),
         fmt::format("at least {}, pad and backing, to reach the gully", show(depth)));
  const bool joined = flight.join > 1 || flight.runner;
  if (joined && job.allowances.crease * 2 < depth)
    warn("/allowances/crease", show(job.allowances.crease),
         fmt::format("at least half of pad and backing, {}, where steps are joined", show(depth)));
  if (joined && carpet.pattern && !carpet.pattern_flows)
    plan.problems.push_back(
        {Severity::warning, flight.where + (flight.runner ? "/runner" : "/join"),
         "steps joined in patterned carpet: the motif is centred on the highest of each piece only",
         flight.runner ? "a repeat that the length of a step suits"
                       : "1, so that every nosing has the same motif"});
}

/// Where a step's nosing begins to turn down, from the back of its tread.
Length nosing_of(const Step& step) {
  return step.going + step.nosing.projection - step.nosing.radius - step.nosing.bevel;
}

void measure_flight(Plan& plan, const Flight& flight) {
  const auto& job = plan.job;
  const auto build_up = job.cushion.thickness + carpet_of(job, flight.carpet).thickness;
  for (auto& problem : check_count(flight, job.unit))
    plan.problems.push_back(std::move(problem));
  for (auto& problem : check_code(flight, job.code, build_up, job.foot_build_up, job.landing_build_up))
    plan.problems.push_back(std::move(problem));
  for (auto& problem : check_treads(flight, job.unit))
    plan.problems.push_back(std::move(problem));
  if (!flight.runner) // its edges stay clear of the ends
    for (auto& problem : check_ends(flight, job.unit))
      plan.problems.push_back(std::move(problem));
  auto folded = flight;
  if (flight.runner) // wraps no end
    for (auto& step : folded.steps)
      step.left = step.right = Side{};
  for (auto& problem :
       check_folds(folded, carpet_of(job, flight.carpet), job.cushion.thickness, job.strip, job.unit))
    plan.problems.push_back(std::move(problem));
  check_allowances(plan, flight);
}

/// Where pieces belong in the job; `where` to point if a floor's does not fit.
struct Place {
  int stair = 0, flight = -1, floor = -1;
  std::string where;
};

void add_piece(Plan& plan, Piece piece, std::vector<Step> steps, Proof proof, const Place& place) {
  piece.stair_index = place.stair;
  piece.flight_index = place.flight;
  piece.floor_index = place.floor;
  if (!proof.passed)
    plan.problems.push_back(
        {Severity::error, steps.empty() ? place.where : steps.front().where,
         fmt::format("piece {} that does not fit when folded back: {}", piece.id, proof.reason),
         "measures whose piece closes; it is not cut"});
  plan.pieces.push_back({std::move(piece), std::move(steps), std::move(proof)});
}

void add_starter(Plan& plan, const Flight& flight, const CoverInput& input, const std::string& prefix,
                 const Place& place, FlightFixings& fixed) {
  const auto& step = flight.steps.front();
  auto covered = cover_starter(step, flight, input, prefix);
  auto proofs = prove_starter(covered, step, input.pad, input.carpet);
  fixed.steps.push_back(starter_fixings(step, covered, plan.job.cushion, plan.job.strip, input));
  for (std::size_t i = 0; i < proofs.size(); ++i)
    add_piece(plan, std::move(covered.pieces[i]), {step}, std::move(proofs[i]), place);
}

/// What the flight's pieces must be bound with, and how much of it.
void bind(const Plan& plan, const Flight& flight, std::size_t first_piece, FlightFixings& fixed) {
  if (!flight.runner || flight.runner->edges != RunnerEdges::bound) return;
  fixed.binding = flight.runner->binding;
  double edges = 0;
  for (std::size_t i = first_piece; i < plan.pieces.size(); ++i)
    edges += plan.pieces[i].piece.runner->edges_mm;
  fixed.binding_length = from_mm_up(edges);
}

void check_wear_shift(Plan& plan, const Flight& flight, std::size_t pieces) {
  if (!flight.runner || flight.runner->wear_shift == Length{} || pieces == 1) return;
  plan.problems.push_back({Severity::warning, flight.runner->where + "/wear_shift",
                           fmt::format("a wear shift on a runner in {} pieces", pieces),
                           "one piece: moved down, its joints leave the crotches"});
}

/// Says why a runner cannot be folded round its winders; it then has no pieces.
bool foldable(Plan& plan, const Flight& flight, const CoverInput& input) {
  if (!folds_round(flight)) return true;
  auto problems = check_course(flight, input, plan.job.strip);
  plan.problems.insert(plan.problems.end(), problems.begin(), problems.end());
  return !has_errors(problems);
}

/// What the flight's pieces, from `first_piece` on, have folded behind the step's riser; nullptr: nothing.
const RunnerPleat* pleat_behind(const Plan& plan, std::size_t first_piece, int step) {
  for (std::size_t i = first_piece; i < plan.pieces.size(); ++i)
    for (const auto& pleat : plan.pieces[i].piece.runner->pleats)
      if (pleat.step == step) return &pleat;
  return nullptr;
}

FlightFixings add_flight(Plan& plan, const Flight& flight, const CoverInput& input, const std::string& prefix,
                         const Place& place) {
  FlightFixings fixed{flight.name, {}};
  const auto& cushion = plan.job.cushion;
  const auto& strip = plan.job.strip;
  const auto first = plan.pieces.size();
  for (auto& piece :
       foldable(plan, flight, input) ? cover_flight(flight, input, prefix) : std::vector<Piece>{}) {
    auto steps = steps_of(piece, flight);
    auto proof = piece.runner ? prove_runner(piece, flight, input.pad, input.carpet, input.allowances)
                              : prove(piece, steps, flight.style, input.pad, input.carpet, input.allowances);
    add_piece(plan, std::move(piece), std::move(steps), std::move(proof), place);
  }
  if (flight.steps.front().starter) add_starter(plan, flight, input, prefix, place, fixed);
  for (const auto& step : flight.steps)
    if (!step.starter)
      fixed.steps.push_back(
          flight.runner ? runner_fixings(flight, step.number, cushion, strip, input.carpet, input.allowances,
                                         pleat_behind(plan, first, step.number))
                        : fixings(step, flight.style, cushion, strip, input.carpet, input.allowances));
  for (auto i = first; i < plan.pieces.size(); ++i) {
    const auto& piece = plan.pieces[i].piece;
    for (const auto& opening : piece.openings)
      add_opening(fixed.steps[static_cast<std::size_t>(opening.step - 1)], opening);
    fixed.steps[static_cast<std::size_t>(piece.steps.front() - 1)].latex +=
        fraying_edges(piece, input.carpet);
  }
  bind(plan, flight, first, fixed);
  check_wear_shift(plan, flight, plan.pieces.size() - first);
  return fixed;
}

const Floor& floor_of(const Stair& stair, const Arrival& arrival) {
  const auto found = std::find_if(stair.floors.begin(), stair.floors.end(),
                                  [&](const auto& f) { return f.name == arrival.floor; });
  assert(found != stair.floors.end());
  return *found;
}

/// What is left of a floor for a piece of its own; nothing where a flight's top piece covers it.
std::optional<Floor> own_floor(const Stair& stair, const Floor& floor) {
  Floor rest = floor;
  for (const auto& flight : stair.flights) {
    if (!flight.arrival || flight.arrival->floor != floor.name) continue;
    if (flight.arrival->joined) return {};
    rest = without_edge(rest, flight.steps.back(), *flight.arrival);
  }
  return rest;
}

void cover_stair(Plan& plan, std::size_t stair_index, std::size_t& letter) {
  const auto& job = plan.job;
  const auto& stair = job.stairs[stair_index];
  for (auto& problem : check_whole_stair(stair, job.unit))
    plan.problems.push_back(std::move(problem));
  const auto input = [&](const std::string& carpet, const Allowances& allowances) {
    return CoverInput{carpet_of(job, carpet), job.cushion.thickness, allowances, job.unit};
  };
  for (std::size_t i = 0; i < stair.flights.size(); ++i) {
    const auto& flight = stair.flights[i];
    const auto allowances = allowances_for(job.allowances, carpet_of(job, flight.carpet), job.strip);
    measure_flight(plan, flight);
    auto covered = flight;
    set_free_backs(covered);
    if (const auto& arrival = flight.arrival; arrival && arrival->joined)
      covered.steps.back() = landing_step(flight.steps.back(), floor_of(stair, *arrival), *arrival);
    plan.fixings.push_back(
        add_flight(plan, covered, input(flight.carpet, allowances), letters(letter++),
                   {static_cast<int>(stair_index), static_cast<int>(i), -1, flight.where}));
  }
  for (std::size_t i = 0; i < stair.floors.size(); ++i) {
    const auto floor = own_floor(stair, stair.floors[i]);
    if (!floor) continue;
    Proof flat; // as it lies on the floor
    flat.passed = true;
    for (auto& piece : cover_floor(*floor, input(floor->carpet, job.allowances), letters(letter++)))
      add_piece(plan, std::move(piece), {}, flat,
                {static_cast<int>(stair_index), -1, static_cast<int>(i), floor->where});
  }
}

/// A remnant of unknown dye lot is never mixed with other carpet in one flight; where it stays unused, say
/// so.
void note_unused_remnants(Plan& plan, const Carpet& carpet, const Layout& layout) {
  for (const auto& remnant : carpet.remnants) {
    const bool used = std::any_of(layout.rolls.begin(), layout.rolls.end(), [&](const auto& roll) {
      return roll.remnant && roll.stock == remnant.name;
    });
    if (!used && remnant.dye_lot.empty())
      plan.problems.push_back({Severity::note, remnant.where,
                               fmt::format("remnant '{}' left unused", remnant.name),
                               "its dye lot: of an unknown lot it can only take a whole flight or floor"});
  }
}

void judge(Plan& plan) {
  const auto show = [&](Length x) { return show_length(x, plan.job.unit); };
  plan.certainty = certainty_of(plan);
  for (const auto& stair : plan.certainty)
    if (stair.chance >= kShortChance)
      plan.problems.push_back(
          {Severity::warning, "/allowances",
           fmt::format("a chance of {} that a piece of {} comes up short", show_chance(stair.chance),
                       stair.stair),
           fmt::format("{} across and {} along over the net size, both ends together, for less than {}",
                       show(stair.least_across), show(stair.least_along), show_chance(kShortChance))});
}

void cut(Plan& plan, const PlanOptions& options) {
  auto layout_options = options.layout;
  layout_options.unit = plan.job.unit;
  for (const auto& carpet : plan.job.carpets) {
    const auto pieces = cut_pieces(plan, carpet);
    if (pieces.empty()) continue;
    plan.layouts.push_back(lay_out(pieces, carpet, layout_options, plan.problems));
    note_unused_remnants(plan, carpet, plan.layouts.back());
  }
}

/// Edges of the floors' pieces to seal because the goods fray.
Length fraying_floors(const Plan& plan) {
  Length edges;
  for (const auto& planned : plan.pieces)
    if (planned.steps.empty())
      edges += fraying_edges(planned.piece, carpet_of(plan.job, planned.piece.carpet));
  return edges;
}

Length floor_seams(const Plan& plan) {
  std::vector<FloorPart> parts;
  for (const auto& planned : plan.pieces)
    if (planned.piece.breadth) parts.push_back(*planned.piece.breadth);
  return from_mm_up(seams_mm(parts));
}

void buy_and_price(Plan& plan) {
  const auto& job = plan.job;
  std::vector<Floor> floors;
  std::vector<Flight> flights;
  for (const auto& stair : job.stairs) {
    floors.insert(floors.end(), stair.floors.begin(), stair.floors.end());
    flights.insert(flights.end(), stair.flights.begin(), stair.flights.end());
  }
  for (auto& problem : uncharged_steps(flights, job.terms))
    plan.problems.push_back(std::move(problem));
  plan.takeoff = take_off({plan.layouts, job.carpets, plan.fixings, job.cushion, job.strip, job.supplies,
                           std::move(floors), fraying_floors(plan), floor_seams(plan), job.unit});
  double net_mm2 = 0;
  for (const auto& planned : plan.pieces)
    if (planned.proof.passed) net_mm2 += net_area_mm2(planned.piece);
  plan.quote = quote({flights, plan.layouts, plan.takeoff, job.terms, net_mm2 / 1e6, job.unit});
}

} // namespace

std::vector<double> along_run_mm(const std::vector<PlannedPiece>& pieces) {
  const auto straight = [](const PlannedPiece& p) {
    return !p.steps.empty() && p.piece.part < 0 &&
           std::all_of(p.steps.begin(), p.steps.end(), [](const Step& s) { return s.rectangular(); });
  };
  const auto flight = [](const PlannedPiece& p) {
    return std::pair(p.piece.stair_index, p.piece.flight_index);
  };
  std::vector<double> along(pieces.size());
  for (std::size_t i = 1; i < pieces.size(); ++i) {
    const auto &above = pieces[i - 1], &here = pieces[i];
    if (flight(above) != flight(here) || !straight(above) || !straight(here)) continue;
    double foot = 0; // of the carpet above, from the back of its highest tread
    for (const auto& p : above.piece.outline)
      foot = std::max(foot, p.v);
    along[i] = along[i - 1] + foot - nosing_of(above.steps.front()).mm() + nosing_of(here.steps.front()).mm();
  }
  return along;
}

CutPiece cut_piece(const Piece& piece, const std::vector<Step>& steps, const Carpet& carpet, LengthUnit unit,
                   double along_mm) {
  const auto grid = cut_step(unit); // so that no cut falls between the marks of a tape
  CutPiece cut{piece.id, piece.cut_width, piece.cut_length, {}, false, {}, {}, {}};
  const auto on_goods = [](const RoughRing& ring) {
    GoodsRing corners;
    for (const auto& [u, v] : ring)
      corners.push_back({u, v});
    return corners;
  };
  // Those of floors and landings hold whole steps.
  const auto rough = rough_outline(piece, grid, steps.empty() || steps.front().landing());
  cut.outline.ring = on_goods(rough.ring);
  for (const auto& hole : rough.holes)
    cut.outline.holes.push_back(on_goods(hole));
  cut.group = fmt::format("{}/{}/{}", piece.stair_index, piece.flight_index, piece.floor_index);
  if (carpet.pattern && !steps.empty()) {
    const auto& step = steps.front();
    cut.matched = true;
    cut.match_group = cut.group;
    const double middle = piece.runner ? piece.net_origin.u + piece.net_width.mm() / 2 : step.width.mm() / 2;
    cut.phase_u = floor_to(piece.trim_left + from_mm(middle - piece.net_origin.u), grid);
    const double motif = nosing_of(step).mm() - (carpet.pattern_flows ? along_mm : 0);
    cut.phase_v = floor_to(piece.trim_back + from_mm(motif - piece.net_origin.v), grid);
  } else if (carpet.pattern && piece.breadth) { // goes on across the seams, as if the floor were one piece
    cut.matched = true;
    cut.match_group = cut.group;
    cut.phase_u = floor_to(piece.trim_left - from_mm(piece.net_origin.u), grid);
    cut.phase_v = floor_to(piece.trim_back - from_mm(piece.net_origin.v), grid);
  }
  return cut;
}

std::vector<CutPiece> cut_pieces(const Plan& plan, const Carpet& carpet) {
  std::vector<CutPiece> pieces;
  const auto along = along_run_mm(plan.pieces);
  for (std::size_t i = 0; i < along.size(); ++i)
    if (const auto& p = plan.pieces[i]; p.proof.passed && p.piece.carpet == carpet.id)
      pieces.push_back(cut_piece(p.piece, p.steps, carpet, plan.job.unit, along[i]));
  return pieces;
}

Plan covered(const JobReading& reading) {
  Plan result;
  result.job = reading.job;
  result.problems = reading.problems;
  std::size_t letter = 0;
  for (std::size_t i = 0; i < result.job.stairs.size(); ++i)
    cover_stair(result, i, letter);
  return result;
}

Plan plan(const JobReading& reading, const PlanOptions& options) {
  auto chosen = choose_joins(reading.job, options.layout);
  auto result = covered({choose_breadths(std::move(chosen.job), options.layout), reading.problems});
  result.singly = std::move(chosen.singly);
  judge(result);
  cut(result, options);
  buy_and_price(result);
  return result;
}

} // namespace treadfold
