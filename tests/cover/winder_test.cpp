// Treads that are no rectangles: winders, kites, flared steps, treads out of square.
#include "steps.h"

#include "cover/fixings.h"
#include "measure/tread_plan.h"

#include <cmath>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using namespace treadfold::test;

namespace {

Step winder(std::vector<PlanPoint> left, std::vector<PlanPoint> right) {
  Step step = usual_step();
  set_plan(step, std::move(left), std::move(right));
  return step;
}

struct Covered {
  Piece piece;
  Proof proof;
};
Covered cover_one(const Step& step, CoverStyle style) {
  auto flight = flight_of({step}, style);
  const auto carpet = usual_carpet();
  const auto pad = inches(0, 3, 8);
  Covered c{cover_flight(flight, {carpet, pad, usual_allowances(), LengthUnit::inch}, "A")[0], {}};
  c.proof = prove(c.piece, {step}, style, pad, carpet, usual_allowances());
  return c;
}

} // namespace

namespace {

constexpr double kSixtyFourth_mm = 25.4 / 64;

/// Front 36 in, narrow end 5 in on the left, the wide end leaning out to a corner 22 in deep.
Step usual_winder() {
  constexpr double in = 25.4;
  return winder({{0, 0}, {2 * in, 5 * in}}, {{36 * in, 0}, {48 * in, 22 * in}});
}

/// How long the tread's end is between the nosing and the back's line; negative where they cross before it.
double end_length(const Step& step, Hand hand) {
  const auto own = side_line(step, hand),
             other = side_line(step, hand == Hand::left ? Hand::right : Hand::left);
  const auto& side = hand == Hand::left ? step.left : step.right;
  const double sign = hand == Hand::left ? -1 : 1;
  const double dx = own[1].x - own[0].x, dy = own[1].y - own[0].y, d = std::hypot(dx, dy);
  const PlanPoint start{own[0].x + sign * side.overhang.mm() * dy / d,
                        own[0].y - sign * side.overhang.mm() * dx / d};
  // Along the end's line from `start`: to the nosing, and to the back's line moved by the return.
  double bx = own.back().x - other.back().x, by = own.back().y - other.back().y;
  const double b = std::hypot(bx, by);
  const PlanPoint back_out{-sign * by / b, sign * bx / b};
  const double gap =
      (own.back().x - start.x) * back_out.x + (own.back().y - start.y) * back_out.y + side.return_past.mm();
  const double to_back = gap / ((dx * back_out.x + dy * back_out.y) / d);
  const double to_front = (-step.nosing.projection.mm() - start.y) / (dy / d);
  return to_back - to_front;
}

/// Every corner of the plan turns to the left by a degree at least.
bool convex(const Step& step) {
  auto corners = side_line(step, Hand::right);
  const auto left = side_line(step, Hand::left);
  corners.insert(corners.end(), left.rbegin(), left.rend());
  for (std::size_t i = 0, n = corners.size(); i < n; ++i) {
    const auto &a = corners[i], &b = corners[(i + 1) % n], &c = corners[(i + 2) % n];
    const double turn = (b.x - a.x) * (c.y - b.y) - (b.y - a.y) * (c.x - b.x);
    if (turn < 0.02 * std::hypot(b.x - a.x, b.y - a.y) * std::hypot(c.x - b.x, c.y - b.y)) return false;
  }
  return true;
}

/// How far an end leans out as it runs back: the tangent of its angle to square.
double lean(const Step& step, Hand hand) {
  const auto line = side_line(step, hand);
  return (hand == Hand::left ? -1 : 1) * (line[1].x - line[0].x) / (line[1].y - line[0].y);
}

/// How blunt a tread's back corner is: minus the cosine of its angle. Blunter than about 110°, and the
/// under-lips of end and free back lie over one another in the flat: the proof then refuses the piece.
double blunt(const Step& step, Hand hand) {
  const auto own = side_line(step, hand),
             other = side_line(step, hand == Hand::left ? Hand::right : Hand::left);
  const double ax = own[0].x - own[1].x, ay = own[0].y - own[1].y, bx = other.back().x - own[1].x,
               by = other.back().y - own[1].y;
  return -(ax * bx + ay * by) / (std::hypot(ax, ay) * std::hypot(bx, by));
}

/// A winder, kite, flared step or tread out of square, to the left or to the right, ends open or closed.
Step any_winder() {
  const auto mm = [](int low, int high) { return static_cast<double>(*rc::gen::inRange(low, high)); };
  const double width = mm(400, 1500), wide_y = mm(250, 900), wide_x = width + mm(-100, 400);
  const double narrow_x = mm(-60, 120), narrow_y = mm(80, 250);
  std::vector<PlanPoint> wide{{width, 0}, {wide_x, wide_y}}, narrow{{0, 0}, {narrow_x, narrow_y}};
  const bool kite = *rc::gen::inRange(0, 2) == 0;
  if (kite) wide.push_back({wide_x - mm(100, 300), wide_y + mm(20, 150)});
  auto step = winder(narrow, wide);
  step.left = any_side();
  if (!kite) step.right = any_side();
  if (*rc::gen::inRange(0, 2) == 0) return step;
  auto mirrored = step;
  for (auto& p : narrow)
    p.x = width - p.x;
  for (auto& p : wide)
    p.x = width - p.x;
  set_plan(mirrored, wide, narrow);
  std::swap(mirrored.left, mirrored.right);
  return mirrored;
}

} // namespace

