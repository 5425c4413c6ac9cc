// How sure the cut is: against sums by hand and a simulation of the whole stair.
#include "steps.h"

#include "cover/certainty.h"
#include "cover/floor.h"
#include "cover/starter.h"
#include "measure/reading.h"
#include "measure/step_front.h"
#include "measure/tread_plan.h"

#include <cmath>
#include <functional>
#include <map>
#include <numbers>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

const Length kPad = inches(0, 3, 8);
const Tolerances kUsual{inches(0, 1, 16), inches(0, 1, 16), inches(0, 1, 8)};

std::vector<Piece> cover(const Flight& flight) {
  static const auto carpet = usual_carpet();
  static const auto allowances = usual_allowances();
  const CoverInput input{carpet, kPad, allowances, LengthUnit::inch};
  auto pieces = cover_flight(flight, input, "A");
  const auto& first = flight.steps.front();
  if (first.starter)
    for (auto& piece : cover_starter(first, flight, input, "A").pieces)
      pieces.push_back(std::move(piece));
  return pieces;
}

struct Judged {
  std::vector<Piece> pieces;
  std::vector<std::vector<Step>> steps;
  std::vector<PieceCertainty> certain;
};

Judged judge(const Flight& flight, std::vector<Piece> pieces, const Tolerances& tolerances) {
  const auto carpet = usual_carpet();
  const auto allowances = usual_allowances();
  Judged j{std::move(pieces), {}, {}};
  for (const auto& piece : j.pieces)
    j.steps.push_back(steps_of(piece, flight));
  std::vector<CoveredPiece> covered;
  for (std::size_t i = 0; i < j.pieces.size(); ++i)
    covered.push_back({j.pieces[i], j.steps[i]});
  j.certain = certainty(covered, flight.style, {carpet, kPad, allowances, LengthUnit::inch}, tolerances);
  return j;
}
Judged judge(const Flight& flight, const Tolerances& tolerances = kUsual) {
  return judge(flight, cover(flight), tolerances);
}

/// Numbers at random, the same each time.
class Dice {
public:
  explicit Dice(std::uint64_t seed) : state_(seed) {}
  double normal() { // Box and Muller
    const double u = uniform(), v = uniform();
    return std::sqrt(-2 * std::log(u)) * std::cos(2 * std::numbers::pi * v);
  }

private:
  double uniform() { // splitmix64, in (0, 1]
    state_ += 0x9E3779B97F4A7C15;
    std::uint64_t z = state_;
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EB;
    z ^= z >> 31;
    return (static_cast<double>(z >> 11) + 1) / 9007199254740992.0;
  }
  std::uint64_t state_;
};

/// A true stair: each value that is told of several steps is off by one reading for all and by the spread for
/// each; what is told of one step by its own reading.
std::vector<Step> true_steps(const Flight& flight, const Tolerances& t, Dice& dice) {
  using Told = std::pair<Reading, double>;
  std::map<Told, int> count;
  for (const auto& step : flight.steps)
    for (const auto& reading : readings(step))
      ++count[{reading, value_mm(step, reading)}];
  std::map<Told, double> off;
  for (const auto& [told, of] : count)
    off[told] = t.tape.mm() / 2 * dice.normal();
  std::vector<Step> truth;
  for (const auto& step : flight.steps) {
    auto real = step;
    for (const auto& reading : readings(step)) {
      const Told told{reading, value_mm(step, reading)};
      const double own = count[told] > 1 ? t.spread.mm() / 2 * dice.normal() : 0;
      real = changed(real, reading, off[told] + own);
    }
    truth.push_back(real);
  }
  return truth;
}

std::pair<double, double> size_of(const Piece& piece) {
  double u0 = 1e300, v0 = 1e300, u1 = -1e300, v1 = -1e300;
  for (const auto& p : piece.outline) {
    u0 = std::min(u0, p.u), u1 = std::max(u1, p.u);
    v0 = std::min(v0, p.v), v1 = std::max(v1, p.v);
  }
  // To be tucked, it must reach down past pad and backing behind the tread's back line.
  const bool tucked = piece.kind.find("landing") == std::string::npos && !piece.hanging;
  const double tuck = tucked ? kPad.mm() + 25.4 / 8 : 0;
  return {u1 - u0, v1 - std::min(v0, -tuck)};
}

struct Simulated {
  std::vector<double> across, along; // share of trials in which a piece is short
  double any = 0;
};

