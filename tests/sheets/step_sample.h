// A small stair of our own, covered, for the tests of the step sheets.
#pragma once

#include "cover/floor.h"
#include "cover/starter_fixings.h"
#include "measure/step_front.h"
#include "plan.h"

namespace treadfold::sample {

inline Step usual_step() {
  Step s;
  s.rise = inches(7, 1, 2);
  s.going = inches(10);
  s.width = inches(36);
  s.nosing = {inches(1), inches(1, 1, 8), inches(0, 1, 4)};
  return s;
}

struct Choices {
  int risers = 3;
  Side left, right;
  CoverStyle style = CoverStyle::waterfall;
  int join = 1;
  LengthUnit unit = LengthUnit::inch;
  PaperSize paper = PaperSize::letter;
  Step step = usual_step();
  Construction construction = Construction::unknown;
};

/// Two balusters at the right, and a newel in the middle.
inline std::vector<Upright> some_uprights() {
  const auto at = [](const char* word, bool round, double x_in, double y_in, Length size) {
    return Upright{word, round, {x_in * 25.4, y_in * 25.4}, size, size, ""};
  };
  return {at("baluster", true, 35, 1, inches(1, 1, 4)), at("baluster", true, 35, 6, inches(1, 1, 4)),
          at("newel", false, 12, 5, inches(3))};
}

inline Side open_end() { return {SideKind::open, inches(1), inches(1)}; }

inline Plan plan_of(const Choices& c) {
  Plan plan;
  Job& job = plan.job;
  job.unit = c.unit;
  job.paper = c.paper;
  job.site.title = "Mill House";
  Carpet carpet;
  carpet.id = "main";
  carpet.name = "Oat loop";
  carpet.backing = inches(0, 1, 8);
  carpet.construction = c.construction;
  carpet.thickness = inches(0, 7, 16);
  job.carpets.push_back(carpet);
  job.cushion = {"felt", inches(0, 3, 8), inches(72), inches(540), ""};
  job.strip = {inches(1), inches(0, 1, 4), inches(48), 100, 55, ""};
  job.allowances = {.side_trim = inches(0, 3, 4),
                    .open_side_trim = inches(0, 1, 2),
                    .tuck_back = inches(1),
                    .tuck_foot = inches(0, 3, 4),
                    .gully = inches(0, 3, 4),
                    .hem = inches(1, 1, 4),
                    .strip_stop = inches(1, 1, 2),
                    .crease = inches(0, 1, 2),
                    .relief = inches(0, 1, 4),
                    .floor_trim = inches(3)};
  Flight flight;
  flight.name = "main flight";
  flight.style = c.style;
  flight.join = c.join;
  flight.carpet = "main";
  for (int n = 1; n <= c.risers; ++n) {
    Step s = c.step;
    s.number = n;
    s.left = c.left;
    s.right = c.right;
    s.landing_edge = n == c.risers;
    if (s.landing_edge) {
      s.going = inches(4);
      s.uprights.clear();
    }
    flight.steps.push_back(s);
  }
  job.stairs.push_back({"stair", {flight}, {}, ""});
  const CoverInput input{job.carpets[0], job.cushion.thickness, job.allowances, c.unit};
  for (const auto& piece : cover_flight(flight, input, "A")) {
    PlannedPiece planned{piece, {}, {}};
    planned.piece.flight_index = 0;
    for (const int n : piece.steps)
      planned.steps.push_back(flight.steps[static_cast<std::size_t>(n - 1)]);
    planned.proof.passed = true;
    plan.pieces.push_back(planned);
  }
  FlightFixings all{flight.name, {}};
  for (const auto& step : flight.steps)
    all.steps.push_back(fixings(step, c.style, job.cushion, job.strip, job.carpets[0], job.allowances));
  for (const auto& planned : plan.pieces)
    for (const auto& opening : planned.piece.openings)
      add_opening(all.steps[static_cast<std::size_t>(opening.step - 1)], opening);
  plan.fixings.push_back(all);
  return plan;
}

/// The landing that the sample's flight reaches, as one more piece.
inline void add_landing(Plan& plan) {
  const Floor floor{"landing", {{0, 0}, {1000, 0}, {1000, 900}, {0, 880}}, "main", ""};
  const CoverInput input{plan.job.carpets[0], plan.job.cushion.thickness, plan.job.allowances, plan.job.unit};
  PlannedPiece planned{cover_floor(floor, input, "L-1").front(), {}, {}};
  planned.piece.floor_index = 0;
  planned.proof.passed = true;
  plan.job.stairs[0].floors.push_back(floor);
  plan.pieces.push_back(planned);
}

/// A curved starter, half-round at the right, in place of the sample's first step.
inline void add_starter(Plan& plan, StarterClosing closing) {
  auto& flight = plan.job.stairs[0].flights[0];
  auto& step = flight.steps[0];
  step.right = {};
  Starter starter;
  starter.closing = closing;
  starter.readings.right = {FrontEndShape::half, inches(7), inches(6), inches(6)};
  set_front(step, starter);
  const CoverInput input{plan.job.carpets[0], plan.job.cushion.thickness, plan.job.allowances, plan.job.unit};
  auto cover = cover_starter(step, flight, input, "A");
  plan.pieces.pop_back();
  for (auto& piece : cover.pieces) {
    piece.flight_index = 0;
    PlannedPiece planned{std::move(piece), {step}, {}};
    planned.proof.passed = true;
    planned.proof.worst_strain = 0.02;
    planned.proof.worst_strain_at = "nosing";
    plan.pieces.push_back(std::move(planned));
  }
  plan.fixings[0].steps[0] = starter_fixings(step, cover, plan.job.cushion, plan.job.strip, input);
}

} // namespace treadfold::sample
