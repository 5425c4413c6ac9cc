// Rows of many boxes, and what their values prove.
#include "cut/pack/full_rows.h"

#include "cut/pack/straight_cuts.h"
#include "cut/pack/strip.h"

#include <algorithm>
#include <numeric>
#include <random>

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

using namespace treadfold::pack;

namespace {

constexpr Ticks kWidth = 2304; // 12 ft in sixteenths

/// 28 to 50 in wide, 15 to 30 in long, like the pieces of stairs.
std::vector<Box> stair_pieces(int count, std::mt19937& dice) {
  std::vector<Box> boxes;
  for (int i = 0; i < count; ++i) {
    const Ticks w = 448 + dice() % 353;
    boxes.push_back({w, 240 + static_cast<Ticks>(dice() % 241)});
  }
  return boxes;
}

/// A strip of the length cut up into `count` boxes by straight strokes.
std::vector<Box> cut_up(Ticks width, Ticks length, std::size_t count, std::mt19937& dice) {
  std::vector<Box> boxes{{width, length}};
  while (boxes.size() < count) {
    const auto i = dice() % boxes.size();
    Box &here = boxes[i], there = here;
    Ticks Box::*side = here.w > here.l ? &Box::w : &Box::l;
    if (here.*side < 2) continue;
    here.*side = 1 + static_cast<Ticks>(dice() % static_cast<unsigned>(there.*side - 1));
    there.*side -= here.*side;
    boxes.push_back(there);
  }
  return boxes;
}

} // namespace

RC_GTEST_PROP(RowValues, OfBoxesSideBySideAreNoMoreThanOne, ()) {
  std::mt19937 dice(*rc::gen::arbitrary<unsigned>());
  const auto sheet = sheet_of(stair_pieces(*rc::gen::inRange(2, 120), dice), kWidth);
  std::int64_t work = 0;
  const auto values = row_values(sheet, *rc::gen::element<Ticks>(36, 144, 576), 2'000'000, work);
  std::vector<std::size_t> order; // a kind for each box
  for (std::size_t k = 0; k < sheet.kinds.size(); ++k)
    order.insert(order.end(), static_cast<std::size_t>(sheet.kinds[k].count), k);
  for (int i = 0; i < 2000; ++i) {
    std::shuffle(order.begin(), order.end(), dice);
    Ticks wide = 0;
    double worth = 0;
    for (const auto k : order)
      if (wide + sheet.kinds[k].w <= kWidth) wide += sheet.kinds[k].w, worth += values.of_kind[k];
    RC_ASSERT(worth <= 1 + 1e-9);
  }
}

RC_GTEST_PROP(RowValues, ProveNoMoreThanThereIs, ()) {
  std::mt19937 dice(*rc::gen::arbitrary<unsigned>());
  const Ticks width = *rc::gen::inRange(20, 3000), length = *rc::gen::inRange(20, 9000);
  const auto boxes = cut_up(width, length, *rc::gen::inRange<std::size_t>(1, 150), dice);
  std::int64_t work = 0;
  const auto bound = row_values(sheet_of(boxes, width), 144, 2'000'000, work).bound;
  RC_ASSERT(bound == length); // nothing is wasted, so it is no less than the area's either
}

RC_GTEST_PROP(FullRows, AreFreedByStraightCuts, ()) {
  std::mt19937 dice(*rc::gen::arbitrary<unsigned>());
  const Ticks width = *rc::gen::inRange(20, 3000);
  const auto boxes = cut_up(width, *rc::gen::inRange(20, 9000), *rc::gen::inRange<std::size_t>(1, 150), dice);
  const auto sheet = sheet_of(boxes, width);
  std::int64_t work = 0;
  const auto values = row_values(sheet, 144, 200'000, work);
  const auto spots = spots_of(sheet, full_rows(sheet, values, *rc::gen::inRange(1, 100), work));
  RC_ASSERT(spots.size() == boxes.size());
  Ticks longest = 0;
  for (std::size_t i = 0; i < boxes.size(); ++i) {
    RC_ASSERT(spots[i].u >= 0 && spots[i].u + boxes[i].w <= width);
    longest = std::max(longest, boxes[i].l);
    for (std::size_t j = 0; j < i; ++j)
      RC_ASSERT(spots[i].u >= spots[j].u + boxes[j].w || spots[j].u >= spots[i].u + boxes[i].w ||
                spots[i].v >= spots[j].v + boxes[j].l || spots[j].v >= spots[i].v + boxes[i].l);
  }
  const auto cuts = straight_cuts(boxes, spots, width);
  RC_ASSERT(cuts.possible);
  RC_ASSERT(cuts.longest_in_hand <= longest);
}

TEST(FullRows, OfManyPiecesOfStairsComeWithinTwoPerCentOfTheBound) {
  std::mt19937 dice(3);
  for (const bool guillotine : {false, true}) {
    StripOptions options;
    options.guillotine = guillotine, options.work = 100'000'000;
    const auto answer = pack_strip(stair_pieces(1000, dice), kWidth, options);
    EXPECT_LT(static_cast<double>(answer.length), 1.02 * static_cast<double>(answer.bound));
  }
}
