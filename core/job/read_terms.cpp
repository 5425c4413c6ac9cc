// Rates and the terms of a quote.

#include "job/read_parts.h"

namespace treadfold {

namespace {

Rate read_rate(Context& context, const Entry& entry) {
  ObjectReader o(context, *entry.node, entry.where);
  Rate r;
  r.where = entry.where;
  r.what = o.name("what");
  const auto per = o.choice<RatePer>("per", {{"step", RatePer::step},
                                             {"square_yard", RatePer::square_yard},
                                             {"square_metre", RatePer::square_metre},
                                             {"foot", RatePer::foot},
                                             {"metre", RatePer::metre},
                                             {"hour", RatePer::hour},
                                             {"lump", RatePer::lump}});
  r.rate = o.money("rate").value_or(Money{});
  const auto kind = o.choice_if<StepKind>("kind", {{"any", StepKind::any},
                                                   {"closed", StepKind::closed},
                                                   {"one_open", StepKind::one_open},
                                                   {"two_open", StepKind::two_open},
                                                   {"winder", StepKind::winder},
                                                   {"starter", StepKind::starter},
                                                   {"landing_edge", StepKind::landing_edge}});
  const auto of = o.choice_if<RateOf>("of", {{"carpet_ordered", RateOf::carpet_ordered},
                                             {"carpet_net", RateOf::carpet_net},
                                             {"cushion", RateOf::cushion},
                                             {"strip", RateOf::strip},
                                             {"binding", RateOf::binding}});
  r.quantity_milli = o.decimal_or("quantity", 3, 100'000'000, false, 1000);
  r.material = o.boolean_or("material", false);
  r.taxable = o.boolean_or("taxable", true);
  if (!per) return r;
  r.per = *per;
  r.kind = kind.value_or(StepKind::any);
  r.of = of.value_or(RateOf::none);

  const bool steps = r.per == RatePer::step;
  const bool counted = r.per == RatePer::hour || r.per == RatePer::lump;
  const bool area = r.per == RatePer::square_yard || r.per == RatePer::square_metre;
  const auto refuse = [&](std::string_view key, std::string_view expected) {
    if (const Node* node = o.find(key))
      context.findings.error(o.at(key), shown(*node), std::string(expected));
  };
  if (!steps) refuse("kind", "no kind of step in a rate that is not per step");
  if (!counted) refuse("quantity", "no quantity: it is counted from the job");
  if (r.per == RatePer::hour && !o.has("quantity"))
    context.findings.error(o.at("quantity"), "nothing", "the hours, a number");
  if (steps || counted) refuse("of", "no goods in a rate that does not measure them");
  if (!steps && !counted && !o.has("of"))
    context.findings.error(
        o.at("of"), "nothing",
        "what is measured: one of 'carpet_ordered', 'carpet_net', 'cushion', 'strip', 'binding'");
  if (!area && of == RateOf::carpet_net)
    refuse("of", "goods that have a length; net carpet is measured by area");
  if (area && of == RateOf::strip) refuse("of", "goods that have an area; strip is measured by length");
  if (area && of == RateOf::binding) refuse("of", "goods that have an area; binding is measured by length");
  return r;
}

} // namespace

Terms read_terms(ObjectReader& root) {
  Terms t;
  t.where = root.at("terms");
  const Node* node = root.find("terms");
  if (!node) return t;
  Context& context = root.context();
  ObjectReader o(context, *node, t.where);
  constexpr std::int64_t kPercent = 10'000; // parts per million
  t.currency = o.name("currency");
  for (const auto& entry : o.list("rates", 0, 200))
    t.rates.push_back(read_rate(context, entry));
  const bool markup = o.has("markup"), margin = o.has("margin");
  const std::int64_t markup_ppm = o.decimal_or("markup", 4, 1000 * kPercent, true, 0);
  const std::int64_t margin_ppm = o.decimal_or("margin", 4, 95 * kPercent, true, 0);
  if (markup && margin) context.findings.error(o.at("margin"), "both markup and margin", "one of the two");
  t.uplift = markup ? Uplift::markup : margin ? Uplift::margin : Uplift::none;
  t.uplift_ppm = markup ? markup_ppm : margin_ppm;
  bool any_material = false;
  for (const auto& rate : t.rates)
    any_material = any_material || rate.material;
  if (t.uplift_ppm > 0 && !any_material)
    context.findings.warn(o.at(markup ? "markup" : "margin"), "no rate marked as material",
                          "at least one: it is reckoned on materials only");
  t.tax_ppm = o.decimal_or("tax", 4, 100 * kPercent, true, 0);
  t.deposit_ppm = o.decimal_or("deposit", 4, 100 * kPercent, true, 0);
  t.valid_days = o.integer_or("valid_days", 1, 3650, 30);
  t.scope = o.texts_or("scope");
  t.exclusions = o.texts_or("exclusions");
  t.offcuts = o.text_or("offcuts");
  return t;
}

} // namespace treadfold
