// Whether a runner can be folded round its winders.
#include "cover/folded_course.h"
#include "cover/handling.h"
#include "measure/step_list.h"
#include "measure/uprights.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

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
    if (problems_.empty()) tell();
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
           "a step that turns more or whose narrow end leans inward less, or 'seam'");
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
             bare < 0 ? fmt::format("a runner folded round a turn that goes {} past one side of {}",
                                    show(-bare), numbered(i))
                      : fmt::format("a runner folded round a turn that leaves {} bare at one side of {}",
                                    show(bare), numbered(i)),
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
    if (!fold->fits())
      return refuse(
          lower + 1,
          fmt::format("a fold {} deep behind the riser of {}", show(fold->depth_mm), numbered(lower + 1)),
          fmt::format("at most {}, as high as the carpet there is flat: a narrower runner, or 'seam'",
                      show(fold->room_mm)));
    folded_.push_back(step.number);
    const int turned = flight_.runner->edges == RunnerEdges::turned ? 2 : 1; // under the edge it lies double
    if (const auto thick = input_.carpet.thickness * (2 * fold->tucks * turned);
        thick > step.nosing.projection) {
      thickest_ = std::max(thickest_, thick);
      thick_.push_back(step.number);
    }
    widest_ = std::max(widest_, std::abs(fold->jog_mm));
  }

  void tell() {
    for (auto* steps : {&folded_, &thick_})
      std::reverse(steps->begin(), steps->end());
    const auto where = flight_.runner->where + "/turn";
    problems_.push_back({Severity::note, where,
                         fmt::format("a runner folded up at {}, whose narrow edge jogs by up to {} there",
                                     step_list(folded_), show(widest_)),
                         "a look at the marks beside it on its sheet; 'seam' has no jog", folded_});
    if (!thick_.empty()) // common practice, no source
      problems_.push_back(
          {Severity::warning, where,
           fmt::format("folds up to {} thick behind the riser's carpet at {}", show(thickest_.mm()),
                       step_list(thick_)),
           "no thicker than the nosing there projects, so that they stand out nowhere past it", thick_});
  }

  const Flight& flight_;
  const CoverInput& input_;
  std::vector<CourseStep> course_;
  std::vector<int> folded_, thick_; // steps behind whose risers there are folds
  double widest_ = 0;               // jog, mm
  Length thickest_;
  Problems problems_;
};

} // namespace

Problems check_course(const Flight& flight, const CoverInput& input, const TackStrip& strip) {
  return CourseCheck(flight, input).all(strip);
}

} // namespace treadfold
