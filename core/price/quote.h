// Rates and a takeoff make a quote, in integer cents.
#pragma once

#include "buy/takeoff.h"
#include "units/money.h"

namespace treadfold {

enum class RatePer { step, square_yard, square_metre, foot, metre, hour, lump };
/// Which steps a per-step rate counts.
enum class StepKind { any, closed, one_open, two_open, landing_edge };
/// What an area or length rate measures.
enum class RateOf { carpet_ordered, carpet_net, cushion, strip, none };

struct Rate {
  std::string what;
  RatePer per = RatePer::lump;
  StepKind kind = StepKind::any;
  RateOf of = RateOf::none;
  std::int64_t quantity_milli = 1000; // hours or lumps, thousandths
  Money rate;
  bool material = false; // markup or margin applies to materials only
  bool taxable = true;
  std::string where;
};

enum class Uplift { none, markup, margin };

struct Terms {
  std::string currency = "$";
  std::vector<Rate> rates;
  Uplift uplift = Uplift::none;
  std::int64_t uplift_ppm = 0; // parts per million: 20 % = 200,000. markup: cost·(1+x); margin: cost/(1−x)
  std::int64_t tax_ppm = 0;
  std::int64_t deposit_ppm = 0;
  int valid_days = 30;
  std::vector<std::string> scope, exclusions; // the user's own sentences
  std::string offcuts;                        // who keeps them
  std::string where;
};

struct QuoteLine {
  std::string what, quantity, unit; // "12.000", "steps"
  Money rate, amount;
  bool material = false, taxable = true;
};

struct Quote {
  std::string currency;
  std::vector<QuoteLine> lines;
  Money subtotal, uplift, tax, total, deposit, balance;
  std::string uplift_name, tax_name, deposit_name; // "Markup 20 % on materials"
  double net_area_m2 = 0, ordered_area_m2 = 0;
  std::string net_against_ordered; // in words a customer follows
  std::vector<std::string> scope, exclusions;
  std::string offcuts;
  int valid_days = 30;
};

struct QuoteInput {
  const std::vector<Flight>& flights;
  const std::vector<Layout>& layouts;
  const Takeoff& takeoff;
  const Terms& terms;
  double piece_net_area_m2 = 0; // area of the net outlines, before allowances
  LengthUnit unit = LengthUnit::inch;
};
Quote quote(const QuoteInput& input);

} // namespace treadfold
