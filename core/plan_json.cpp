// Plan to JSON. Lengths are millimetres: exact where they are ticks, rounded to 0.1 µm where they were
// computed, so that no platform's last bit shows.
#include "plan.h"

#include "json_words.h"
#include "measure/step_frames.h"
#include "measure/tread_plan.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

using Json = nlohmann::ordered_json;

constexpr int kPlanVersion = 1;

double rounded(double x) {
  const double r = std::round(x * 1e4) / 1e4;
  return r == 0 ? 0 : r; // no -0.0
}

/// An array of one entry an item.
template <class Items, class Entry>
Json list(const Items& items, Entry entry) {
  Json out = Json::array();
  for (const auto& item : items)
    out.push_back(entry(item));
  return out;
}

Json mm(Length x) { return x.mm(); }

Json path(const FlatPath& points) {
  return list(points, [](FlatPoint p) { return Json::array({rounded(p.u), rounded(p.v)}); });
}

Json plan_path(const std::vector<PlanPoint>& points) {
  return list(points, [](PlanPoint p) { return Json::array({rounded(p.x), rounded(p.y)}); });
}

const char* name(Severity s) {
  return s == Severity::error ? "error" : s == Severity::warning ? "warning" : "note";
}

const char* name(LengthUnit unit) {
  return unit == LengthUnit::inch ? "in" : unit == LengthUnit::millimetre ? "mm" : "cm";
}

const char* name(SideKind kind) {
  return kind == SideKind::wall ? "wall" : kind == SideKind::skirt ? "skirt" : "open";
}

const char* name(Stroke::Kind kind) {
  return kind == Stroke::Kind::cross_cut ? "cross-cut" : kind == Stroke::Kind::rip ? "rip" : "trim";
}

Json problem(const Problem& p) {
  return {{"severity", name(p.severity)},
          {"where", p.where},
          {"found", p.found},
          {"expected", p.expected},
          {"sentence", sentence(p)}};
}

Json side(const Side& s) {
  return {{"kind", name(s.kind)}, {"overhang_mm", mm(s.overhang)}, {"return_past_mm", mm(s.return_past)}};
}

Json upright(const Upright& u) {
  return {{"what", u.word},
          {"round", u.round},
          {"centre_mm", plan_path({u.centre}).front()},
          {"width_mm", mm(u.width)},
          {"depth_mm", mm(u.depth)}};
}

Json curve(const Curve& edge) {
  constexpr double kChordError_mm = 0.05;
  return list(facets(edge, kChordError_mm), [](const CurvePoint& p) {
    return Json::array({rounded(p.at.x), rounded(p.at.y)});
  });
}

Json step(const Step& s, const StepFrame& frame) {
  Json out{{"number", s.number},
           {"frame",
            {{"at_mm", Json::array({rounded(frame.x), rounded(frame.y)})},
             {"z_mm", rounded(frame.z)},
             {"turn_rad", rounded(frame.turn_rad)}}},
           {"rise_mm", mm(s.rise)},
           {"going_mm", mm(s.going)},
           {"width_mm", mm(s.width)},
           {"fall_right_mm", mm(s.fall_right)},
           {"nosing",
            {{"projection_mm", mm(s.nosing.projection)},
             {"thickness_mm", mm(s.nosing.thickness)},
             {"radius_mm", mm(s.nosing.radius)}}},
           {"left", side(s.left)},
           {"right", side(s.right)},
           {"left_side_mm", plan_path(side_line(s, Hand::left))},
           {"right_side_mm", plan_path(side_line(s, Hand::right))},
           {"landing_edge", s.landing_edge},
           {"open_riser", s.open_riser},
           {"uprights", list(s.uprights, upright)}};
  if (s.starter) out["curved_front_mm"] = curve(s.starter->front.edge);
  return out;
}

Json steps(const Flight& f) {
  const auto frames = step_frames(f);
  Json out = Json::array();
  for (std::size_t i = 0; i < f.steps.size(); ++i)
    out.push_back(step(f.steps[i], frames[i]));
  return out;
}

Json flight(const Flight& f) {
  return {{"name", f.name},
          {"style", f.style == CoverStyle::waterfall ? "waterfall" : "wrapped"},
          {"join", f.join},
          {"carpet", f.carpet},
          {"steps", steps(f)}};
}

