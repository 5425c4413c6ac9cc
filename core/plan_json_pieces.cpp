// The pieces and the proof of each, for plan.json.
#include "plan_json_parts.h"

#include "json_words.h"

namespace treadfold::in_json {
namespace {

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

} // namespace

Json covered(const Coverage& c) {
  return {{"face", c.face},
          {"once", rounded(c.once)},
          {"more", rounded(c.more)},
          {"none", rounded(c.none)},
          {"filled", rounded(c.filled)}};
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

} // namespace treadfold::in_json
