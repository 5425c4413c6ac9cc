#include "cut/line_bound.h"

#include "cut/dual_feasible.h"
#include "cut/line_fill.h"

#include <algorithm>
#include <array>
#include <map>
#include <numeric>
#include <set>

namespace treadfold::rows {
namespace {

constexpr std::size_t kMostGroups = 3; // the largest; of the others only whole steps count
constexpr std::size_t kMostClasses = 4;
constexpr std::size_t kMostShares = 4;
constexpr Ticks kMostOnLine = 8;
constexpr Ticks kMostColumns = 400;    // of a finer pattern the columns are not looked at
constexpr std::size_t kMostBreaks = 8; // of a group: more are made fewer by shrinking its pieces

constexpr std::size_t kMostParts = kMostBreaks * kMostBreaks * kMostBreaks; // of the groups together
constexpr Ticks kUnknown = -1;

constexpr Ticks floor_div(Ticks a, Ticks b) { return (a - mod(a, b)) / b; }
constexpr Ticks ceil_div(Ticks a, Ticks b) { return -floor_div(-a, b); }

/// What each piece takes of a line, and what there is of it. A piece that takes nothing is left out.
struct Across {
  std::vector<Ticks> width;
  Ticks room = 0;
};

/// Pieces beside columns one repeat apart that lie at `share` of it beside the motifs of `group`: that group
/// alone, and all pieces, of which the others meet no fewer columns than whole repeats go into them.
void add_columns(const std::vector<Rect>& rects, const Strip& strip, int group, Ticks share,
                 std::vector<Across>& ways) {
  const Ticks step = strip.repeat->repeat_u;
  Across alone, all;
  Ticks lead = step, out = 0; // what each piece leaves free before its columns; what one sticks out by
  for (const auto& r : rects) {
    const Ticks from = -r.phase_u - share, to = from + r.w;
    const Ticks columns = ceil_div(to, step) - ceil_div(from, step);
    const bool mine = r.match == group;
    alone.width.push_back(mine ? columns * step : 0);
    all.width.push_back(mine ? columns : r.w / step);
    if (!mine || columns == 0) continue;
    lead = std::min(lead, ceil_div(from, step) * step - from);
    out = std::max(out, ceil_div(to, step) * step - to);
  }
  alone.room = strip.width - lead + out;
  all.room = ceil_div(strip.width, step);
  ways.push_back(std::move(alone)), ways.push_back(std::move(all));
}

/// All pieces by their widths; and by columns, for the commonest places of each group's edges.
std::vector<Across> ways_across(const std::vector<Rect>& rects, const Strip& strip) {
  const Ticks step = strip.repeat->repeat_u;
  std::vector<Across> ways(1);
  for (const auto& r : rects)
    ways[0].width.push_back(r.w);
  ways[0].room = strip.width;
  std::map<int, std::map<Ticks, int>> shares;
  for (const auto& r : rects)
    if (r.match >= 0) ++shares[r.match][mod(-r.phase_u, step)], ++shares[r.match][mod(r.w - r.phase_u, step)];
  for (const auto& [group, counts] : shares) {
    std::vector<std::pair<int, Ticks>> commonest;
    for (const auto& [share, count] : counts)
      commonest.emplace_back(-count, share);
    std::stable_sort(commonest.begin(), commonest.end());
    for (std::size_t c = 0; c < std::min(kMostShares, commonest.size()); ++c)
      add_columns(rects, strip, group, commonest[c].second, ways);
  }
  return ways;
}

/// One match group: its pieces, and how often lines one step apart meet them. That changes only at `breaks`,
/// places beside the group's motifs, ascending in [0, step); `met` is by part, from each break to the next,
/// and by member.
struct Group {
  std::vector<std::size_t> members;
  std::vector<Ticks> breaks{0};
  std::vector<std::vector<Ticks>> met{{}};

