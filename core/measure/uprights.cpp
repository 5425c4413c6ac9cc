#include "measure/uprights.h"

#include "measure/step_frames.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr int kRoundPoints = 96; // 0.04 mm off the circle of a 6 in newel
constexpr double kTouch_mm = 1e-6;
constexpr double kHair_mm = 0.05;                // by which round footprints seem nearer than they are
constexpr Length kLeastApart = inches(0, 1, 4);  // carpet between two holes
constexpr Length kLeastBehind = inches(0, 1, 2); // end left behind what is let into it

using Footprint = std::vector<PlanPoint>;

/// A line in plan with the tread on its inner side.
struct Limit {
  PlanPoint on, outward; // unit
  double past(PlanPoint p) const { return (p.x - on.x) * outward.x + (p.y - on.y) * outward.y; }
};

PlanPoint unit(PlanPoint v) {
  const double length = steady::hypot(v.x, v.y);
  return {v.x / length, v.y / length};
}

Limit through(PlanPoint a, PlanPoint b, Hand hand) { // from the riser into the stair
  const auto in = unit({b.x - a.x, b.y - a.y});
  return {a, hand == Hand::right ? PlanPoint{in.y, -in.x} : PlanPoint{-in.y, in.x}};
}

/// Of the front that is no level tread.
Length bend_of(const Nosing& nosing) { return nosing.radius + nosing.bevel; }

const Side& side_of(const Step& step, Hand hand) { return hand == Hand::left ? step.left : step.right; }

/// The tread's end, or the first stretch of the wall or skirt.
Limit end_limit(const Step& step, Hand hand) {
  const auto line = side_line(step, hand);
  auto limit = through(line[0], line[1], hand);
  const double out = side_of(step, hand).overhang.mm();
  limit.on = {limit.on.x + out * limit.outward.x, limit.on.y + out * limit.outward.y};
  return limit;
}

Limit next_riser(const Step& step) {
  const auto l = side_line(step, Hand::left).back(), r = side_line(step, Hand::right).back();
  const auto along = unit({r.x - l.x, r.y - l.y});
  return {l, {-along.y, along.x}};
}

double farthest(const Footprint& foot, const Limit& limit) {
  double past = -1e300;
  for (const auto& p : foot)
    past = std::max(past, limit.past(p));
  return past;
}
double nearest(const Footprint& foot, const Limit& limit) {
  return -farthest(foot, {limit.on, {-limit.outward.x, -limit.outward.y}});
}

/// Distance between convex outlines along the directions of their own edges; less than or equal to the true
/// one, negative where they overlap.
double apart(const Footprint& a, const Footprint& b) {
  double most = -1e300;
  for (const auto& [own, other] : {std::pair{&a, &b}, std::pair{&b, &a}})
    for (std::size_t i = 0; i < own->size(); ++i) {
      const auto &p = (*own)[i], &q = (*own)[(i + 1) % own->size()];
      most = std::max(most, nearest(*other, through(p, q, Hand::right)));
    }
  return most;
}

class Checker {
public:
  Checker(const Flight& flight, LengthUnit unit) : flight_(flight), unit_(unit) {}

  Problems take() { return std::move(problems_); }

  void step(std::size_t index) {
    const auto& step = flight_.steps[index];
    std::vector<Footprint> feet;
    for (const auto& upright : step.uprights)
      feet.push_back(footprint(upright));
    for (std::size_t i = 0; i < feet.size(); ++i) {
      step_ = &step;
      upright_ = i;
      where_ = step.uprights[i].where;
      if (step.starter)
        curved_front(step, feet[i]);
      else
        front(step, feet[i]);
      back(index, feet[i]);
      for (const auto hand : {Hand::left, Hand::right})
        if (!step.starter || side_of(step, hand).closed()) side(step, hand, feet[i]);
      for (std::size_t k = 0; k < i; ++k)
        if (apart(feet[i], feet[k]) < kLeastApart.mm() - kHair_mm)
          refuse("too near to another upright",
                 fmt::format("{} of tread or more between them", show(kLeastApart)));
    }
  }

private:
  static int ordinal(const Step& step, std::size_t i) {
    int number = 1;
    for (std::size_t k = 0; k < i; ++k)
      if (step.uprights[k].word == step.uprights[i].word) ++number;
    return number;
  }
  std::string show(Length x) const { return show_length(x, unit_); }

  /// Once for each place and reason: a usual step would say it of every step.
  void refuse(const std::string& reason, std::string expected) {
    const auto same = [&](const Problem& p) { return p.where == where_ && p.found.ends_with(reason); };
    if (std::none_of(problems_.begin(), problems_.end(), same))
      problems_.push_back({Severity::error, where_,
                           fmt::format("{} {} of step {} {}", step_->uprights[upright_].word,
                                       ordinal(*step_, upright_), step_->number, reason),
                           std::move(expected)});
  }

  void front(const Step& step, const Footprint& foot) {
    const Limit bend{{0, (bend_of(step.nosing) - step.nosing.projection).mm()}, {0, -1}};
    if (farthest(foot, bend) > kTouch_mm)
      refuse("in front of the tread's level",
             fmt::format("its front {} or more behind the nosing's front", show(bend_of(step.nosing))));
  }

