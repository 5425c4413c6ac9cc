// Bounds of patterned goods, held to strips that are known because the pieces were cut from them.
#include "../cases.h"
#include "cut/line_bound.h"
#include "cut/line_fill.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <numeric>
#include <random>

namespace treadfold::rows {
namespace {

class Dice {
public:
  explicit Dice(unsigned seed) : random_(seed) {}
  Ticks between(Ticks least, Ticks most) {
    return least + static_cast<Ticks>(random_() % static_cast<std::uint64_t>(most - least + 1));
  }

private:
  std::mt19937_64 random_;
};

/// A strip of patterned goods without waste, cut up at random; motifs of each group where its lattice has
/// them.
struct CutUp {
  std::vector<Rect> rects;
  Strip strip;
  Ticks length = 0;

  CutUp(Dice& dice, Ticks size) {
    strip.width = dice.between(size, 4 * size), length = dice.between(size, 8 * size);
    strip.repeat = Repeat{dice.between(1, 2 * size), dice.between(1, 2 * size), 0};
    const Ticks part = dice.between(1, 4); // set match, half-drop, a third, a quarter
    if (part > 1) strip.repeat->drop = strip.repeat->repeat_v / part;
    const int groups = static_cast<int>(std::max<Ticks>(1, dice.between(-3, 5)));
    for (int g = 0; g < groups; ++g)
      motifs_.push_back({dice.between(0, 5 * size), dice.between(0, 5 * size)});
    divide(dice, {0, 0}, strip.width, length, size);
  }

private:
  void divide(Dice& dice, Spot at, Ticks w, Ticks l, Ticks size) {
    const bool may_rip = w > 1 && 2 * w > size, may_cross = l > 1 && l > size;
    if (may_rip && (!may_cross || dice.between(0, 1))) {
      const Ticks cut = dice.between(1, w - 1);
      divide(dice, at, cut, l, size), divide(dice, {at.u + cut, at.v}, w - cut, l, size);
    } else if (may_cross) {
      const Ticks cut = dice.between(1, l - 1);
      divide(dice, at, w, cut, size), divide(dice, {at.u, at.v + cut}, w, l - cut, size);
    } else {
      rects.push_back(piece(dice, at, w, l));
    }
  }

  Rect piece(Dice& dice, Spot at, Ticks w, Ticks l) {
    Rect r{w, l, static_cast<int>(dice.between(dice.between(-1, 0), static_cast<Ticks>(motifs_.size()) - 1))};
    if (r.match < 0) return r;
    const auto& [repeat_u, repeat_v, drop] = *strip.repeat;
    const Spot motif = motifs_[static_cast<std::size_t>(r.match)];
    const Ticks i = dice.between(-3, 3), j = dice.between(-3, 3); // one of its motifs
    r.phase_u = motif.u + i * repeat_u - at.u, r.phase_v = motif.v + i * drop + j * repeat_v - at.v;
    if (dice.between(0, 3) > 0) // by its own middle, as on a tread, whatever motif is there
      r.phase_u -= (r.phase_u - w / 2) / repeat_u * repeat_u * (drop == 0);
    return r;
  }

  std::vector<Spot> motifs_;
};

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

std::vector<Rect> alike(int count, Rect rect) {
  return std::vector<Rect>(static_cast<std::size_t>(count), rect);
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
