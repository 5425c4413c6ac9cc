#include "measure/curved_front.h"

#include "measure/curve_fit.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;
constexpr double kFine_mm = 0.05;
constexpr Length kSlack = inches(0, 1, 16);    // of a tape
constexpr Length kLeastBend = inches(0, 1, 2); // of the riser's own curve, inside the tightest bend

class Solver {
public:
  Solver(const FrontReadings& readings, const FrontPlace& place) : read_(readings), place_(place) {}

  FrontSolution solve() {
    if (read_.offsets.empty())
      from_ends();
    else
      from_offsets();
    if (result_.front) check_bends();
    if (has_errors(result_.problems)) result_.front.reset();
    return std::move(result_);
  }

private:
  void refuse(const std::string& where, std::string found, std::string expected) {
    result_.problems.push_back({Severity::error, where, std::move(found), std::move(expected)});
  }
  std::string show(Length x) const { return show_length(x, read_.unit); }
  std::string show_mm(double mm) const { return show(from_mm(mm)); }

  Length depth() const { return place_.going + place_.projection; } // of the tread with its nosing

  bool round_fits(const FrontEnd& end, const std::string& where) {
    const auto before = result_.problems.size();
    if (end.past.ticks < 0) refuse(where + "/past", show(end.past), "a length past the riser's end, or 0");
    for (const auto& [name, axis] : {std::pair{"/along", end.along}, std::pair{"/across", end.across}})
      if (axis.ticks <= 0) refuse(where + name, show(axis), "a length more than 0");
    if (end.shape == FrontEndShape::quarter && end.across > depth())
      refuse(where + "/across", show(end.across),
             fmt::format("no more than the tread is deep with its nosing, {}", show(depth())));
    return result_.problems.size() == before;
  }

  /// Seen from the middle outward; `sign` -1 at the left. Spans run outward from the front.
  struct Round {
    double front_x = 0; // where the straight front ends
    Curve spans;
    EdgeStop stop = EdgeStop::wall;
  };
  std::optional<Round> round_of(const FrontEnd& end, const std::string& where) {
    const double width = place_.width.mm(), front_y = -place_.projection.mm(), back_y = place_.going.mm();
    if (end.shape == FrontEndShape::square) return Round{width, {}, EdgeStop::wall};
    if (!round_fits(end, where)) return {};
    const double along = end.along.mm(), across = end.across.mm();
    const PlanPoint centre{width + end.past.mm() - along, front_y + across};
    Round round{centre.x, {}, EdgeStop::back};
    if (end.shape == FrontEndShape::quarter) {
      round.spans.push_back(arc_span(centre, along, across, -kRight, 0));
      const PlanPoint side{centre.x + along, centre.y};
      if (back_y - side.y > kFine_mm) round.spans.push_back(line_span(side, {side.x, back_y}));
      return round;
    }
    round.stop = EdgeStop::stringer;
    // The stringer may stand before the round is done.
    const double beyond = std::max(0.0, width - centre.x) / along;
    const double last = steady::acos(std::min(1.0, beyond));
    const double end_y = centre.y + across * steady::sin(last);
    if (end_y < back_y - kFine_mm) {
      refuse(where + "/across", show(end.across),
             fmt::format("enough to come round behind the next riser: its edge comes back {} before it",
                         show_mm(back_y - end_y)));
      return {};
    }
    round.spans.push_back(arc_span(centre, along, across, -kRight, last));
    if (centre.x - width > kFine_mm) round.spans.push_back(line_span({centre.x, end_y}, {width, end_y}));
    return round;
  }

  /// The same seen from the other side, the way round turned about.
  Curve mirrored(const Curve& curve) const {
    Curve out;
    const double width = place_.width.mm();
    for (auto span = curve.rbegin(); span != curve.rend(); ++span) {
      if (span->arc) {
        const auto& k = span->k;
        out.push_back(arc_span({width - k[0].x, k[0].y}, k[1].x, k[2].y, 2 * kRight - span->to,
                               2 * kRight - span->from));
      } else {
        const auto from = span->at(0), to = span->at(1);
        out.push_back(line_span({width - to.x, to.y}, {width - from.x, from.y}));
      }
    }
    return out;
  }

