#include "cover/certainty.h"

#include "cover/reach.h"
#include "measure/reading.h"
#include "units/chance.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
#include <memory>
#include <numbers>
#include <optional>
#include <utility>

namespace treadfold {

namespace {

constexpr double kNudge_mm = 0.1; // small enough for any step, 800 ticks
constexpr double kSame = 1e-6;    // slopes closer than that are one

/// Without what changes no size: the steps' places in their flight and in the job, what stands on them.
std::vector<Step> bare(std::vector<Step> steps) {
  int number = static_cast<int>(steps.size());
  for (auto& step : steps) {
    step.number = number--;
    step.where.clear();
    step.uprights.clear();
  }
  return steps;
}

/// Joined steps are alike in these, or they would not be joined: one changes with all.
bool alike_when_joined(Reading::Of of) {
  using Of = Reading::Of;
  return of == Of::width || of == Of::left_overhang || of == Of::right_overhang;
}

/// How a piece over some steps reaches, and how that changes with each reading of each.
struct Weighed {
  struct Slope {
    std::size_t step = 0;
    Reading reading;
    Reach per_mm{};
  };
  std::vector<Step> steps; // highest first
  Reach reach{};
  std::vector<Slope> slopes;
};

class FlightCertainty {
public:
  FlightCertainty(const std::vector<CoveredPiece>& pieces, CoverStyle style, const CoverInput& input,
                  const Tolerances& tolerances)
      : style_(style), input_(input), tape_(tolerances.tape.mm() / 2), knife_(tolerances.knife.mm() / 2),
        spread_(tolerances.spread.mm() / 2) {
    for (const auto& [piece, steps] : pieces)
      for (const auto& step : steps)
        for (const auto& reading : readings(step))
          ++stands_for_[{reading, value_mm(step, reading)}];
  }

  PieceCertainty of(const CoveredPiece& covered) {
    const auto& piece = covered.piece;
    PieceCertainty result{piece.id, {}, {}, 0, 0};
    const double width = piece.cut_width.mm(), length = piece.cut_length.mm();
    const auto steps = bare(covered.steps);
    if (steps.empty()) { // a floor: each of two edges is off by a reading
      const double deviation = steady::hypot(std::numbers::sqrt2 * tape_, knife_);
      const auto reach = reach_of(piece, 0);
      result.across = {{widest(reach, kAcross), width, deviation}};
      result.along = {{widest(reach, kAlong), length, deviation}};
    } else {
      const auto& whole = weighed(steps);
      result.along = demands(whole, kAlong, length);
      result.past_net = widest(whole.reach, kAlong) - widest(reach_of(piece, -1e300), kAlong);
      for (const auto& step : steps) {
        const auto across = demands(steps.size() == 1 ? whole : weighed(bare({step})), kAcross, width);
        result.across.insert(result.across.end(), across.begin(), across.end());
      }
    }
    double chance = 0;
    for (const auto* demands : {&result.across, &result.along})
      for (const auto& demand : *demands)
        chance += demand.chance();
    result.chance = std::min(1.0, chance);
    return result;
  }

private:
  /// Steps alike are weighed once: a flight has many steps and few kinds.
  const Weighed& weighed(const std::vector<Step>& steps) {
    for (const auto& known : known_)
      if (known->steps == steps) return *known;
    const auto reach = reach_over(steps);
    assert(reach);
    known_.push_back(std::make_unique<Weighed>(Weighed{steps, *reach, {}}));
    weigh(*known_.back());
    return *known_.back();
  }

  /// Of one piece over the steps; nothing if they cannot be one.
  std::optional<Reach> reach_over(const std::vector<Step>& steps) const {
    Flight flight;
    flight.steps.assign(steps.rbegin(), steps.rend());
    flight.style = style_;
    flight.join = static_cast<int>(steps.size());
    const auto pieces = cover_flight(flight, input_, "");
    if (pieces.size() != 1) return {};
    return reach_of(pieces[0], (input_.pad + input_.carpet.backing).mm());
  }

