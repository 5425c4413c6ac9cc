// Layouts, what to buy and what it costs, for plan.json.
#include "cut/because.h"
#include "plan_json_parts.h"

namespace treadfold::in_json {
namespace {

const char* name(Stroke::Kind kind) {
  switch (kind) {
  case Stroke::Kind::cross_cut:
    return "cross-cut";
  case Stroke::Kind::rip:
    return "rip";
  case Stroke::Kind::trim:
    return "trim";
  case Stroke::Kind::around:
    return "around";
  }
  return "";
}

Json placement(const Placement& p) {
  Json j{{"piece", p.piece},
         {"u_mm", mm(p.u)},
         {"v_mm", mm(p.v)},
         {"width_mm", mm(p.width)},
         {"length_mm", mm(p.length)}};
  const auto ring = [](const GoodsRing& corners) {
    return list(corners, [](const GoodsPoint& c) { return Json{mm(c.u), mm(c.v)}; });
  };
  if (!p.outline.empty()) j["outline_mm"] = ring(p.outline.ring);
  if (!p.outline.holes.empty()) j["holes_mm"] = list(p.outline.holes, ring);
  if (p.turned) j["turned"] = true;
  return j;
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

Json offer(const WidthOffer& o) {
  return {{"width_mm", mm(o.width)},
          {"length_used_mm", mm(o.length_used)},
          {"length_to_buy_mm", mm(o.length_to_buy)},
          {"area_m2", rounded(o.area_m2)},
          {"feasible", o.feasible},
          {"why_not", o.why_not}};
}

Json takeoff_line(const TakeoffLine& l) {
  return {{"item", l.item},
          {"need", l.need},
          {"rule", l.rule},
          {"quantity", l.counted ? Json(rounded(l.quantity)) : Json()},
          {"unit", l.unit}};
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

} // namespace

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

Json layout(const Layout& l) {
  return {{"carpet", l.carpet},
          {"lower_bound_mm", mm(l.lower_bound)},
          {"bound_name", l.bound_name},
          {"because", because(l.bound_name)},
          {"proved_least", l.proved_least},
          {"length_without_pattern_mm", mm(l.length_without_pattern)},
          {"whole_rows_mm", mm(l.whole_rows)},
          {"straight_to_buy_mm", mm(l.straight_to_buy)},
          {"close_to_buy_mm", mm(l.close_to_buy)},
          {"outlines_to_buy_mm", mm(l.outlines_to_buy)},
          {"net_area_m2", rounded(l.net_area_m2)},
          {"offers", list(l.offers, offer)},
          {"rolls", list(l.rolls, roll)}};
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

} // namespace treadfold::in_json
