#include "cover/runner.h"

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

/// What the hand adds: at the edges what they take; at a top end on the landing what becomes of it.
Allowances allowances_of(const Run& run, const Runner& runner, Allowances allow) {
  allow.side_trim = runner.edge_takes;
  if (!run.whole.front()->landing_edge) return allow;
  if (runner.wear_shift > Length{})
    allow.tuck_back = runner.wear_shift;
  else if (runner.top == RunnerTop::shows)
    allow.tuck_back = runner.edge_takes;
  return allow;
}

std::vector<StepPart> parts_of(const Flight& narrow, const CoverInput& input) {
  std::vector<const Step*> steps;
  for (auto step = narrow.steps.rbegin(); step != narrow.steps.rend(); ++step)
    steps.push_back(&*step);
  return parts_of(steps, narrow, input);
}

bool too_long(const Run& run, const Flight& flight, const CoverInput& input) {
  const auto allow = allowances_of(run, *flight.runner, input.allowances);
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

const char* taken_by(const Runner& runner) {
  if (runner.edge_takes == Length{}) return "corner of the tuck"; // of a winder's slanting back
  return runner.edges == RunnerEdges::turned ? "turned under" : "for the edge";
}

/// The account in a runner's words.
void rename_items(Piece& piece, const Runner& runner, bool landing) {
  for (auto& item : piece.across) {
    if (item.what == "riser, end to end") item.what = "runner, edge to edge";
    for (const std::string side : {"left", "right"})
      if (item.what == "trim, " + side) item.what = fmt::format("{}, {}", taken_by(runner), side);
  }
  for (auto& item : piece.along)
    if (landing && item.what == "to trim at the seam") {
      if (runner.wear_shift > Length{})
        item.what = "wear shift, folded under at the top";
      else if (runner.top == RunnerTop::shows)
        item.what = fmt::format("{}, top end", taken_by(runner));
    }
}

/// Both edges from the top to the foot; of one step as its outline has them, however it bends.
std::vector<FlatPath> edges_of(const Piece& piece) {
  const auto& marks = piece.runner->marks;
  if (marks.size() > 1)
    return {{marks.front().back.left, marks.back().foot.left},
            {marks.front().back.right, marks.back().foot.right}};
  std::vector<FlatPath> edges;
  for (const auto& l : piece.lines)
    if (l.role == LineRole::trim) edges.push_back(l.points);
  return edges;
}

/// A runner is trimmed to no wall, and its top end is seamed only where the job says so.
void redraw_lines(Piece& piece, const Runner& runner, bool landing) {
  const auto edges = edges_of(piece);
  std::erase_if(piece.lines, [](const FlatLine& l) { return l.role == LineRole::trim; });
  const bool folds = landing && runner.wear_shift > Length{};
  const bool shows = landing && !folds && runner.top == RunnerTop::shows;
  FlatPath top;
  std::erase_if(piece.lines, [&](const FlatLine& l) {
    const bool seam = l.role == LineRole::seam && l.label.starts_with("seam to the landing");
    if (seam) top = l.points;
    return seam && (folds || shows);
  });
  PieceBuilder builder(piece);
  if (folds) builder.line(LineRole::hem, top, "wear shift, folded under at the top", std::numbers::pi, 0);
  if (runner.edge_takes == Length{}) return;
  const bool turned = runner.edges == RunnerEdges::turned;
  const auto draw = [&](const FlatPath& edge, const char* what) {
    if (turned)
      builder.line(LineRole::hem, edge, fmt::format("{}, turned under", what), std::numbers::pi, 0);
    else
      builder.line(LineRole::trim, edge, fmt::format("{} once it is done", what));
  };
  if (shows) draw(top, "top end");
  for (const auto& edge : edges)
    draw(edge, "edge");
}

/// Both edges over the whole of what is cut, and a top end that shows.
double edges_mm(const Piece& piece, const Runner& runner, bool landing) {
  double around = 0;
  for (std::size_t i = 0; i < piece.outline.size(); ++i)
    around += distance_mm(piece.outline[i], piece.outline[(i + 1) % piece.outline.size()]);
  const auto& marks = piece.runner->marks;
  const double back = distance_mm(marks.front().back.left, marks.front().back.right),
               foot = distance_mm(marks.back().foot.left, marks.back().foot.right);
  const bool shows = landing && runner.wear_shift == Length{} && runner.top == RunnerTop::shows;
  return around - back - foot + 2 * (piece.trim_back + piece.trim_foot).mm() + (shows ? back : 0);
}

std::string kind_of(const Run& run) {
  const auto count = run.steps.size();
  if (run.steps.front().turns) return "runner, winder";
  return count == 1 ? std::string("runner, one step") : fmt::format("runner, {} steps", count);
}

Piece piece_of(const Run& run, const Flight& flight, const CoverInput& input, const std::string& prefix) {
  const auto& runner = *flight.runner;
  const auto narrow = flight_of(run, flight);
  const auto allow = allowances_of(run, runner, input.allowances);
  auto pieces = cover_flight(narrow, {input.carpet, input.pad, allow, input.unit}, prefix);
  assert(pieces.size() == 1);
  auto& piece = pieces.front();
  const bool landing = run.whole.front()->landing_edge;
  piece.kind = kind_of(run);
  piece.runner = RunnerPiece{runner.width, {}, 0};
  const auto parts = parts_of(narrow, input);
  for (std::size_t i = 0; i < parts.size(); ++i)
    piece.runner->marks.push_back(mark_of(*run.whole[i], run.steps[i], parts[i]));
  piece.runner->edges_mm = edges_mm(piece, runner, landing);
  rename_items(piece, runner, landing);
  redraw_lines(piece, runner, landing);
  const auto& top = run.steps.front().under;
  move(piece, {top.left.mm(), (run.whole.front()->going - top.step.going).mm()});
  return std::move(piece);
}

} // namespace

std::vector<Piece> cover_runner(const Flight& flight, const CoverInput& input, const std::string& prefix) {
  std::vector<Piece> pieces;
  for (const auto& run : runs_of(flight, input))
    pieces.push_back(piece_of(run, flight, input, prefix));
  return pieces;
}

} // namespace treadfold
