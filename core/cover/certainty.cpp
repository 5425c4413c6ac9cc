#include "cover/certainty.h"

#include "cover/reach.h"
#include "cover/starter.h"
#include "measure/reading.h"
#include "units/chance.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <map>
#include <memory>
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
  int part = -1;           // of a curved starter
  Reach reach{};
  std::vector<Slope> slopes;
};

class FlightCertainty {
public:
  FlightCertainty(const std::vector<CoveredPiece>& pieces, CoverStyle style, const CoverInput& input,
                  const Tolerances& tolerances)
      : style_(style), uncut_(input.carpet), input_{uncut_, input.pad, input.allowances, input.unit},
        tape_(tolerances.tape.mm() / 2), knife_(tolerances.knife.mm() / 2),
        spread_(tolerances.spread.mm() / 2) {
    for (const auto& [piece, steps, folded] : pieces) {
      if (folded) folded_ = *folded;
      for (const auto& step : piece.part > 0 ? std::vector<Step>{} : steps) // a starter's pieces share theirs
        for (const auto& reading : readings(step))
          ++stands_for_[{reading, value_mm(step, reading)}];
    }
    if (folded_) { // in one piece, whatever a roll holds
      folded_->longest.reset();
      uncut_.roll_length = kFoot * 1000;
    }
  }

  PieceCertainty of(const CoveredPiece& covered) {
    const auto& piece = covered.piece;
    PieceCertainty result{piece.id, {}, {}, 0, 0};
    const double width = piece.cut_width.mm(), length = piece.cut_length.mm();
    const auto steps = bare(covered.steps);
    if (steps.empty()) { // a floor: each edge at a wall is off by a reading; a seam lies where it is put
      const auto part = piece.breadth.value_or(FloorPart{});
      const auto reach = reach_of(piece, 0);
      const auto demand = [&](bool seam, bool other, const auto& way, double cut,
                              std::vector<Demand>& demands) {
        const double deviation = steady::hypot(std::sqrt(2.0 - seam - other) * tape_, knife_);
        if (!seam || !other) demands.push_back({widest(reach, way), cut, deviation});
      };
      demand(part.seam_left, part.seam_right, kAcross, width, result.across);
      demand(part.seam_back, part.seam_front, kAlong, length, result.along);
    } else {
      auto whole = weighed(steps, piece.part);
      if (folded_) whole.reach = reach_of(piece, (input_.pad + input_.carpet.backing).mm());
      result.along = demands(whole, kAlong, length);
      result.past_net = widest(whole.reach, kAlong) - widest(reach_of(piece, -1e300), kAlong);
      if (piece.runner) return summed(std::move(result)); // as wide as it is cut
      for (const auto& step : steps) {
        const auto across = demands(steps.size() == 1 ? whole : weighed(bare({step}), -1), kAcross, width);
        result.across.insert(result.across.end(), across.begin(), across.end());
      }
    }
    return summed(std::move(result));
  }

private:
  static PieceCertainty summed(PieceCertainty result) {
    double chance = 0;
    for (const auto* demands : {&result.across, &result.along})
      for (const auto& demand : *demands)
        chance += demand.chance();
    result.chance = std::min(1.0, chance);
    return result;
  }

  /// Steps alike are weighed once: a flight has many steps and few kinds.
  const Weighed& weighed(const std::vector<Step>& steps, int part) {
    const auto known = [&](int of_part) {
      return std::find_if(known_.begin(), known_.end(),
                          [&](const auto& w) { return w->steps == steps && w->part == of_part; });
    };
    if (const auto found = known(part); found != known_.end()) return **found;
    const auto reaches = reaches_over(steps);
    assert(!reaches.empty());
    const auto first = known_.size();
    for (std::size_t i = 0; i < reaches.size(); ++i)
      known_.push_back(
          std::make_unique<Weighed>(Weighed{steps, part < 0 ? -1 : static_cast<int>(i), reaches[i], {}}));
    weigh(steps, first);
    return **known(part);
  }

  /// Of the one piece over the steps, or of each of a starter's; none if the steps cannot be one.
  std::vector<Reach> reaches_over(const std::vector<Step>& steps) const {
    Flight flight;
    flight.steps.assign(steps.rbegin(), steps.rend());
    flight.style = style_;
    flight.join = static_cast<int>(steps.size());
    flight.runner = folded_;
    const bool curved = steps.front().starter.has_value();
    const auto pieces =
        curved ? cover_starter(steps.front(), flight, input_, "").pieces : cover_flight(flight, input_, "");
    std::vector<Reach> reaches;
    if (!curved && pieces.size() != 1) return reaches;
    for (const auto& piece : pieces)
      reaches.push_back(reach_of(piece, (input_.pad + input_.carpet.backing).mm()));
    return reaches;
  }

  /// Gives known_[first …], the pieces over `steps`, their slopes.
  void weigh(const std::vector<Step>& steps, std::size_t first) {
    const auto count = known_.size() - first;
    for (std::size_t i = 0; i < steps.size(); ++i)
      for (const auto& reading : readings(steps[i])) {
        const bool together = steps.size() > 1 && alike_when_joined(reading.of);
        if (together && i > 0) continue;
        const auto at = [&](double by) -> std::pair<double, std::vector<Reach>> {
          auto moved = steps;
          for (std::size_t k = together ? 0 : i; k < (together ? steps.size() : i + 1); ++k)
            moved[k] = changed(steps[k], reading, by);
          auto reaches = reaches_over(moved);
          if (reaches.size() == count) return {value_mm(moved[i], reading), std::move(reaches)};
          reaches.clear(); // it falls apart otherwise there
          for (std::size_t k = 0; k < count; ++k)
            reaches.push_back(known_[first + k]->reach);
          return {value_mm(steps[i], reading), std::move(reaches)};
        };
        const auto [high, more] = at(kNudge_mm);
        const auto [low, less] = at(-kNudge_mm);
        if (high == low) continue;
        for (std::size_t p = 0; p < count; ++p) {
          Weighed::Slope slope{i, reading, {}};
          for (std::size_t k = 0; k < slope.per_mm.size(); ++k)
            slope.per_mm[k] = (more[p][k] - less[p][k]) / (high - low);
          known_[first + p]->slopes.push_back(slope);
        }
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
  Carpet uncut_;
  CoverInput input_;
  std::optional<Runner> folded_;
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
  const bool across = std::any_of(result.pieces.begin(), result.pieces.end(),
                                  [](const auto& piece) { return !piece.across.empty(); });
  if (across) result.least_across = ceil_to(from_mm_up(high), cut_step(unit));
  result.least_along = ceil_to(from_mm_up(high + past_net), cut_step(unit));
  return result;
}

} // namespace treadfold
