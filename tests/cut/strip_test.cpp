// The strip packing of cut/pack, against its guarantees and against solvers that know nothing of it.
#include "../cases.h"
#include "cut/pack/beam.h"
#include "cut/pack/exact.h"
#include "cut/pack/scales.h"
#include "cut/pack/slit.h"
#include "cut/pack/straight_cuts.h"
#include "cut/pack/strip.h"
#include "tiny_packings.h"

#include <algorithm>
#include <numeric>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold::pack;

namespace {

std::vector<Box> random_boxes(int most, Ticks width, Ticks length) {
  std::vector<Box> boxes(static_cast<std::size_t>(*rc::gen::inRange(1, most + 1)));
  for (auto& b : boxes)
    b = {*rc::gen::inRange<Ticks>(1, width + 1), *rc::gen::inRange<Ticks>(1, length + 1)};
  return boxes;
}

StripOptions quick(bool guillotine = false, std::int64_t work = 300'000) {
  StripOptions options;
  options.work = work, options.guillotine = guillotine;
  return options;
}

/// What is wrong with it, in words; empty if nothing.
std::string breach(const std::vector<Box>& boxes, Ticks width, const StripAnswer& a) {
  if (a.at.size() != boxes.size()) return "not every box has a spot";
  Ticks length = 0;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    const auto& p = a.at[i];
    if (p.u < 0 || p.v < 0 || p.u + boxes[i].w > width) return "a box leaves the strip";
    length = std::max(length, p.v + boxes[i].l);
    for (std::size_t j = 0; j < i; ++j) {
      const auto& q = a.at[j];
      if (p.u < q.u + boxes[j].w && q.u < p.u + boxes[i].w && p.v < q.v + boxes[j].l &&
          q.v < p.v + boxes[i].l)
        return "boxes overlap";
    }
  }
  if (length != a.length) return "the length is not the boxes'";
  if (a.bound > a.length) return "the bound is above the length";
  return {};
}

std::vector<Ticks> numbers(const StripAnswer& a) {
  std::vector<Ticks> all{a.length, a.bound, a.work};
  for (const auto& s : a.at)
    all.push_back(s.u), all.push_back(s.v);
  return all;
}

} // namespace

RC_GTEST_PROP(Strip, BoxesNeverOverlapNorLeaveTheStrip, ()) {
  const Ticks width = *rc::gen::inRange<Ticks>(1, 120);
  const auto boxes = random_boxes(40, width, 60);
  for (const bool guillotine : {false, true})
    RC_ASSERT(breach(boxes, width, pack_strip(boxes, width, quick(guillotine))) == "");
}

RC_GTEST_PROP(Strip, SameAnswerForTheSameSeedAndWork, ()) {
  const auto boxes = random_boxes(30, 100, 60);
  for (const bool guillotine : {false, true}) {
    auto options = quick(guillotine);
    options.seed = *rc::gen::inRange(0u, 9u);
    RC_ASSERT(numbers(pack_strip(boxes, 100, options)) == numbers(pack_strip(boxes, 100, options)));
  }
}