  /// Its edge bulges all the way, so that a footprint is behind it where it is behind each facet.
  void curved_front(const Step& step, const Footprint& foot) {
    constexpr double kFacet_mm = 0.1;
    const double bend = bend_of(step.nosing).mm();
    const auto edge = facets(step.starter->front.edge, kFacet_mm);
    for (std::size_t i = 0; i + 1 < edge.size(); ++i)
      if (farthest(foot, through(edge[i].at, edge[i + 1].at, Hand::right)) > kTouch_mm - bend) {
        refuse("in front of the tread's level",
               fmt::format("all of it {} or more behind the nosing's edge", show(bend_of(step.nosing))));
        return;
      }
  }

  void back(std::size_t index, const Footprint& foot) {
    const auto& step = flight_.steps[index];
    const Limit limit = next_riser(step);
    const double past = farthest(foot, limit);
    if (step.landing_edge) {
      if (past > kTouch_mm) refuse("behind the landing's seam", "its back at the seam or in front of it");
      return;
    }
    const bool under_next = index + 1 < flight_.steps.size() && !beside_next(index, foot);
    auto nosing = under_next ? flight_.steps[index + 1].nosing.projection : Length{};
    if (step.open_riser) nosing = std::max(nosing, bend_of(step.nosing)); // rounded at its back as well
    if (past > kTouch_mm && !step.open_riser)
      refuse("in the next riser", "its back at that riser's face or in front of it");
    else if (past > -nosing.mm() + kTouch_mm)
      refuse(step.open_riser ? "behind the tread's level or in the next tread"
                             : "in the nosing of the next step",
             fmt::format("its back {} or more in front of the {}", show(nosing),
                         step.open_riser ? "tread's back" : "next riser"));
  }

  /// Beside a narrower tread above, where this one's back stands free.
  bool beside_next(std::size_t index, const Footprint& foot) const {
    const auto &step = flight_.steps[index], &next = flight_.steps[index + 1];
    const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
    const PlanPoint along = unit({right.x - left.x, right.y - left.y});
    const auto past = [&](PlanPoint end, PlanPoint out, Length free, const Side& above) {
      const double from = above.overhang.mm() - free.mm(); // of the tread above, outward from this one's end
      return free.ticks > 0 &&
             nearest(foot, {{end.x + from * out.x, end.y + from * out.y}, out}) > -kTouch_mm;
    };
    return past(left, {-along.x, -along.y}, step.free_back_left, next.left) ||
           past(right, along, step.free_back_right, next.right);
  }

  void side(const Step& step, Hand hand, const Footprint& foot) {
    const char* name = hand == Hand::left ? "left" : "right";
    if (side_of(step, hand).closed()) {
      const auto line = side_line(step, hand);
      for (std::size_t i = 0; i + 1 < line.size(); ++i)
        if (farthest(foot, through(line[i], line[i + 1], hand)) > kTouch_mm) {
          refuse(fmt::format("outside the tread, on the {}", name), "all of it on the tread");
          return;
        }
      return;
    }
    const auto end = end_limit(step, hand);
    if (farthest(foot, end) <= kTouch_mm) return;
    const auto back = step.landing_edge ? Length{} : side_of(step, hand).return_past;
    if (step.open_riser) {
      refuse("let into the end of a tread without risers", "all of it on the tread");
    } else if (nearest(foot, end) > -kTouch_mm) {
      refuse(fmt::format("outside the tread, on the {}", name), "some of it on the tread");
    } else if (farthest(foot, {{0, 0}, {0, -1}}) > kTouch_mm ||
               farthest(foot, next_riser(step)) > (back - kLeastBehind).mm() + kTouch_mm) {
      refuse(fmt::format("let into the {} end at a corner of the tread", name),
             fmt::format("no part of it in front of the riser's face, and {} of the end behind it",
                         show(kLeastBehind)));
    }
  }

  const Flight& flight_;
  LengthUnit unit_;
  const Step* step_ = nullptr; // that of the upright looked at
  std::size_t upright_ = 0;
  std::string where_;
  Problems problems_;
};

} // namespace

std::vector<Upright> stand(const Step& step, const UprightRow& row) {
  const auto end = end_limit(step, row.side);
  const double in = row.from_end.mm(), y = (row.from_nosing - step.nosing.projection).mm();
  // On the line from_end inside the end, where it has the height y.
  const PlanPoint out = end.outward,
                  along{-out.y, out.x}; // into the stair at the right, out of it at the left
  const PlanPoint on{end.on.x - in * out.x, end.on.y - in * out.y};
  const double sign = along.y > 0 ? 1 : -1, to = (y - on.y) / along.y;
  std::vector<Upright> uprights;
  for (int i = 0; i < row.count; ++i) {
    const double at = to + sign * i * row.spacing.mm();
    uprights.push_back(
        {row.word, row.round, {on.x + at * along.x, on.y + at * along.y}, row.width, row.depth, row.where});
  }
  return uprights;
}

std::vector<PlanPoint> footprint(const Upright& upright) {
  const auto c = upright.centre;
  const double x = upright.width.mm() / 2, y = upright.depth.mm() / 2;
  if (!upright.round) return {{c.x - x, c.y - y}, {c.x + x, c.y - y}, {c.x + x, c.y + y}, {c.x - x, c.y + y}};
  std::vector<PlanPoint> points;
  for (int i = 0; i < kRoundPoints; ++i) {
    const double angle = 2 * std::numbers::pi * i / kRoundPoints;
    points.push_back({c.x + x * steady::cos(angle), c.y + y * steady::sin(angle)});
  }
  return points;
}

Problems check_uprights(const Flight& flight, LengthUnit unit) {
  auto framed = flight;
  set_free_backs(framed);
  Checker checker(framed, unit);
  for (std::size_t i = 0; i < flight.steps.size(); ++i)
    checker.step(i);
  return checker.take();
}

} // namespace treadfold
