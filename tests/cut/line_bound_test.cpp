// Bounds of patterned goods, held to strips that are known because the pieces were cut from them.
#include "../cases.h"
#include "cut/by_lattice.h"
#include "cut/line_bound.h"
#include "cut/line_fill.h"
#include "cut/match_axis.h"
#include "cut/match_scales.h"
#include "cut_up.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <functional>
#include <numeric>

namespace treadfold::rows {
namespace {

std::vector<Rect> alike(int count, Rect rect) {
  return std::vector<Rect>(static_cast<std::size_t>(count), rect);
}

TEST(LineBound, IsNoLongerThanTheStripThatThePiecesWereCutFrom) {
  int tight = 0;
  const int count = cases(2000);
  for (int seed = 1; seed <= count; ++seed) {
    Dice dice(static_cast<unsigned>(seed));
    const CutUp job(dice, seed % 2 ? 6 : 300);
    const auto bound = bound_by_lines(job.rects, job.strip);
    ASSERT_LE(bound.length, job.length) << "seed " << seed;
    tight += bound.length == job.length;
  }
  EXPECT_GE(tight, count / 10); // else it would be no test of a bound that is a little too long
}

TEST(LineFillings, OneWayHoldsWhatFitsInAnyOther) {
  for (int seed = 1; seed <= cases(1000); ++seed) {
    Dice dice(static_cast<unsigned>(seed));
    const Ticks step = dice.between(2, 9), size = dice.between(6, 30);
    std::vector<LineClass> classes;
    const auto add = [&](int group) {
      classes.push_back(
          {group, dice.between(0, 4), dice.between(1, 5), group < 0 || dice.between(0, 2) == 0});
    };
    add(0), add(1), add(static_cast<int>(dice.between(0, 1)));
    if (dice.between(0, 1)) add(-1);
    std::vector<std::vector<std::int64_t>> weights(12);
    for (auto& w : weights)
      for (std::size_t c = 0; c < classes.size(); ++c)
        w.push_back(dice.between(0, 9));
    const auto ways = line_fillings(classes, 2, step, size, 1'000'000);
    const auto holds = [&](const std::vector<Counts>& way, const MatchLine& line) {
      return std::all_of(weights.begin(), weights.end(), [&](const auto& w) {
        const auto least = line.heaviest(w).second;
        return std::any_of(way.begin(), way.end(), [&](const Counts& f) {
          return std::inner_product(f.begin(), f.end(), w.begin(), std::int64_t{0}) >= least;
        });
      });
    };
    for (Ticks a = 0; a < step; ++a)
      for (Ticks b = 0; b < step; ++b) {
        const MatchLine line(classes, {a, b}, step, size);
        ASSERT_TRUE(std::any_of(ways.begin(), ways.end(), [&](const auto& way) { return holds(way, line); }))
            << "seed " << seed << ", motifs at " << a << " and " << b;
      }
  }
}

TEST(MatchLine, IsFilledNoLessThanByTryingOneAfterAnother) {
  for (int seed = 1; seed <= cases(1000); ++seed) {
    Dice dice(static_cast<unsigned>(seed));
    const Ticks step = dice.between(2, 9), size = dice.between(4, 20);
    const std::vector<LineClass> classes{{0, dice.between(0, 4), dice.between(1, 5), true},
                                         {0, dice.between(0, 4), dice.between(1, 5)},
                                         {1, dice.between(0, 4), dice.between(1, 5), dice.between(0, 1) > 0},
                                         {-1, 0, dice.between(1, 6), true}};
    std::vector<std::int64_t> weights;
    for (std::size_t c = 0; c < classes.size(); ++c)
      weights.push_back(dice.between(0, 9));
    const Motifs motifs{dice.between(0, step - 1), dice.between(0, step - 1)};
    const std::function<std::int64_t(Ticks, Counts)> most = [&](Ticks from, Counts counts) {
      std::int64_t best = from < size ? most(from + 1, counts) : 0;
      for (std::size_t c = 0; c < classes.size(); ++c) {
        const auto& k = classes[c];
        const Ticks end = from + k.before + k.after;
        if (end > size || (k.single && counts[c] > 0)) continue;
        if (k.group >= 0 && mod(from + k.before - motifs[static_cast<std::size_t>(k.group)], step) != 0)
          continue;
        auto with = counts;
        ++with[c];
        best = std::max(best, weights[c] + most(end, std::move(with)));
      }
      return best;
    };
    const auto [filling, weight] = MatchLine(classes, motifs, step, size).heaviest(weights);
    ASSERT_EQ(weight, most(0, Counts(classes.size()))) << "seed " << seed;
    ASSERT_EQ(std::inner_product(filling.begin(), filling.end(), weights.begin(), std::int64_t{0}), weight);
  }
}

TEST(MatchScales, ProveNoMoreThanTheStripThatThePiecesWereCutFrom) {
  int tight = 0;
  const int count = cases(400);
  for (int seed = 1; seed <= count; ++seed) {
    Dice dice(static_cast<unsigned>(seed));
    const CutUp job(dice, seed % 2 ? 6 : 300);
    Bound bound{1, "none"};
    for (const auto& r : job.rects)
      bound.length = std::max(bound.length, r.l);
    raise_by_match_scales(job.rects, job.strip, 500'000, bound);
    ASSERT_LE(bound.length, job.length) << "seed " << seed;
    tight += bound.length == job.length && bound.name != "none";
  }
  EXPECT_GE(tight, count / 40); // else it would be no test of a bound that is a little too long
}

TEST(MatchScales, ProveMoreThanOtherBoundsOfPiecesLikeAStairs) {
  // Two flights whose pieces are all but alike, as wide as a quarter of the strip.
  int raised = 0;
  const int count = cases(60);
  for (int seed = 1; seed <= count; ++seed) {
    Dice dice(static_cast<unsigned>(seed));
    Strip strip;
    strip.width = dice.between(140, 180), strip.longest_row = 10'000;
    strip.repeat = Repeat{dice.between(6, 36), dice.between(6, 36), 0};
    std::vector<Rect> rects;
    for (int group = 0; group < 2; ++group) {
      const Ticks w = dice.between(30, 48), l = dice.between(20, 25), half = w / 2;
      for (const auto& r : alike(10, {w, l, group, half, 12}))
        rects.push_back(r);
      rects.push_back({w + 8, 32, group, half, 23});
    }
    if (find_motif_places(rects, 2, strip) >= 0) continue;
    const auto others = rows::bound(rects, strip);
    auto bound = others;
    raise_by_match_scales(rects, strip, 1'000'000, bound);
    raised += bound.length > others.length;
    Goal goal;
    goal.roll_width = strip.width, goal.work = 100;
    auto found = search(rects, strip, goal);
    auto close = found;
    search_lattice(rects, strip, goal, bound, found, close);
    ASSERT_GE(close.used, bound.length) << "seed " << seed;
  }
  EXPECT_GE(raised, count / 6);
}

TEST(LineBound, CountsThePiecesOfTwoGroupsTogether) {
  // 3 wide on a strip of 10 with a repeat of 4: three on a line, of one group or two. 5 long with a repeat of
  // 6: wherever the groups' motifs lie, there are places 4 long where a line meets all it can. So four lines,
  // of which the first and the last may lie 2 nearer.
  auto rects = alike(6, {3, 5, 0});
  const auto others = alike(6, {3, 5, 1});
  rects.insert(rects.end(), others.begin(), others.end());
  Strip strip;
  strip.width = 10, strip.repeat = Repeat{4, 6, 0};
  EXPECT_EQ(bound_by_lines(rects, strip).length, 4 * 6 - 2);
  EXPECT_EQ(bound_without_pattern(rects, 10).length, 20); // four rows
}

TEST(LineBound, KnowsThatPiecesBesideOthersStillKeepTheirDistance) {
  // 5 wide, repeat 6, strip 15: no third piece fits between two of a group or beyond them, though 3·5 = 15.
  Strip strip;
  strip.width = 15, strip.repeat = Repeat{6, 6, 0};
  auto rects = alike(4, {5, 6, 0});
  const auto others = alike(4, {5, 6, 1});
  rects.insert(rects.end(), others.begin(), others.end());
  EXPECT_EQ(bound_by_lines(rects, strip).length, 4 * 6);
  EXPECT_LT(bound_without_pattern(rects, 15).length, 4 * 6);
}

TEST(LineBound, LetsTheLastPieceOnALineEndWhereItDoes) {
  // 20 and 11 wide with a repeat of 10 fill 31 side by side; the second would need 20 were another behind it.
  Strip strip;
  strip.width = 31, strip.repeat = Repeat{10, 7, 0};
  EXPECT_EQ(bound_by_lines({{20, 7, 0}, {11, 7, 0}}, strip).length, 7);
  strip.width = 30;
  EXPECT_EQ(bound_by_lines({{20, 7, 0}, {11, 7, 0}}, strip).length, 14);
}

/// The most that pieces on a line can weigh, tried one after another from the left.
std::int64_t heaviest(const std::vector<LineClass>& classes, const std::vector<Ticks>& motifs, Ticks step,
                      Ticks width, const LineWeights& weights, Ticks from = 0) {
  std::int64_t most = 0;
  for (std::size_t c = 0; c < classes.size(); ++c) {
    const auto& k = classes[c];
    const Ticks at = from + mod(motifs[static_cast<std::size_t>(k.group)] - k.before - from, step);
    const Ticks end = at + k.before + k.after;
    if (end <= width)
      most = std::max(most, weights.of_class[c] + heaviest(classes, motifs, step, width, weights, end));
  }
  return most;
}

TEST(LineWeights, OneCaseHoldsWhereverTheMotifsLie) {
  for (int seed = 1; seed <= cases(400); ++seed) {
    Dice dice(static_cast<unsigned>(seed));
    const Ticks step = dice.between(3, 20), width = dice.between(20, 60);
    const int groups = static_cast<int>(dice.between(1, 3));
    std::vector<LineClass> classes;
    for (int g = 0; g < groups; ++g)
      for (Ticks n = dice.between(1, groups == 3 ? 1 : 2); n > 0; --n)
        classes.push_back({g, dice.between(2, 10), dice.between(2, 9)});
    const auto cases = line_weights(classes, groups, step, width);
    for (int tries = 0; tries < 10; ++tries) {
      std::vector<Ticks> motifs;
      for (int g = 0; g < groups; ++g)
        motifs.push_back(dice.between(0, step - 1));
      EXPECT_TRUE(std::any_of(cases.begin(), cases.end(),
                              [&](const auto& weights) {
                                return std::all_of(weights.begin(), weights.end(), [&](const LineWeights& w) {
                                  return heaviest(classes, motifs, step, width, w) <= w.whole;
                                });
                              }))
          << "seed " << seed;
    }
  }
}

TEST(LineWeights, AreNoLighterThanTheyNeedBe) {
  // Of 3 wide 4 apart, 10 hold two of a group and one of the other, or three of one: each weighs a third.
  const auto cases = line_weights({{0, 0, 3}, {1, 0, 3}}, 2, 4, 10);
  ASSERT_FALSE(cases.empty());
  for (const auto& weights : cases)
    EXPECT_TRUE(std::any_of(weights.begin(), weights.end(), [](const LineWeights& w) {
      return 3 * w.of_class[0] >= w.whole && 3 * w.of_class[1] >= w.whole;
    }));
}

} // namespace
} // namespace treadfold::rows
