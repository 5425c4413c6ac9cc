#include "step_sample.h"

#include "sheets/edge_marks.h"
#include "sheets/solid_view.h"
#include "sheets/working_order.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

namespace treadfold {
namespace {

using sample::Choices;

RC_GTEST_PROP(EdgeMarks, SpreadKeepsOrderGapAndBounds, ()) {
  auto wanted = *rc::gen::container<std::vector<double>>(
      rc::gen::map(rc::gen::inRange(0, 1000), [](int x) { return x / 10.0; }));
  std::sort(wanted.begin(), wanted.end());
  const double gap = *rc::gen::inRange(10, 60) / 10.0;
  const double room = std::max(100.0, gap * static_cast<double>(wanted.size()));
  const auto places = spread(wanted, gap, 0, room);
  RC_ASSERT(places.size() == wanted.size());
  for (std::size_t i = 0; i < places.size(); ++i) {
    RC_ASSERT(places[i] >= -1e-9 && places[i] <= room + 1e-9);
    if (i > 0) RC_ASSERT(places[i] - places[i - 1] >= gap - 1e-9);
  }
}

TEST(EdgeMarks, SpreadLeavesAloneWhatHasRoom) {
  const std::vector<double> wanted{0, 10, 30};
  EXPECT_EQ(spread(wanted, 5, -10, 100), wanted);
  const auto close = spread({10, 11}, 5, 0, 100); // both give way by the same
  EXPECT_NEAR(close[0], 8, 1e-12);
  EXPECT_NEAR(close[1], 13, 1e-12);
}

bool inside(const std::vector<Point3>& p, double x, double y) {
  bool in = false;
  for (std::size_t i = 0, j = p.size() - 1; i < p.size(); j = i++)
    if ((p[i][1] > y) != (p[j][1] > y) &&
        x < (p[j][0] - p[i][0]) * (y - p[i][1]) / (p[j][1] - p[i][1]) + p[i][0])
      in = !in;
  return in;
}

/// Depth at (x, y) of the plane through three of the polygon's points that lie well apart; NaN if edge-on.
double depth_at(const std::vector<Point3>& p, double x, double y) {
  double best = 0;
  Point3 a{}, b{}, c{};
  for (std::size_t i = 0; i < p.size(); ++i)
    for (std::size_t j = i + 1; j < p.size(); ++j)
      for (std::size_t k = j + 1; k < p.size(); ++k) {
        const double area =
            (p[j][0] - p[i][0]) * (p[k][1] - p[i][1]) - (p[k][0] - p[i][0]) * (p[j][1] - p[i][1]);
        if (std::abs(area) > std::abs(best)) best = area, a = p[i], b = p[j], c = p[k];
      }
  if (std::abs(best) < 1) return std::nan("");
  const double s = ((x - a[0]) * (c[1] - a[1]) - (c[0] - a[0]) * (y - a[1])) / best;
  const double t = ((b[0] - a[0]) * (y - a[1]) - (x - a[0]) * (b[1] - a[1])) / best;
  return a[2] + s * (b[2] - a[2]) + t * (c[2] - a[2]);
}

/// Wherever a ray meets several polygons, the nearest must be painted last.
TEST(SolidView, WhatIsNearerIsPaintedLater) {
  for (const bool right : {false, true})
    for (const CoverStyle style : {CoverStyle::waterfall, CoverStyle::wrapped}) {
      Choices c;
      c.style = style;
      c.join = 2;
      if (right) c.right = sample::open_end();
      for (const auto& planned : sample::plan_of(c).pieces) {
        const View view{};
        const auto solid = solid_of(planned);
        std::vector<std::vector<Point3>> screens;
        double x0 = 1e9, x1 = -1e9, y0 = 1e9, y1 = -1e9;
        for (const auto& polygon : solid) {
          screens.emplace_back();
          for (const auto& p : polygon.points) {
            screens.back().push_back(seen(view, p));
            x0 = std::min(x0, screens.back().back()[0]), x1 = std::max(x1, screens.back().back()[0]);
            y0 = std::min(y0, screens.back().back()[1]), y1 = std::max(y1, screens.back().back()[1]);
          }
        }
        const auto order = painting_order(solid, view);
        ASSERT_EQ(order.size(), solid.size());
        int hits = 0;
        for (int i = 0; i < 150; ++i)
          for (int j = 0; j < 150; ++j) {
            const double x = x0 + (x1 - x0) * (i + 0.37) / 150, y = y0 + (y1 - y0) * (j + 0.61) / 150;
            double nearest = 1e9, last = 1e9;
            for (const int k : order) {
              const auto& p = screens[static_cast<std::size_t>(k)];
              const double depth = inside(p, x, y) ? depth_at(p, x, y) : std::nan("");
              if (std::isnan(depth)) continue;
              nearest = std::min(nearest, depth), last = depth, ++hits;
            }
            EXPECT_NEAR(last, nearest, 0.5) << planned.piece.id << " at " << x << ", " << y;
          }
        EXPECT_GT(hits, 5000);
      }
    }
}

TEST(SolidView, AViewIsARotation) {
  const View view{};
  const Point3 a = seen(view, {3, 4, 12}), o = seen(view, {0, 0, 0});
  EXPECT_NEAR(std::hypot(a[0] - o[0], a[1] - o[1], a[2] - o[2]), 13, 1e-12);
}

// ---- working order

std::string all(const std::vector<Instruction>& order) {
  std::string text;
  for (const auto& i : order)
    text += (i.caution ? "! " : "- ") + i.text + "\n";
  return text;
}
std::vector<Instruction> order_of(const Choices& c, std::size_t piece = 1) {
  const auto plan = sample::plan_of(c);
  return working_order(plan, plan.pieces.at(piece));
}
std::size_t index_of(const std::vector<Instruction>& order, const std::string& what) {
  for (std::size_t i = 0; i < order.size(); ++i)
    if (order[i].text.find(what) != std::string::npos) return i;
  return order.size();
}

TEST(WorkingOrder, AClosedStepNeedsNoGlueAndNoHem) {
  const auto text = all(order_of({}));
  EXPECT_EQ(text.find("hem"), std::string::npos) << text;
  EXPECT_EQ(text.find("glue"), std::string::npos) << text;
  EXPECT_NE(text.find("riser strip"), std::string::npos) << text;
}

TEST(WorkingOrder, AnOpenEndTellsHemReliefAndStripStop) {
  Choices c;
  c.right = sample::open_end();
  const auto text = all(order_of(c));
  EXPECT_NE(text.find("1 1/4\" hem"), std::string::npos) << text;
  EXPECT_NE(text.find("Set the middle off by 1/4\""), std::string::npos) << text;
  EXPECT_NE(text.find("It stops 1 1/2\" short of the right end"), std::string::npos) << text;
  EXPECT_NE(text.find("right end at 55°"), std::string::npos) << text;
}

/// CRI 105, older edition, §17.2.
TEST(WorkingOrder, AWrappedStepHasNoRiserStripAndIsStapledUnderTheNosing) {
  Choices c;
  c.style = CoverStyle::wrapped;
  const auto text = all(order_of(c));
  EXPECT_NE(text.find("No strip on the riser"), std::string::npos) << text;
  EXPECT_EQ(text.find("nail the riser strip"), std::string::npos) << text;
  EXPECT_NE(text.find("under the nosing"), std::string::npos) << text;
  EXPECT_NE(text.find("part the pile"), std::string::npos) << text;
}

TEST(WorkingOrder, ALandingEdgeIsSeamedNotTucked) {
  const auto text = all(order_of({}, 0));
  EXPECT_NE(text.find("seam tape"), std::string::npos) << text;
  EXPECT_EQ(text.find("tuck that in behind the strip"), std::string::npos) << text;
  EXPECT_EQ(text.find("tread strip"), std::string::npos) << text;
}

TEST(WorkingOrder, AJoinedPieceIsPushedIntoEachCrotch) {
  Choices c;
  c.risers = 4;
  c.join = 3;
  const auto text = all(order_of(c, 0));
  EXPECT_NE(text.find("In each crotch push the fold 1/2\" deep"), std::string::npos) << text;
  EXPECT_NE(text.find("Steps 2 and 3: nail the tread strip"), std::string::npos) << text;
}

/// What is fastened can no longer be moved.
TEST(WorkingOrder, ThePieceIsLaidThenFastenedThenTrimmed) {
  for (const int open : {0, 1, 2})
    for (const CoverStyle style : {CoverStyle::waterfall, CoverStyle::wrapped})
      for (const int join : {1, 3}) {
        Choices c;
        c.risers = 4;
        c.style = style;
        c.join = join;
        if (open > 0) c.right = sample::open_end();
        if (open > 1) c.left = sample::open_end();
        const auto order = order_of(c, 0);
        std::vector<std::string> in_turn{open ? "set the fold over the tread's end on the wood's edge"
                                              : "centred, 3/4\" to spare",
                                         "At the foot of step"};
        if (join > 1) in_turn.push_back("Go up a step at a time. In each crotch push the fold");
        in_turn.push_back(", taut");
        if (open < 2) in_turn.push_back("rim the spare 3/4\"");
        in_turn.push_back("Join the back edge");
        for (std::size_t i = 0; i < in_turn.size(); ++i) {
          ASSERT_LT(index_of(order, in_turn[i]), order.size()) << in_turn[i] << "\n" << all(order);
          if (i == 0) continue;
          EXPECT_LT(index_of(order, in_turn[i - 1]), index_of(order, in_turn[i])) << all(order);
        }
      }
}

TEST(WorkingOrder, BeforeTheFirstCutItTellsWhatToLeaveLong) {
  Choices c;
  c.right = sample::open_end();
  const auto step = order_of(c), landing = order_of(c, 0);
  EXPECT_LT(index_of(step, "Leave the back and the foot long to tuck"),
            index_of(step, "cut the back corner"));
  EXPECT_LT(index_of(landing, "the back long for the seam"), index_of(landing, "cut out the front corner"));
}

TEST(WorkingOrder, OfPinsOnlyWhereThereIsStrip) {
  Choices c;
  c.style = CoverStyle::wrapped;
  EXPECT_EQ(all(order_of(c, 0)).find("pins"), std::string::npos) << all(order_of(c, 0)); // landing edge
  EXPECT_NE(all(order_of(c, 1)).find("Seat the carpet on the pins"), std::string::npos);
}

TEST(WorkingOrder, CautionsStandBeforeWhatTheyAreAbout) {
  for (const bool open : {false, true}) {
    Choices c;
    if (open) c.right = sample::open_end();
    const auto order = order_of(c);
    const auto before = [&](const char* caution, const char* step) {
      const auto a = index_of(order, caution), b = index_of(order, step);
      ASSERT_LT(b, order.size()) << step;
      EXPECT_LT(a, b) << caution << "\n" << all(order);
      EXPECT_TRUE(order[a].caution);
      EXPECT_FALSE(order[b].caution);
    };
    before("Fresh blade", open ? "cut the back corner" : "tight to the walls");
    before("wooden handle", "press the carpet on the riser strip");
    before("Knees", "Draw it straight up");
    before("Loose edges", "Look it over");
    if (!open) continue;
    before("latex before the small cuts", "cut the back corner");
    before("Hot glue", "and glue it.");
  }
}

TEST(WorkingOrder, UprightsAreCutForBeforeThePieceIsLaidAndClosedRoundAfterIt) {
  for (const bool open : {false, true}) {
    Choices c;
    c.step.uprights = sample::some_uprights();
    if (open) c.right = sample::open_end();
    const auto order = order_of(c);
    const auto holes = index_of(order, "Holes for the 2 balusters and the newel"),
               laid = index_of(order, "Lay it in place"), shut = index_of(order, "the slits shut");
    ASSERT_LT(shut, order.size()) << all(order);
    EXPECT_LT(index_of(order, "Fresh blade"), holes);
    EXPECT_LT(index_of(order, "Seal the raw backing"), holes);
    EXPECT_LT(holes, laid);
    EXPECT_LT(laid, shut);
    EXPECT_NE(order[holes].text.find(open ? "round the end" : "to the wall"), std::string::npos)
        << order[holes].text;
    EXPECT_NE(all(order).find("Cut it out round the uprights"), std::string::npos);
  }
  EXPECT_EQ(all(order_of({})).find("uprights"), std::string::npos);
}

TEST(WorkingOrder, ASlopingFootIsToldBeforeAnythingIsCut) {
  Choices c;
  EXPECT_EQ(all(order_of(c)).find("out of level"), std::string::npos);
  for (const bool right : {false, true}) {
    c.step.fall_right = right ? inches(0, 1, 4) : -inches(0, 1, 4);
    const auto order = order_of(c);
    const auto told = index_of(order, "is out of level");
    ASSERT_LT(told, order.size()) << all(order);
    EXPECT_NE(order[told].text.find(right ? "1/4\" higher at the right end" : "1/4\" higher at the left end"),
              std::string::npos)
        << order[told].text;
    EXPECT_LT(told, index_of(order, "Trim the spare"));
  }
}

// Which cut edges are sealed before what.
TEST(WorkingOrder, EdgesAreSealedAsTheBackingNeedsIt) {
  Choices c;
  c.right = sample::open_end();
  for (const auto construction : {Construction::unknown, Construction::tufted, Construction::woven}) {
    c.construction = construction;
    const bool woven = construction == Construction::woven;
    const auto order = order_of(c);
    const auto from_roll = index_of(order, "as it comes from the roll"),
               before = index_of(order, "latex before the small"),
               cut = index_of(order, "cut out the front corner"),
               after = index_of(order, "latex along every cut"),
               trimmed = index_of(order, "trimmed on the stair, before"),
               trim = index_of(order, "trim the spare");
    EXPECT_EQ(from_roll < order.size(), woven) << all(order);
    EXPECT_EQ(trimmed < order.size(), woven) << all(order);
    EXPECT_LT(before, cut);
    EXPECT_LT(cut, after);
    ASSERT_LT(trim, order.size()) << all(order);
    const auto& why = order[before].text;
    EXPECT_NE(why.find(woven                                  ? "frays from every cut"
                       : construction == Construction::tufted ? "tufts pull out"
                                                              : "small tabs fray"),
              std::string::npos)
        << why;
    if (!woven) continue;
    EXPECT_LT(from_roll, index_of(order, "nail the tread strip"));
    EXPECT_LT(trimmed, trim);
  }
  EXPECT_EQ(all(order_of({})).find("latex"), std::string::npos); // a box step of goods not known
}

TEST(SolidView, UprightsStandOnTheTread) {
  Choices c;
  c.step.uprights = sample::some_uprights();
  const auto plan = sample::plan_of(c);
  auto bare = plan.pieces.at(1);
  const auto with = solid_of(bare);
  bare.steps[0].uprights.clear();
  const auto without = solid_of(bare);
  ASSERT_EQ(with.size(), without.size() + 2 * 25 + 5); // 24 sides of a round one, 4 of a square, and tops
  const double tread = plan.pieces.at(1).steps[0].rise.mm();
  for (std::size_t i = without.size(); i < with.size(); ++i)
    for (const auto& p : with[i].points)
      EXPECT_GT(p[2], tread);
}

TEST(WorkingOrder, EveryCautionIsFollowedByAStep) {
  for (std::size_t piece = 0; piece < 3; ++piece) {
    const auto order = order_of({}, piece);
    ASSERT_FALSE(order.empty());
    EXPECT_FALSE(order.back().caution);
  }
}

} // namespace
} // namespace treadfold