/// Cuts `pieces` with a knife that errs and lays them on true stairs, each covered anew: nothing is linear
/// here.
Simulated simulate(const Flight& flight, const std::vector<Piece>& pieces, const Tolerances& t, int trials) {
  Dice dice(20260101);
  Simulated s{std::vector<double>(pieces.size()), std::vector<double>(pieces.size()), 0};
  for (int trial = 0; trial < trials; ++trial) {
    const auto truth = true_steps(flight, t, dice);
    bool any = false;
    for (std::size_t i = 0; i < pieces.size(); ++i) {
      auto real = flight;
      real.steps.clear();
      for (auto n = pieces[i].steps.rbegin(); n != pieces[i].steps.rend(); ++n)
        real.steps.push_back(truth[static_cast<std::size_t>(*n - 1)]);
      const auto [across, along] =
          size_of(cover(real)[static_cast<std::size_t>(std::max(0, pieces[i].part))]);
      const double knife = t.knife.mm() / 2;
      const bool narrow = across > pieces[i].cut_width.mm() + knife * dice.normal(),
                 brief = along > pieces[i].cut_length.mm() + knife * dice.normal();
      s.across[i] += narrow;
      s.along[i] += brief;
      any = any || narrow || brief;
    }
    s.any += any;
  }
  for (auto* shares : {&s.across, &s.along})
    for (auto& share : *shares)
      share /= trials;
  s.any /= trials;
  return s;
}

/// The pieces cut `deviations` standard deviations over what they need.
std::vector<Piece> cut_over(const Flight& flight, const Tolerances& t, double deviations) {
  auto pieces = cover(flight);
  const auto certain = judge(flight, t).certain;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    const auto over = [&](const std::vector<Demand>& demands) {
      double most = 0;
      for (const auto& demand : demands)
        most = std::max(most, demand.need + deviations * demand.deviation);
      return from_mm(most);
    };
    pieces[i].cut_width = over(certain[i].across);
    pieces[i].cut_length = over(certain[i].along);
  }
  return pieces;
}

/// A share of trials against the ways to come up short: one alone is met exactly, of several the likeliest is
/// the least that it can be, and their sum the most.
void expect_agrees(double share, const std::vector<Demand>& demands, int trials) {
  double most = 0, sum = 0;
  for (const auto& demand : demands) {
    most = std::max(most, demand.chance());
    sum += demand.chance();
  }
  EXPECT_NEAR(most, 0.0668, 1e-3); // of a normal, over 1.5 standard deviations
  const double error = 4 * std::sqrt(sum * (1 - sum) / trials);
  EXPECT_GE(share, most - error);
  EXPECT_LE(share, sum + error);
}

void expect_simulation_agrees(const Flight& flight, const Tolerances& t, int trials = 3000) {
  const auto pieces = cut_over(flight, t, 1.5);
  const auto judged = judge(flight, pieces, t);
  const auto simulated = simulate(flight, pieces, t, trials);
  double sum = 0;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    SCOPED_TRACE(pieces[i].id);
    expect_agrees(simulated.across[i], judged.certain[i].across, trials);
    expect_agrees(simulated.along[i], judged.certain[i].along, trials);
    sum += judged.certain[i].chance;
  }
  EXPECT_GE(sum, simulated.any - 4 * std::sqrt(0.25 / trials));
}

Flight alike(int count, const std::function<void(Step&)>& make, CoverStyle style = CoverStyle::waterfall) {
  std::vector<Step> steps;
  for (int i = 1; i <= count; ++i) {
    auto step = usual_step(i);
    step.nosing.radius = inches(0, 1, 8);
    make(step);
    steps.push_back(step);
  }
  return flight_of(steps, style);
}

} // namespace

TEST(Certainty, OneStepAcrossIsReadingAndKnife) {
  const auto judged = judge(alike(1, [](Step&) {})).certain;
  const auto& across = judged[0].across[0];
  EXPECT_NEAR(across.need, 36 * 25.4, 1e-9);
  EXPECT_NEAR(across.cut, 38 * 25.4, 1e-9);
  EXPECT_NEAR(across.deviation, std::hypot(25.4 / 32, 25.4 / 32), 1e-6);
}

// Usual steps share the reading; each also has its own spread, twice the reading's.
TEST(Certainty, UsualStepsAlsoDifferFromTheUsual) {
  for (const auto& piece : judge(alike(5, [](Step&) {})).certain)
    EXPECT_NEAR(piece.across[0].deviation, std::sqrt(1 + 1 + 4) * 25.4 / 32, 1e-6);
}

