#include "cover/folded_course.h"

#include "cover/handling.h"
#include "measure/step_frames.h"
#include "measure/step_list.h"
#include "measure/uprights.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kNoFold_rad = 1e-6;
constexpr int kMostTucks = 2; // four layers behind the riser's own: common practice, no source

/// How deep a wedge's tucks are at the narrow edge, square to the crotch.
double depth_of(const CrotchFold& fold, int tucks, double width_mm) {
  const double half = fold.angle() / (2 * tucks); // of a tuck
  const double least = std::min(steady::cos(fold.above_rad - half), steady::cos(fold.below_rad - half));
  return width_mm / least * steady::sin(half);
}

/// From the crotch up the riser's carpet to the underside of the nosing, along the backing.
double room_behind(const Section& s) {
  if (s.under) return s.v_foot - s.v_inner;
  const double above = s.low_z - s.low_radius * steady::sin(s.turn) - (s.lip_z + s.half_backing);
  return s.v_foot - s.v_leave - std::max(0.0, above) / steady::cos(s.turn);
}

} // namespace

double CourseStep::x(Hand edge, double v) const {
  return (edge == Hand::left ? left_x : right_x) + steady::tan(lean_rad) * v;
}

double CourseStep::along_back(Hand edge, double before) const {
  const double slope = steady::tan(lean_rad), x0 = back.x + before * along.y, y0 = back.y - before * along.x;
  return (x(edge, back_y - y0) - x0) / (along.x + slope * along.y);
}

FlatPoint CourseStep::at_back(double along_mm, double before) const {
  return {back.x + along_mm * along.x + before * along.y,
          back_y - (back.y + along_mm * along.y - before * along.x)};
}

Section strip_section(const Step& step, CoverStyle style, const CoverInput& input, bool goes_on) {
  const double pad = input.pad.mm(), backing = input.carpet.backing.mm();
  return section_of({step, style, pad, backing, false, goes_on ? pad + backing / 2 : 0});
}

namespace {

/// The step's back line; of one that does not turn, level at the middle of the runner, whose ends are
/// `from` and `to` along it.
void set_back(CourseStep& c, const Step& step, double from, double to) {
  const auto left = side_line(step, Hand::left).back(), right = side_line(step, Hand::right).back();
  const auto along = right - left;
  const double far = steady::hypot(along.x, along.y);
  c.back = left;
  if (c.turns) {
    c.along = (1 / far) * along;
    c.turn_rad = steady::atan2(along.y, along.x);
  } else {
    c.back.y += along.y / along.x * (from + to) / 2;
  }
}

/// The wide edge from (x, v) at the back to (foot_x, foot_v), the other as far from it as the strip is wide.
void set_edges(CourseStep& c, Hand wide, FlatPoint at_back, double foot_x, double width) {
  c.lean_rad = c.turns ? steady::atan2(foot_x - at_back.u, c.foot_v - at_back.v) : 0;
  const double x0 = at_back.u - steady::tan(c.lean_rad) * at_back.v, across = width / steady::cos(c.lean_rad);
  c.left_x = wide == Hand::left ? x0 : x0 - across;
  c.right_x = c.left_x + across;
}

} // namespace

std::vector<CourseStep> course_of(const Flight& flight, const CoverInput& input) {
  assert(folds_round(flight));
  const auto& runner = *flight.runner;
  const double width = runner.width.mm(), before = input.carpet.backing.mm() / 2;
  const auto exposed_right = narrowest_straight(flight, runner.width) - runner.width - runner.exposed_left;
  std::vector<CourseStep> course(flight.steps.size());
  for (std::size_t i = course.size(); i-- > 0;) {
    const auto& step = flight.steps[i];
    auto& c = course[i];
    const auto section = strip_section(step, flight.style, input, true);
    c.turns = turns(step, runner.width);
    c.narrow_left = c.turns && side_line(step, Hand::right).back().y > side_line(step, Hand::left).back().y;
    c.back_y = section.back_y;
    c.foot_v = section.v_foot;
    if (i + 1 == course.size()) {
      c.left_x = runner.exposed_left.mm();
      c.right_x = c.left_x + width;
      c.back.y = c.back_y;
      continue;
    }
    const auto& above = course[i + 1];
    const double gap = back_gaps(step, flight.steps[i + 1]).left;
    const double left = above.x(Hand::left, above.foot_v) + gap,
                 right = above.x(Hand::right, above.foot_v) + gap;
    set_back(c, step, left, right);
    const bool wide_right = c.turns ? c.narrow_left : above.narrow_left;
    const auto at_back = c.at_back(wide_right ? right : left, before);
    const auto foot =
        c.narrow_left ? runner.exposed_left + runner.width : step.width - exposed_right - runner.width;
    set_edges(c, wide_right ? Hand::right : Hand::left, at_back, foot.mm(), width);
  }
  return course;
}