  void weigh(Weighed& weighed) const {
    const auto& steps = weighed.steps;
    for (std::size_t i = 0; i < steps.size(); ++i)
      for (const auto& reading : readings(steps[i])) {
        const bool together = steps.size() > 1 && alike_when_joined(reading.of);
        if (together && i > 0) continue;
        const auto at = [&](double by) -> std::pair<double, Reach> {
          auto moved = steps;
          for (std::size_t k = together ? 0 : i; k < (together ? steps.size() : i + 1); ++k)
            moved[k] = changed(steps[k], reading, by);
          const auto reach = reach_over(moved);
          if (!reach) return {value_mm(steps[i], reading), weighed.reach};
          return {value_mm(moved[i], reading), *reach};
        };
        const auto [high, more] = at(kNudge_mm);
        const auto [low, less] = at(-kNudge_mm);
        if (high == low) continue;
        Weighed::Slope slope{i, reading, {}};
        for (std::size_t k = 0; k < slope.per_mm.size(); ++k)
          slope.per_mm[k] = (more[k] - less[k]) / (high - low);
        weighed.slopes.push_back(slope);
      }
  }

  /// One each of the spans, but for those that err as another does and need no more.
  std::vector<Demand> demands(const Weighed& weighed, const Spans& spans, double cut) const {
    std::vector<Span> kept;
    for (const auto& each : spans) {
      const auto as = std::find_if(kept.begin(), kept.end(), [&](const auto& other) {
        return std::all_of(weighed.slopes.begin(), weighed.slopes.end(), [&](const auto& slope) {
          return std::abs(span(slope.per_mm, each) - span(slope.per_mm, other)) < kSame;
        });
      });
      if (as == kept.end())
        kept.push_back(each);
      else if (span(weighed.reach, each) > span(weighed.reach, *as))
        *as = each;
    }
    std::vector<Demand> all;
    for (const auto& each : kept)
      all.push_back({span(weighed.reach, each), cut, deviation(weighed, each)});
    return all;
  }

  double deviation(const Weighed& weighed, Span whole) const {
    std::map<std::pair<Reading, double>, double> shared;
    double variance = knife_ * knife_;
    for (const auto& slope : weighed.slopes) {
      const std::pair key{slope.reading, value_mm(weighed.steps[slope.step], slope.reading)};
      const double per_mm = span(slope.per_mm, whole);
      shared[key] += per_mm;
      const auto stands_for = stands_for_.find(key);
      if (stands_for != stands_for_.end() && stands_for->second > 1)
        variance += per_mm * per_mm * spread_ * spread_;
    }
    for (const auto& [key, per_mm] : shared)
      variance += per_mm * per_mm * tape_ * tape_;
    return std::sqrt(variance);
  }

  CoverStyle style_;
  const CoverInput& input_;
  double tape_, knife_, spread_; // standard deviations, mm
  std::map<std::pair<Reading, double>, int> stands_for_;
  std::vector<std::unique_ptr<Weighed>> known_;
};

/// The chance that one of the demands is not met with `more` mm over the greatest of them, at most.
double chance_with(const std::vector<Demand>& demands, double more) {
  double most = -1e300, sum = 0;
  for (const auto& demand : demands)
    most = std::max(most, demand.need);
  for (const auto& demand : demands)
    sum += Demand{demand.need, most + more, demand.deviation}.chance();
  return sum;
}

double chance_with(const std::vector<PieceCertainty>& pieces, double more) {
  double sum = 0;
  for (const auto& piece : pieces)
    sum += chance_with(piece.across, more) + chance_with(piece.along, more);
  return sum;
}

} // namespace

double Demand::chance() const {
  if (deviation == 0) return need > cut ? 1 : 0;
  return normal_tail((cut - need) / deviation);
}

std::vector<PieceCertainty> certainty(const std::vector<CoveredPiece>& pieces, CoverStyle style,
                                      const CoverInput& input, const Tolerances& tolerances) {
  FlightCertainty flight(pieces, style, input, tolerances);
  std::vector<PieceCertainty> all;
  for (const auto& piece : pieces)
    all.push_back(flight.of(piece));
  return all;
}

StairCertainty of_stair(std::string stair, std::vector<PieceCertainty> pieces, LengthUnit unit) {
  StairCertainty result{std::move(stair), std::move(pieces), 0, {}, {}};
  double low = 0, high = 1, past_net = 0;
  for (const auto& piece : result.pieces) {
    result.chance = std::min(1.0, result.chance + piece.chance);
    past_net = std::max(past_net, piece.past_net);
  }
  while (chance_with(result.pieces, high) >= kShortChance)
    high *= 2;
  for (int i = 0; i < 50; ++i) {
    const double middle = (low + high) / 2;
    (chance_with(result.pieces, middle) < kShortChance ? high : low) = middle;
  }
  result.least_across = ceil_to(from_mm_up(high), cut_step(unit));
  result.least_along = ceil_to(from_mm_up(high + past_net), cut_step(unit));
  return result;
}

} // namespace treadfold