RC_GTEST_PROP(Winder, SeamsCloseForAnyPlan, ()) {
  const auto step = any_winder();
  RC_PRE(convex(step));
  for (const auto hand : {Hand::left, Hand::right}) {
    const bool open = !(hand == Hand::left ? step.left : step.right).closed();
    RC_PRE(!open || end_length(step, hand) > 20);
  }
  const auto c = cover_one(step, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped));
  RC_LOG() << c.proof.widest_seam << ' ' << c.proof.widest_gap_mm << '\n';
  RC_ASSERT(c.proof.widest_gap_mm <= kSixtyFourth_mm);
  RC_ASSERT(c.proof.worst_length_mismatch_mm <= kSixtyFourth_mm);
}

// The corner of back and wall, each moved out by its own allowance, must lie on the rectangle that is cut.
TEST(Winder, CornersKeepTheirAllowanceSquareToEachEdge) {
  const auto step = usual_winder();
  const auto& piece = cover_one(step, CoverStyle::waterfall).piece;
  const auto allow = usual_allowances();
  const double left = piece.net_origin.u - piece.trim_left.mm(),
               top = piece.net_origin.v - piece.trim_back.mm();
  const double right = left + piece.cut_width.mm();
  const auto& wall = step.right_side;
  const auto back_left = step.left_side.back(), corner = wall.back();
  const double wl = std::hypot(corner.x - wall[0].x, corner.y),
               bl = std::hypot(corner.x - back_left.x, corner.y - back_left.y);
  const PlanPoint wall_out{corner.y / wl, -(corner.x - wall[0].x) / wl},
      back_out{-(corner.y - back_left.y) / bl, (corner.x - back_left.x) / bl};
  // Where the two allowances meet, by Cramer's rule.
  const double det = wall_out.x * back_out.y - wall_out.y * back_out.x;
  const double x = corner.x + (allow.side_trim.mm() * back_out.y - allow.tuck_back.mm() * wall_out.y) / det;
  const double y = corner.y + (wall_out.x * allow.tuck_back.mm() - back_out.x * allow.side_trim.mm()) / det;
  EXPECT_LE(x, right + 1e-3);
  EXPECT_LE(y, step.going.mm() - top + 1e-3);
  EXPECT_GT(piece.trim_back, allow.tuck_back);
}

TEST(Winder, StripFollowsTheNextRiserAndTheWalls) {
  const auto step = usual_winder();
  TackStrip strip;
  strip.width = inches(1);
  const auto f = fixings(step, CoverStyle::waterfall, Cushion{}, strip, usual_carpet(), usual_allowances());
  const auto& s = f.strips.front();
  constexpr double in = 25.4;
  EXPECT_NEAR(s.length().mm(), std::hypot(46 * in, 17 * in), 1.2 * in); // as long as the back, to the gully
  EXPECT_GT(s.left_angle_deg, 30);
  EXPECT_NE(s.left_angle_deg, 90);
  EXPECT_NE(s.right_angle_deg, 90);
  // The angle between back edge and wall, measured on the plan: 90° less what the strip's end is off square.
  const double back = std::atan2(17 * in, 46 * in), wall = std::atan2(22 * in, 12 * in);
  EXPECT_NEAR(s.right_angle_deg, 180 - (wall - back) * 180 / 3.14159265358979, 1e-6);
}

