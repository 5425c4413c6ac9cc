// Runners: members of plan.json that only what has to do with one has.
#include "plan_json_parts.h"

namespace treadfold::in_json {
namespace {

const char* name(RunnerEdges edges) {
  switch (edges) {
  case RunnerEdges::bound:
    return "bound";
  case RunnerEdges::turned:
    return "turned";
  case RunnerEdges::finished:
    return "finished";
  case RunnerEdges::cut:
    return "cut";
  }
  return "";
}

Json runner(const Runner& r) {
  const bool folded = r.wear_shift > Length{};
  return {{"width_mm", mm(r.width)},
          {"exposed_left_mm", mm(r.exposed_left)},
          {"edges", name(r.edges)},
          {"edge_takes_mm", mm(r.edge_takes)},
          {"strip_stop_mm", mm(r.strip_stop)},
          {"turn", r.turn == RunnerTurn::fold ? "fold" : "seam"},
          {"top_end", folded                      ? "folded"
                      : r.top == RunnerTop::shows ? "shows"
                                                  : "seamed"},
          {"wear_shift_mm", mm(r.wear_shift)}};
}

Json runner_line(const RunnerLine& l) {
  return {{"ends_mm", path({l.left, l.right})},
          {"bare_left_mm", rounded(l.bare_left_mm)},
          {"bare_right_mm", rounded(l.bare_right_mm)}};
}

Json pleat(const RunnerPleat& p) {
  return {{"step", p.step},
          {"narrow_side", p.narrow_left ? "left" : "right"},
          {"angle_rad", rounded(p.angle_rad)},
          {"tucks", p.tucks},
          {"depth_mm", rounded(p.depth_mm)},
          {"jog_mm", rounded(p.jog_mm)},
          {"snip_mm", rounded(p.snip_mm)},
          {"creases_mm", list(p.creases, [](const FlatPath& crease) { return path(crease); })}};
}

Json runner_piece(const RunnerPiece& r) {
  Json out{{"edges_mm", rounded(r.edges_mm)}, {"marks", list(r.marks, [](const RunnerMark& m) {
                                                 return Json{{"step", m.step},
                                                             {"back", runner_line(m.back)},
                                                             {"nosing", runner_line(m.nosing)},
                                                             {"foot", runner_line(m.foot)}};
                                               })}};
  if (!r.pleats.empty()) out["pleats"] = list(r.pleats, pleat);
  if (r.lean_rad != 0) out["lean_rad"] = rounded(r.lean_rad);
  return out;
}

} // namespace

void add_runners(const Plan& plan, Json& out) {
  for (std::size_t i = 0; i < plan.job.stairs.size(); ++i)
    for (std::size_t j = 0; j < plan.job.stairs[i].flights.size(); ++j)
      if (const auto& r = plan.job.stairs[i].flights[j].runner)
        out["stairs"][i]["flights"][j]["runner"] = runner(*r);
  for (std::size_t i = 0; i < plan.pieces.size(); ++i) {
    const auto& [piece, steps, proof] = plan.pieces[i];
    if (!piece.runner) continue;
    out["pieces"][i]["runner"] = runner_piece(*piece.runner);
    out["pieces"][i]["proof"]["kept_bare"] = list(proof.kept_bare, covered);
  }
  for (std::size_t i = 0; i < plan.fixings.size(); ++i) {
    if (plan.fixings[i].binding_length <= Length{}) continue;
    out["fixings"][i]["binding"] = plan.fixings[i].binding;
    out["fixings"][i]["binding_mm"] = mm(plan.fixings[i].binding_length);
  }
}

} // namespace treadfold::in_json
