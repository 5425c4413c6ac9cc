#include "price/quote.h"

#include "buy/quantity.h"
#include "measure/winder.h"
#include "price/area_account.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace treadfold {
namespace {

constexpr std::int64_t kMillion = 1'000'000;

struct Quantity {
  std::int64_t milli = 0;
  std::string unit;
};

bool is_area(RatePer per) { return per == RatePer::square_yard || per == RatePer::square_metre; }
bool is_length(RatePer per) { return per == RatePer::foot || per == RatePer::metre; }

/// The most particular kind of the step that some rate has, or else the most general.
StepKind kind_of(const Step& step, const std::vector<Rate>& rates) {
  const auto has = [&](StepKind kind) {
    return std::any_of(rates.begin(), rates.end(),
                       [&](const Rate& r) { return r.per == RatePer::step && r.kind == kind; });
  };
  if (step.landing_edge) return StepKind::landing_edge;
  if (step.starter && has(StepKind::starter)) return StepKind::starter;
  if (winds(step) && has(StepKind::winder)) return StepKind::winder;
  const int open = (step.left.closed() ? 0 : 1) + (step.right.closed() ? 0 : 1);
  return open == 0 ? StepKind::closed : open == 1 ? StepKind::one_open : StepKind::two_open;
}

bool counts(const Rate& rate, const Step& step, const std::vector<Rate>& rates) {
  return rate.per == RatePer::step && (rate.kind == StepKind::any || rate.kind == kind_of(step, rates));
}

Area area_of(RateOf of, const QuoteInput& in) {
  Area sum;
  if (of == RateOf::carpet_ordered)
    for (const Layout& layout : in.layouts)
      for (const RollLayout& roll : layout.rolls)
        sum += area(roll.width, roll.length_to_buy);
  if (of == RateOf::carpet_net) sum = area_from_m2(in.piece_net_area_m2);
  if (of == RateOf::cushion) sum = area(in.takeoff.pad_roll_width, in.takeoff.pad_roll_length);
  return sum;
}

Length length_of(RateOf of, const QuoteInput& in) {
  Length sum;
  if (of == RateOf::carpet_ordered)
    for (const Layout& layout : in.layouts)
      for (const RollLayout& roll : layout.rolls)
        sum += roll.length_to_buy;
  if (of == RateOf::cushion) sum = in.takeoff.pad_roll_length;
  if (of == RateOf::binding) sum = in.takeoff.binding;
  if (of == RateOf::strip)
    for (const StripStock& stock : in.takeoff.strip)
      for (Length cut : stock.cuts)
        sum += cut;
  return sum;
}

/// REQUIRES: the rate is measurable.
Quantity measured(const Rate& rate, const QuoteInput& in) {
  switch (rate.per) {
  case RatePer::step: {
    std::int64_t steps = 0;
    for (const Flight& flight : in.flights)
      for (const Step& step : flight.steps)
        steps += counts(rate, step, in.terms.rates) ? 1 : 0;
    return {steps * 1000, steps == 1 ? "step" : "steps"};
  }
  case RatePer::square_yard:
    return {milli(area_of(rate.of, in), kSquareYard), "sq yd"};
  case RatePer::square_metre:
    return {milli(area_of(rate.of, in), kSquareMetre), "m²"};
  case RatePer::foot:
    return {milli(length_of(rate.of, in), kFoot), "ft"};
  case RatePer::metre:
    return {milli(length_of(rate.of, in), kMillimetre * 1000), "m"};
  case RatePer::hour:
    return {rate.quantity_milli, "h"};
  case RatePer::lump:
    return {rate.quantity_milli, ""};
  }
  return {};
}

std::string show_quantity(const Quantity& q, RatePer per) {
  const bool whole = q.milli % 1000 == 0 && !is_area(per) && !is_length(per);
  return whole ? fmt::format("{}", q.milli / 1000) : show_milli(q.milli);
}

/// What is added to `cost` so that the price holds the markup or margin.
Money uplift_on(Money cost, const Terms& terms) {
  switch (terms.uplift) {
  case Uplift::none:
    return {};
  case Uplift::markup:
    return scaled(cost, terms.uplift_ppm, kMillion);
  case Uplift::margin:
    assert(terms.uplift_ppm < kMillion);
    return scaled(cost, terms.uplift_ppm, kMillion - terms.uplift_ppm);
  }
  return {};
}

/// 82,500 → "8.25 %".
std::string percent(std::int64_t ppm) {
  std::string text = fmt::format("{}.{:04}", ppm / 10'000, ppm % 10'000);
  while (text.back() == '0')
    text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text + " %";
}

struct KindWords {
  StepKind kind;
  const char *name, *words; // in a job file, and to a reader
};
constexpr KindWords kKinds[] = {{StepKind::closed, "closed", "closed at both sides"},
                                {StepKind::one_open, "one_open", "open at one side"},
                                {StepKind::two_open, "two_open", "open at both sides"},
                                {StepKind::winder, "winder", "that wind"},
                                {StepKind::starter, "starter", "with a curved front"},
                                {StepKind::landing_edge, "landing_edge", "at a landing"}};

/// "1 to 10, 12" of ascending numbers.
std::string in_runs(const std::vector<int>& numbers) {
  std::string text;
  for (std::size_t i = 0, end = 0; i < numbers.size(); i = end) {
    for (end = i + 1; end < numbers.size() && numbers[end] == numbers[end - 1] + 1;)
      ++end;
    if (!text.empty()) text += ", ";
    text +=
        end - i > 1 ? fmt::format("{} to {}", numbers[i], numbers[end - 1]) : fmt::format("{}", numbers[i]);
  }
  return text;
}

} // namespace