Json stair(const Stair& s) {
  return {{"name", s.name},
          {"flights", list(s.flights, flight)},
          {"floors", list(s.floors, [](const Floor& f) {
             return Json{{"name", f.name}, {"carpet", f.carpet}, {"corners_mm", plan_path(f.corners)}};
           })}};
}

Json size_item(const SizeItem& item) { return {{"what", item.what}, {"size_mm", rounded(item.mm)}}; }

Json line(const FlatLine& l) {
  return {{"role", name(l.role)},
          {"label", l.label},
          {"points_mm", path(l.points)},
          {"angle_rad", rounded(l.angle_rad)},
          {"radius_mm", rounded(l.radius_mm)}};
}

Json face(const Face& f) {
  return {{"name", f.name},
          {"step", f.step},
          {"parent", f.parent},
          {"hidden", f.hidden},
          {"outline_mm", path(f.outline)},
          {"hinge_mm", path({f.hinge_a, f.hinge_b})},
          {"crease_rad", rounded(f.crease_rad)},
          {"bend_rad", rounded(f.bend_rad)},
          {"bend_width_mm", rounded(f.bend_width_mm)}};
}

Json seam(const Seam& s) { return {{"name", s.name}, {"a_mm", path(s.a)}, {"b_mm", path(s.b)}}; }

Json opening(const Opening& o) {
  return {{"step", o.step},
          {"what", o.what},
          {"hole_mm", path(o.hole)},
          {"slit_mm", path(o.slit)},
          {"way", o.way}};
}

Json covered(const Coverage& c) {
  return {{"face", c.face},
          {"once", rounded(c.once)},
          {"more", rounded(c.more)},
          {"none", rounded(c.none)},
          {"filled", rounded(c.filled)}};
}

Json proof(const Proof& p) {
  return {{"passed", p.passed},
          {"reason", p.reason},
          {"widest_gap_mm", rounded(p.widest_gap_mm)},
          {"widest_seam", p.widest_seam},
          {"worst_length_mismatch_mm", rounded(p.worst_length_mismatch_mm)},
          {"hems_clear", p.hems_clear},
          {"worst_strain", rounded(p.worst_strain)},
          {"worst_strain_at", p.worst_strain_at},
          {"coverage", list(p.coverage, covered)}};
}

Json piece(const PlannedPiece& planned) {
  const Piece& p = planned.piece;
  Json out{{"id", p.id},
           {"kind", p.kind},
           {"stair", p.stair_index},
           {"flight", p.flight_index},
           {"floor", p.floor_index},
           {"steps", p.steps},
           {"carpet", p.carpet},
           {"net_width_mm", mm(p.net_width)},
           {"net_length_mm", mm(p.net_length)},
           {"cut_width_mm", mm(p.cut_width)},
           {"cut_length_mm", mm(p.cut_length)},
           {"trim",
            {{"left_mm", mm(p.trim_left)},
             {"right_mm", mm(p.trim_right)},
             {"back_mm", mm(p.trim_back)},
             {"foot_mm", mm(p.trim_foot)}}},
           {"across", list(p.across, size_item)},
           {"along", list(p.along, size_item)},
           {"net_origin_mm", path({p.net_origin}).front()},
           {"root_height_mm", rounded(p.root_height_mm)},
           {"outline_mm", path(p.outline)},
           {"lines", list(p.lines, line)},
           {"faces", list(p.faces, face)},
           {"seams", list(p.seams, seam)},
           {"openings", list(p.openings, opening)},
           {"proof", proof(planned.proof)}};
  if (p.hanging)
    out["hanging"] = {{"at_mm", plan_path({p.hanging->at}).front()},
                      {"z_mm", rounded(p.hanging->z)},
                      {"heading_rad", rounded(p.hanging->heading_rad)}};
  if (p.relief)
    out["relief_cuts"] = {{"count", p.relief->count},
                          {"depth_mm", rounded(p.relief->depth_mm)},
                          {"mouth_mm", rounded(p.relief->mouth_mm)},
                          {"tooth_mm", rounded(p.relief->tooth_mm)}};
  return out;
}

