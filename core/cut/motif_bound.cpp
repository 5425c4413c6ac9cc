#include "cut/motif_bound.h"

#include "cut/motif_sweep.h"

#include <algorithm>
#include <numeric>
#include <set>

namespace treadfold::rows {
namespace {

constexpr double kMostWays = 5'000;     // of motifs along, by ways_of()
constexpr double kMostRoom = 0.15;      // of a group's motifs, in repeats, for a sweep to be worth it
constexpr double kNear = 0.93;          // of the length tried: more kinds are worth it only then
constexpr int kMostGroups = 3;          // of more nothing is proved
constexpr std::size_t kMostKinds = 100; // before some are made one
constexpr std::size_t kEasyKinds = 3;   // of a group; so many always
constexpr Ticks kStrides = 10;          // from the bound to the limit
constexpr std::size_t kMostStates = 2000;
constexpr std::int64_t kStepsOfAWay = 10; // to look at it, besides
constexpr int kRounds = 2, kRoundsForOne = 10;

/// Ways across and along in which the groups' motifs may lie.
struct Ways {
  std::vector<Motifs> u, v;
  Ticks too_short = 0;    // no layout of that length lies in any of them
  std::size_t number = 0; // the newest first, of those that are too short alike
  bool ended = false;     // one way, of which no more can be told

  bool operator<(const Ways& o) const {
    return too_short != o.too_short ? too_short < o.too_short : number > o.number;
  }
};

/// Of the places of one group's motifs.
struct Span {
  std::size_t group = 0;
  Ticks least = 0, most = 0;
};

std::vector<Span> spans(const std::vector<Motifs>& ways) {
  std::vector<Span> all;
  for (std::size_t g = 0; g < ways.front().size(); ++g) {
    Span s{g, ways.front()[g], ways.front()[g]};
    for (const auto& way : ways)
      s.least = std::min(s.least, way[g]), s.most = std::max(s.most, way[g]);
    all.push_back(s);
  }
  return all;
}

MotifBox box_of(const Ways& ways, int groups) {
  const Motifs none(static_cast<std::size_t>(groups), 0);
  MotifBox box{none, none, none, none};
  for (const auto& s : spans(ways.u))
    box.u[s.group] = s.least, box.room_u[s.group] = s.most - s.least;
  for (const auto& s : spans(ways.v))
    box.v[s.group] = s.least, box.room_v[s.group] = s.most - s.least;
  return box;
}

class MotifBound {
public:
  MotifBound(const std::vector<Rect>& rects, const Strip& strip, int groups, Ticks limit,
             std::int64_t most_steps, Bound& bound)
      : strip_(strip), repeat_(*strip.repeat), groups_(groups), limit_(limit),
        step_(std::max<Ticks>(1, (limit - bound.length) / kStrides + 1)), bound_(bound) {
    effort_.most_states = kMostStates, effort_.most_steps = most_steps;
    auto kinds = motif_kinds(rects, repeat_);
    if (kinds.size() > kMostKinds) return;
    for (const std::size_t most : {20, 12, 8, 6, 5, 4, 3, 2, 1}) {
      kinds = fewer_kinds(std::move(kinds), groups, most);
      if (!levels_.empty() && kinds.size() == levels_.back().kinds.size()) continue;
      if (ways_of(kinds) > kMostWays ||
          MotifSweep::places(kinds, strip.width, repeat_, limit) > MotifSweep::kMostPlaces)
        continue;
      levels_.push_back({kinds, by_area(kinds)});
    }
    std::reverse(levels_.begin(), levels_.end());
  }

  void raise() {
    if (levels_.empty()) return;
    std::set<Ways> waiting{all_ways()};
    std::size_t number = 0;
    while (!waiting.empty() && bound_.length <= limit_ && effort_.steps <= effort_.most_steps) {
      if (waiting.begin()->ended) return; // so short may be possible
      Ways ways = std::move(waiting.extract(waiting.begin()).value());
      effort_.steps += kStepsOfAWay * static_cast<std::int64_t>(ways.u.size() + ways.v.size());
      if (too_short_for(ways)) {
        if (ways.too_short < limit_) waiting.insert(std::move(ways));
      } else {
        auto parts = halves(ways);
        if (parts.empty()) {
          ways.ended = true;
          waiting.insert(std::move(ways));
        }
        for (auto& part : parts) {
          part.number = ++number;
          waiting.insert(std::move(part));
        }
      }
      raise_to(waiting);
    }
  }

private:
  /// To what all that wait are too short for; what waits no longer is longer than the limit.
  void raise_to(const std::set<Ways>& waiting) {
    const Ticks too_short = waiting.empty() ? limit_ : std::min(limit_, waiting.begin()->too_short);
    if (too_short >= bound_.length)
      bound_ = {too_short + 1, "no shorter packing exists, at the pattern's spacing"};
  }

  /// How many there are along, about, before they are listed: each group touches an end or another group.
  double ways_of(const std::vector<MotifKind>& kinds) const {
    const auto steps = static_cast<double>(repeat_.repeat_v / step());
    const bool free = std::any_of(kinds.begin(), kinds.end(), [](const MotifKind& k) { return k.group < 0; });
    double ways = 1, before = 0;
    for (int g = 0; g < groups_; ++g) {
      const auto mine = static_cast<double>(
          std::count_if(kinds.begin(), kinds.end(), [&](const MotifKind& k) { return k.group == g; }));
      ways *= mine * (1 + 2 * before) * steps * (free ? 2 : 1), before += mine;
    }
    return ways;
  }

