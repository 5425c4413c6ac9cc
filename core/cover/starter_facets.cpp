#include "cover/starter_facets.h"

#include "cover/relief_cuts.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <optional>

namespace treadfold {

namespace {

constexpr double kWidestTooth_mm = 50.8;

PlanPoint unit(PlanPoint p) { return (1 / steady::hypot(p.x, p.y)) * p; }
PlanPoint right_of(PlanPoint along) { return {along.y, -along.x}; }

PlanPoint mitre_of(PlanPoint before, PlanPoint after) {
  const auto a = right_of(before), b = right_of(after);
  return (1 / (1 + dot(a, b))) * (a + b);
}

bool is_line(const CurveSpan& span) {
  const auto none = [](PlanPoint p) { return p.x == 0 && p.y == 0; };
  return !span.arc && none(span.k[2]) && none(span.k[3]);
}

/// Curved spans end to end, walked by weight: length over the root of the bend's radius.
class Run {
public:
  /// `least`: of weight per mm, where the curve is nearly straight.
  Run(Curve::const_iterator begin, Curve::const_iterator end, double least) {
    constexpr int kSteps = 400;
    for (auto span = begin; span != end; ++span)
      for (int i = 0; i <= kSteps; ++i) {
        const double t = span->from + (span->to - span->from) * i / kSteps;
        const auto slope = span->slope(t);
        const double speed = steady::hypot(slope.x, slope.y);
        const double bent = std::sqrt(std::abs(cross(slope, span->bend(t))) / speed);
        const double rate = std::max(bent, least * speed); // dW/dt
        const double before = marks_.empty() ? 0 : marks_.back().weight;
        const double step = i == 0 ? 0 : (span->to - span->from) / kSteps * (rate + marks_.back().rate) / 2;
        marks_.push_back({&*span, t, rate, before + step});
      }
  }
  double weight() const { return marks_.back().weight; }
  PlanPoint at(double weight) const {
    const auto next = std::lower_bound(marks_.begin(), marks_.end(), weight,
                                       [](const Mark& m, double w) { return m.weight < w; });
    if (next == marks_.begin()) return next->span->at(next->t);
    if (next == marks_.end()) return marks_.back().span->at(marks_.back().t);
    const auto& before = *(next - 1);
    if (before.span != next->span) return next->span->at(next->t);
    const double share = (weight - before.weight) / (next->weight - before.weight);
    return next->span->at(before.t + share * (next->t - before.t));
  }

private:
  struct Mark {
    const CurveSpan* span;
    double t, rate, weight;
  };
  std::vector<Mark> marks_;
};

class Maker {
public:
  Maker(double chord_error, double tooth_off)
      : facet_(tooth_weight(chord_error)), tooth_(tooth_weight(tooth_off)) {}

  StarterFacets make(const CurvedFront& front) {
    f_.at.push_back(front.edge.front().at(front.edge.front().from));
    f_.teeth.ends.push_back(0);
    for (auto span = front.edge.begin(); span != front.edge.end();) {
      if (is_line(*span)) {
        if (straight_) finish(*straight_);
        straight_ = f_.straight.size();
        add(span->at(span->to), true);
        ++span;
        continue;
      }
      const auto end = std::find_if(span, front.edge.end(), is_line);
      add_run({span, end, std::isinf(tooth_) ? 0 : tooth_ / kWidestTooth_mm}, end != front.edge.end());
      span = end;
    }
    if (straight_) finish(*straight_);
    if (std::isinf(tooth_)) f_.teeth = {};
    for (std::size_t i = 0; i + 1 < f_.at.size(); ++i)
      f_.along.push_back(unit(f_.at[i + 1] - f_.at[i]));
    join_flat_teeth();
    const auto square_to = [](PlanPoint slope, PlanPoint facet) { // the curve, not its facet
      const auto out = right_of(slope);
      return (1 / dot(out, right_of(facet))) * out;
    };
    const auto &first = front.edge.front(), &last = front.edge.back();
    f_.mitre.push_back(square_to(first.slope(first.from), f_.along.front()));
    for (std::size_t k = 1; k < f_.count(); ++k)
      f_.mitre.push_back(mitre_of(f_.along[k - 1], f_.along[k]));
    f_.mitre.push_back(square_to(last.slope(last.to), f_.along.back()));
    return std::move(f_);
  }

private:
  void add(PlanPoint p, bool straight) {
    f_.at.push_back(p);
    f_.straight.push_back(straight);
  }
  /// The tooth in line with `middle` ends here.
  void finish(std::size_t middle) {
    if (f_.straight.size() == f_.teeth.ends.back()) return;
    f_.teeth.ends.push_back(f_.straight.size());
    f_.teeth.middle.push_back(middle);
  }
  /// `count` facets from one weight to another.
  void add_facets(const Run& run, double from, double to, int count) {
    for (int i = 1; i <= count; ++i)
      add(run.at(from + (to - from) * i / count), false);
  }

  /// Where the edge does not bulge from one tooth to the next, as in a wave too faint to be a dent, there is
  /// nothing to cut out between them.
  void join_flat_teeth() {
    constexpr double kFlat_rad = 1e-4;
    auto& teeth = f_.teeth;
    for (std::size_t i = 1; i < teeth.count();) {
      if (cross(f_.along[teeth.middle[i - 1]], f_.along[teeth.middle[i]]) > kFlat_rad) {
        ++i;
        continue;
      }
      const auto at = static_cast<std::ptrdiff_t>(i);
      teeth.ends.erase(teeth.ends.begin() + at);
      teeth.middle.erase(teeth.middle.begin() + at);
      teeth.middle[i - 1] = (teeth.ends[i - 1] + teeth.ends[i]) / 2;
    }
  }

  void add_run(const Run& run, bool line_behind) {
    const double all = run.weight();
    if (std::isinf(tooth_)) {
      straight_.reset();
      return add_facets(run, 0, all, std::max(1, static_cast<int>(std::ceil(all / facet_))));
    }
    const double halves = (straight_ ? 0.5 : 0) + (line_behind ? 0.5 : 0);
    const int teeth = std::max(halves == 0 ? 1 : 0, static_cast<int>(std::ceil(all / tooth_ - halves)));
    const double tooth = all / (teeth + halves);
    const int half = static_cast<int>(std::ceil(tooth / facet_ / 2)), whole = 2 * half + 1;
    double done = 0;
    if (straight_) {
      add_facets(run, 0, tooth / 2, half + 1);
      finish(*straight_);
      straight_.reset();
      done = tooth / 2;
    }
    for (int i = 0; i < teeth; ++i, done += tooth) {
      add_facets(run, done, done + tooth, whole);
      finish(f_.straight.size() - 1 - static_cast<std::size_t>(half));
    }
    if (line_behind) add_facets(run, done, all, half + 1);
  }

  const double facet_, tooth_;          // weights, at most
  std::optional<std::size_t> straight_; // in the middle of a tooth that is not finished
  StarterFacets f_;
};

} // namespace

std::vector<PlanPoint> StarterFacets::line(double off) const {
  std::vector<PlanPoint> points;
  for (std::size_t k = 0; k < at.size(); ++k)
    points.push_back(corner(k, off));
  return points;
}

StarterFacets starter_facets(const CurvedFront& front, double chord_error, double tooth_off) {
  return Maker(chord_error, tooth_off).make(front);
}

} // namespace treadfold