Json demand(const Demand& d) {
  return {{"need_mm", rounded(d.need)}, {"cut_mm", rounded(d.cut)}, {"deviation_mm", rounded(d.deviation)}};
}

double chance(double x) { return std::round(x * 1e9) / 1e9; }

Json piece_certainty(const PieceCertainty& c) {
  return {{"piece", c.piece},
          {"chance_short", chance(c.chance)},
          {"across", list(c.across, demand)},
          {"along", list(c.along, demand)}};
}

Json stair_certainty(const StairCertainty& c) {
  return {{"stair", c.stair},
          {"chance_any_short", chance(c.chance)},
          {"least_across_mm", mm(c.least_across)},
          {"least_along_mm", mm(c.least_along)},
          {"pieces", list(c.pieces, piece_certainty)}};
}

Json certainty(const Plan& plan) {
  const auto& t = plan.job.tolerances;
  return {{"tape_mm", mm(t.tape)},
          {"knife_mm", mm(t.knife)},
          {"spread_mm", mm(t.spread)},
          {"target", kShortChance},
          {"stairs", list(plan.certainty, stair_certainty)}};
}

Json strip_piece(const StripPiece& s) {
  return {{"place", s.place == StripPlace::tread ? "tread" : "riser"},
          {"from_mm", mm(s.from)},
          {"to_mm", mm(s.to)},
          {"set_off_mm", mm(s.set_off)},
          {"left_angle_deg", rounded(s.left_angle_deg)},
          {"right_angle_deg", rounded(s.right_angle_deg)}};
}

Json fixings_of_step(const Fixings& f) {
  return {{"step", f.step},
          {"strips", list(f.strips, strip_piece)},
          {"pad",
           {{"width_mm", mm(f.pad.width)},
            {"length_mm", mm(f.pad.length)},
            {"outline_mm", plan_path(f.pad.outline)},
            {"riser_y_mm", rounded(f.pad.riser_y)},
            {"holes_mm", list(f.pad.holes, plan_path)}}},
          {"hot_melt_mm", mm(f.hot_melt)},
          {"latex_mm", mm(f.latex)},
          {"staple_run_mm", mm(f.staple_run)},
          {"seam_tape_mm", mm(f.seam_tape)}};
}

Json fixings_of_flight(const FlightFixings& f, const TackStrip& strip) {
  return {{"flight", f.flight},
          {"strip_width_mm", mm(strip.width)},
          {"strip_thickness_mm", mm(strip.thickness)},
          {"steps", list(f.steps, fixings_of_step)}};
}

Json placement(const Placement& p) {
  return {{"piece", p.piece},
          {"u_mm", mm(p.u)},
          {"v_mm", mm(p.v)},
          {"width_mm", mm(p.width)},
          {"length_mm", mm(p.length)}};
}

Json stroke(const Stroke& s) {
  return {{"kind", name(s.kind)},
          {"at_mm", mm(s.at)},
          {"from_mm", mm(s.from)},
          {"to_mm", mm(s.to)},
          {"frees", s.frees}};
}

Json offcut(const Offcut& o) {
  return {{"u_mm", mm(o.u)}, {"v_mm", mm(o.v)}, {"width_mm", mm(o.width)}, {"length_mm", mm(o.length)}};
}

Json roll(const RollLayout& r) {
  return {{"stock", r.stock},
          {"remnant", r.remnant},
          {"width_mm", mm(r.width)},
          {"selvage_mm", mm(r.selvage)},
          {"available_mm", mm(r.available)},
          {"length_used_mm", mm(r.length_used)},
          {"length_to_buy_mm", mm(r.length_to_buy)},
          {"placements", list(r.placements, placement)},
          {"knife_order", list(r.knife_order, stroke)},
          {"offcuts", list(r.offcuts, offcut)}};
}

Json offer(const WidthOffer& o) {
  return {{"width_mm", mm(o.width)},
          {"length_used_mm", mm(o.length_used)},
          {"length_to_buy_mm", mm(o.length_to_buy)},
          {"area_m2", rounded(o.area_m2)},
          {"feasible", o.feasible},
          {"why_not", o.why_not}};
}