// A tread out of level: the crotch below is not parallel to the nosing.
RC_GTEST_PROP(OutOfLevel, TheDropReachesTheCrotchFromEndToEnd, ()) {
  auto step = usual_step();
  step.fall_right = Length{*rc::gen::inRange(-64, 65) * std::int64_t{3175}};
  step.nosing.projection = *sixty_fourths(0, 2 * 64);
  const auto style = *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped);
  if (style == CoverStyle::wrapped && *rc::gen::inRange(0, 2) == 0) step.right = open_side();
  const auto c = cover_one(step, style);
  RC_LOG() << c.proof.reason << '\n';
  RC_ASSERT(c.proof.passed);
  // As much longer than the level piece as the deeper end asks for.
  auto level = step;
  level.fall_right = {};
  const auto longer = c.piece.net_length - cover_one(level, style).piece.net_length;
  RC_ASSERT(longer >= Length{});
  RC_ASSERT(longer <= std::max(Length{}, step.fall_right) + Length{2});
  // A sixteenth more fall than was covered is seen.
  step.fall_right += inches(0, 1, 16);
  const auto carpet = usual_carpet();
  RC_ASSERT(!prove(c.piece, {step}, style, inches(0, 3, 8), carpet, usual_allowances()).passed);
}

RC_GTEST_PROP(Bevel, BevelledNosingsFoldBack, ()) {
  auto step = any_step(1);
  step.nosing.radius = {};
  step.nosing.bevel = Length{*rc::gen::inRange<std::int64_t>(0, step.nosing.thickness.ticks * 3 / 4)};
  const auto c = cover_one(step, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped));
  RC_LOG() << c.proof.reason << '\n';
  RC_ASSERT(c.proof.passed);
  // Deeper by a sixteenth than was covered: carpet stands off the wood.
  step.nosing.bevel += inches(0, 1, 16);
  RC_PRE(step.nosing.bevel < step.nosing.thickness);
  RC_ASSERT(
      !prove(c.piece, {step}, CoverStyle::waterfall, inches(0, 3, 8), usual_carpet(), usual_allowances())
           .passed);
}

// Girth over a bevel with neither pad nor backing: two cathetuses less the hypotenuse shorter.
TEST(Bevel, ShortensTheGirthByTwoSidesLessTheSlope) {
  auto step = usual_step();
  step.nosing.radius = {};
  auto carpet = usual_carpet();
  carpet.backing = Length{1};
  const auto length = [&](Length bevel) {
    step.nosing.bevel = bevel;
    return cover_flight(flight_of({step}, CoverStyle::wrapped),
                        {carpet, {}, usual_allowances(), LengthUnit::inch}, "A")[0]
        .net_length.mm();
  };
  EXPECT_NEAR(length({}) - length(inches(0, 1, 2)), (2 - std::sqrt(2.0)) * 12.7, 0.01);
}

// Flared: each step wider than the one above, so that its back stands free beside the riser.
RC_GTEST_PROP(Flared, BacksThatStandFreeAreCovered, ()) {
  auto step = *rc::gen::inRange(0, 2) == 0 ? any_step(1) : any_winder();
  step.landing_edge = false;
  RC_PRE(convex(step));
  for (const auto hand : {Hand::left, Hand::right}) {
    auto& side = hand == Hand::left ? step.left : step.right;
    if (side.closed()) continue;
    RC_PRE(end_length(step, hand) > 20);
    // In front of the riser, pad and backing too, the end still stands outside the riser's end.
    const double out = side.overhang.mm() * std::hypot(1.0, lean(step, hand));
    RC_PRE(lean(step, hand) < 0.2 && blunt(step, hand) < 0.35);
    // Of a flared step, not of a winder's narrow end, whose laps cross sooner: the proof refuses those too.
    RC_PRE(step.rectangular() || (side_line(step, hand).back().y > 200 && blunt(step, hand) < 0.2));
    RC_PRE(out - lean(step, hand) * (step.nosing.projection.mm() + 12) > 3);
    (hand == Hand::left ? step.free_back_left : step.free_back_right) = *sixty_fourths(4, 64);
  }
  const auto c = cover_one(step, *rc::gen::element(CoverStyle::waterfall, CoverStyle::wrapped));
  RC_LOG() << c.proof.reason << '\n';
  RC_ASSERT(c.proof.passed);
  for (auto free : {&Step::free_back_left, &Step::free_back_right}) {
    if ((step.*free).ticks == 0) continue;
    auto wider = step;
    wider.*free += inches(0, 1, 16);
    RC_ASSERT(
        !prove(c.piece, {wider}, CoverStyle::waterfall, inches(0, 3, 8), usual_carpet(), usual_allowances())
             .passed);
  }
}
