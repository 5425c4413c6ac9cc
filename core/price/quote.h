// Rates and a takeoff make a quote, in integer cents.
//
// Guarantees
//  1. Quantities are thousandths, rounded half to even once from exact ticks; an amount is its rate times the
//     quantity shown, rounded half to even once. So a customer with a calculator finds the same cents.
//  2. subtotal is the sum of the lines; total = subtotal + uplift + tax; deposit + balance = total.
//  3. Uplift is reckoned on the sum of the material lines. Tax is reckoned on the sum of the taxable lines
//  and
//     on the uplift of those of them that are material. Each is rounded once.
//  4. The parts named in net_against_ordered add up as printed.
#pragma once

#include "buy/takeoff.h"
#include "units/money.h"
#include "units/problem.h"

namespace treadfold {

enum class RatePer { step, square_yard, square_metre, foot, metre, hour, lump };
/// Which steps a per-step rate counts. A landing edge counts under landing_edge and any, never under the
/// others; closed, one_open and two_open go by the number of open sides. A winder or curved starter counts
/// under its own kind where some rate has it, else by its open sides.
enum class StepKind { any, closed, one_open, two_open, winder, starter, landing_edge };
/// What an area or length rate measures: carpet_ordered: what the rolls must supply, remnants not counted;
/// carpet_net: the pieces without allowances (area only); cushion: what is cut from its rolls; strip: what is
/// fitted (length only); binding: runners' bound edges (length only). Steps, hours and lumps measure none.
enum class RateOf { carpet_ordered, carpet_net, cushion, strip, binding, none };

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

/// Why a rate cannot be measured, in words; empty if it can. The job file refuses such rates.
std::string unmeasurable(const Rate& rate);

enum class Uplift { none, markup, margin };

struct Terms {
  std::string currency = "$";
  std::vector<Rate> rates;
  Uplift uplift = Uplift::none;
  std::int64_t uplift_ppm =
      0; // parts per million: 20 % = 200,000. markup: cost·(1+x); margin: cost/(1−x), x < 1
  std::int64_t tax_ppm = 0;
  std::int64_t deposit_ppm = 0;
  int valid_days = 30;
  std::vector<std::string> scope, exclusions; // the user's own sentences
  std::string offcuts;                        // who keeps them
  std::string where;
};

/// Steps that no rate per step counts, so that their work would be done for nothing: a warning for every kind
/// of them. None if there is no rate per step at all: then work is not charged by the step.
Problems uncharged_steps(const std::vector<Flight>& flights, const Terms& terms);

struct QuoteLine {
  std::string what, quantity, unit; // "14", "steps"; "36.00", "sq yd"; "12.347", "m"
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
/// A line for every rate whose quantity is not 0. A rate that cannot be measured keeps its line, at no amount
/// and with the reason: it is never left out unseen.
///
/// Example: 14 steps at 22.50 = 315.00; 36.00 sq yd of material at 30.00 = 1,080.00; markup 20 % = 216.00 on
/// the material; tax 8.25 % on material only = 106.92; total 1,717.92.
Quote quote(const QuoteInput& input);

} // namespace treadfold