std::string unmeasurable(const Rate& rate) {
  const bool of_something = rate.of != RateOf::none;
  if (rate.per != RatePer::step && rate.kind != StepKind::any)
    return "a kind of step belongs to a rate per step";
  if (is_area(rate.per)) {
    if (!of_something) return "an area of what is not said";
    if (rate.of == RateOf::binding) return "binding has no area; it is measured by length";
    return rate.of == RateOf::strip ? "strip has no area; it is measured by length" : "";
  }
  if (is_length(rate.per)) {
    if (!of_something) return "a length of what is not said";
    return rate.of == RateOf::carpet_net ? "net carpet has no length; it is measured by area" : "";
  }
  return of_something ? "steps, hours and lumps do not measure goods" : "";
}

Quote quote(const QuoteInput& input) {
  const Terms& terms = input.terms;
  Quote q;
  q.currency = terms.currency;
  Money material, taxable, taxable_material;
  for (const Rate& rate : terms.rates) {
    QuoteLine line{rate.what, "", "", rate.rate, {}, rate.material, rate.taxable};
    if (const std::string reason = unmeasurable(rate); !reason.empty()) {
      line.what = fmt::format("{} (not counted: {})", rate.what, reason);
      line.quantity = "0";
    } else {
      const Quantity quantity = measured(rate, input);
      if (quantity.milli == 0) continue;
      line.quantity = show_quantity(quantity, rate.per);
      line.unit = quantity.unit;
      line.amount = scaled(rate.rate, quantity.milli, 1000);
    }
    q.subtotal += line.amount;
    if (line.material) material += line.amount;
    if (line.taxable) taxable += line.amount;
    if (line.material && line.taxable) taxable_material += line.amount;
    q.lines.push_back(std::move(line));
  }
  q.uplift = uplift_on(material, terms);
  q.tax = scaled(taxable + uplift_on(taxable_material, terms), terms.tax_ppm, kMillion);
  q.total = q.subtotal + q.uplift + q.tax;
  q.deposit = scaled(q.total, terms.deposit_ppm, kMillion);
  q.balance = q.total - q.deposit;
  if (terms.uplift != Uplift::none && terms.uplift_ppm != 0)
    q.uplift_name = fmt::format("{} {} on materials", terms.uplift == Uplift::markup ? "Markup" : "Margin",
                                percent(terms.uplift_ppm));
  if (terms.tax_ppm != 0) q.tax_name = "Tax " + percent(terms.tax_ppm);
  if (terms.deposit_ppm != 0) q.deposit_name = "Deposit " + percent(terms.deposit_ppm);

  const Area net = area_from_m2(input.piece_net_area_m2);
  q.net_area_m2 = net.m2();
  q.ordered_area_m2 = area_of(RateOf::carpet_ordered, input).m2();
  q.net_against_ordered = in_words(account_areas(input.layouts, net), input.unit);
  q.scope = terms.scope;
  q.exclusions = terms.exclusions;
  q.offcuts = terms.offcuts;
  q.valid_days = terms.valid_days;
  return q;
}

Problems uncharged_steps(const std::vector<Flight>& flights, const Terms& terms) {
  Problems problems;
  const auto& rates = terms.rates;
  if (std::none_of(rates.begin(), rates.end(), [](const Rate& r) { return r.per == RatePer::step; }))
    return problems;
  for (const KindWords& kind : kKinds) {
    std::string steps;
    for (const Flight& flight : flights) {
      std::vector<int> numbers;
      for (const Step& step : flight.steps)
        if (kind_of(step, rates) == kind.kind &&
            std::none_of(rates.begin(), rates.end(), [&](const Rate& r) { return counts(r, step, rates); }))
          numbers.push_back(step.number);
      if (numbers.empty()) continue;
      const auto these = fmt::format("{} of '{}'", in_runs(numbers), flight.name);
      steps = steps.empty() ? these : fmt::format("{}; {}", steps, these);
    }
    if (!steps.empty())
      problems.push_back(
          {Severity::warning, terms.where,
           fmt::format("no rate for steps {} ({}), whose work is then not charged", kind.words, steps),
           fmt::format("a rate per step of kind '{}', or of any", kind.name)});
  }
  return problems;
}

} // namespace treadfold
