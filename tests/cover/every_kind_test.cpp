// Seeded random steps over every kind: the figures that docs/geometry.md gives for the proof.
//
// 1,000 of them, or more by cases.h. The seeds are fixed, so the figures are the same on
// every machine.
#include "../cases.h"
#include "steps.h"

#include "cover/starter_proof.h"
#include "measure/landing.h"
#include "measure/step_front.h"
#include "measure/tread_plan.h"
#include "measure/uprights.h"

#include <cmath>
#include <gtest/gtest.h>
#include <map>
#include <random>

using namespace treadfold;
using namespace treadfold::test;

namespace {

/// Its own draws: the library's distributions differ from one standard library to the next.
class Draw {
public:
  explicit Draw(std::uint64_t seed) : engine_(seed) {}
  double between(double low, double high) {
    return low + (high - low) * static_cast<double>(engine_() >> 11) / 9007199254740992.0;
  }
  bool chance(double p) { return between(0, 1) < p; }
  /// To the sixteenth.
  Length inches_between(double low, double high) {
    return Length{static_cast<std::int64_t>(std::llround(between(low, high) * 16)) * 12700};
  }

private:
  std::mt19937_64 engine_;
};

constexpr double in = 25.4;

/// A step within what stairs have, straight and closed.
Step plain(Draw& draw) {
  Step step;
  step.number = 1;
  step.rise = draw.inches_between(6, 9);
  step.going = draw.inches_between(8, 16);
  step.width = draw.inches_between(24, 60);
  step.nosing.projection = draw.inches_between(0, 1.5);
  step.nosing.thickness = draw.inches_between(0.75, 2);
  step.nosing.radius = {
      static_cast<std::int64_t>(draw.between(0, 0.5) * static_cast<double>(step.nosing.thickness.ticks))};
  return step;
}

Side any_end(Draw& draw) {
  return {SideKind::open, draw.inches_between(0.75, 2.5), draw.inches_between(0, 1.5)};
}

/// About a newel on the left: narrow end 3 to 8 in, turning 15 to 40°.
Step winder(Draw& draw, bool kite) {
  auto step = plain(draw);
  const double narrow = draw.between(3, 8) * in, wide = narrow + draw.between(28, 40) * in,
               turn = draw.between(15, 40) * 3.14159265358979 / 180;
  const auto at = [&](double radius, double angle) {
    return PlanPoint{radius * std::cos(angle) - narrow, radius * std::sin(angle)};
  };
  std::vector<PlanPoint> right{{wide - narrow, 0}, at(wide, turn)};
  if (kite) { // the wall's corner beyond the arc
    right.back() = at(wide, turn);
    right.insert(right.begin() + 1, at(wide / std::cos(turn / 2) * 1.01, turn / 2));
  }
  set_plan(step, {{0, 0}, at(narrow, turn)}, std::move(right));
  return step;
}

Step flared(Draw& draw) {
  auto step = plain(draw);
  const double w = step.width.mm(), g = step.going.mm(), l = draw.between(0, 0.3) * g,
               r = draw.between(0, 0.3) * g;
  set_plan(step, {{0, 0}, {l, g}}, {{w, 0}, {w - r, g}});
  return step;
}

/// Rounds at one end or both, each as it may be measured.
Step curved(Draw& draw) {
  auto step = plain(draw);
  step.rise = draw.inches_between(7, 9);
  if (step.nosing.projection < inches(0, 1, 4)) step.nosing.projection = {}; // less is refused
  const double depth = (step.going + step.nosing.projection).inches();
  const auto end = [&]() -> FrontEnd {
    const Length along = draw.inches_between(5, 11), past = draw.inches_between(0, 3);
    if (draw.chance(0.5))
      return {FrontEndShape::quarter, past, along, draw.inches_between(5, std::min(9.0, depth))};
    return {FrontEndShape::half, along + past, along, draw.inches_between(depth / 2 + 0.25, depth / 2 + 2)};
  };
  Starter starter;
  starter.closing = draw.chance(0.5) ? StarterClosing::band : StarterClosing::cuts;
  starter.strain_limit = draw.between(0.005, 0.04);
  starter.readings.right = end();
  if (draw.chance(0.3)) starter.readings.left = end();
  const auto problems = set_front(step, starter);
  EXPECT_FALSE(has_errors(problems)) << sentence(problems[0]);
  return step;
}

struct Kind {
  const char* name;
  Step (*make)(Draw&);
};

const Kind kKinds[] = {
    {"box step", plain},
    {"open ends",
     [](Draw& d) {
       auto s = plain(d);
       s.right = any_end(d);
       if (d.chance(0.5)) s.left = any_end(d);
       return s;
     }},
    {"winder", [](Draw& d) { return winder(d, false); }},
    {"kite winder", [](Draw& d) { return winder(d, true); }},
    {"winder, wide end open",
     [](Draw& d) {
       auto s = winder(d, false);
       s.right = any_end(d);
       return s;
     }},
    {"flared, ends open",
     [](Draw& d) {
       auto s = flared(d);
       s.left = any_end(d);
       s.right = any_end(d);
       return s;
     }},
    {"uprights",
     [](Draw& d) {
       auto s = d.chance(0.3) ? flared(d) : plain(d);
       s.right = any_end(d);
       s.open_riser = s.rectangular() && d.chance(0.2);
       for (int i = 0; i < 6; ++i) {
         const bool round = d.chance(0.5);
         const auto size = d.inches_between(0.75, 5);
         s.uprights.push_back({"newel",
                               round,
                               {d.between(0, s.width.mm() + 40), d.between(-30, s.going.mm())},
                               size,
                               round ? size : d.inches_between(0.75, 5),
                               {}});
         if (!check_uprights(flight_of({s}), LengthUnit::inch).empty()) s.uprights.pop_back();
       }
       return s;
     }},
    {"free back",
     [](Draw& d) {
       auto s = plain(d);
       s.left = any_end(d);
       s.right = any_end(d);
       s.free_back_left = d.inches_between(0.25, 6);
       s.free_back_right = d.inches_between(0.25, 6);
       return s;
     }},
    {"out of level",
     [](Draw& d) {
       auto s = plain(d);
       s.fall_right = d.inches_between(-1, 1);
       return s;
     }},
    {"bevelled nosing",
     [](Draw& d) {
       auto s = plain(d);
       s.nosing.radius = {};
       s.nosing.bevel = d.inches_between(0.125, 0.5);
       s.right = any_end(d);
       return s;
     }},
    {"open riser",
     [](Draw& d) {
       auto s = plain(d);
       s.open_riser = true;
       if (d.chance(0.5)) s.left = any_end(d);
       return s;
     }},
    {"landing with its drop",
     [](Draw& d) {
       auto s = plain(d);
       s.landing_edge = true;
       const double front = s.width.mm() + d.between(0, 60) * in, deep = d.between(30, 60) * in;
       const Floor floor{"top",
                         {{0, 0}, {front, 0}, {front + d.between(-20, 20), deep}, {d.between(-20, 20), deep}},
                         "main",
                         {}};
       return landing_step(s, floor, {"top", from_mm(d.between(0, front - s.width.mm())), true, {}});
     }},
    {"curved starter", curved},
};

std::vector<Proof> proofs_of(const Step& step, CoverStyle style, const CoverInput& input) {
  const auto flight = flight_of({step}, style);
  if (step.starter)
    return prove_starter(cover_starter(step, flight, input, "A"), step, input.pad, input.carpet);
  return {
      prove(cover_flight(flight, input, "A")[0], {step}, style, input.pad, input.carpet, input.allowances)};
}

} // namespace

