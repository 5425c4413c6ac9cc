// Bounds and lengths against optima that are known: of rectangles cut up here, and of published instances.
// Those are not part of the project; where they do not lie beside it (../shared/bench) their test is skipped,
// and says so.
#include "bench/instances.h"
#include "cut/bound.h"

#include <algorithm>

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