TEST(Certainty, AStepMeasuredByItselfHasNoSpread) {
  const auto judged = judge(alike(5, [](Step& s) {
                        if (s.number == 3) s.width = inches(36, 1, 2);
                      })).certain;
  EXPECT_NEAR(judged[2].across[0].deviation, std::sqrt(2.0) * 25.4 / 32, 1e-6); // step 3 of 5, from the top
  EXPECT_NEAR(judged[1].across[0].deviation, std::sqrt(6.0) * 25.4 / 32, 1e-6);
}

// Going and drop: the taut drop's length is √(h² + d²) in section, so a rise counts by about h over that.
TEST(Certainty, AlongIsGoingAndRiseAndLittleElse) {
  const auto flight = alike(1, [](Step& s) { s.nosing.projection = {}; });
  const auto along = judge(flight, {inches(0, 1, 8), {}, {}}).certain[0].along[0];
  EXPECT_GT(along.deviation, std::sqrt(2.0) * 25.4 / 16 * 0.99);
  EXPECT_LT(along.deviation, std::sqrt(2.0) * 25.4 / 16 * 1.3);
}

TEST(Certainty, BehindATreadThePieceMustReachTheGully) {
  const auto judged = judge(alike(2, [](Step& s) { s.landing_edge = s.number == 2; }));
  EXPECT_EQ(judged.certain[0].past_net, 0); // seamed
  EXPECT_NEAR(judged.certain[1].past_net, 25.4 / 2, 1e-9);
  EXPECT_NEAR(judged.certain[1].along[0].need, size_of(judged.pieces[1]).second, 1e-6);
}

TEST(Certainty, WithoutAnyErrorItIsSureOneWayOrTheOther) {
  const auto flight = alike(2, [](Step&) {});
  auto pieces = cover(flight);
  EXPECT_EQ(judge(flight, pieces, {}).certain[0].chance, 0);
  pieces[0].cut_width = inches(35);
  EXPECT_EQ(judge(flight, pieces, {}).certain[0].chance, 1);
}

// The simulation: seeded, covers every true step anew, and knows neither slopes nor sums.
TEST(CertaintySimulated, BoxSteps) {
  expect_simulation_agrees(alike(3, [](Step&) {}), kUsual);
}

TEST(CertaintySimulated, WrappedSteps) {
  expect_simulation_agrees(alike(
                               2, [](Step&) {}, CoverStyle::wrapped),
                           kUsual);
}

TEST(CertaintySimulated, OpenEnds) {
  expect_simulation_agrees(alike(2, [](Step& s) { s.left = s.right = open_side(); }), kUsual);
}

TEST(CertaintySimulated, ThreeTimesTheTolerances) {
  expect_simulation_agrees(alike(2, [](Step& s) { s.right = open_side(); }),
                           {inches(0, 3, 16), inches(0, 3, 16), inches(0, 3, 8)});
}

TEST(CertaintySimulated, Winders) {
  const auto flight = alike(2, [](Step& s) {
    constexpr double in = 25.4;
    if (s.number == 2) set_plan(s, {{0, 0}, {2 * in, 5 * in}}, {{36 * in, 0}, {48 * in, 22 * in}});
  });
  expect_simulation_agrees(flight, kUsual);
}

// Along, the true joined piece is simulated; across, each of its steps.
TEST(CertaintySimulated, JoinedStepsAlong) {
  auto flight = alike(2, [](Step&) {});
  flight.join = 2;
  const auto t = kUsual;
  const auto pieces = cut_over(flight, t, 1.5);
  ASSERT_EQ(pieces.size(), 1u);
  constexpr int kTrials = 3000;
  Dice dice(7);
  int brief = 0;
  for (int trial = 0; trial < kTrials; ++trial) {
    auto real = flight;
    real.steps = true_steps(flight, t, dice);
    real.steps[1].width = real.steps[0].width; // or they would not be joined
    const auto truth = cover(real);
    ASSERT_EQ(truth.size(), 1u);
    brief += size_of(truth[0]).second > pieces[0].cut_length.mm() + t.knife.mm() / 2 * dice.normal();
  }
  EXPECT_NEAR(static_cast<double>(brief) / kTrials, 0.0668, 4 * std::sqrt(0.0668 / kTrials));
}

