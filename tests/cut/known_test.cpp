// Bounds and lengths against optima that are known: of rectangles cut up here, and of published instances.
// Those are not part of the project; where they do not lie beside it (../shared/bench) their test is skipped,
// and says so.
#include "../cases.h"
#include "bench/instances.h"
#include "cut/bound.h"

#include <algorithm>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold;
using pack::Box;
using pack::Ticks;

namespace {

/// A rectangle cut across or along at random, again and again, until there are so many boxes.
std::vector<Box> cut_up(Box whole, std::size_t many) {
  std::vector<Box> boxes{whole};
  for (int tries = 0; boxes.size() < many && tries < 200; ++tries) {
    const auto i = *rc::gen::inRange<std::size_t>(0, boxes.size());
    Box rest = boxes[i];
    const bool across = *rc::gen::inRange(0, 2) == 0;
    const Ticks size = across ? rest.w : rest.l;
    if (size < 2) continue;
    const Ticks at = *rc::gen::inRange<Ticks>(1, size);
    (across ? boxes[i].w : boxes[i].l) = at;
    (across ? rest.w : rest.l) -= at;
    boxes.push_back(rest);
  }
  return boxes;
}

std::vector<rows::Rect> rects_of(const std::vector<Box>& boxes) {
  std::vector<rows::Rect> rects;
  for (const auto& b : boxes)
    rects.push_back({b.w, b.l});
  return rects;
}

} // namespace

// The pieces of a rectangle go back into it, by straight cuts too, and into nothing shorter.
RC_GTEST_PROP(Known, BoundsAreTheLengthOfARectangleCutUp, ()) {
  bench::Instance instance;
  instance.name = "cut up", instance.width = *rc::gen::inRange<Ticks>(2, 200);
  instance.best = *rc::gen::inRange<Ticks>(2, 300), instance.optimal = true;
  instance.boxes = cut_up({instance.width, *instance.best}, *rc::gen::inRange<std::size_t>(1, 40));
  RC_ASSERT(rows::bound_without_pattern(rects_of(instance.boxes), instance.width).length == *instance.best);
  for (const bool guillotine : {false, true}) {
    pack::StripOptions options;
    options.work = 200'000, options.guillotine = guillotine;
    const auto answer = pack::pack_strip(instance.boxes, instance.width, options);
    RC_ASSERT(bench::breach(instance, answer, guillotine) == "");
  }
}

/// Pieces like a stair's, nearly alike, from rows three or four wide: those rows hold them.
TEST(Known, BoundsAreNoLongerThanRowsOfPiecesNearlyAlike) {
  int tight = 0;
  const int count = treadfold::cases(400);
  for (int seed = 1; seed <= count; ++seed) {
    SCOPED_TRACE(seed);
    std::mt19937 random(static_cast<unsigned>(seed));
    const auto between = [&](Ticks least, Ticks most) {
      return least + static_cast<Ticks>(random() % static_cast<unsigned>(most - least + 1));
    };
    const Ticks width = between(2000, 2900);
    std::vector<pack::Box> boxes;
    Ticks length = 0;
    for (Ticks rows = between(2, 4); rows > 0; --rows) {
      const Ticks row = between(300, 420);
      length += row;
      for (Ticks left = between(3, 4), room = width; left > 0; --left) {
        const Ticks w = left > 1 ? room / left - between(0, 40) : room;
        boxes.push_back({w - between(0, 9), row - between(0, 5)});
        room -= w;
      }
    }
    pack::StripOptions options;
    options.work = 2'000'000;
    const auto answer = pack::pack_strip(boxes, width, options);
    ASSERT_LE(answer.bound, length);
    tight += 100 * answer.bound > 98 * length;
  }
  EXPECT_GT(tight, count / 10); // else it would be no test of a bound that is a little too long
}

TEST(Known, BoundsNeverExceedAPublishedOptimumNorAreLengthsShorter) {
  const auto published = bench::read_instances(SOURCE_DIR "/../shared/bench/rect/strip-packing.json");
  if (published.empty()) GTEST_SKIP() << "../shared/bench/rect/strip-packing.json is not here";
  int optima = 0;
  for (const auto& instance : published) {
    SCOPED_TRACE(instance.name);
    ASSERT_TRUE(instance.best.has_value());
    EXPECT_LE(rows::bound_without_pattern(rects_of(instance.boxes), instance.width).length, *instance.best);
    for (const bool guillotine : {false, true}) {
      pack::StripOptions options;
      options.work = 500'000, options.guillotine = guillotine;
      const auto answer = pack::pack_strip(instance.boxes, instance.width, options);
      EXPECT_EQ(bench::breach(instance, answer, guillotine), "");
    }
    optima += instance.optimal;
  }
  EXPECT_GT(optima, 0);
}