  std::size_t part_at(Ticks place) const {
    const auto next = std::upper_bound(breaks.begin(), breaks.end(), place);
    return (next == breaks.begin() ? breaks.size() : static_cast<std::size_t>(next - breaks.begin())) - 1;
  }
};

Group group_of(const std::vector<Rect>& rects, int match, Ticks step) {
  Group group;
  for (std::size_t i = 0; i < rects.size(); ++i)
    if (rects[i].match == match) group.members.push_back(i);
  for (Ticks grain = 1;; grain *= 2) {
    std::set<Ticks> breaks;
    std::vector<std::pair<Ticks, Ticks>> spans; // of the pieces, shrunk to whole grains
    for (std::size_t i : group.members) {
      const Ticks from = ceil_div(-rects[i].phase_v, grain) * grain;
      const Ticks to = std::max(from, floor_div(rects[i].l - rects[i].phase_v, grain) * grain);
      spans.emplace_back(from, to);
      breaks.insert({mod(from, step), mod(to, step)});
    }
    if (breaks.size() > kMostBreaks) continue;
    group.breaks.assign(breaks.begin(), breaks.end());
    group.met.clear();
    for (Ticks at : group.breaks) {
      auto& met = group.met.emplace_back();
      for (const auto& [from, to] : spans)
        met.push_back(ceil_div(to - at, step) - ceil_div(from - at, step));
    }
    return group;
  }
}

/// A group's pieces as one class, or as two where they differ much. Sets `of` for their members.
void classify(const std::vector<Rect>& rects, std::vector<std::size_t> members, Ticks width, int group,
              bool may_divide, std::vector<LineClass>& classes, std::vector<int>& of) {
  std::stable_sort(members.begin(), members.end(),
                   [&](std::size_t a, std::size_t b) { return rects[a].w < rects[b].w; });
  std::size_t wider = members.size();
  Ticks jump = 0;
  for (std::size_t i = 1; i < members.size(); ++i)
    if (const Ticks more = rects[members[i]].w - rects[members[i - 1]].w; more > jump) jump = more, wider = i;
  if (!may_divide || 10 * jump < rects[members.front()].w) wider = members.size();
  for (const auto& [from, to] : {std::pair(std::size_t{0}, wider), std::pair(wider, members.size())}) {
    if (from == to) continue;
    const auto& first = rects[members[from]];
    LineClass c{group, first.phase_u, first.w - first.phase_u};
    for (std::size_t i = from; i < to; ++i) {
      const auto& r = rects[members[i]];
      c.before = std::min(c.before, r.phase_u), c.after = std::min(c.after, r.w - r.phase_u);
    }
    // They share too little beside the motif, or there may be too many on a line.
    if (kMostOnLine * (c.before + c.after) < width) continue;
    for (std::size_t i = from; i < to; ++i)
      of[members[i]] = static_cast<int>(classes.size());
    classes.push_back(c);
  }
}

class Lines {
public:
  Lines(const std::vector<Rect>& rects, const Strip& strip)
      : rects_(rects), step_(std::gcd(strip.repeat->repeat_v, strip.repeat->drop)),
        ways_(ways_across(rects, strip)), class_of_(rects.size(), -1) {
    std::map<int, Ticks> areas;
    for (const auto& r : rects)
      if (r.match >= 0) areas[r.match] -= r.w * r.l;
    std::vector<std::pair<Ticks, int>> largest;
    for (const auto& [match, area] : areas)
      largest.emplace_back(area, match);
    std::stable_sort(largest.begin(), largest.end());
    if (largest.size() > kMostGroups) largest.resize(kMostGroups);
    for (const auto& [area, match] : largest) {
      const int index = static_cast<int>(groups_.size());
      groups_.push_back(group_of(rects, match, step_));
      const bool may_divide = classes_.size() + largest.size() - groups_.size() + 1 < kMostClasses;
      classify(rects, groups_.back().members, strip.width, index, may_divide, classes_, class_of_);
    }
    if (strip.width / strip.repeat->repeat_u > kMostColumns)
      classes_.clear(), class_of_.assign(rects.size(), -1);
    cases_ = line_weights(classes_, static_cast<int>(groups_.size()), strip.repeat->repeat_u, strip.width);
  }

  Bound bound() {
    if (groups_.empty()) return {};
    std::optional<Ticks> least;
    const auto shifts = shifts_to_try();
    for (const auto& weights : cases_) {
      weights_ = &weights, known_.assign(kMostParts, kUnknown);
      for (const auto& shift : shifts)
        if (const auto length = length_at(shift, least)) least = length;
    }
    return {*least, "lines a pattern step apart"};
  }

private:
  using Parts = std::array<std::size_t, kMostGroups>; // by group; 0 where there is none
  using Shift = std::vector<Ticks>; // by group: where its motifs lie along, against the first group's

  /// Shifts of group b against a at which breaks of the two meet.
  std::vector<Ticks> meetings(std::size_t a, std::size_t b) const {
    std::set<Ticks> all;
    for (Ticks x : groups_[a].breaks)
      for (Ticks y : groups_[b].breaks)
        all.insert(mod(x - y, step_));
    return {all.begin(), all.end()};
  }

