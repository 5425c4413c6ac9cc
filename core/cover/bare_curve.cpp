#include "cover/bare_curve.h"

#include "measure/uprights.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace treadfold {

namespace {

constexpr double kTolerance_mm = 0.06; // of a facet against the curve
constexpr double kHair_mm = 0.05;
constexpr double kInset_mm = 0.2;
constexpr int kAlong = 160, kAcross = 12;

/// The edge's curve by the length along it.
class Edge {
public:
  explicit Edge(const Curve& curve) {
    constexpr double kFine_mm = 0.002;
    points_ = facets(curve, kFine_mm, 4000);
    run_.push_back(0);
    for (std::size_t i = 1; i < points_.size(); ++i) {
      const auto way = points_[i].at - points_[i - 1].at;
      run_.push_back(run_.back() + steady::hypot(way.x, way.y));
    }
  }
  double length() const { return run_.back(); }

  CurvePoint at(double s) const {
    const auto next = std::upper_bound(run_.begin(), run_.end(), s) - run_.begin();
    const auto &a = points_[static_cast<std::size_t>(next - 1)], &b = points_[static_cast<std::size_t>(next)];
    const double from = run_[static_cast<std::size_t>(next - 1)], to = run_[static_cast<std::size_t>(next)];
    const double share = (s - from) / (to - from);
    CurvePoint p{a.at + share * (b.at - a.at), a.along + share * (b.along - a.along), 0};
    p.along = (1 / steady::hypot(p.along.x, p.along.y)) * p.along;
    return p;
  }

private:
  std::vector<CurvePoint> points_;
  std::vector<double> run_;
};

/// One station across the wood: a point off the edge outward (`off`) and up (z), and the way out of it.
struct Profile {
  double off, z, outward, up;
};

class Curves {
public:
  explicit Curves(const Starter& starter) : edge_(starter.front.edge) {}
  std::vector<BareCurve> take() { return std::move(curves_); }

  void add(const std::string& name, double nearest, double farthest,
           const std::function<Profile(double share)>& profile) {
    BareCurve curve{name, {}};
    const double step = (edge_.length() - 2 * kInset_mm) / (kAlong - 1);
    for (int i = 0; i < kAlong; ++i)
      look(curve, kInset_mm + i * step, nearest, farthest, profile);
    curves_.push_back(std::move(curve));
  }

private:
  void look(BareCurve& curve, double s, double nearest, double farthest,
            const std::function<Profile(double share)>& profile) {
    const auto on = edge_.at(s);
    const PlanPoint out{on.along.y, -on.along.x};
    for (int j = 0; j < kAcross; ++j) {
      const auto p = profile((j + 0.5) / kAcross);
      const auto wood = on.at + p.off * out;
      curve.points.push_back({{wood.x, wood.y, p.z},
                              {p.outward * out.x, p.outward * out.y, p.up},
                              {on.along.x, on.along.y, 0},
                              nearest - kTolerance_mm,
                              farthest + kTolerance_mm});
    }
  }

  Edge edge_;
  std::vector<BareCurve> curves_;
};

double between(double from, double to, double share) { return from + share * (to - from); }
/// The same, the first and last stations hard by the ends.
double inset(double from, double to, double share) {
  const double in = std::min(kInset_mm, std::abs(to - from) / 4) * (to < from ? -1 : 1);
  return between(from + in, to - in, (share * kAcross - 0.5) / (kAcross - 1));
}

} // namespace

std::vector<BareCurve> bare_curves(const BareCurveInput& in) {
  constexpr double kRight = std::numbers::pi / 2;
  const auto& nosing = in.step.nosing;
  const double rise = in.step.rise.mm(), t = nosing.thickness.mm(), r = nosing.radius.mm(),
               o = nosing.projection.mm();
  const double on_wood = in.backing / 2, on_pad = in.pad + on_wood;
  constexpr double kTooth_mm = 25.4 / 48; // by which a tooth's corners may stand off
  const double slack = std::min(kTooth_mm, in.step.starter->strain_limit * (r + on_pad + t + o) * 2);
  Curves curves(*in.step.starter);
  const bool cut = in.step.starter->closing == StarterClosing::cuts;
  const bool underneath = o > 0 && o + in.pad - r - on_wood > kHair_mm;
  if (r > 0)
    curves.add("nosing", on_pad, on_pad + (cut ? slack : 0), [&](double share) {
      const double angle = inset(0, kRight, share);
      return Profile{-r + r * steady::sin(angle), rise - r + r * steady::cos(angle), steady::sin(angle),
                     steady::cos(angle)};
    });
  if (t - 2 * r > kHair_mm)
    curves.add("front", on_pad, on_pad + (cut ? slack : 0), [&](double share) {
      return Profile{0, inset(rise - r, rise - t + r, share), 1, 0};
    });
  if (underneath) {
    if (r > 0) // as far as the carpet on the riser leaves it bare
      curves.add("lower arris", on_wood, on_pad + slack, [&](double share) {
        const double angle = inset(0, steady::acos(std::clamp((r - o + on_wood) / r, 0.0, 1.0)), share);
        return Profile{-r + r * steady::cos(angle), rise - t + r - r * steady::sin(angle), steady::cos(angle),
                       -steady::sin(angle)};
      });
    if (o - r - on_wood > kHair_mm)
      curves.add("under nosing", on_wood, on_wood, [&](double share) {
        return Profile{inset(-r, -o + on_wood, share), rise - t, 0, -1};
      });
    curves.add("riser", on_wood, on_wood, [&](double share) {
      return Profile{-o, inset(rise - t - on_wood, 0, share), 1, 0};
    });
  } else {
    curves.add("riser", o + on_pad, o + on_pad, [&](double share) {
      return Profile{-o, inset(rise - t, 0, share), 1, 0};
    });
  }
  return curves.take();
}

BareFace bare_curved_tread(const BareCurveInput& in) {
  constexpr double kFine_mm = 0.005;
  const auto& front = in.step.starter->front;
  const double r = in.step.nosing.radius.mm(), back = in.step.going.mm(), on_pad = in.pad + in.backing / 2;
  BareFace face{.name = "tread",
                .origin = {0, 0, in.step.rise.mm()},
                .a = {1, 0, 0},
                .b = {0, 1, 0},
                .outward = {0, 0, 1},
                .region = {}};
  for (const auto& p : facets(front.edge, kFine_mm, 2000))
    if (const double y = p.at.y + r * p.along.x; // an end that leans may reach behind the next riser's line
        y <= back || (p.at.x < in.step.width.mm() / 2 ? front.left : front.right) != EdgeStop::back)
      face.region.outline.push_back({p.at.x - r * p.along.y, y});
  const double right = front.right == EdgeStop::back ? face.region.outline.back().a : in.step.width.mm(),
               left = front.left == EdgeStop::back ? face.region.outline.front().a : 0;
  face.region.outline.push_back({right, back});
  face.region.outline.push_back({left, back});
  for (const auto& upright : in.step.uprights) {
    RegionOutline foot;
    for (const auto& p : footprint(upright))
      foot.push_back({p.x, p.y});
    face.region.holes.push_back(foot);
    face.uprights.push_back(std::move(foot));
  }
  face.nearest = on_pad - kTolerance_mm;
  face.farthest = on_pad + kTolerance_mm;
  return face;
}

} // namespace treadfold