TEST(EveryKind, SeededStepsFoldBackWithinASixtyFourth) {
  const int count = cases(1000);
  const int kinds = static_cast<int>(std::size(kKinds));
  ASSERT_GE(count, kinds);
  std::map<std::string, int> failed;
  double widest = 0, least_once = 1, most_twice = 0, most_filled = 0;
  std::size_t faces = 0;
  for (int i = 0; i < count; ++i) {
    const auto& kind = kKinds[i % kinds];
    Draw draw(static_cast<std::uint64_t>(i) + 1);
    const auto step = kind.make(draw);
    const auto style = draw.chance(0.5) ? CoverStyle::waterfall : CoverStyle::wrapped;
    const Length pad = draw.inches_between(0, 0.5);
    auto carpet = usual_carpet();
    carpet.backing = draw.inches_between(0.0625, 0.25);
    const auto allowances = usual_allowances();
    for (const auto& proof : proofs_of(step, style, {carpet, pad, allowances, LengthUnit::inch})) {
      if (!proof.passed && failed[kind.name]++ < 3)
        ADD_FAILURE() << kind.name << ", seed " << i + 1 << ": " << proof.reason;
      widest = std::max(widest, proof.widest_gap_mm);
      for (const auto& face : proof.coverage) {
        ++faces;
        most_filled = std::max(most_filled, face.filled);
        least_once = std::min(least_once, face.once);
        most_twice = std::max(most_twice, face.more);
      }
    }
  }
  std::cout << count << " steps of " << kinds << " kinds, " << faces << " faces: widest gap " << widest
            << " mm, least of a face covered once " << 100 * least_once << " %, most covered twice "
            << 100 * most_twice << " %\n";
  for (const auto& [name, times] : failed)
    std::cout << name << ": " << times << " failed\n";
  EXPECT_LE(widest, in / 64);
  EXPECT_GE(least_once, 0.999);
  EXPECT_EQ(most_filled, 0);
}