  void from_ends() {
    if (read_.left.shape == FrontEndShape::square && read_.right.shape == FrontEndShape::square)
      return refuse(read_.where, "a starter with both ends square",
                    "an end that is rounded, or offsets; else it is a step like the others");
    const auto left = round_of(read_.left, read_.where + "/left"),
               right = round_of(read_.right, read_.where + "/right");
    if (!left || !right) return;
    const double width = place_.width.mm(), front_y = -place_.projection.mm();
    const double from = width - left->front_x, to = right->front_x;
    if (to < from - kFine_mm)
      return refuse(read_.where, fmt::format("rounds that overlap by {} on the front", show_mm(from - to)),
                    "less along, or more past the riser's ends");
    CurvedFront front{mirrored(left->spans), left->stop, right->stop};
    if (to - from > kFine_mm) front.edge.push_back(line_span({from, front_y}, {to, front_y}));
    front.edge.insert(front.edge.end(), right->spans.begin(), right->spans.end());
    result_.front = std::move(front);
  }

  /// `along`: direction of the edge there.
  std::optional<EdgeStop> stop_of(const FrontOffset& end, Length riser_end, PlanPoint along) {
    constexpr double kSlant = 0.25; // sine of the flattest way to meet what it stops at
    if (end.out.ticks == 0 && std::abs(along.y) >= kSlant) return EdgeStop::back;
    if (end.at == riser_end && std::abs(along.x) >= kSlant)
      return end.out.ticks > 0 ? EdgeStop::wall : EdgeStop::stringer;
    if (end.out.ticks == 0 || end.at == riser_end) {
      refuse(end.where, "an edge that runs along what it should end at",
             "one that meets the next riser's line, or the line of its end, at an angle");
      return {};
    }
    refuse(end.where, fmt::format("an end {} from the next riser's line", show(end.out)),
           fmt::format("an end on that line ('0'), or in line with the riser's end, at {}", show(riser_end)));
    return {};
  }

  void from_offsets() {
    const auto& offsets = read_.offsets;
    if (offsets.size() < 4)
      return refuse(read_.where, fmt::format("{} offsets", offsets.size()),
                    "4 at least, the edge's own ends first and last");
    std::vector<PlanPoint> points;
    for (std::size_t i = 0; i < offsets.size(); ++i) {
      const auto& o = offsets[i];
      if (i > 0 && o.at == offsets[i - 1].at && o.out == offsets[i - 1].out)
        refuse(o.where, "the same point as the one before", "each point of the edge once");
      points.push_back({o.at.mm(), place_.going.mm() - o.out.mm()});
    }
    if (offsets.front().at >= offsets.back().at)
      refuse(offsets.back().where, fmt::format("the last offset at {}", show(offsets.back().at)),
             "an end to the right of the first");
    if (has_errors(result_.problems)) return;
    auto fit = fit_curve(points, kSlack.mm());
    for (const auto& dent : fit.dents)
      refuse(offsets[dent.point].where,
             fmt::format("a dent {} deep at the offset {}", show_mm(dent.depth_mm),
                         show(offsets[dent.point].out)),
             "an edge that bulges all the way: measure again, or once more on either side");
    const auto ends = facets(fit.curve, kFine_mm);
    const auto left = stop_of(offsets.front(), Length{}, ends.front().along),
               right = stop_of(offsets.back(), place_.width, ends.back().along);
    if (left && right) result_.front = CurvedFront{std::move(fit.curve), *left, *right};
  }

  void check_bends() {
    const double radius = tightest(result_.front->edge).radius;
    const Length inside = std::max(place_.projection, place_.arris);
    if (radius < (inside + kLeastBend).mm())
      refuse(read_.where, fmt::format("a bend of radius {}", show_mm(radius)),
             fmt::format("no bend tighter than {}: the {} {} inside it", show(inside + kLeastBend),
                         place_.projection < place_.arris ? "arris begins" : "riser stands", show(inside)));
  }

  const FrontReadings& read_;
  const FrontPlace& place_;
  FrontSolution result_;
};

} // namespace

FrontSolution solve_front(const FrontReadings& readings, const FrontPlace& place) {
  return Solver(readings, place).solve();
}

FrontReach reach_of(const CurvedFront& front, double width) {
  FrontReach reach;
  for (const auto& p : facets(front.edge, kFine_mm)) {
    reach.left = std::max(reach.left, -p.at.x);
    reach.right = std::max(reach.right, p.at.x - width);
  }
  return reach;
}

} // namespace treadfold