RC_GTEST_PROP(Certainty, MoreAllowanceOrAFinerToleranceNeverRaisesAChance, ()) {
  std::vector<Step> steps{any_step(1), any_step(2)};
  steps[0].landing_edge = false;
  if (*rc::gen::element(true, false)) {
    steps[1].left = steps[0].left;
    steps[1].right = steps[0].right;
    steps[1].width = steps[0].width;
  }
  const auto flight = flight_of(steps, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped), 2);
  auto pieces = cover(flight);
  const Tolerances coarse{*sixty_fourths(1, 64), *sixty_fourths(1, 64), *sixty_fourths(1, 64)},
      fine{coarse.tape - Length{1}, coarse.knife - Length{1}, coarse.spread - Length{1}};
  const auto before = judge(flight, pieces, coarse).certain, finer = judge(flight, pieces, fine).certain;
  for (auto& piece : pieces) {
    piece.cut_width += inches(0, 1, 16);
    piece.cut_length += inches(0, 1, 16);
  }
  const auto wider = judge(flight, pieces, coarse).certain;
  for (std::size_t i = 0; i < before.size(); ++i) {
    RC_ASSERT(before[i].chance >= 0);
    RC_ASSERT(before[i].chance <= 1);
    RC_ASSERT(wider[i].chance <= before[i].chance);
    RC_ASSERT(before[i].across.size() >= pieces[i].steps.size());
    if (before[i].along[0].cut >= before[i].along[0].need) // tuck_back may be less than a thick pad
      RC_ASSERT(finer[i].chance <= before[i].chance);
  }
}

// The least allowance is enough, and a sixteenth less would not be.
RC_GTEST_PROP(Certainty, TheLeastAllowanceIsEnoughAndNoMore, ()) {
  const auto flight = alike(*rc::gen::inRange(1, 6), [right = any_side()](Step& s) { s.right = right; });
  const Tolerances t{*sixty_fourths(1, 32), *sixty_fourths(1, 32), *sixty_fourths(1, 32)};
  auto pieces = cover(flight);
  const auto stair = of_stair("Main", judge(flight, pieces, t).certain, LengthUnit::inch);
  const auto chance = [&](Length less) {
    for (auto& piece : pieces) {
      piece.cut_width = piece.net_width + stair.least_across - less;
      piece.cut_length = piece.net_length + stair.least_along - less;
    }
    double sum = 0;
    for (const auto& piece : judge(flight, pieces, t).certain)
      sum += piece.chance;
    return sum;
  };
  RC_ASSERT(chance({}) < kShortChance);
  RC_ASSERT(chance(inches(0, 1, 16)) >= kShortChance);
}

TEST(Certainty, AFloorIsOffAtBothItsEdges) {
  Floor floor;
  floor.name = "hall";
  floor.carpet = "main";
  floor.corners = {{0, 0}, {2000, 0}, {2000, 1000}, {0, 1000}};
  const auto carpet = usual_carpet();
  const auto allowances = usual_allowances();
  const CoverInput input{carpet, kPad, allowances, LengthUnit::inch};
  const auto piece = cover_floor(floor, input, "F").front();
  const std::vector<Step> none;
  const auto judged = certainty({{piece, none}}, CoverStyle::waterfall, input, kUsual);
  ASSERT_EQ(judged.size(), 1u);
  EXPECT_NEAR(judged[0].across[0].deviation, std::sqrt(3.0) * 25.4 / 32, 1e-9);
  EXPECT_NEAR(judged[0].along[0].need, 1000, 1e-9);
}

TEST(Certainty, OfACurvedStarterAgreesWithASimulation) {
  auto step = usual_step();
  Starter starter;
  starter.readings.right = {FrontEndShape::half, inches(8), inches(7), inches(6, 5, 8)};
  ASSERT_FALSE(has_errors(set_front(step, starter)));
  expect_simulation_agrees(flight_of({step}), kUsual, 600);
}

TEST(Certainty, OfACurvedStarterByOffsetsAgreesWithASimulation) {
  auto step = usual_step();
  Starter starter;
  starter.readings.offsets = {{inches(0), inches(11), {}},  {inches(12), inches(13), {}},
                              {inches(24), inches(14), {}}, {inches(34), inches(12), {}},
                              {inches(40), inches(6), {}},  {inches(41), inches(0), {}}};
  ASSERT_FALSE(has_errors(set_front(step, starter)));
  expect_simulation_agrees(flight_of({step}), kUsual, 600);
}
