#include "measure/code.h"

#include "measure/step_list.h"
#include "measure/winder.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

namespace treadfold {
namespace {

struct Limit {
  Length value;
  const char* paragraph;
};

struct Limits {
  const char* name = "";
  LengthUnit unit = LengthUnit::inch; // the code's own
  std::optional<Limit> least_rise, most_rise, least_depth, least_width;
  std::optional<Limit> rise_spread, depth_spread;                 // greatest less least in a flight
  std::optional<Limit> least_winder, winder_spread, least_narrow; // at the walkline, and anywhere
  Length walkline;                                                // from the narrow end
  std::optional<Limit> least_nosing, most_nosing, most_radius, most_bevel;
  Length no_nosing_from; // treads this deep need no nosing
};

/// 3/8 in: what North American codes allow risers of one flight to differ, and where a foot begins to notice.
constexpr Length kNoticed = inches(0, 3, 8);

Limits irc() {
  Limits l;
  l.name = "IRC";
  l.most_rise = {inches(7, 3, 4), "R311.7.5.1"};
  l.least_depth = {inches(10), "R311.7.5.2"};
  l.least_width = {inches(36), "R311.7.1"};
  l.rise_spread = {inches(0, 3, 8), "R311.7.5.1"};
  l.depth_spread = {inches(0, 3, 8), "R311.7.5.2"};
  l.least_nosing = {inches(0, 3, 4), "R311.7.5.3"};
  l.most_nosing = {inches(1, 1, 4), "R311.7.5.3"};
  l.most_radius = {inches(0, 9, 16), "R311.7.5.3"};
  l.most_bevel = {inches(0, 1, 2), "R311.7.5.3"}; // from memory
  l.no_nosing_from = inches(11);
  l.least_winder = {inches(10), "R311.7.5.2.1"};
  l.winder_spread = {inches(0, 3, 8), "R311.7.5.2.1"}; // from memory
  l.least_narrow = {inches(6), "R311.7.5.2.1"};        // from memory
  l.walkline = inches(12);
  return l;
}

Limits ibc() {
  Limits l;
  l.name = "IBC";
  l.least_rise = {inches(4), "1011.5.2"};
  l.most_rise = {inches(7), "1011.5.2"};
  l.least_depth = {inches(11), "1011.5.2"};
  l.rise_spread = {inches(0, 3, 8), "1011.5.4"};
  l.depth_spread = {inches(0, 3, 8), "1011.5.4"};
  l.most_nosing = {inches(1, 1, 4), "1011.5.5"};
  l.most_radius = {inches(0, 9, 16), "1011.5.5"};
  l.least_winder = {inches(11), "1011.5.2"};
  l.least_narrow = {inches(10), "1011.5.2"};
  l.walkline = inches(12);
  return l;
}

constexpr const char* kDocumentK = "section 1, private stair";

Limits uk_private() {
  Limits l;
  l.name = "Approved Document K";
  l.unit = LengthUnit::millimetre;
  l.most_rise = {millimetres(220), kDocumentK};
  l.least_depth = {millimetres(220), kDocumentK};
  l.least_winder = {millimetres(220), kDocumentK};
  l.least_narrow = {millimetres(50), kDocumentK};
  return l;
}

/// Exact, so that a value one tick over its limit does not read as the limit.
std::string exact(Length x, LengthUnit unit) {
  return print_length(x, unit) + (unit == LengthUnit::inch ? "\"" : " mm");
}

/// A measure of some of a flight's steps.
struct Reading {
  int step;
  Length value;
  std::string where;
};
using Readings = std::vector<Reading>;

class Judge {
public:
  Judge(const Flight& flight, const Limits& limits, Problems& problems)
      : flight_(flight), limits_(limits), problems_(problems) {}

  void at_least(const char* what, const std::optional<Limit>& limit, const Readings& readings) {
    if (limit)
      judge(what, "at least " + exact(limit->value, limits_.unit), *limit, readings,
            [&](Length x) { return x < limit->value; });
  }
  void at_most(const char* what, const std::optional<Limit>& limit, const Readings& readings) {
    if (limit)
      judge(what, "at most " + exact(limit->value, limits_.unit), *limit, readings,
            [&](Length x) { return x > limit->value; });
  }
  void alike(const char* what, const std::optional<Limit>& limit, const Readings& readings) {
    if (!limit || readings.empty()) return;
    const auto by_value = [](const Reading& a, const Reading& b) { return a.value < b.value; };
    const auto [least, most] = std::minmax_element(readings.begin(), readings.end(), by_value);
    if (most->value - least->value <= limit->value) return;
    warn(flight_.where,
         fmt::format("{} from {} (step {}) to {} (step {}) in one flight", what,
                     exact(least->value, limits_.unit), least->step, exact(most->value, limits_.unit),
                     most->step),
         fmt::format("no more than {} apart", exact(limit->value, limits_.unit)), limit->paragraph,
         {least->step, most->step});
  }
  void warn(const std::string& where, const std::string& found, const std::string& expected,
            const char* paragraph, const std::vector<int>& steps) {
    problems_.push_back({Severity::warning, where, found,
                         fmt::format("{} ({} {})", expected, limits_.name, paragraph), steps});
  }

private:
  /// One warning for each value that breaks the limit, in order of its first step.
  template <class Breaks>
  void judge(const char* what, const std::string& expected, const Limit& limit, const Readings& readings,
             const Breaks& breaks) {
    std::vector<bool> told(readings.size());
    for (std::size_t i = 0; i < readings.size(); ++i) {
      if (told[i] || !breaks(readings[i].value)) continue;
      std::vector<int> steps;
      for (std::size_t j = i; j < readings.size(); ++j) {
        if (readings[j].value != readings[i].value) continue;
        told[j] = true;
        steps.push_back(readings[j].step);
      }
      warn(steps.size() == 1 ? readings[i].where : flight_.where,
           fmt::format("{} of {} at {}", what, exact(readings[i].value, limits_.unit), step_list(steps)),
           expected, limit.paragraph, steps);
    }
  }