  /// Between two shifts at which breaks meet, the length needed is a concave function, for the widest gap is
  /// the largest of several that change evenly. So it is least where as many meet as can.
  std::vector<Shift> shifts_to_try() const {
    std::vector<Shift> all;
    if (groups_.size() == 1) return {{0}};
    const auto second = meetings(0, 1);
    if (groups_.size() == 2) {
      for (Ticks x : second)
        all.push_back({0, x});
      return all;
    }
    const auto third = meetings(0, 2), between = meetings(1, 2);
    for (Ticks x : second)
      for (Ticks y : third)
        all.push_back({0, x, y});
    for (Ticks z : between) {
      for (Ticks x : second)
        all.push_back({0, x, mod(x + z, step_)});
      for (Ticks y : third)
        all.push_back({0, mod(y - z, step_), y});
    }
    return all;
  }

  /// None if it is no less than `limit`.
  std::optional<Ticks> length_at(const Shift& shift, std::optional<Ticks> limit) {
    std::set<Ticks> breaks;
    for (std::size_t g = 0; g < groups_.size(); ++g)
      for (Ticks at : groups_[g].breaks)
        breaks.insert(mod(at + shift[g], step_));
    const std::vector<Ticks> at(breaks.begin(), breaks.end());
    std::vector<Ticks> needed;
    for (Ticks place : at) {
      Parts parts{};
      for (std::size_t g = 0; g < groups_.size(); ++g)
        parts[g] = groups_[g].part_at(mod(place - shift[g], step_));
      needed.push_back(lines_needed(parts));
      if (limit && (needed.back() - 1) * step_ >= *limit) return {};
    }
    // The strip may begin and end where no line needs the most: in the widest gap between those.
    const Ticks most = *std::max_element(needed.begin(), needed.end());
    Ticks gap = 0, widest = 0;
    for (std::size_t i = 0; i < 2 * at.size(); ++i) {
      const std::size_t k = i % at.size();
      const Ticks next = k + 1 < at.size() ? at[k + 1] : at[0] + step_;
      gap = needed[k] == most ? 0 : gap + next - at[k];
      widest = std::max(widest, gap);
    }
    const Ticks length = most * step_ - widest;
    return limit && length >= *limit ? std::nullopt : std::optional(length);
  }

  /// Lines needed where those of each group meet its pieces as in its part.
  Ticks lines_needed(const Parts& parts) {
    Ticks& known = known_[index_of(parts)];
    if (known == kUnknown) known = std::max(by_width(parts), by_weights(parts));
    return known;
  }

  static std::size_t index_of(const Parts& parts) {
    std::size_t index = 0;
    for (const auto part : parts)
      index = index * kMostBreaks + part;
    return index;
  }

  Ticks by_width(const Parts& parts) {
    Ticks& most = known_by_width_[index_of(parts)];
    if (most != kUnknown) return most;
    most = 0;
    std::vector<Ticks> met;
    for (const auto& r : rects_)
      met.push_back(r.l / step_); // at least, wherever it lies
    for (std::size_t g = 0; g < groups_.size(); ++g)
      for (std::size_t m = 0; m < groups_[g].members.size(); ++m)
        met[groups_[g].members[m]] = groups_[g].met[parts[g]][m];
    for (const auto& way : ways_) {
      ByWidth pieces;
      for (std::size_t i = 0; i < rects_.size(); ++i)
        if (way.width[i] > 0 && met[i] > 0) pieces[way.width[i]] += met[i];
      most = std::max(most, lines_by_dual_feasible(pieces, way.room));
    }
    return most;
  }

  Ticks by_weights(const Parts& parts) const {
    std::vector<Ticks> met(classes_.size());
    for (std::size_t g = 0; g < groups_.size(); ++g)
      for (std::size_t m = 0; m < groups_[g].members.size(); ++m)
        if (const int c = class_of_[groups_[g].members[m]]; c >= 0)
          met[static_cast<std::size_t>(c)] += groups_[g].met[parts[g]][m];
    Ticks most = 0;
    for (const auto& w : *weights_)
      most = std::max(
          most, ceil_div(std::inner_product(met.begin(), met.end(), w.of_class.begin(), Ticks{0}), w.whole));
    return most;
  }

  const std::vector<Rect>& rects_;
  const Ticks step_;
  const std::vector<Across> ways_;
  std::vector<Group> groups_;
  std::vector<LineClass> classes_;
  std::vector<int> class_of_;
  std::vector<std::vector<LineWeights>> cases_;
  const std::vector<LineWeights>* weights_ = nullptr;
  std::vector<Ticks> known_, known_by_width_ = std::vector<Ticks>(kMostParts, kUnknown); // by index_of()
};

} // namespace

Bound bound_by_lines(const std::vector<Rect>& rects, const Strip& strip) {
  return Lines(rects, strip).bound();
}

} // namespace treadfold::rows
