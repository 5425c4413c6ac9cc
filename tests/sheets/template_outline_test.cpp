// The promises of sheets/template_outline.h, for random pieces.
#include "../cover/steps.h"
#include "step_sample.h"

#include "measure/landing.h"
#include "measure/tread_plan.h"
#include "sheets/line_roles.h"
#include "sheets/running.h"
#include "sheets/template_outline.h"

#include <algorithm>
#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace treadfold {
namespace {

double turn(FlatPoint a, FlatPoint b, FlatPoint c) {
  return (b.u - a.u) * (c.v - a.v) - (b.v - a.v) * (c.u - a.u);
}

/// Do the stretches cross at a point inside both, deeper than `depth` mm?
bool cross(FlatPoint a, FlatPoint b, FlatPoint c, FlatPoint d, double depth) {
  const double ab = distance_mm(a, b), cd = distance_mm(c, d);
  const double p = turn(a, b, c) / ab, q = turn(a, b, d) / ab, r = turn(c, d, a) / cd, s = turn(c, d, b) / cd;
  return std::min(p, q) < -depth && std::max(p, q) > depth && std::min(r, s) < -depth &&
         std::max(r, s) > depth;
}

bool holds(const FlatPath& ring, FlatPoint p) { // even-odd
  bool in = false;
  for (std::size_t i = 0; i < ring.size(); ++i) {
    const FlatPoint a = ring[i], b = ring[(i + 1) % ring.size()];
    if ((a.v > p.v) != (b.v > p.v) && p.u < a.u + (b.u - a.u) * (p.v - a.v) / (b.v - a.v)) in = !in;
  }
  return in;
}

/// What is wrong with the outline; empty if it keeps its promises.
std::string fault_of(const Piece& piece) {
  const CutOutline cut = cut_outline(piece);
  const FlatPath& ring = cut.outline;
  const std::size_t n = ring.size();
  const double u0 = piece.net_origin.u - piece.trim_left.mm(), v0 = piece.net_origin.v - piece.trim_back.mm();
  for (const auto& p : ring)
    if (p.u < u0 - 1e-6 || p.v < v0 - 1e-6 || p.u > u0 + piece.cut_width.mm() + 1e-6 ||
        p.v > v0 + piece.cut_length.mm() + 1e-6)
      return "leaves the rectangle";
  for (std::size_t i = 0; i < n; ++i) {
    const FlatPoint a = ring[i], b = ring[(i + 1) % n], c = ring[(i + 2) % n];
    const double du = b.u - a.u, dv = b.v - a.v, eu = c.u - b.u, ev = c.v - b.v;
    if (std::abs(std::atan2(du * ev - dv * eu, du * eu + dv * ev)) > std::acos(-1.0) - 1e-6)
      return "turns back on itself";
    for (std::size_t k = i + 2; k < n; ++k)
      if (cross(a, b, ring[k], ring[(k + 1) % n], 1e-3)) return "crosses itself";
  }
  const auto on_a_cut = [&](FlatPoint p) {
    return lies_on(p, ring, true) || std::any_of(cut.slits.begin(), cut.slits.end(), [&](const FlatLine& s) {
             return lies_on(p, s.points, false);
           });
  };
  const auto& net = piece.outline;
  for (std::size_t i = 0; i < net.size(); ++i) {
    const FlatPoint a = net[i], b = net[(i + 1) % net.size()];
    for (const double t : {0.0, 0.25, 0.5, 0.75}) {
      const FlatPoint p{a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)};
      if (!holds(ring, p) && !on_a_cut(p)) return "does not hold the net outline";
    }
  }
  for (const auto& e : edge_stretches(piece))
    if (e.pen == Pen::outline)
      for (std::size_t i = 0; i + 1 < e.points.size(); ++i)
        for (const double t : {0.1, 0.5, 0.9}) {
          const FlatPoint a = e.points[i], b = e.points[i + 1];
          if (!on_a_cut({a.u + t * (b.u - a.u), a.v + t * (b.v - a.v)})) return "lacks an edge of the bench";
        }
  for (const auto& l : piece.lines)
    if (l.role == LineRole::cut)
      for (std::size_t i = 0; i + 1 < l.points.size(); ++i)
        if (!on_a_cut({(l.points[i].u + l.points[i + 1].u) / 2, (l.points[i].v + l.points[i + 1].v) / 2}))
          return "lacks a cut";
  return area_mm2(ring) >= area_mm2(net) - 1e-3 ? "" : "is smaller than the net outline";
}

std::vector<Piece> cover(const Flight& flight) {
  const auto carpet = test::usual_carpet();
  return cover_flight(flight, {carpet, inches(0, 3, 8), test::usual_allowances(), LengthUnit::inch}, "A");
}

RC_GTEST_PROP(CutOutline, KeepsItsPromisesForAnySteps, ()) {
  std::vector<Step> steps;
  const int count = *rc::gen::inRange(1, 4);
  for (int i = 1; i <= count; ++i) {
    steps.push_back(test::any_step(i));
    if (i < count) steps.back().landing_edge = false;
    steps.back().left = steps[0].left;
    steps.back().right = steps[0].right;
    steps.back().width = steps[0].width;
  }
  const auto style = *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped);
  for (const auto& piece : cover(test::flight_of(steps, style, *rc::gen::inRange(1, count + 1))))
    if (const auto fault = fault_of(piece); !fault.empty()) RC_FAIL(piece.kind + " " + fault);
}

