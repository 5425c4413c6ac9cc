// What becomes of the goods, and what of a piece's rectangle is needed, on the examples.
#include "cover/rough_outline.h"
#include "cut/check.h"
#include "goods_account.h"
#include "plan.h"

#include <algorithm>
#include <fstream>
#include <sstream>

#include <gtest/gtest.h>

using namespace treadfold;

namespace {

class Goods : public testing::TestWithParam<const char*> {
protected:
  Plan planned(Laid laid = Laid::straight) const {
    std::ifstream file(std::string(SOURCE_DIR) + "/examples/" + GetParam() + ".json");
    std::ostringstream text;
    text << file.rdbuf();
    auto reading = read_job(text.str());
    EXPECT_FALSE(has_errors(reading.problems));
    for (auto& carpet : reading.job.carpets)
      carpet.laid = laid;
    return plan(reading);
  }
};

double turn(GoodsPoint a, GoodsPoint b, GoodsPoint c) {
  return (b.u - a.u).mm() * (c.v - a.v).mm() - (b.v - a.v).mm() * (c.u - a.u).mm();
}

} // namespace

TEST_P(Goods, AddUpToWhatIsOrdered) {
  for (const auto laid : {Laid::straight, Laid::outlines}) {
    const auto plan = planned(laid);
    for (const auto& layout : plan.layouts) {
      const auto a = goods_account(plan, layout);
      double ordered = 0;
      for (const auto& roll : layout.rolls)
        ordered += roll.width.mm() * roll.length_to_buy.mm() * 1e-6;
      EXPECT_NEAR(a.ordered, ordered, 1e-9);
      EXPECT_NEAR(a.net + a.trims + a.pattern + a.beside + a.selvage + a.sold, ordered, 1e-9);
      for (const double part : {a.net, a.trims, a.pattern, a.beside, a.selvage, a.sold})
        EXPECT_GE(part, -1e-9);
      EXPECT_GT(a.net, 0);
      EXPECT_EQ(a.pattern > 0, layout.length_without_pattern < layout.rolls.back().length_used);
    }
  }
}

TEST_P(Goods, RoughOutlinesHoldTheNetWithItsAllowances) {
  const auto plan = planned();
  const auto step = cut_step(plan.job.unit);
  for (const auto& planned : plan.pieces) {
    const Piece& piece = planned.piece;
    std::vector<GoodsPoint> ring;
    for (const auto& [u, v] : rough_outline(piece, step, false).ring)
      ring.push_back({u, v});
    if (ring.empty()) continue;
    Length least_u = ring[0].u, most_u = ring[0].u, least_v = ring[0].v, most_v = ring[0].v;
    for (std::size_t i = 0; i < ring.size(); ++i) {
      least_u = std::min(least_u, ring[i].u), most_u = std::max(most_u, ring[i].u);
      least_v = std::min(least_v, ring[i].v), most_v = std::max(most_v, ring[i].v);
      const auto &a = ring[i], &b = ring[(i + 1) % ring.size()];
      EXPECT_GT(turn(a, b, ring[(i + 2) % ring.size()]), 0) << piece.id;
      // Each point of the net, moved by the allowances to all four sides, lies within.
      for (const auto& p : piece.outline) {
        const double u = p.u - piece.net_origin.u, v = p.v - piece.net_origin.v;
        const double right = (piece.cut_width - piece.net_width).mm(),
                     foot = (piece.cut_length - piece.net_length).mm();
        for (const double to_u : {u, u + right})
          for (const double to_v : {v, v + foot}) {
            const double side = (b.u - a.u).mm() * (to_v - a.v.mm()) - (b.v - a.v).mm() * (to_u - a.u.mm());
            EXPECT_GT(side, -1e-3 * std::max(1.0, (b.u - a.u).mm() + (b.v - a.v).mm())) << piece.id;
          }
      }
    }
    EXPECT_EQ(least_u, Length{});
    EXPECT_EQ(least_v, Length{});
    EXPECT_EQ(most_u, piece.cut_width);
    EXPECT_EQ(most_v, piece.cut_length);
  }
}

TEST_P(Goods, HoweverTheyAreLaidKeepEveryPromise) {
  double before = 1e9; // square metres bought
  for (const auto laid : {Laid::straight, Laid::close, Laid::outlines}) {
    const auto plan = planned(laid);
    double bought = 0;
    for (std::size_t i = 0; i < plan.layouts.size(); ++i) {
      const auto& carpet = *std::find_if(plan.job.carpets.begin(), plan.job.carpets.end(),
                                         [&](const Carpet& c) { return c.id == plan.layouts[i].carpet; });
      EXPECT_EQ(check_layout(cut_pieces(plan, carpet), carpet, plan.layouts[i]), std::vector<std::string>{});
      for (const auto& roll : plan.layouts[i].rolls)
        bought += roll.width.mm() * roll.length_to_buy.mm() * 1e-6;
    }
    EXPECT_LE(bought, before + 1e-9);
    before = bought;
  }
}

INSTANTIATE_TEST_SUITE_P(Examples, Goods,
                         testing::Values("box-stair", "open-stair", "grand-stair", "winding-stair", "runner",
                                         "folded-runner"),
                         [](const auto& example) {
                           std::string name = example.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });
