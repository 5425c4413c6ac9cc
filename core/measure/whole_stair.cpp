#include "measure/whole_stair.h"

#include "measure/plan_ring.h"
#include "measure/step_frames.h"
#include "measure/tread_plan.h"
#include "measure/winder.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

using Outline = PlanRing;

constexpr double kNothing_mm = 25.4 / 16; // less than this is within what a tape reads

/// What two convex outlines share (Sutherland and Hodgman's clipping). `by`: anticlockwise.
Outline shared(Outline outline, const Outline& by) {
  for (std::size_t i = 0; i < by.size() && !outline.empty(); ++i) {
    const auto &a = by[i], &b = by[(i + 1) % by.size()];
    const auto inward = [&](PlanPoint p) { return (b.x - a.x) * (p.y - a.y) - (b.y - a.y) * (p.x - a.x); };
    Outline kept;
    for (std::size_t k = 0; k < outline.size(); ++k) {
      const auto &p = outline[k], &q = outline[(k + 1) % outline.size()];
      const double in_p = inward(p), in_q = inward(q);
      if (in_p >= 0) kept.push_back(p);
      if ((in_p < 0) != (in_q < 0)) {
        const double t = in_p / (in_p - in_q);
        kept.push_back({p.x + t * (q.x - p.x), p.y + t * (q.y - p.y)});
      }
    }
    outline = std::move(kept);
  }
  return outline;
}

Outline anticlockwise(Outline outline) {
  if (area_mm2(outline) < 0) std::reverse(outline.begin(), outline.end());
  return outline;
}

/// Between riser, side lines and the next riser.
Outline body(const Step& step) {
  auto outline = side_line(step, Hand::right);
  const auto left = side_line(step, Hand::left);
  outline.insert(outline.end(), left.rbegin(), left.rend());
  return anticlockwise(std::move(outline));
}

/// The part of a curved starter that lies behind the next riser's line at a hand.
Outline behind_line(const Step& step, Hand hand) {
  constexpr double kFine_mm = 0.5;
  const double back = step.going.mm(), middle = step.width.mm() / 2;
  Outline outline;
  for (const auto& p : facets(step.starter->front.edge, kFine_mm))
    if (p.at.y > back && (p.at.x < middle) == (hand == Hand::left)) outline.push_back(p.at);
  if (outline.empty()) return outline;
  const double from = hand == Hand::left ? 0 : step.width.mm(),
               to = hand == Hand::left ? outline.back().x : outline.front().x;
  outline.insert(hand == Hand::left ? outline.end() : outline.begin(), {to, back});
  outline.insert(hand == Hand::left ? outline.begin() : outline.end(), {from, back});
  return anticlockwise(std::move(outline));
}

/// The part of a tread that runs past the next riser at an open end.
Outline return_of(const Step& step, Hand hand) {
  if (step.starter) return behind_line(step, hand);
  const auto& side = hand == Hand::left ? step.left : step.right;
  const auto own = side_line(step, hand),
             other = side_line(step, hand == Hand::left ? Hand::right : Hand::left);
  const double sign = hand == Hand::left ? -1 : 1;
  const auto unit = [](double x, double y) {
    return PlanPoint{x / steady::hypot(x, y), y / steady::hypot(x, y)};
  };
  const auto in = unit(own.back().x - own.front().x, own.back().y - own.front().y);
  const PlanPoint out{sign * in.y, -sign * in.x};
  const auto along = unit(own.back().x - other.back().x, own.back().y - other.back().y);
  const PlanPoint back{-sign * along.y, sign * along.x};
  const double e = side.overhang.mm() / (out.x * along.x + out.y * along.y);
  const double q = side.return_past.mm() / (in.x * back.x + in.y * back.y);
  const auto at = [&](double a, double b) {
    return PlanPoint{own.back().x + a * along.x + b * in.x, own.back().y + a * along.y + b * in.y};
  };
  return anticlockwise({at(0, 0), at(e, 0), at(e, q), at(0, q)});
}

Outline moved(Outline outline, const StepFrame& frame) {
  for (auto& p : outline)
    p = frame.at(p);
  return outline;
}

const char* name(Hand hand) { return hand == Hand::left ? "left" : "right"; }

class Check {
public:
  explicit Check(const Flight& flight) : flight_(flight), frames_(step_frames(flight)) {}

  Problems run() {
    for (std::size_t i = 0; i + 1 < flight_.steps.size(); ++i)
      for (const auto hand : {Hand::left, Hand::right}) {
        const auto& step = flight_.steps[i];
        if ((hand == Hand::left ? step.left : step.right).closed() || step.open_riser) continue;
        reaching_return(i, hand);
      }
    turns();
    return std::move(problems_);
  }

private:
  void warn(const std::string& where, std::string found, std::string expected, std::vector<int> steps) {
    problems_.push_back({Severity::warning, where, std::move(found), std::move(expected), std::move(steps)});
  }

  void reaching_return(std::size_t i, Hand hand) {
    const auto &step = flight_.steps[i], &above = flight_.steps[i + 1];
    const auto region = moved(return_of(step, hand), frames_[i]);
    const double both = area_mm2(shared(region, moved(body(above), frames_[i + 1])));
    if (region.size() < 3 || both < kNothing_mm * kNothing_mm) return;
    const double share = both / area_mm2(region);
    if (share < 0.02) return;
    warn(step.where,
         fmt::format("the {} return of step {} reaching into step {}: both would be on {:.0f} % of it",
                     name(hand), step.number, above.number, 100 * share),
         "a return that ends before the riser above and its stringer; measure it again, or trim the piece "
         "there",
         {step.number, above.number});
  }

  void turns() {
    constexpr double kQuarter = std::numbers::pi / 2, kDegree = std::numbers::pi / 180;
    const double turned = std::abs(frames_.back().turn_rad);
    const double off = std::abs(turned - kQuarter * std::round(turned / kQuarter));
    if (turned < 30 * kDegree || off < 1 * kDegree || off > 10 * kDegree) return;
    std::vector<int> winders;
    for (std::size_t i = 0; i + 1 < flight_.steps.size(); ++i)
      if (winds(flight_.steps[i])) winders.push_back(flight_.steps[i].number);
    warn(flight_.where, fmt::format("winders that turn {:.1f}° in all", turned / kDegree),
         fmt::format("{:.0f}° if the stair turns square; measure the winders again, or it is out of square",
                     std::round(turned / kQuarter) * 90),
         std::move(winders));
  }

  const Flight& flight_;
  std::vector<StepFrame> frames_;
  Problems problems_;
};

/// Two flights whose landing edges lie on the same part of one floor.
void check_arrivals(const Stair& stair, LengthUnit unit, Problems& problems) {
  for (std::size_t i = 0; i < stair.flights.size(); ++i)
    for (std::size_t k = i + 1; k < stair.flights.size(); ++k) {
      const auto &a = stair.flights[i], &b = stair.flights[k];
      if (!a.arrival || !b.arrival || a.arrival->floor != b.arrival->floor) continue;
      const Length from = std::max(a.arrival->from_left, b.arrival->from_left),
                   to = std::min(a.arrival->from_left + a.steps.back().width,
                                 b.arrival->from_left + b.steps.back().width);
      if (to > from)
        problems.push_back({Severity::warning, b.arrival->where,
                            fmt::format("'{}' and '{}' arriving at the same {} of '{}'", a.name, b.name,
                                        show_length(to - from, unit), a.arrival->floor),
                            "flights side by side"});
      else if (a.arrival->joined || b.arrival->joined)
        problems.push_back(
            {Severity::warning, b.arrival->where,
             fmt::format("'{}' seamed to a landing that is one piece with another flight: its landing "
                         "edge would be covered twice",
                         (a.arrival->joined ? b : a).name),
             "the landing seamed to both flights"});
    }
}

} // namespace

Problems check_whole_stair(const Stair& stair, LengthUnit unit) {
  Problems problems;
  for (const auto& flight : stair.flights)
    for (auto& problem : Check(flight).run())
      problems.push_back(std::move(problem));
  check_arrivals(stair, unit, problems);
  return problems;
}

} // namespace treadfold