std::optional<CrotchFold> crotch_fold(const CourseStep& upper, const CourseStep& lower,
                                      const Section& upper_section, double width_mm) {
  CrotchFold fold;
  fold.narrow_left = lower.turns ? lower.narrow_left : upper.narrow_left;
  const double sign = fold.narrow_left ? 1 : -1;
  fold.above_rad = sign * upper.lean_rad;
  fold.below_rad = sign * (lower.turn_rad - lower.lean_rad);
  if (std::abs(fold.above_rad) < kNoFold_rad && std::abs(fold.below_rad) < kNoFold_rad) return {};
  fold.jog_mm = width_mm / steady::cos(fold.below_rad) - width_mm / steady::cos(fold.above_rad);
  fold.room_mm = room_behind(upper_section);
  for (fold.tucks = 1; fold.tucks <= kMostTucks; ++fold.tucks) {
    fold.depth_mm = depth_of(fold, fold.tucks, width_mm);
    if (fold.depth_mm <= fold.room_mm) return fold;
  }
  fold.tucks = 0;
  return fold;
}

namespace {

constexpr Length kLeastTread = inches(2);      // common practice, no source
constexpr Length kStandsOut = inches(1, 1, 2); // pad and backing, at most

class CourseCheck {
public:
  CourseCheck(const Flight& flight, const CoverInput& input)
      : flight_(flight), input_(input), course_(course_of(flight, input)) {}

  Problems all(const TackStrip& strip) {
    goods(strip);
    for (std::size_t i = 0; i < course_.size(); ++i) {
      if (!hands(i) || !leanings(i)) return std::move(problems_);
      place(i);
      uprights(i);
      if (course_[i].turns) tread(i);
    }
    for (std::size_t i = course_.size() - 1; i-- > 0;)
      crotch(i);
    if (!has_errors(problems_)) tell_jogs();
    return std::move(problems_);
  }

private:
  std::string show(double mm) const { return show_length(from_mm(mm), input_.unit); }
  std::string numbered(std::size_t i) const { return fmt::format("step {}", flight_.steps[i].number); }
  void refuse(std::size_t i, std::string found, std::string expected) {
    problems_.push_back({Severity::error, flight_.steps[i].where, std::move(found), std::move(expected)});
  }

  void goods(const TackStrip& strip) {
    if (takes_hem(input_.carpet, strip)) return;
    problems_.push_back({Severity::error, flight_.runner->where + "/turn",
                         fmt::format("'fold', of goods that are {} thick where they are folded",
                                     show_length(*input_.carpet.min_fold_radius * 2, input_.unit)),
                         fmt::format("goods that fold no thicker than the strip, {}, or 'seam'",
                                     show_length(strip.thickness, input_.unit))});
  }

  /// Between turns to either hand a straight step must take up the strip's own.
  bool hands(std::size_t i) {
    if (i + 1 == course_.size() || !course_[i].turns || !course_[i + 1].turns ||
        course_[i].narrow_left == course_[i + 1].narrow_left)
      return true;
    refuse(i,
           fmt::format("a runner folded round {}, which turns to one hand, and {}, which turns to the other",
                       numbered(i), numbered(i + 1)),
           "a straight step between them, or 'seam'");
    return false;
  }

  bool leanings(std::size_t i) {
    const auto& c = course_[i];
    const double sign = c.narrow_left ? 1 : -1;
    if (!c.turns || (sign * c.lean_rad > 0 && sign * (c.turn_rad - c.lean_rad) > 0)) return true;
    refuse(i, fmt::format("a runner folded round {}, on which it would lean to the wide side", numbered(i)),
           "a step that is deeper at its wide side, its narrow end square to the riser or leaning outward, "
           "or 'seam'");
    return false;
  }

