// Strips swept over the motifs of patterned goods: held to trying every place, and to strips that are known.
#include "../cases.h"
#include "cut/by_lattice.h"
#include "cut/motif_bound.h"
#include "cut/motif_layout.h"
#include "cut_up.h"

#include <gtest/gtest.h>

#include <functional>
#include <limits>

namespace treadfold::rows {
namespace {

MotifKind kind(int group, Ticks before_u, Ticks after_u, Ticks before_v, Ticks after_v, std::size_t pieces) {
  return {group, before_u, after_u, before_v, after_v, std::vector<std::size_t>(pieces)};
}

struct Task {
  Ticks width, length;
  Repeat repeat;
  std::vector<MotifKind> kinds;
  MotifBox box;
  Weights weights;

  explicit Task(Dice& dice) : width(dice.between(3, 7)), length(dice.between(2, 7)) {
    repeat = {dice.between(2, 4), dice.between(2, 4), 0};
    repeat.drop = dice.between(0, repeat.repeat_v - 1);
    for (int k = 0; k < 3; ++k)
      kinds.push_back(kind(k % 2, dice.between(0, 2), dice.between(1, 2), dice.between(0, 2),
                           dice.between(1, 2), static_cast<std::size_t>(dice.between(1, 2))));
    box = {
        {dice.between(0, 9), dice.between(0, 9)}, {dice.between(0, 9), dice.between(0, 9)}, {0, 0}, {0, 0}};
    for (std::size_t k = 0; k < 4; ++k)
      weights.push_back(dice.between(1, 9));
  }
};

constexpr Ticks kNone = std::numeric_limits<Ticks>::max();

/// By trying every set of places, one after the other.
Ticks shortest_by_trial(const Task& task, const MotifBox& box, std::int64_t least) {
  struct Place {
    std::size_t kind;
    Ticks u, v, w, l;
  };
  std::vector<Place> places;
  for (std::size_t k = 0; k < task.kinds.size(); ++k) {
    const auto& kind = task.kinds[k];
    for (Ticks u = 0; u + kind.w() <= task.width; ++u)
      for (Ticks v = 0; v + kind.l() <= task.length; ++v) {
        if (kind.group >= 0) {
          const auto g = static_cast<std::size_t>(kind.group);
          const Ticks across = u + kind.before_u - box.u[g];
          if (mod(across, task.repeat.repeat_u) != 0) continue;
          const Ticks column = across / task.repeat.repeat_u;
          if (mod(v + kind.before_v - box.v[g] - column * task.repeat.drop, task.repeat.repeat_v) != 0)
            continue;
        }
        places.push_back({k, u, v, kind.w(), kind.l()});
      }
  }
  Ticks best = kNone;
  std::vector<const Place*> lying;
  const std::function<void(std::size_t, std::int64_t, Ticks)> go_on = [&](std::size_t next,
                                                                          std::int64_t weight, Ticks length) {
    if (weight >= least) best = std::min(best, length);
    for (std::size_t i = next; i < places.size(); ++i) {
      const auto& p = places[i];
      const bool in_the_way = std::any_of(lying.begin(), lying.end(), [&](const Place* o) {
        return (o->kind == p.kind && task.kinds[p.kind].pieces.size() == 1) ||
               (o->u < p.u + p.w && p.u < o->u + o->w && o->v < p.v + p.l && p.v < o->v + o->l);
      });
      if (in_the_way) continue;
      lying.push_back(&p);
      go_on(i + 1, weight + task.weights[p.kind], std::max(length, p.v + p.l));
      lying.pop_back();
    }
  };
  go_on(0, 0, 0);
  return best;
}

MotifSweep::Effort without_end() {
  return {std::numeric_limits<std::size_t>::max() / 8, std::numeric_limits<std::int64_t>::max(), 0, true};
}

TEST(MotifSweep, FindsTheShortestThatTryingEveryPlaceFinds) {
  int found = 0;
  const int count = cases(400);
  for (int seed = 1; seed <= count; ++seed) {
    Dice dice(static_cast<unsigned>(seed));
    const Task task(dice);
    const std::int64_t least = dice.between(1, 20);
    const MotifSweep sweep(task.kinds, task.width, task.repeat, task.box, task.length);
    auto effort = without_end();
    const auto shortest = sweep.shortest(task.weights, least, effort);
    ASSERT_EQ(shortest ? shortest->length : kNone, shortest_by_trial(task, task.box, least))
        << "seed " << seed;
    ASSERT_TRUE(effort.all_seen);
    if (!shortest) continue;
    ++found;
    std::int64_t weight = 0;
    for (const auto& one : shortest->at)
      weight += task.weights[one.kind];
    EXPECT_GE(weight, least) << "seed " << seed;
  }
  EXPECT_GT(found, count / 4);
  EXPECT_LT(found, count);
}

TEST(MotifSweep, IsNoLongerThanAnyWayInItsBoxNorWhereAPieceMayLieAnywhere) {
  int shorter = 0;
  const int count = cases(150);
  for (int seed = 1; seed <= count; ++seed) {
    Dice dice(static_cast<unsigned>(seed));
    Task task(dice);
    for (std::size_t g = 0; g < 2; ++g)
      for (auto* room : {&task.box.room_u, &task.box.room_v})
        (*room)[g] = dice.between(0, 1);
    std::erase_if(task.kinds, [](const MotifKind& k) { return k.w() <= 1 || k.l() <= 1; });
    if (dice.between(0, 1)) task.kinds.push_back(kind(-1, 0, dice.between(1, 4), 0, dice.between(1, 4), 1));
    const std::int64_t least = dice.between(1, 20);
    const MotifSweep sweep(task.kinds, task.width, task.repeat, task.box, task.length);
    auto effort = without_end();
    const auto shortest = sweep.shortest(task.weights, least, effort);
    const Ticks length = shortest ? shortest->length : kNone;
    for (int way = 0; way < 16; ++way) {
      auto box = task.box;
      const auto choose = [&](Ticks& at, Ticks room, int bit) { at += way >> bit & 1 ? room : 0; };
      choose(box.u[0], box.room_u[0], 0), choose(box.u[1], box.room_u[1], 1);
      choose(box.v[0], box.room_v[0], 2), choose(box.v[1], box.room_v[1], 3);
      const Ticks by_trial = shortest_by_trial(task, box, least);
      ASSERT_LE(length, by_trial) << "seed " << seed;
      shorter += length < by_trial;
    }
  }
  EXPECT_LT(shorter, 16 * count / 2); // else it would say nothing
}

TEST(MotifSweep, SaysThatItGaveUp) {
  const std::vector<MotifKind> kinds{kind(0, 1, 3, 0, 3, 40), kind(1, 2, 3, 1, 3, 40)};
  const MotifSweep sweep(kinds, 40, {3, 4, 2}, {{0, 1}, {0, 1}, {0, 0}, {0, 0}}, 60);
  auto few = without_end(), hasty = without_end();
  few.most_states = 1, hasty.most_steps = 1000;
  sweep.shortest({12, 15}, 1200, few), sweep.shortest({12, 15}, 1200, hasty);
  EXPECT_FALSE(few.all_seen);
  EXPECT_FALSE(hasty.all_seen);
}

TEST(MotifBound, IsNoLongerThanTheStripThatThePiecesWereCutFrom) {
  int tight = 0;
  const int count = cases(1000);
  for (int seed = 1; seed <= count; ++seed) {
    Dice dice(static_cast<unsigned>(seed));
    const Ticks size = seed % 2 ? 6 : 300;
    const CutUp job(dice, size);
    Bound bound{1, "none"};
    for (const auto& r : job.rects)
      bound.length = std::max(bound.length, r.l);
    raise_by_motifs(job.rects, job.strip, job.length + size, 500'000, bound);
    ASSERT_LE(bound.length, job.length) << "seed " << seed;
    tight += bound.length == job.length && bound.name != "none";
  }
  EXPECT_GE(tight, count / 200); // else it would be no test of a bound that is a little too long
}

/// Eighteen steps of one flight on half-drop goods, the first of them shorter.
struct HalfDropFlight {
  std::vector<Rect> rects = std::vector<Rect>(18, Rect{256, 132, 0, 128, 72});
  Strip strip;
  Goal goal;

  HalfDropFlight() {
    rects[0] = {256, 96, 0, 128, 36};
    strip.width = 912, strip.longest_row = strip.longest_cut = 100'000, strip.repeat = Repeat{63, 58, 29};
    EXPECT_EQ(find_motif_places(rects, 1, strip), -1);
    goal.roll_width = 912, goal.sold_in = 1;
  }
};

TEST(MotifLayout, LaysPiecesOnTheMotifsOfAnotherLayoutAndNoneOverAnother) {
  const HalfDropFlight job;
  const auto found = search(job.rects, job.strip, job.goal);
  std::optional<std::vector<Spot>> at;
  for (Ticks further = 0; !at && further < 58; ++further) { // as if the motifs lay further along
    auto moved = found.at;
    for (auto& spot : moved)
      spot.v += further;
    auto effort = without_end();
    effort.most_states = 100;
    at = lay_on_motifs(job.rects, job.strip, moved, found.used - 1, effort);
  }
  ASSERT_TRUE(at);
  for (std::size_t i = 0; i < at->size(); ++i) {
    const auto &a = job.rects[i], &first = job.rects[0];
    const Ticks across = (*at)[i].u + a.phase_u - (*at)[0].u - first.phase_u;
    const Ticks along = (*at)[i].v + a.phase_v - (*at)[0].v - first.phase_v;
    EXPECT_EQ(mod(across, 63), 0);
    EXPECT_EQ(mod(along - across / 63 * 29, 58), 0);
    EXPECT_GE((*at)[i].u, 0);
    EXPECT_LE((*at)[i].u + a.w, 912);
    EXPECT_GE((*at)[i].v, 0);
    EXPECT_LT((*at)[i].v + a.l, found.used);
    for (std::size_t j = 0; j < i; ++j) {
      const auto& b = job.rects[j];
      EXPECT_TRUE((*at)[i].u + a.w <= (*at)[j].u || (*at)[j].u + b.w <= (*at)[i].u ||
                  (*at)[i].v + a.l <= (*at)[j].v || (*at)[j].v + b.l <= (*at)[i].v);
    }
  }
}

TEST(MotifBound, ProvesTheLeastOfAFlightOnHalfDropGoods) {
  const HalfDropFlight job;
  auto goal = job.goal;
  goal.work = 2000;
  auto bound = rows::bound(job.rects, job.strip);
  auto found = search(job.rects, job.strip, goal);
  auto close = found;
  search_lattice(job.rects, job.strip, goal, bound, found, close);
  const Ticks before = bound.length;
  raise_by_motifs(job.rects, job.strip, close.used - 1, 100'000'000, bound);
  EXPECT_LT(before, close.used);
  EXPECT_EQ(bound.length, close.used);
}

} // namespace
} // namespace treadfold::rows