RC_GTEST_PROP(Strip, MoreWorkIsNeverWorse, ()) {
  const auto boxes = random_boxes(25, 100, 60);
  for (const bool guillotine : {false, true}) {
    StripAnswer last;
    for (const std::int64_t work : {0, 10'000, 100'000, 400'000}) {
      const auto now = pack_strip(boxes, 100, quick(guillotine, work));
      RC_ASSERT(breach(boxes, 100, now) == "");
      if (work > 0) RC_ASSERT(now.length <= last.length && now.bound >= last.bound);
      last = now;
    }
  }
}

RC_GTEST_PROP(Strip, OrderOfTheBoxesAndTheUnitDoNotMatter, ()) {
  auto boxes = random_boxes(25, 100, 60);
  const auto one = pack_strip(boxes, 100, quick());
  std::reverse(boxes.begin(), boxes.end());
  const Ticks unit = *rc::gen::inRange<Ticks>(1, 10'000);
  for (auto& b : boxes)
    b = {b.w * unit, b.l * unit};
  const auto other = pack_strip(boxes, 100 * unit + unit - 1, quick());
  RC_ASSERT(other.length == one.length * unit);
  RC_ASSERT(other.bound == one.bound * unit);
}

RC_GTEST_PROP(Strip, WithoutABoxTheProvedLeastLengthIsNoLonger, ()) {
  const Ticks width = *rc::gen::inRange<Ticks>(4, 30);
  auto boxes = random_boxes(9, width, 20);
  const auto all = pack_strip(boxes, width, quick(false, 2'000'000));
  boxes.pop_back();
  const auto fewer = pack_strip(boxes, width, quick(false, 2'000'000));
  RC_ASSERT(fewer.bound <= all.length);
  if (all.proved() && fewer.proved()) RC_ASSERT(fewer.length <= all.length);
}

RC_GTEST_PROP(Strip, LeastLengthAgreesWithCellByCellSearch, ()) {
  const Ticks width = *rc::gen::inRange<Ticks>(2, 9);
  const auto boxes = random_boxes(7, width, 6);
  const auto answer = pack_strip(boxes, width, quick(false, 3'000'000));
  RC_ASSERT(breach(boxes, width, answer) == "");
  RC_ASSERT(answer.proved());
  RC_ASSERT(answer.length == tiny::least_length(boxes, width));
}

/// Fits and impossible alike, in both directions, tight and loose.
RC_GTEST_PROP(Exact, VerdictAgreesWithCellByCellSearch, ()) {
  const Ticks width = *rc::gen::inRange<Ticks>(2, 9), top = *rc::gen::inRange<Ticks>(2, 9);
  std::vector<Box> boxes;
  Ticks area = 0;
  for (int tries = 0; tries < 30 && 10 * area < 8 * width * top; ++tries) {
    const Box b{*rc::gen::inRange<Ticks>(1, width + 1), *rc::gen::inRange<Ticks>(1, top + 1)};
    if (area + b.w * b.l > width * top || b.w * b.l * 3 > width * top) continue;
    area += b.w * b.l;
    boxes.push_back(b);
  }
  RC_PRE(!boxes.empty());
  const Sheet sheet = sheet_of(boxes, width);
  Order order(sheet.kinds.size());
  std::iota(order.begin(), order.end(), 0);
  std::int64_t work = 0;
  Exact exact(sheet, top);
  const bool fits = tiny::fits(boxes, width, top);
  RC_TAG(fits ? "fits" : "impossible");
  RC_ASSERT(exact.run(order, 100'000'000, nullptr, work) == (fits ? Verdict::fits : Verdict::impossible));
}

/// At once, or in short runs, each in another order; pieces said to fit whole are laid so.
TEST(Slit, VerdictAgreesWithTryingEveryBeginning) {
  std::mt19937 random(1);
  const auto between = [&](Ticks least, Ticks most) {
    return least + static_cast<Ticks>(random() % static_cast<unsigned>(most - least + 1));
  };
  int impossible = 0, whole = 0;
  const int count = treadfold::cases(20'000);
  for (int i = 0; i < count; ++i) {
    SCOPED_TRACE(i);
    const Ticks width = between(4, 12), top = between(3, 9);
    std::vector<Box> boxes;
    Ticks area = 0;
    for (int tries = 0; tries < 40 && boxes.size() < 9 && 10 * area < 9 * width * top; ++tries) {
      const Box b{between(1, width - 1), between(1, top - 1)};
      if (area + b.w * b.l > width * top) continue;
      area += b.w * b.l;
      boxes.push_back(b);
    }
    const Sheet sheet = sheet_of(boxes, width);
    std::int64_t work = 0;
    Slit slit(sheet, top, {worth_by_width(sheet, work), worth_by_program(sheet, 1'000'000, work)});
    Order order(sheet.kinds.size());
    std::iota(order.begin(), order.end(), 0);
    auto verdict = Verdict::unknown;
    for (std::int64_t most = i % 2 == 0 ? 200 : 100'000'000; verdict == Verdict::unknown; most *= 2) {
      verdict = slit.run(order, most, nullptr, work);
      std::rotate(order.begin(), order.begin() + 1, order.end());
    }
    const bool fits = tiny::Lines(boxes, width, top).fit();
    ASSERT_EQ(verdict, fits ? Verdict::fits : Verdict::impossible);
    ASSERT_EQ(slit.run(order, 100'000'000, nullptr, work), verdict); // it is not forgotten
    impossible += !fits;
    if (slit.placed().empty()) continue;
    ++whole;
    StripAnswer packed;
    packed.at = spots_of(sheet, slit.placed());
    for (std::size_t b = 0; b < boxes.size(); ++b)
      packed.length = std::max(packed.length, packed.at[b].v + boxes[b].l);
    ASSERT_EQ(breach(boxes, width, packed), "");
    ASSERT_LE(packed.length, top);
  }
  EXPECT_GT(impossible, count / 10);
  EXPECT_GT(whole, count / 4);
}

RC_GTEST_PROP(Scales, NeverRefuteALengthThatFits, ()) {
  const Ticks width = *rc::gen::inRange<Ticks>(2, 9);
  const auto boxes = random_boxes(7, width, 6);
  const Sheet sheet = sheet_of(boxes, width);
  const Ticks least = tiny::least_length(boxes, width);
  Scales scales(sheet);
  std::int64_t work = 0;
  RC_ASSERT(!scales.too_short(least, 100'000'000, work));
  // Nor do they after shorter ones, from which they keep what they met.
  for (Ticks length = 1; length < least; ++length)
    scales.too_short(length, 100'000'000, work);
  RC_ASSERT(!scales.too_short(least, 100'000'000, work));
}

RC_GTEST_PROP(Scales, NeverRefuteALengthThatWasFilled, ()) {
  // A rectangle cut apart at random, in sizes that are counted in coarser cells.
  const Ticks width = *rc::gen::inRange<Ticks>(5'000, 50'000),
              length = *rc::gen::inRange<Ticks>(5'000, 50'000);
  std::vector<Box> boxes{{width, length}};
  for (int cuts = *rc::gen::inRange(1, 20); cuts > 0; --cuts) {
    Box& b = boxes[static_cast<std::size_t>(*rc::gen::inRange<int>(0, static_cast<int>(boxes.size())))];
    Box rest = b;
    Ticks Box::*side = *rc::gen::inRange(0, 2) == 0 ? &Box::w : &Box::l;
    if (b.*side < 2) continue;
    rest.*side = *rc::gen::inRange<Ticks>(1, b.*side);
    b.*side -= rest.*side;
    boxes.push_back(rest);
  }
  const Sheet sheet = sheet_of(boxes, width);
  std::int64_t work = 0;
  RC_ASSERT(!Scales(sheet).too_short(length, *rc::gen::inRange<std::int64_t>(1'000, 3'000'000), work));
}

/// By area eleven pieces of a flight and its landing need 89 in, by dual feasible functions 89 3/8.
TEST(Scales, ProveWhatNoSingleFunctionDoes) {
  std::vector<Box> boxes; // in sixteenths
  for (const auto& [w, l] : std::vector<std::pair<Ticks, Ticks>>{{599, 233},
                                                                 {590, 370},
                                                                 {599, 398},
                                                                 {591, 370},
                                                                 {589, 370},
                                                                 {599, 719},
                                                                 {599, 690},
                                                                 {599, 690},
                                                                 {593, 370},
                                                                 {595, 398},
                                                                 {761, 714}})
    boxes.push_back({w, l});
  const Sheet sheet = sheet_of(boxes, 157 * 16);
  Scales scales(sheet);
  std::int64_t work = 0;
  EXPECT_TRUE(scales.too_short(1612, 100'000'000, work));
  EXPECT_FALSE(scales.too_short(1613, 100'000'000, work));
  StripOptions options;
  options.work = 3'000'000;
  const auto answer = pack_strip(boxes, 157 * 16, options);
  EXPECT_EQ(answer.length, 1613);
  EXPECT_EQ(answer.bound, 1613);
}

RC_GTEST_PROP(Guillotine, EveryBoxComesFreeByStraightCuts, ()) {
  const Ticks width = *rc::gen::inRange<Ticks>(1, 120);
  const auto boxes = random_boxes(40, width, 60);
  const auto answer = pack_strip(boxes, width, quick(true));
  RC_ASSERT(straight_cuts(boxes, answer.at, width).possible);
}

RC_GTEST_PROP(Guillotine, NoMoreInHandThanTheUserSays, ()) {
  const Ticks unit = *rc::gen::element<Ticks>(1, 48); // whatever whole units the boxes come in
  const Ticks hand = *rc::gen::inRange<Ticks>(60, 90) * unit;
  auto boxes = random_boxes(30, 100, 60);
  for (auto& b : boxes)
    b.l *= unit;
  auto options = quick(true);
  options.longest_in_hand = hand;
  const auto answer = pack_strip(boxes, 100, options);
  RC_ASSERT(breach(boxes, 100, answer) == "");
  const auto cuts = straight_cuts(boxes, answer.at, 100);
  RC_ASSERT(cuts.possible);
  RC_ASSERT(cuts.longest_in_hand <= hand);
}

RC_GTEST_PROP(Guillotine, NeverShorterThanTheLeastByTryingEveryCut, ()) {
  const Ticks width = *rc::gen::inRange<Ticks>(2, 8);
  const auto boxes = random_boxes(5, width, 6);
  const auto answer = pack_strip(boxes, width, quick(true));
  const Ticks least = tiny::least_guillotine_length(boxes, width);
  RC_TAG(answer.length == least ? "the least" : "longer");
  RC_ASSERT(answer.length >= least);
  RC_ASSERT(answer.bound <= least);
}

RC_GTEST_PROP(Strip, WhatIsBoughtIsNoMoreForHeedingHowItIsSold, ()) {
  const Ticks width = *rc::gen::inRange<Ticks>(2, 60), sold = *rc::gen::inRange<Ticks>(2, 30);
  const auto boxes = random_boxes(20, width, 40);
  auto options = quick(false);
  const auto exact = pack_strip(boxes, width, options);
  options.sold_in = sold;
  const auto answer = pack_strip(boxes, width, options);
  RC_ASSERT(breach(boxes, width, answer) == "");
  const auto bought = [&](Ticks length) { return (length + sold - 1) / sold; };
  if (exact.proved()) RC_ASSERT(bought(answer.bound) <= bought(exact.length));
  if (answer.work < options.work) RC_ASSERT(bought(answer.length) == bought(answer.bound));
}

TEST(Strip, FillsARectangleWithoutWaste) {
  // 12 by 10, cut up at random by hand.
  const std::vector<Box> boxes{{5, 4}, {7, 3}, {3, 6}, {2, 2}, {2, 4}, {7, 2}, {4, 5}, {3, 5}};
  Ticks area = 0;
  for (const auto& b : boxes)
    area += b.w * b.l;
  ASSERT_EQ(area, 120);
  const auto answer = pack_strip(boxes, 12, quick(false, 5'000'000));
  EXPECT_EQ(breach(boxes, 12, answer), "");
  EXPECT_EQ(answer.length, tiny::least_length(boxes, 12));
  EXPECT_TRUE(answer.proved());
}

TEST(Strip, NothingToPackHasNoLength) {
  const auto answer = pack_strip({}, 10, {});
  EXPECT_EQ(answer.length, 0);
  EXPECT_TRUE(answer.proved());
}

TEST(Strip, StopsWhenAsked) {
  std::vector<Box> boxes;
  for (Ticks i = 0; i < 60; ++i)
    boxes.push_back({7 + i * 5 % 31, 9 + i * 7 % 23});
  StripOptions options;
  options.work = 1'000'000'000'000;
  int asked = 0;
  options.should_stop = [&asked] { return ++asked > 3; };
  EXPECT_EQ(breach(boxes, 100, pack_strip(boxes, 100, options)), "");
  EXPECT_GT(asked, 3);
}

TEST(StraightCuts, CountsStrokesAndStages) {
  // A row of two, and one piece behind it: the roll, one cross-cut, one rip, two trims.
  //   [ 6 x 4 ][4 x 3]   then   [ 8 x 2 ]   on 10
  const std::vector<Box> boxes{{6, 4}, {4, 3}, {8, 2}};
  const auto cuts = straight_cuts(boxes, {{0, 0}, {6, 0}, {0, 4}}, 10);
  EXPECT_TRUE(cuts.possible);
  EXPECT_EQ(cuts.strokes, 5);
  EXPECT_EQ(cuts.stages, 3);
  EXPECT_EQ(cuts.longest_in_hand, 4);
}

TEST(StraightCuts, APinwheelIsNotCutStraight) {
  const std::vector<Box> boxes{{2, 1}, {1, 2}, {2, 1}, {1, 2}, {1, 1}};
  EXPECT_FALSE(straight_cuts(boxes, {{0, 0}, {2, 0}, {1, 2}, {0, 1}, {1, 1}}, 3).possible);
}
