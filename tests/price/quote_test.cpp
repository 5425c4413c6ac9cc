#include "price/quote.h"

#include "buy/quantity.h"
#include "measure/tread_plan.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {
namespace {

/// Everything quote() reads, by value: 14 risers (10 closed, 3 open at one side, a landing edge), 27 ft of 12
/// ft roll.
struct Given {
  std::vector<Flight> flights;
  std::vector<Layout> layouts;
  Takeoff takeoff;
  Terms terms;
  double net_m2 = 25.0838208; // 30 sq yd
  LengthUnit unit = LengthUnit::inch;

  Quote quote() const { return treadfold::quote({flights, layouts, takeoff, terms, net_m2, unit}); }
};

Given given() {
  Given g;
  Flight f;
  for (int i = 1; i <= 14; ++i) {
    Step s;
    s.number = i;
    if (i >= 11) s.right.kind = SideKind::open;
    s.landing_edge = i == 14;
    f.steps.push_back(s);
  }
  g.flights = {f};
  RollLayout roll;
  roll.width = kFoot * 12;
  roll.length_used = kFoot * 26;
  roll.length_to_buy = kFoot * 27;
  roll.placements = {{"A-1", {}, {}, kFoot * 12, kFoot * 25}};
  Layout layout;
  layout.length_without_pattern = roll.length_used;
  layout.rolls = {roll};
  g.layouts = {layout};
  g.takeoff.pad_roll_width = kFoot * 6;
  g.takeoff.pad_roll_length = kFoot * 15;
  g.takeoff.binding = kFoot * 50 + inches(3);
  g.takeoff.strip = {{{inches(30), inches(18)}, {}}, {{inches(42)}, inches(6)}};
  return g;
}

Rate rate(RatePer per, std::int64_t cents, RateOf of = RateOf::none, StepKind kind = StepKind::any) {
  Rate r;
  r.what = "work";
  r.per = per;
  r.rate = {cents};
  r.of = of;
  r.kind = kind;
  return r;
}

Quote with_rate(Rate r) {
  auto g = given();
  g.terms.rates = {std::move(r)};
  return g.quote();
}

TEST(Quote, NoRatesAreShipped) {
  EXPECT_TRUE(Terms{}.rates.empty());
  const auto q = given().quote();
  EXPECT_TRUE(q.lines.empty());
  EXPECT_EQ(q.total, Money{});
}

TEST(Quote, StepsAreCountedByKind) {
  const auto steps = [](StepKind kind) {
    const auto q = with_rate(rate(RatePer::step, 100, RateOf::none, kind));
    return q.lines.empty() ? "none" : q.lines[0].quantity + " " + q.lines[0].unit;
  };
  EXPECT_EQ(steps(StepKind::any), "14 steps");
  EXPECT_EQ(steps(StepKind::closed), "10 steps");
  EXPECT_EQ(steps(StepKind::one_open), "3 steps"); // the landing edge is open at one side too, yet no step
  EXPECT_EQ(steps(StepKind::two_open), "none");
  EXPECT_EQ(steps(StepKind::landing_edge), "1 step");
}

TEST(Quote, AWinderOrStarterHasItsOwnRateOrThatOfItsOpenSides) {
  auto g = given();
  auto& steps = g.flights[0].steps;
  steps[0].starter = Starter{};
  steps[0].left.kind = steps[0].right.kind = SideKind::wall;
  steps[4].left.kind = steps[4].right.kind = SideKind::wall;
  set_plan(steps[4], {{0, 0}, {0, 100}}, {{900, 0}, {900, 500}}); // turns by 24°
  const auto counted = [&](std::vector<StepKind> kinds) {
    g.terms.rates.clear();
    for (const auto kind : kinds)
      g.terms.rates.push_back(rate(RatePer::step, 100, RateOf::none, kind));
    std::string text;
    for (const auto& line : g.quote().lines)
      text += line.quantity + " ";
    return text;
  };
  const auto closed = std::stoi(counted({StepKind::closed}));
  EXPECT_EQ(counted({StepKind::closed, StepKind::winder}), fmt::format("{} 1 ", closed - 1));
  EXPECT_EQ(counted({StepKind::closed, StepKind::winder, StepKind::starter}),
            fmt::format("{} 1 1 ", closed - 2));
}

RC_GTEST_PROP(Quote, KindsOfStepsAddUpToAllSteps, ()) {
  auto g = given();
  for (auto& s : g.flights[0].steps) {
    s.left.kind = *rc::gen::element(SideKind::wall, SideKind::skirt, SideKind::open);
    s.right.kind = *rc::gen::element(SideKind::wall, SideKind::skirt, SideKind::open);
  }
  g.terms.rates = {rate(RatePer::step, 1)};
  const auto any = g.quote().total;
  g.terms.rates.clear();
  for (auto kind : {StepKind::closed, StepKind::one_open, StepKind::two_open, StepKind::landing_edge})
    g.terms.rates.push_back(rate(RatePer::step, 1, RateOf::none, kind));
  RC_ASSERT(g.quote().total == any);
  RC_ASSERT(any == Money{14});
}

TEST(UnchargedSteps, AreNamedWithTheirKind) {
  auto g = given();
  g.flights[0].name = "main";
  g.flights[0].steps[4].left.kind = SideKind::open;
  g.flights.push_back(g.flights[0]);
  g.flights[1].name = "upper";
  g.flights[1].steps.resize(2); // both closed
  g.terms.where = "/terms";
  g.terms.rates = {rate(RatePer::step, 100, RateOf::none, StepKind::one_open)};
  auto problems = uncharged_steps(g.flights, g.terms);
  ASSERT_EQ(problems.size(), 2u);
  EXPECT_EQ(sentence(problems[0]),
            "/terms: found no rate for steps closed at both sides (1 to 4, 6 to 10 of 'main'; 1 to 2 of "
            "'upper'), whose work "
            "is then not charged, expected a rate per step of kind 'closed', or of any.");
  EXPECT_EQ(sentence(problems[1]),
            "/terms: found no rate for steps at a landing (14 of 'main'), whose work is then not charged, "
            "expected a rate per step of kind 'landing_edge', or of any.");
  EXPECT_EQ(problems[0].severity, Severity::warning);
  EXPECT_EQ(problems[1].severity, Severity::warning);
  g.terms.rates.push_back(
      rate(RatePer::step, 0, RateOf::none, StepKind::landing_edge)); // charged, at nothing
  EXPECT_EQ(uncharged_steps(g.flights, g.terms).size(), 1u);
}

TEST(UnchargedSteps, AreNoneWhereWorkIsNotChargedByTheStep) {
  auto g = given();
  EXPECT_TRUE(uncharged_steps(g.flights, g.terms).empty());
  g.terms.rates = {rate(RatePer::hour, 100), rate(RatePer::square_yard, 100, RateOf::carpet_ordered)};
  EXPECT_TRUE(uncharged_steps(g.flights, g.terms).empty());
}

RC_GTEST_PROP(UnchargedSteps, AreThereExactlyWhenTheQuoteCountsFewerSteps, ()) {
  auto g = given();
  for (auto& s : g.flights[0].steps) {
    s.left.kind = *rc::gen::element(SideKind::wall, SideKind::skirt, SideKind::open);
    s.right.kind = *rc::gen::element(SideKind::wall, SideKind::skirt, SideKind::open);
  }
  std::int64_t of_any = 0;
  for (auto kind :
       {StepKind::any, StepKind::closed, StepKind::one_open, StepKind::two_open, StepKind::landing_edge})
    if (*rc::gen::arbitrary<bool>()) {
      g.terms.rates.push_back(rate(RatePer::step, 1, RateOf::none, kind));
      of_any += kind == StepKind::any ? 14 : 0;
    }
  RC_PRE(!g.terms.rates.empty());
  // at a cent a step the total counts the steps, all of them once more by a rate for any
  const bool all = of_any > 0 || g.quote().total == Money{14};
  RC_ASSERT(uncharged_steps(g.flights, g.terms).empty() == all);
}

TEST(Quote, AreasAndLengthsOfGoods) {
  const auto of = [](RatePer per, RateOf what) {
    const auto q = with_rate(rate(per, 100, what));
    return q.lines.at(0).quantity + " " + q.lines.at(0).unit;
  };
  EXPECT_EQ(of(RatePer::square_yard, RateOf::carpet_ordered), "36.00 sq yd"); // 12 × 27 ft
  EXPECT_EQ(of(RatePer::square_yard, RateOf::carpet_net), "30.00 sq yd");
  EXPECT_EQ(of(RatePer::square_yard, RateOf::cushion), "10.00 sq yd"); // 6 × 15 ft
  EXPECT_EQ(of(RatePer::square_metre, RateOf::carpet_ordered), "30.101 m²");
  EXPECT_EQ(of(RatePer::foot, RateOf::carpet_ordered), "27.00 ft");
  EXPECT_EQ(of(RatePer::foot, RateOf::cushion), "15.00 ft");
  EXPECT_EQ(of(RatePer::foot, RateOf::strip), "7.50 ft"); // 30 + 18 + 42 in
  EXPECT_EQ(of(RatePer::foot, RateOf::binding), "50.25 ft");
  EXPECT_EQ(of(RatePer::metre, RateOf::carpet_ordered), "8.23 m"); // 8.2296
}

TEST(Quote, RemnantsAreNotPaidAsOrdered) {
  auto g = given();
  RollLayout remnant;
  remnant.remnant = true;
  remnant.width = kFoot * 6;
  remnant.length_used = kFoot * 4;
  g.layouts[0].rolls.push_back(remnant);
  g.terms.rates = {rate(RatePer::square_yard, 100, RateOf::carpet_ordered)};
  EXPECT_EQ(g.quote().total, Money{3600});
}

TEST(Quote, AmountsRoundHalfToEven) {
  const auto half_hour = [](std::int64_t cents) {
    auto r = rate(RatePer::hour, cents);
    r.quantity_milli = 500;
    return with_rate(r).total.cents;
  };
  EXPECT_EQ(half_hour(5), 2); // 2.5
  EXPECT_EQ(half_hour(7), 4); // 3.5
  EXPECT_EQ(half_hour(-5), -2);
  EXPECT_EQ(half_hour(6), 3);
}

TEST(Quote, HoursAndLumps) {
  auto g = given();
  g.terms.rates = {rate(RatePer::hour, 4'500), rate(RatePer::lump, 12'000)};
  g.terms.rates[0].quantity_milli = 7'250;
  const auto q = g.quote();
  EXPECT_EQ(q.lines[0].quantity, "7.25");
  EXPECT_EQ(q.lines[0].unit, "h");
  EXPECT_EQ(q.lines[0].amount, Money{32'625});
  EXPECT_EQ(q.lines[1].quantity, "1");
  EXPECT_EQ(q.lines[1].amount, Money{12'000});
}

/// The example of the header, by hand.
Given worked_example() {
  auto g = given();
  g.terms.rates = {rate(RatePer::step, 2'250), rate(RatePer::square_yard, 3'000, RateOf::carpet_ordered)};
  g.terms.rates[0].taxable = false;
  g.terms.rates[1].material = true;
  g.terms.tax_ppm = 82'500;
  g.terms.deposit_ppm = 500'000;
  g.terms.uplift = Uplift::markup;
  g.terms.uplift_ppm = 200'000;
  return g;
}

TEST(Quote, WorkedExampleWithMarkup) {
  const auto q = worked_example().quote();
  EXPECT_EQ(q.lines[0].amount, Money{31'500});
  EXPECT_EQ(q.lines[1].amount, Money{108'000});
  EXPECT_EQ(q.subtotal, Money{139'500});
  EXPECT_EQ(q.uplift, Money{21'600});
  EXPECT_EQ(q.tax, Money{10'692}); // 8.25 % of 1,296.00
  EXPECT_EQ(q.total, Money{171'792});
  EXPECT_EQ(q.deposit, Money{85'896});
  EXPECT_EQ(q.balance, Money{85'896});
  EXPECT_EQ(q.uplift_name, "Markup 20 % on materials");
  EXPECT_EQ(q.tax_name, "Tax 8.25 %");
  EXPECT_EQ(q.deposit_name, "Deposit 50 %");
}

TEST(Quote, WorkedExampleWithMargin) {
  auto g = worked_example();
  g.terms.uplift = Uplift::margin; // 1,080.00 / 0.8 = 1,350.00
  const auto q = g.quote();
  EXPECT_EQ(q.uplift, Money{27'000});
  EXPECT_EQ(q.tax, Money{11'138}); // 8.25 % of 1,350.00 = 111.375, half to even
  EXPECT_EQ(q.uplift_name, "Margin 20 % on materials");
}

TEST(Quote, UpliftOfUntaxedMaterialIsNotTaxed) {
  auto g = worked_example();
  g.terms.rates[1].taxable = false;
  EXPECT_EQ(g.quote().tax, Money{});
  EXPECT_EQ(g.quote().uplift, Money{21'600});
}

TEST(Quote, WhatCannotBeMeasuredIsSeenAndCostsNothing) {
  const Rate bad[] = {rate(RatePer::square_yard, 100, RateOf::strip),
                      rate(RatePer::square_metre, 100, RateOf::binding),
                      rate(RatePer::foot, 100, RateOf::carpet_net),
                      rate(RatePer::square_metre, 100),
                      rate(RatePer::metre, 100),
                      rate(RatePer::step, 100, RateOf::cushion),
                      rate(RatePer::hour, 100, RateOf::none, StepKind::closed)};
  for (const Rate& r : bad) {
    EXPECT_NE(unmeasurable(r), "");
    const auto q = with_rate(r);
    ASSERT_EQ(q.lines.size(), 1u);
    EXPECT_NE(q.lines[0].what.find("not counted: " + unmeasurable(r)), std::string::npos);
    EXPECT_EQ(q.total, Money{});
  }
}

TEST(Quote, WhatIsNotThereHasNoLine) {
  auto g = given();
  g.takeoff = {};
  g.terms.rates = {rate(RatePer::foot, 100, RateOf::strip), rate(RatePer::square_yard, 100, RateOf::cushion)};
  EXPECT_TRUE(g.quote().lines.empty());
}

TEST(Quote, TermsAreCarriedOver) {
  auto g = given();
  g.terms.scope = {"Stair from hall to landing."};
  g.terms.exclusions = {"Painting."};
  g.terms.offcuts = "Offcuts stay with the customer.";
  g.terms.valid_days = 21;
  g.terms.currency = "£";
  const auto q = g.quote();
  EXPECT_EQ(q.scope, g.terms.scope);
  EXPECT_EQ(q.exclusions, g.terms.exclusions);
  EXPECT_EQ(q.offcuts, g.terms.offcuts);
  EXPECT_EQ(q.valid_days, 21);
  EXPECT_EQ(q.currency, "£");
}

TEST(Quote, NetAgainstOrderedIsExplained) {
  const auto q = given().quote();
  EXPECT_NEAR(q.ordered_area_m2, 36 * 0.83612736, 1e-9);
  EXPECT_NEAR(q.net_area_m2, 30 * 0.83612736, 1e-9);
  // 12 × 25 ft of rectangles = 33.33, used 12 × 26 ft = 34.67, bought 36.00
  EXPECT_EQ(
      q.net_against_ordered,
      "Ordered: 36.00 sq yd. The pieces alone measure 30.00 sq yd. 3.34 sq yd is allowance and trim: what "
      "is tucked, turned under and cut away at the edges of the pieces. 1.33 sq yd lies beside and between "
      "the pieces, for carpet comes in fixed widths and its pile must run one way. 1.33 sq yd rounds the "
      "order up to the length in which the carpet is sold.");
}

rc::Gen<Rate> any_rate() {
  return rc::gen::map(
      rc::gen::tuple(rc::gen::element(RatePer::step, RatePer::square_yard, RatePer::square_metre,
                                      RatePer::foot, RatePer::metre, RatePer::hour, RatePer::lump),
                     rc::gen::inRange<std::int64_t>(-1'000, 100'000),
                     rc::gen::inRange<std::int64_t>(0, 50'000), rc::gen::arbitrary<bool>(),
                     rc::gen::arbitrary<bool>()),
      [](const auto& t) {
        const auto& [per, cents, quantity, material, taxable] = t;
        const bool counted = per == RatePer::step || per == RatePer::hour || per == RatePer::lump;
        Rate r = rate(per, cents, counted ? RateOf::none : RateOf::carpet_ordered);
        r.quantity_milli = quantity;
        r.material = material;
        r.taxable = taxable;
        return r;
      });
}

Given any_quote() {
  auto g = given();
  g.layouts[0].rolls[0].length_to_buy = Length{*rc::gen::inRange<std::int64_t>(0, 400'000'000)};
  g.terms.rates = *rc::gen::container<std::vector<Rate>>(any_rate());
  g.terms.uplift = *rc::gen::element(Uplift::none, Uplift::markup, Uplift::margin);
  g.terms.uplift_ppm = *rc::gen::inRange<std::int64_t>(0, 950'000);
  g.terms.tax_ppm = *rc::gen::inRange<std::int64_t>(0, 300'000);
  g.terms.deposit_ppm = *rc::gen::inRange<std::int64_t>(0, 1'000'001);
  return g;
}

RC_GTEST_PROP(Quote, TotalsAddUpToTheCent, ()) {
  const auto q = any_quote().quote();
  Money sum;
  for (const auto& l : q.lines)
    sum += l.amount;
  RC_ASSERT(sum == q.subtotal);
  RC_ASSERT(q.subtotal + q.uplift + q.tax == q.total);
  RC_ASSERT(q.deposit + q.balance == q.total);
}

RC_GTEST_PROP(Quote, AmountIsRateTimesTheQuantityShown, ()) {
  const auto q = any_quote().quote();
  for (const auto& l : q.lines) {
    std::int64_t milli = 0;
    int places = -1;
    for (char c : l.quantity) {
      if (c == '.')
        places = 0;
      else
        milli = milli * 10 + (c - '0'), places += places >= 0 ? 1 : 0;
    }
    for (places = std::max(places, 0); places < 3; ++places)
      milli *= 10;
    const auto twice_error = 2 * (l.amount.cents * 1000 - l.rate.cents * milli);
    RC_ASSERT(twice_error <= 1000 && twice_error >= -1000);
  }
}

RC_GTEST_PROP(Quote, MarginIsTheShareOfThePrice, ()) {
  auto g = any_quote();
  g.terms.uplift = Uplift::margin;
  const auto q = g.quote();
  Money cost;
  for (const auto& l : q.lines)
    if (l.material) cost += l.amount;
  const double price = static_cast<double>((cost + q.uplift).cents);
  RC_ASSERT(std::abs(static_cast<double>(q.uplift.cents) -
                     price * static_cast<double>(g.terms.uplift_ppm) / 1e6) <= 0.5 + 1e-6 * std::abs(price));
}

RC_GTEST_PROP(Quote, MarkupIsAShareOfTheCost, ()) {
  auto g = any_quote();
  g.terms.uplift = Uplift::markup;
  const auto q = g.quote();
  Money cost;
  for (const auto& l : q.lines)
    if (l.material) cost += l.amount;
  RC_ASSERT(std::abs(static_cast<double>(q.uplift.cents) -
                     static_cast<double>(cost.cents) * static_cast<double>(g.terms.uplift_ppm) / 1e6) <=
            0.5 + 1e-9 * std::abs(static_cast<double>(cost.cents)));
}

RC_GTEST_PROP(Quote, AnUntaxedJobHasNoTax, ()) {
  auto g = any_quote();
  for (auto& r : g.terms.rates)
    r.taxable = false;
  RC_ASSERT(g.quote().tax == Money{});
}

} // namespace
} // namespace treadfold