  /// Motifs lie so far from one another along, or a multiple of it, in whatever columns.
  Ticks step() const { return std::gcd(repeat_.repeat_v, repeat_.drop); }

  Ways all_ways() const {
    std::vector<LineClass> across, along;
    for (const auto& k : levels_.back().kinds) {
      across.push_back({k.group, k.before_u, k.after_u, k.group < 0});
      along.push_back({k.group, k.before_v, k.after_v, k.group < 0});
    }
    const auto us = ways_of_motifs(across, groups_, repeat_.repeat_u, strip_.width);
    const auto vs = ways_of_motifs(along, groups_, step(), limit_);
    Ways ways{{us.begin(), us.end()}, {vs.begin(), vs.end()}, bound_.length - 1};
    // On goods with a drop each of those is several: by the step on which the first column begins.
    for (std::size_t g = 0; g < static_cast<std::size_t>(groups_); ++g) {
      const std::size_t number = ways.v.size();
      for (Ticks more = step(); more < repeat_.repeat_v; more += step())
        for (std::size_t i = 0; i < number; ++i) {
          ways.v.push_back(ways.v[i]);
          ways.v.back()[g] += more;
        }
    }
    return ways;
  }

  /// In two where the motifs of a group lie furthest apart; none if they all lie in one way.
  std::vector<Ways> halves(const Ways& ways) const {
    double widest = 0;
    bool along = false;
    Span at;
    const auto look = [&](const std::vector<Motifs>& of, Ticks repeat, bool v) {
      for (const auto& s : spans(of)) {
        const double share = static_cast<double>(s.most - s.least) / static_cast<double>(repeat);
        if (share > widest) widest = share, along = v, at = s;
      }
    };
    look(ways.u, repeat_.repeat_u, false), look(ways.v, repeat_.repeat_v, true);
    if (widest <= 0) return {};
    std::vector<Ways> both{ways, ways};
    const Ticks middle = at.least + (at.most - at.least) / 2;
    for (const bool second : {false, true}) {
      auto& half = both[second ? 1 : 0];
      std::erase_if(along ? half.v : half.u,
                    [&](const Motifs& m) { return (m[at.group] > middle) != second; });
    }
    return both;
  }

  /// True: nothing as short as the limit lies in these ways. Else ways.too_short may be raised.
  bool too_short_for(Ways& ways) {
    const auto box = box_of(ways, groups_);
    const bool single = ways.u.size() * ways.v.size() == 1;
    double room = 0;
    for (std::size_t g = 0; g < box.u.size(); ++g)
      room = std::max({room, static_cast<double>(box.room_u[g]) / static_cast<double>(repeat_.repeat_u),
                       static_cast<double>(box.room_v[g]) / static_cast<double>(repeat_.repeat_v)});
    if (room > kMostRoom) return false;
    // A little longer each time, for where a strip is too short by far the sweep soon ends; few kinds first.
    const Ticks limit = std::min(limit_, ways.too_short + step_);
    for (auto& level : levels_) {
      const int rounds = single && &level == &levels_.back() ? kRoundsForOne : kRounds;
      const Ticks needed = length_needed(level, box, limit, rounds);
      ways.too_short = std::max(ways.too_short, needed - 1);
      if (ways.too_short >= limit) return true;
      const bool far = static_cast<double>(needed) < kNear * static_cast<double>(limit);
      if (far && !single && level.kinds.size() >= kEasyKinds * static_cast<std::size_t>(groups_))
        return false;
    }
    return false;
  }

  struct Level {
    std::vector<MotifKind> kinds;
    Weights weights; // that proved most last
  };

  /// All pieces need no less than that, or than `limit` + 1; 0 if nothing is known.
  Ticks length_needed(Level& level, const MotifBox& box, Ticks limit, int rounds) {
    const auto& kinds = level.kinds;
    for (const auto& k : kinds)
      if (k.group >= 0 && (k.w() <= box.room_u[static_cast<std::size_t>(k.group)] ||
                           k.l() <= box.room_v[static_cast<std::size_t>(k.group)]))
        return 0;
    const MotifSweep sweep(kinds, strip_.width, repeat_, box, limit);
    effort_.steps += sweep.steps_of_a_state(); // to set it up
    Ticks needed = 0;
    auto weights = level.weights;
    for (int round = 0; round < rounds; ++round) {
      effort_.all_seen = true;
      const auto shortest = sweep.shortest(weights, in_all(kinds, weights), effort_);
      const Ticks length = shortest ? shortest->length : limit + 1;
      if (effort_.all_seen && length > needed) needed = length, level.weights = weights;
      if (!shortest || effort_.steps > effort_.most_steps) return needed;
      const auto wanting = missing(kinds, shortest->at);
      if (std::all_of(wanting.begin(), wanting.end(), [](int number) { return number <= 0; })) return needed;
      move_towards(wanting, kinds, round, weights);
    }
    return needed;
  }

  std::vector<Level> levels_; // of few kinds first
  const Strip& strip_;
  Repeat repeat_;
  int groups_;
  Ticks limit_, step_;
  MotifSweep::Effort effort_;
  Bound& bound_;
};

} // namespace

void raise_by_motifs(const std::vector<Rect>& rects, const Strip& strip, Ticks limit, std::int64_t most_steps,
                     Bound& bound) {
  if (!strip.repeat || rects.size() > kMostPiecesOnMotifs) return;
  int groups = 0;
  for (const auto& r : rects)
    groups = std::max(groups, r.match + 1);
  if (groups == 0 || groups > kMostGroups) return;
  MotifBound(rects, strip, groups, limit, most_steps, bound).raise();
}

} // namespace treadfold::rows
