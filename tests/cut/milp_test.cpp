// Layouts and bounds against a general solver of mixed integer programs, on small instances. Each is given
// the length that the product found as the most: where that is too short for the boxes the solver finds
// nothing, where it is longer than need be the solver finds less.
#include "cut/bound.h"
#include "cut/layout.h"
#include "cut/pack/strip.h"
#include "milp.h"

#include <random>

#include <fmt/format.h>
#include <gtest/gtest.h>

using namespace treadfold;
using pack::Box;
using rows::Ticks;

namespace {

/// Instances from their numbers, the same on every machine.
class Instance {
public:
  explicit Instance(unsigned number) : random_(number) {}
  Ticks between(Ticks least, Ticks most) {
    return least + static_cast<Ticks>(random_() % static_cast<unsigned>(most - least + 1));
  }
  std::vector<Box> boxes(Ticks least, Ticks most, Ticks width, Ticks length) {
    std::vector<Box> all(static_cast<std::size_t>(between(least, most)));
    for (auto& b : all)
      b = {between(1, width), between(1, length)};
    return all;
  }

private:
  std::mt19937 random_;
};

std::vector<rows::Rect> rects_of(const std::vector<Box>& boxes) {
  std::vector<rows::Rect> rects;
  for (const auto& b : boxes)
    rects.push_back({b.w, b.l});
  return rects;
}

std::string words(const std::vector<Box>& boxes, Ticks width) {
  std::string all = fmt::format("on {}:", width);
  for (const auto& b : boxes)
    all += fmt::format(" {}x{}", b.w, b.l);
  return all;
}

pack::StripAnswer packed(const std::vector<Box>& boxes, Ticks width, bool guillotine) {
  pack::StripOptions options;
  options.work = 1'000'000, options.guillotine = guillotine;
  return pack::pack_strip(boxes, width, options);
}

/// Some of them in match groups, on a lattice of their own.
struct Patterned {
  Ticks width = 0;
  rows::Repeat repeat;
  std::vector<rows::Rect> rects;

  explicit Patterned(unsigned number) {
    Instance instance(number);
    width = instance.between(8, 12);
    repeat.repeat_u = instance.between(1, 5), repeat.repeat_v = instance.between(2, 5);
    repeat.drop = instance.between(0, repeat.repeat_v - 1);
    const Ticks groups = instance.between(1, 2);
    for (const auto& b : instance.boxes(4, 5, width - instance.between(0, 3), 4)) {
      const auto match = static_cast<int>(instance.between(-1, groups - 1));
      rects.push_back({b.w, b.l, match, instance.between(0, 4), instance.between(0, 4)});
    }
  }
  std::string words() const {
    auto all =
        fmt::format("on {}, repeat {} by {}, drop {}:", width, repeat.repeat_u, repeat.repeat_v, repeat.drop);
    for (const auto& r : rects)
      all += fmt::format(" {}x{} in {} at ({}, {})", r.w, r.l, r.match, r.phase_u, r.phase_v);
    return all;
  }
  rows::Bound bound() const {
    rows::Strip strip;
    strip.width = width, strip.repeat = repeat;
    return rows::bound(rects, strip);
  }
  /// In inches; the roll is long enough for all.
  Layout laid_out(Problems& problems) const {
    Carpet goods;
    goods.id = "goods", goods.roll_widths = {kInch * width}, goods.sold_in = kInch;
    goods.pattern = Pattern{kInch * repeat.repeat_u, kInch * repeat.repeat_v, kInch * repeat.drop};
    std::vector<CutPiece> pieces;
    for (const auto& r : rects)
      pieces.push_back({fmt::format("{}", pieces.size()), kInch * r.w, kInch * r.l, "stair", r.match >= 0,
                        r.match >= 0 ? fmt::format("group {}", r.match) : "", kInch * r.phase_u,
                        kInch * r.phase_v});
    return lay_out(pieces, goods, {}, problems);
  }
};

} // namespace

TEST(Milp, AgreesWithTheStrip) {
  for (unsigned number = 1; number <= 30; ++number) {
    Instance instance(number);
    const Ticks width = instance.between(8, 12);
    const auto boxes = instance.boxes(4, 7, 7, 6);
    SCOPED_TRACE(words(boxes, width));
    const auto answer = packed(boxes, width, false);
    const auto least = milp::least_length(rects_of(boxes), width, answer.length);
    ASSERT_TRUE(least.has_value()) << "no packing of length " << answer.length;
    EXPECT_LE(answer.bound, *least);
    EXPECT_LE(rows::bound_without_pattern(rects_of(boxes), width).length, *least);
    EXPECT_TRUE(answer.proved());
    EXPECT_EQ(answer.length, *least);
  }
}

TEST(Milp, AgreesWithTheStripByStraightCuts) {
  int proved = 0;
  for (unsigned number = 101; number <= 130; ++number) {
    Instance instance(number);
    const Ticks width = instance.between(6, 9);
    const auto boxes = instance.boxes(4, 7, 5, 4);
    SCOPED_TRACE(words(boxes, width));
    const auto answer = packed(boxes, width, true);
    const auto least = milp::least_guillotine_length(boxes, width, answer.length);
    ASSERT_TRUE(least.has_value()) << "no packing of length " << answer.length;
    EXPECT_LE(answer.bound, *least);
    if (!answer.proved()) continue;
    EXPECT_EQ(answer.length, *least);
    ++proved;
  }
  EXPECT_GE(proved, 15);
}

TEST(Milp, AgreesWithLayoutsThatKeepAPattern) {
  int proved = 0, refused = 0;
  for (unsigned number = 201; number <= 280; ++number) {
    const Patterned job(number);
    SCOPED_TRACE(job.words());
    Problems problems;
    const auto layout = job.laid_out(problems);
    if (has_errors(problems)) { // no place across that serves a whole group
      const Ticks enough = 60;
      EXPECT_FALSE(milp::least_length(job.rects, job.width, enough, job.repeat).has_value());
      ++refused;
      continue;
    }
    ASSERT_EQ(layout.rolls.size(), 1u);
    const Ticks length = layout.rolls[0].length_used.ticks / kInch.ticks;
    const auto least = milp::least_length(job.rects, job.width, length, job.repeat);
    ASSERT_TRUE(least.has_value()) << "no layout of length " << length;
    EXPECT_LE(job.bound().length, *least);
    EXPECT_LE(layout.lower_bound, kInch * *least);
    if (!layout.proved_least) continue;
    EXPECT_EQ(length, *least);
    ++proved;
  }
  EXPECT_GE(proved, 40);
  EXPECT_GE(refused, 1);
}