  /// Bare wood beside it wherever it must lie on the step: in the crotches, and over the nosing.
  void place(std::size_t i) {
    const auto& c = course_[i];
    const auto& step = flight_.steps[i];
    const double least = step.rectangular() ? -1e-6 : kLeastBare.mm();
    const auto left = side_line(step, Hand::left), right = side_line(step, Hand::right);
    const double far = steady::hypot(right.back().x - left.back().x, right.back().y - left.back().y);
    const double front = -(step.nosing.projection + kStandsOut).mm();
    double bare = std::min(c.x(Hand::left, c.foot_v), step.width.mm() - c.x(Hand::right, c.foot_v));
    bare = std::min({bare, c.along_back(Hand::left, 0), far - c.along_back(Hand::right, 0)});
    for (const double y : {0.0, front})
      bare = std::min({bare, c.x(Hand::left, c.back_y - y) - side_x(left, y),
                       side_x(right, y) - c.x(Hand::right, c.back_y - y)});
    if (bare < least)
      refuse(i,
             fmt::format("a runner folded round a turn that leaves {} bare at one side of {}", show(bare),
                         numbered(i)),
             fmt::format("at least {}", show(std::max(0.0, least))));
  }

  void uprights(std::size_t i) {
    const auto& c = course_[i];
    const auto& step = flight_.steps[i];
    for (const auto& upright : step.uprights)
      for (const auto& p : footprint(upright)) {
        const double at = c.back_y - p.y;
        if (p.x <= c.x(Hand::left, at) || p.x >= c.x(Hand::right, at)) continue;
        refuse(i, fmt::format("a runner under a {} of {}", upright.word, numbered(i)),
               "one that clears what stands on the treads");
        break;
      }
  }

  void tread(std::size_t i) {
    const auto& c = course_[i];
    const auto& step = flight_.steps[i];
    const Hand narrow = c.narrow_left ? Hand::left : Hand::right;
    const double v = c.at_back(c.along_back(narrow, 0), 0).v,
                 depth = strip_section(step, flight_.style, input_, true).v_nose - v;
    if (depth < kLeastTread.mm())
      refuse(i,
             fmt::format("a winder that is {} deep at the runner's narrow edge, {}",
                         show(std::max(0.0, depth)), numbered(i)),
             fmt::format("at least {} to fold the runner round it, or 'seam'", show(kLeastTread.mm())));
  }

  void crotch(std::size_t lower) {
    const auto& step = flight_.steps[lower + 1];
    const auto fold =
        crotch_fold(course_[lower + 1], course_[lower], strip_section(step, flight_.style, input_, true),
                    flight_.runner->width.mm());
    if (!fold) return;
    if (fold->tucks == 0)
      return refuse(
          lower + 1,
          fmt::format("a fold {} deep behind the riser of {}", show(fold->depth_mm), numbered(lower + 1)),
          fmt::format("at most {}, as high as the carpet there is flat: a narrower runner, or 'seam'",
                      show(fold->room_mm)));
    folded_.push_back(step.number);
    const auto thick = input_.carpet.thickness * (2 * fold->tucks);
    if (thick > step.nosing.projection) // common practice, no source
      problems_.push_back(
          {Severity::warning, step.where,
           fmt::format("folds {} thick behind the riser of {}", show(thick.mm()), numbered(lower + 1)),
           fmt::format("no thicker than its nosing projects, {}, so that they stand out nowhere past it",
                       show(step.nosing.projection.mm()))});
    widest_ = std::max(widest_, std::abs(fold->jog_mm));
  }

  void tell_jogs() {
    std::reverse(folded_.begin(), folded_.end());
    problems_.push_back(
        {Severity::note, flight_.runner->where + "/turn",
         fmt::format("a runner folded behind the riser{} of {}, whose narrow edge jogs by up to {} there",
                     folded_.size() == 1 ? "" : "s", step_list(folded_), show(widest_)),
         "a look at the marks beside it on its sheet; 'seam' has no jog"});
  }

  const Flight& flight_;
  const CoverInput& input_;
  std::vector<CourseStep> course_;
  std::vector<int> folded_;
  double widest_ = 0;
  Problems problems_;
};

} // namespace

Problems check_course(const Flight& flight, const CoverInput& input, const TackStrip& strip) {
  return CourseCheck(flight, input).all(strip);
}

} // namespace treadfold