  const Flight& flight_;
  const Limits& limits_;
  Problems& problems_;
};

/// Document K's two rules that tie rise and going together.
void check_slope(const Flight& flight, const Readings& depths, Judge& judge) {
  constexpr Length kLeast = millimetres(550), kMost = millimetres(700);
  constexpr double kTangent42 = 0.90040404429783994; // of 42°
  std::vector<int> short_sum, long_sum, steep;
  for (std::size_t i = 0; i < depths.size(); ++i) {
    const Length rise = flight.steps[static_cast<std::size_t>(depths[i].step) - 1].rise,
                 going = depths[i].value, sum = rise * 2 + going;
    if (sum < kLeast) short_sum.push_back(depths[i].step);
    if (sum > kMost) long_sum.push_back(depths[i].step);
    if (rise.mm() > going.mm() * kTangent42) steep.push_back(depths[i].step);
  }
  if (!short_sum.empty())
    judge.warn(flight.where, "twice the rise plus the going under 550 mm at " + step_list(short_sum),
               "from 550 to 700 mm", kDocumentK, short_sum);
  if (!long_sum.empty())
    judge.warn(flight.where, "twice the rise plus the going over 700 mm at " + step_list(long_sum),
               "from 550 to 700 mm", kDocumentK, long_sum);
  if (!steep.empty())
    judge.warn(flight.where, "a pitch over 42° at " + step_list(steep), "a pitch of at most 42°", kDocumentK,
               steep);
}

/// Where Document K takes the going of a tapered tread: in the middle of a flight narrower than 1 m, else
/// 270 mm from each side (1998 edition, ¶1.18–1.20). A flight is as wide as its narrowest riser: a winder's
/// nosing runs on into the walls' corner.
std::vector<Length> tapered_at(const Flight& flight, const Step& step) {
  Length width = nosing_length(step);
  for (const Step& s : flight.steps)
    width = std::min(width, s.width);
  if (width < millimetres(1000)) return {Length{width.ticks / 2}};
  return {millimetres(270), nosing_length(step) - millimetres(270)};
}

/// What a tape reads: what is computed is judged as it is told, no finer.
Length tape_mark(LengthUnit unit) { return unit == LengthUnit::inch ? inches(0, 1, 16) : kMillimetre; }

/// A computed depth: never more than there is.
Length as_told(Length depth, LengthUnit unit) {
  constexpr Length kNoise{8}; // of the computation
  return floor_to(depth + kNoise, tape_mark(unit));
}

void check_winders(const Flight& flight, StairCode code, const Limits& limits, Judge& judge) {
  Readings walked, narrow;
  for (std::size_t i = 0; i + 1 < flight.steps.size(); ++i) {
    const Step& s = flight.steps[i];
    if (!winds(s)) continue;
    const Length next = flight.steps[i + 1].nosing.projection;
    const auto depth = [&](Length place) { return as_told(winder_depth(s, next, place), limits.unit); };
    narrow.push_back({s.number, depth({}), s.where});
    const auto places =
        code == StairCode::uk_private ? tapered_at(flight, s) : std::vector<Length>{limits.walkline};
    for (const auto& place : places)
      walked.push_back({s.number, depth(place), s.where});
  }
  judge.at_least("a winder's depth where it is walked on", limits.least_winder, walked);
  judge.at_least("a winder's narrow end", limits.least_narrow, narrow);
  judge.alike("winders where they are walked on", limits.winder_spread, walked);
}

void check_trip(const Flight& flight, const Limits& limits, StairCode code, Length build_up,
                Length foot_build_up, Length landing_build_up, Problems& problems) {
  const std::size_t n = flight.steps.size();
  const FinishedRisers finished = finished_risers(flight, build_up, foot_build_up, landing_build_up);
  const bool changed =
      finished.first != flight.steps.front().rise || finished.last != flight.steps.back().rise;
  if (n < 2 || !changed) return;
  Length least = std::min(finished.first, finished.last), most = std::max(finished.first, finished.last);
  for (std::size_t i = 1; i + 1 < n; ++i) {
    least = std::min(least, flight.steps[i].rise);
    most = std::max(most, flight.steps[i].rise);
  }
  if (most - least <= kNoticed) return;
  problems.push_back(
      {Severity::warning,
       flight.where,
       fmt::format(
           "a first riser of {} and a last of {} once the carpet lies: risers {} apart, on which people "
           "trip",
           exact(finished.first, limits.unit), exact(finished.last, limits.unit),
           exact(most - least, limits.unit)),
       fmt::format("floors built up like the treads, or a word with the customer{}",
                   code == StairCode::irc ? " (not a breach of the IRC, which measures without carpet)" : ""),
       {1, static_cast<int>(n)}});
}

} // namespace

Length tread_depth(const Flight& flight, std::size_t index) {
  assert(index + 1 < flight.steps.size());
  const Step& step = flight.steps[index];
  const Length going = step.rectangular() ? step.going : shallowest(step);
  return going + step.nosing.projection - flight.steps[index + 1].nosing.projection;
}

Problems check_code(const Flight& flight, StairCode code, Length build_up, Length foot_build_up,
                    Length landing_build_up) {
  Problems problems;
  if (code == StairCode::none || flight.steps.empty()) return problems;
  const Limits limits = code == StairCode::irc ? irc() : code == StairCode::ibc ? ibc() : uk_private();
  Judge judge(flight, limits, problems);

  Readings rises, depths, widths, nosings, radii, bevels;
  for (std::size_t i = 0; i < flight.steps.size(); ++i) {
    const Step& s = flight.steps[i];
    rises.push_back({s.number, s.rise, s.where});
    if (s.fall_right.ticks != 0) rises.push_back({s.number, s.rise + s.fall_right, s.where});
    widths.push_back(
        {s.number, s.rectangular() ? s.width : ceil_to(s.width, tape_mark(limits.unit)), s.where});
    radii.push_back({s.number, s.nosing.radius, s.where});
    bevels.push_back({s.number, s.nosing.bevel, s.where});
    if (i + 1 == flight.steps.size() || winds(s)) continue;
    const Length depth =
        s.rectangular() ? tread_depth(flight, i) : as_told(tread_depth(flight, i), limits.unit);
    depths.push_back({s.number, depth, s.where});
    if (code == StairCode::ibc || depth < limits.no_nosing_from)
      nosings.push_back({s.number, s.nosing.projection, s.where});
  }
  judge.at_least("a riser", limits.least_rise, rises);
  judge.at_most("a riser", limits.most_rise, rises);
  judge.alike("risers", limits.rise_spread, rises);
  judge.at_least("a tread", limits.least_depth, depths);
  judge.alike("treads", limits.depth_spread, depths);
  check_winders(flight, code, limits, judge);
  if (code == StairCode::uk_private) check_slope(flight, depths, judge);
  judge.at_least("a width", limits.least_width, widths);
  judge.at_least("a nosing", limits.least_nosing, nosings);
  judge.at_most("a nosing", limits.most_nosing, nosings);
  judge.at_most("a nosing rounded to a radius", limits.most_radius, radii);
  judge.at_most("a nosing bevelled", limits.most_bevel, bevels);
  check_trip(flight, limits, code, build_up, foot_build_up, landing_build_up, problems);
  return problems;
}

FinishedRisers finished_risers(const Flight& flight, Length build_up, Length foot_build_up,
                               Length landing_build_up) {
  assert(!flight.steps.empty());
  const Length first = flight.steps.front().rise, last = flight.steps.back().rise;
  if (flight.steps.size() == 1) {
    const Length only = first + landing_build_up - foot_build_up;
    return {only, only};
  }
  return {first + build_up - foot_build_up, last + landing_build_up - build_up};
}

Problems check_count(const Flight& flight, LengthUnit unit) {
  Problems problems;
  const auto risers = static_cast<std::int64_t>(flight.steps.size());
  if (flight.treads_counted && *flight.treads_counted != risers - 1)
    problems.push_back({Severity::error, flight.where,
                        fmt::format("{} risers and {} treads", risers, *flight.treads_counted),
                        fmt::format("one riser more than treads: a flight ends at a landing or floor, whose "
                                    "edge is a riser too. Count again; {} risers go with {} treads",
                                    risers, risers - 1)});
  if (!flight.total_rise || risers == 0) return problems;
  Length sum;
  for (const Step& s : flight.steps)
    sum += s.rise;
  const Length off = sum < *flight.total_rise ? *flight.total_rise - sum : sum - *flight.total_rise;
  const bool whole_step = off * (2 * risers) >= sum;
  if (off <= inches(0, 1, 16) * risers) return problems;
  problems.push_back({whole_step ? Severity::error : Severity::warning, flight.where,
                      fmt::format("{} risers that add up to {}", risers, show_length(sum, unit)),
                      fmt::format("the total rise by tape, {}{}", show_length(*flight.total_rise, unit),
                                  !whole_step                ? ""
                                  : sum < *flight.total_rise ? ": a riser seems to be missing"
                                                             : ": a riser seems to be counted twice")});
  return problems;
}

} // namespace treadfold
