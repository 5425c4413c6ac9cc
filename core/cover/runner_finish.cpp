#include "cover/runner_finish.h"

#include "cover/piece_builder.h"

#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

std::string taken_by(const Runner& runner) {
  if (runner.edge_takes == Length{}) return "corner of the tuck"; // of a winder's slanting back
  return runner.edges == RunnerEdges::turned ? "turned under" : "for the edge";
}

/// The account in a runner's words.
void rename_items(Piece& piece, const Runner& runner, bool landing) {
  for (auto& item : piece.across) {
    if (item.what == "riser, end to end") item.what = "runner, edge to edge";
    if (item.what == "trim, left") item.what = taken_by(runner) + ", left";
    if (item.what == "trim, right") item.what = taken_by(runner) + ", right";
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

} // namespace

Allowances runner_allowances(const Runner& runner, bool landing, Allowances allow) {
  allow.side_trim = runner.edge_takes;
  if (!landing) return allow;
  if (runner.wear_shift > Length{})
    allow.tuck_back = runner.wear_shift;
  else if (runner.top == RunnerTop::shows)
    allow.tuck_back = runner.edge_takes;
  return allow;
}

void finish_runner(Piece& piece, const Runner& runner, bool landing) {
  piece.runner->edges_mm = edges_mm(piece, runner, landing);
  rename_items(piece, runner, landing);
  redraw_lines(piece, runner, landing);
}

} // namespace treadfold
