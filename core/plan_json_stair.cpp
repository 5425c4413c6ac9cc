// The stair and what is fixed to it, for plan.json.
#include "measure/step_frames.h"
#include "measure/tread_plan.h"
#include "plan_json_parts.h"

namespace treadfold::in_json {
namespace {

const char* name(SideKind kind) {
  return kind == SideKind::wall ? "wall" : kind == SideKind::skirt ? "skirt" : "open";
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
  Json out{{"name", f.name},
           {"style", f.style == CoverStyle::waterfall ? "waterfall" : "wrapped"},
           {"join", f.join},
           {"carpet", f.carpet},
           {"steps", steps(f)}};
  if (f.join_at_most) out["join_at_most"] = *f.join_at_most;
  if (f.arrival)
    out["arrival"] = {{"floor", f.arrival->floor},
                      {"from_left_mm", mm(f.arrival->from_left)},
                      {"joined", f.arrival->joined}};
  return out;
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

} // namespace

Json stair(const Stair& s) {
  return {{"name", s.name},
          {"flights", list(s.flights, flight)},
          {"floors", list(s.floors, [](const Floor& f) {
             return Json{{"name", f.name},
                         {"carpet", f.carpet},
                         {"corners_mm", plan_path(f.corners)},
                         {"openings", list(f.openings, [](const FloorOpening& o) {
                            return Json{{"name", o.name}, {"corners_mm", plan_path(o.corners)}};
                          })}};
           })}};
}

Json fixings_of_flight(const FlightFixings& f, const TackStrip& strip) {
  return {{"flight", f.flight},
          {"strip_width_mm", mm(strip.width)},
          {"strip_thickness_mm", mm(strip.thickness)},
          {"steps", list(f.steps, fixings_of_step)}};
}

} // namespace treadfold::in_json
