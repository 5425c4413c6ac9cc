#include "measure/code.h"
#include "measure/step_frames.h"
#include "measure/step_list.h"
#include "measure/tread_plan.h"
#include "measure/winder.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

namespace treadfold {

namespace {

Length usual(LengthUnit unit, Length inch, int mm) {
  return unit == LengthUnit::inch ? inch : millimetres(mm);
}

/// Beyond the limit, to the tick.
bool beyond(double mm, Length limit) { return from_mm(std::abs(mm)) > limit; }

class Treads {
public:
  Treads(const Flight& flight, LengthUnit unit) : flight_(flight), unit_(unit) {}

  Problems run() {
    for (std::size_t i = 0; i + 1 < flight_.steps.size(); ++i) {
      const auto &step = flight_.steps[i], &above = flight_.steps[i + 1];
      square(step);
      if (!step.rectangular() || !above.rectangular()) back(step, above);
    }
    level();
    return std::move(problems_);
  }

private:
  std::string show(double mm) const { return show_length(from_mm(std::abs(mm)), unit_); }

  void warn(const Step& step, std::string found, std::string expected) {
    problems_.push_back(
        {Severity::warning, step.where, std::move(found), std::move(expected), {step.number}});
  }

  void square(const Step& step) {
    if (step.rectangular() || winds(step) || step.left_side.size() + step.right_side.size() > 4) return;
    const auto &left = step.left_side, &right = step.right_side;
    const Length limit = usual(unit_, inches(0, 1, 8), 3);
    const auto expected =
        fmt::format("square to {}: the piece follows the tread, so see that it is so", show(limit.mm()));
    const double deeper = right.back().y - left.back().y;
    if (beyond(deeper, limit))
      warn(step,
           fmt::format("step {} out of square: {} deeper at its {} end", step.number, show(deeper),
                       deeper > 0 ? "right" : "left"),
           expected);
    // Flared sides lean apart; what both lean the same way is out of square.
    const double a = left.back().x - left.front().x, b = right.back().x - right.front().x;
    const double lean = a * b > 0 ? std::min(std::abs(a), std::abs(b)) : 0;
    if (beyond(lean, limit))
      warn(step,
           fmt::format("step {} out of square: its back lies {} further {} than its front", step.number,
                       show(lean), a > 0 ? "right" : "left"),
           expected);
  }

  /// Those that fall alike together.
  void level() {
    const Length limit = usual(unit_, inches(0, 3, 16), 5);
    std::vector<Length> told;
    for (const auto& step : flight_.steps) {
      const Length fall = step.fall_right;
      if (!beyond(fall.mm(), limit) || std::find(told.begin(), told.end(), fall) != told.end()) continue;
      told.push_back(fall);
      std::vector<int> numbers;
      for (const auto& other : flight_.steps)
        if (other.fall_right == fall) numbers.push_back(other.number);
      const bool one = numbers.size() == 1;
      problems_.push_back(
          {Severity::warning, one ? step.where : flight_.where,
           fmt::format("{} out of level: {} {} higher at the {} end", step_list(numbers),
                       one ? "its riser is" : "their risers are", show(fall.mm()),
                       fall > Length{} ? "right" : "left"),
           fmt::format("level to {}: the piece follows it, but a foot may not", show(limit.mm())), numbers});
    }
  }

  void back(const Step& step, const Step& above) {
    const auto gaps = back_gaps(step, above);
    const double spare = gaps.left + gaps.right;
    const Length limit = usual(unit_, inches(0, 1, 4), 6);
    const bool stands_free = spare > 0 && !(step.left.closed() && step.right.closed());
    if (!beyond(spare, limit) || stands_free) return;
    warn(step,
         fmt::format("step {}'s tread {} wide at its back, and step {}'s riser {} wide", step.number,
                     show(above.width.mm() + spare), above.number, show(above.width.mm())),
         fmt::format("the same to {}: measure both again", show(limit.mm())));
  }

  const Flight& flight_;
  LengthUnit unit_;
  Problems problems_;
};

} // namespace

Problems check_treads(const Flight& flight, LengthUnit unit) { return Treads(flight, unit).run(); }

} // namespace treadfold
