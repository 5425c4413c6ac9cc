#include "cover/runner.h"

#include "cover/folded_course.h"
#include "cover/folded_runner.h"
#include "cover/runner_finish.h"
#include "cover/step_part.h"
#include "measure/runner_band.h"
#include "measure/tread_plan.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

/// Steps that one piece covers, highest first; bands in frames of their own.
struct Run {
  std::vector<const Step*> whole;
  std::vector<RunnerStep> steps;
};

/// The run as a flight of its own, for the cover of whole steps.
Flight flight_of(const Run& run, const Flight& flight) {
  Flight narrow = flight;
  narrow.runner.reset();
  narrow.steps.clear();
  for (auto step = run.steps.rbegin(); step != run.steps.rend(); ++step)
    narrow.steps.push_back(step->under.step);
  narrow.join = static_cast<int>(run.steps.size());
  return narrow;
}

std::vector<StepPart> parts_of(const Flight& narrow, const CoverInput& input) {
  std::vector<const Step*> steps;
  for (auto step = narrow.steps.rbegin(); step != narrow.steps.rend(); ++step)
    steps.push_back(&*step);
  return parts_of(steps, narrow, input);
}

bool too_long(const Run& run, const Flight& flight, const CoverInput& input) {
  const auto allow = runner_allowances(*flight.runner, run.whole.front()->landing_edge, input.allowances);
  const auto parts = parts_of(flight_of(run, flight), input);
  const auto net = from_mm_up(parts.back().v0 + parts.back().section.v_foot);
  const auto cut = ceil_to(net + allow.tuck_back + allow.tuck_foot, cut_step(input.unit));
  return cut > std::min(input.carpet.roll_length, flight.runner->longest.value_or(input.carpet.roll_length));
}

std::vector<Run> runs_of(const Flight& flight, const CoverInput& input) {
  const auto steps = runner_steps(flight);
  std::vector<Run> runs;
  for (std::size_t i = steps.size(); i-- > 0;) {
    if (!runs.empty() && !steps[i].turns && !runs.back().steps.back().turns) {
      auto longer = runs.back();
      longer.whole.push_back(&flight.steps[i]);
      longer.steps.push_back(steps[i]);
      if (!too_long(longer, flight, input)) {
        runs.back() = std::move(longer);
        continue;
      }
    }
    runs.push_back({{&flight.steps[i]}, {steps[i]}});
  }
  return runs;
}

FlatPoint moved(FlatPoint p, FlatPoint by) { return {p.u + by.u, p.v + by.v}; }

void move(FlatPath& path, FlatPoint by) {
  for (auto& p : path)
    p = moved(p, by);
}

/// From the band's frame to the whole step's.
void move(Piece& piece, FlatPoint by) {
  move(piece.outline, by);
  for (auto& line : piece.lines)
    move(line.points, by);
  for (auto& face : piece.faces) {
    move(face.outline, by);
    face.hinge_a = moved(face.hinge_a, by);
    face.hinge_b = moved(face.hinge_b, by);
  }
  for (auto& mark : piece.runner->marks)
    for (auto* line : {&mark.back, &mark.nosing, &mark.foot})
      line->left = moved(line->left, by), line->right = moved(line->right, by);
  piece.net_origin = moved(piece.net_origin, by);
}

/// Where the piece's edges are on one of its steps, before the piece is moved.
RunnerMark mark_of(const Step& whole, const RunnerStep& step, const StepPart& part) {
  const auto& s = part.section;
  const double wide = step.under.step.width.mm(), left = step.under.left.mm();
  const auto edge = [&](const StepSide& side, double v) {
    return side.frame.at(side.plan.straight() ? 0.0 : side.plan.x(y_at(s, v)), v);
  };
  const auto line = [&](double v, double bare_left, double bare_right) {
    return RunnerLine{edge(part.left, v), edge(part.right, v), bare_left, bare_right};
  };
  const double over = (s.v_nose + s.v_front) / 2, y = y_at(s, over);
  RunnerMark mark{whole.number,
                  {part.left.frame.at({part.left.plan.begin()})[0],
                   part.right.frame.at({part.right.plan.begin()})[0], 0, 0},
                  line(over, 0, 0),
                  line(s.v_foot, left, whole.width.mm() - left - wide)};
  mark.nosing.bare_left_mm = left + mark.nosing.left.u - side_x(side_line(whole, Hand::left), y);
  mark.nosing.bare_right_mm = side_x(side_line(whole, Hand::right), y) - left - mark.nosing.right.u;
  const auto a = side_line(whole, Hand::left).back(), b = side_line(whole, Hand::right).back();
  mark.back.bare_left_mm = step.left_behind.mm();
  mark.back.bare_right_mm = steady::hypot(b.x - a.x, b.y - a.y) - step.left_behind.mm() - wide;
  return mark;
}

std::string kind_of(const Run& run) {
  const auto count = run.steps.size();
  if (run.steps.front().turns) return "runner, winder";
  return count == 1 ? std::string("runner, one step") : fmt::format("runner, {} steps", count);
}

Piece piece_of(const Run& run, const Flight& flight, const CoverInput& input, const std::string& prefix) {
  const auto& runner = *flight.runner;
  const bool landing = run.whole.front()->landing_edge;
  const auto narrow = flight_of(run, flight);
  const auto allow = runner_allowances(runner, landing, input.allowances);
  auto pieces = cover_flight(narrow, {input.carpet, input.pad, allow, input.unit}, prefix);
  assert(pieces.size() == 1);
  auto& piece = pieces.front();
  piece.kind = kind_of(run);
  piece.runner.emplace().width = runner.width;
  const auto parts = parts_of(narrow, input);
  for (std::size_t i = 0; i < parts.size(); ++i)
    piece.runner->marks.push_back(mark_of(*run.whole[i], run.steps[i], parts[i]));
  finish_runner(piece, runner, landing);
  const auto& top = run.steps.front().under;
  move(piece, {top.left.mm(), (run.whole.front()->going - top.step.going).mm()});
  return std::move(piece);
}

} // namespace

std::vector<Piece> cover_runner(const Flight& flight, const CoverInput& input, const std::string& prefix) {
  if (folds_round(flight)) return cover_folded(flight, input, prefix);
  std::vector<Piece> pieces;
  for (const auto& run : runs_of(flight, input))
    pieces.push_back(piece_of(run, flight, input, prefix));
  return pieces;
}

} // namespace treadfold