Json layout(const Layout& l) {
  return {{"carpet", l.carpet},
          {"lower_bound_mm", mm(l.lower_bound)},
          {"bound_name", l.bound_name},
          {"proved_least", l.proved_least},
          {"length_without_pattern_mm", mm(l.length_without_pattern)},
          {"whole_rows_mm", mm(l.whole_rows)},
          {"net_area_m2", rounded(l.net_area_m2)},
          {"offers", list(l.offers, offer)},
          {"rolls", list(l.rolls, roll)}};
}

Json takeoff_line(const TakeoffLine& l) {
  return {{"item", l.item},
          {"need", l.need},
          {"rule", l.rule},
          {"quantity", l.counted ? Json(rounded(l.quantity)) : Json()},
          {"unit", l.unit}};
}

Json takeoff(const Takeoff& t) {
  return {{"lines", list(t.lines, takeoff_line)},
          {"strip", list(t.strip,
                         [](const StripStock& s) {
                           return Json{{"cuts_mm", list(s.cuts, mm)}, {"left_over_mm", mm(s.left_over)}};
                         })},
          {"strip_lower_bound", t.strip_lower_bound},
          {"pad_cuts", list(t.pad_cuts,
                            [](const PadCut& c) {
                              return Json{{"flight", c.flight},
                                          {"step", c.step},
                                          {"width_mm", mm(c.width)},
                                          {"length_mm", mm(c.length)}};
                            })},
          {"pad_roll_length_mm", mm(t.pad_roll_length)}};
}

Json quote_line(const QuoteLine& l) {
  return {{"what", l.what},
          {"quantity", l.quantity},
          {"unit", l.unit},
          {"rate_cents", l.rate.cents},
          {"amount_cents", l.amount.cents},
          {"material", l.material},
          {"taxable", l.taxable}};
}

Json quote(const Quote& q) {
  return {{"currency", q.currency},
          {"lines", list(q.lines, quote_line)},
          {"subtotal_cents", q.subtotal.cents},
          {"uplift_cents", q.uplift.cents},
          {"uplift_name", q.uplift_name},
          {"tax_cents", q.tax.cents},
          {"tax_name", q.tax_name},
          {"total_cents", q.total.cents},
          {"deposit_cents", q.deposit.cents},
          {"deposit_name", q.deposit_name},
          {"balance_cents", q.balance.cents},
          {"net_area_m2", rounded(q.net_area_m2)},
          {"ordered_area_m2", rounded(q.ordered_area_m2)},
          {"net_against_ordered", q.net_against_ordered},
          {"scope", q.scope},
          {"exclusions", q.exclusions},
          {"offcuts", q.offcuts},
          {"valid_days", q.valid_days}};
}

Json site(const Site& s) {
  return {{"title", s.title},     {"customer", s.customer},   {"address", s.address},
          {"contact", s.contact}, {"installer", s.installer}, {"installer_contact", s.installer_contact},
          {"date", s.date},       {"access", s.access},       {"notes", s.notes}};
}

// ---- runners: members that only what has to do with one has

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

Json runner_piece(const RunnerPiece& r) {
  return {{"edges_mm", rounded(r.edges_mm)}, {"marks", list(r.marks, [](const RunnerMark& m) {
                                                return Json{{"step", m.step},
                                                            {"back", runner_line(m.back)},
                                                            {"nosing", runner_line(m.nosing)},
                                                            {"foot", runner_line(m.foot)}};
                                              })}};
}

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

/// Text from the user is UTF-8 by the time it is here; were it not, a broken letter beats a broken program.
std::string text(const Json& json) { return json.dump(1, ' ', false, Json::error_handler_t::replace) + "\n"; }

} // namespace

std::string plan_json(const Plan& plan) {
  const auto fixings = [&](const FlightFixings& f) { return fixings_of_flight(f, plan.job.strip); };
  Json out{{"treadfold_plan", kPlanVersion},
           {"unit", name(plan.job.unit)},
           {"paper", plan.job.paper == PaperSize::letter ? "letter" : "a4"},
           {"site", site(plan.job.site)},
           {"problems", list(plan.problems, problem)},
           {"stairs", list(plan.job.stairs, stair)},
           {"pieces", list(plan.pieces, piece)},
           {"fixings", list(plan.fixings, fixings)},
           {"certainty", certainty(plan)},
           {"layouts", list(plan.layouts, layout)},
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