/// A winder to the left or to the right, or a kite, its ends open or closed.
Step any_winder() {
  const auto mm = [](int low, int high) { return static_cast<double>(*rc::gen::inRange(low, high)); };
  const double width = mm(500, 1300), depth = mm(300, 700), lean = mm(-60, 300);
  std::vector<PlanPoint> narrow{{0, 0}, {mm(0, 60), mm(110, 250)}}, wide{{width, 0}, {width + lean, depth}};
  const bool kite = *rc::gen::inRange(0, 3) == 0;
  if (kite) wide.push_back({width + lean - mm(100, 250), depth + mm(20, 120)});
  const auto side = [&] {
    return *rc::gen::inRange(0, 2) == 0 ? Side{}
                                        : test::open_side(*test::sixty_fourths(24, 128), inches(0, 3, 4));
  };
  Step step = test::usual_step();
  step.left = side();
  if (!kite) step.right = side();
  if (*rc::gen::inRange(0, 2) == 0) {
    set_plan(step, narrow, wide);
    return step;
  }
  for (auto* line : {&narrow, &wide})
    for (auto& p : *line)
      p.x = width - p.x;
  set_plan(step, wide, narrow);
  std::swap(step.left, step.right);
  return step;
}

RC_GTEST_PROP(CutOutline, KeepsItsPromisesForAnyWinderThatFits, ()) {
  const auto step = any_winder();
  const auto style = *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped);
  const auto piece = cover(test::flight_of({step}, style))[0];
  const auto proof =
      prove(piece, {step}, style, inches(0, 3, 8), test::usual_carpet(), test::usual_allowances());
  RC_PRE(proof.passed); // no template is made of others
  if (const auto fault = fault_of(piece); !fault.empty()) RC_FAIL(fault);
}

TEST(CutOutline, KeepsItsPromisesForOpenRisersLandingsAndFreeBacks) {
  for (const bool open : {false, true}) {
    Step step = test::usual_step(2);
    if (open) step.right = test::open_side();
    step.open_riser = true;
    EXPECT_EQ(fault_of(cover(test::flight_of({step}))[0]), "");
    step.open_riser = false;
    step.right = test::open_side();
    step.free_back_right = open ? inches(1) : inches(0, 1, 2);
    EXPECT_EQ(fault_of(cover(test::flight_of({step}))[0]), "");
    Step top = test::usual_step(4);
    top.landing_edge = true;
    top.going = inches(4);
    const Floor floor{"half landing", {{0, 0}, {1900, 0}, {1900, 960}, {0, 960}}, "main", {}};
    const auto landing = landing_step(top, floor, {"half landing", open ? inches(20) : Length{}, true, {}});
    EXPECT_EQ(fault_of(cover(test::flight_of({landing}))[0]), "");
  }
}

TEST(CutOutline, IsTheRectangleWhereTheBenchCutsNothing) {
  const auto piece = sample::plan_of({}).pieces[1].piece;
  const auto cut = cut_outline(piece);
  EXPECT_NEAR(area_mm2(cut.outline), piece.cut_width.mm() * piece.cut_length.mm(), 1e-6);
  EXPECT_TRUE(cut.slits.empty());
}

TEST(CutOutline, LeavesLongWhatIsTuckedAndTrimmedAtAnOpenStep) {
  sample::Choices c;
  c.right = sample::open_end();
  const auto plan = sample::plan_of(c);
  const auto& piece = plan.pieces[1].piece;
  const auto& ring = cut_outline(piece).outline;
  const double back = piece.net_origin.v - piece.trim_back.mm(),
               left = piece.net_origin.u - piece.trim_left.mm();
  const double width = plan.pieces[1].steps[0].width.mm();
  EXPECT_TRUE(lies_on({left, back + 200}, ring, true)); // the whole left side
  EXPECT_TRUE(lies_on({width / 2, back}, ring, true));  // the back over the tread
  EXPECT_TRUE(lies_on({width / 2, back + piece.cut_length.mm()}, ring, true));
  EXPECT_TRUE(lies_on({width, back + 1}, ring, true)); // beside the slit behind the riser
  EXPECT_FALSE(lies_on({left + piece.cut_width.mm(), back + 200}, ring, true)); // the waste beside the end
}

TEST(CutOutline, KeepsAHoleApart) {
  auto plan = sample::plan_of({});
  auto& piece = plan.pieces[1].piece;
  piece.lines.push_back(
      {LineRole::cut, {{300, 100}, {340, 100}, {340, 140}, {300, 140}, {300, 100}}, "newel"});
  const auto cut = cut_outline(piece);
  ASSERT_EQ(cut.slits.size(), 1u);
  EXPECT_EQ(cut.slits[0].points.size(), 5u);
  EXPECT_NEAR(area_mm2(cut.outline), piece.cut_width.mm() * piece.cut_length.mm(), 1e-6);
}

} // namespace
} // namespace treadfold
