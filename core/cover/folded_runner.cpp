#include "cover/folded_runner.h"

#include "cover/account.h"
#include "cover/folded_course.h"
#include "cover/piece_builder.h"
#include "cover/pleat.h"
#include "cover/runner_finish.h"
#include "units/steady.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>

#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kTurned = std::numbers::pi, kRight = kTurned / 2;

/// Where a step's own (x, v) lies in the strip, whose edges run along v.
struct Lay {
  FlatPoint origin;
  double lean_rad = 0;
  FlatPoint at(FlatPoint p) const { return origin + turned(p, lean_rad); }
};

/// Where the strip crosses a line from its left edge to its right.
struct Crossing {
  FlatPoint left, right;
  FlatPath path() const { return {left, right}; }
};

/// One strip from the step `top` down to the step `bottom`, as indices of the flight's steps.
class Strip {
public:
  Strip(const Flight& flight, const std::vector<CourseStep>& course, const CoverInput& input, std::size_t top,
        std::size_t bottom)
      : flight_(flight), course_(course), input_(input), top_(top), bottom_(bottom), builder_(piece_) {}

  Piece piece(const std::string& prefix) {
    const auto& runner = *flight_.runner;
    piece_.flight = flight_.name;
    piece_.carpet = flight_.carpet;
    piece_.runner.emplace().width = runner.width;
    piece_.runner->lean_rad = course_[top_].lean_rad;
    Lay lay{{0, 0}, course_[top_].lean_rad};
    int parent = -1;
    Turn into = straight();
    for (std::size_t i = top_;; --i) {
      section_ = strip_section(flight_.steps[i], flight_.style, input_, i > bottom_);
      mark(i, lay);
      const int foot = step(i, lay, parent, into);
      if (i == bottom_) break;
      const double down = kRight + (section_.under ? 0 : section_.turn); // from level, with the pile outside
      const auto fold = crotch_fold(course_[i], course_[i - 1], section_, runner.width.mm());
      if (fold) {
        parent = pleat(i, *fold, foot);
        lay = below_pleat(i - 1, *fold);
        into = crease(-down);
      } else {
        parent = parallel(i, foot);
        lay = below_parallel(i - 1, lay);
        into = crease(kTurned - down);
      }
    }
    close(prefix);
    return std::move(piece_);
  }

private:
  const RunnerMark& last_mark() const { return piece_.runner->marks.back(); }
  /// In a strip the carpet stands half a backing before the riser behind it.
  double before(std::size_t i) const { return i == top_ ? 0 : input_.carpet.backing.mm() / 2; }

  Crossing across(std::size_t i, const Lay& lay, double v) const {
    const auto& c = course_[i];
    return {lay.at({c.x(Hand::left, v), v}), lay.at({c.x(Hand::right, v), v})};
  }
  Crossing back(std::size_t i, const Lay& lay) const {
    const auto& c = course_[i];
    const auto at = [&](Hand edge) { return lay.at(c.at_back(c.along_back(edge, before(i)), before(i))); };
    return {at(Hand::left), at(Hand::right)};
  }

  void mark(std::size_t i, const Lay& lay) {
    const auto& c = course_[i];
    const auto& whole = flight_.steps[i];
    const auto left = side_line(whole, Hand::left), right = side_line(whole, Hand::right);
    const double far = steady::hypot(right.back().x - left.back().x, right.back().y - left.back().y);
    const auto line = [](const Crossing& at, double bare_left, double bare_right) {
      return RunnerLine{at.left, at.right, bare_left, bare_right};
    };
    const double over = (section_.v_nose + section_.v_front) / 2, y = y_at(section_, over),
                 foot = section_.v_foot;
    piece_.steps.push_back(whole.number);
    piece_.runner->marks.push_back(
        {whole.number,
         line(back(i, lay), c.along_back(Hand::left, before(i)), far - c.along_back(Hand::right, before(i))),
         line(across(i, lay, over), c.x(Hand::left, over) - side_x(left, y),
              side_x(right, y) - c.x(Hand::right, over)),
         line(across(i, lay, foot), c.x(Hand::left, foot), whole.width.mm() - c.x(Hand::right, foot))});
  }

  /// Adds the faces of one step below `parent` and returns the one that ends at its foot.
  int step(std::size_t i, const Lay& lay, int parent, Turn into) {
    const auto& s = section_;
    const int number = flight_.steps[i].number;
    const auto top = back(i, lay), nose = across(i, lay, s.v_nose);
    int last = builder_.face("tread", number, {top.left, top.right, nose.right, nose.left}, parent, top.left,
                             top.right, into);
    const auto stretch = [&](const char* name, double from, double to, Turn turn) {
      const auto a = across(i, lay, from), b = across(i, lay, to);
      const int face =
          builder_.face(name, number, {a.left, a.right, b.right, b.left}, last, a.left, a.right, turn);
      if (face >= 0) last = face;
    };
    const auto fold = [&](double v, const char* label, double angle, double radius) {
      builder_.line(LineRole::fold, across(i, lay, v).path(), label, angle, radius);
    };
    if (s.bevel > 0) {
      const auto half = bend(kRight / 2, s.top_radius * kRight / 2);
      stretch("nosing, to the bevel", s.v_nose, s.v_bevel, half);
      stretch("bevel", s.v_bevel, s.v_bevel_end, straight());
      stretch("nosing, from the bevel", s.v_bevel_end, s.v_front, half);
    } else {
      stretch("nosing", s.v_nose, s.v_front, bend(kRight, s.top_radius * kRight));
    }
    fold((s.v_nose + s.v_front) / 2, "over the nosing", kRight, s.top_radius);
    stretch("front", s.v_front, s.v_low, straight());
    stretch("lower bend", s.v_low, s.v_leave, bend(s.turn, s.low_radius * s.turn));
    fold((s.v_low + s.v_leave) / 2, s.under ? "under the nosing" : "leaves the nosing", s.turn, s.low_radius);
    if (s.under) {
      stretch("under nosing", s.v_lip, s.v_inner, straight());
      fold(s.v_inner, "into the corner under the nosing", -kRight, 0);
      stretch("riser", s.v_inner, s.v_foot, crease(-kRight));
    } else {
      stretch("drop", s.v_leave, s.v_foot, straight());
    }
    return last;
  }

  /// Between steps in line: pushed down into the gully by a crease's depth and up again.
  int parallel(std::size_t i, int foot) {
    const auto a = last_mark().foot.left, b = last_mark().foot.right;
    const FlatPoint down{0, input_.allowances.crease.mm()};
    const int number = flight_.steps[i].number;
    builder_.line(LineRole::tuck, {a + down, b + down}, "push into the crotch", -kTurned, 0);
    const int first =
        builder_.face("crease", number, {a, b, b + down, a + down}, foot, a, b, straight(), true);
    if (first < 0) return foot;
    return builder_.face("crease", number, {a + down, b + down, b + 2 * down, a + 2 * down}, first, a + down,
                         b + down, crease(-kTurned), true);
  }
  Lay below_parallel(std::size_t i, Lay lay) const {
    const auto to = last_mark().foot.left + FlatPoint{0, 2 * input_.allowances.crease.mm()};
    lay.origin = lay.origin + to - back(i, lay).left;
    return lay;
  }

  FlatPoint wide_foot(bool narrow_left) const {
    return narrow_left ? last_mark().foot.right : last_mark().foot.left;
  }

  /// Adds the wedge's layers and returns the last, from which the tread below goes on.
  int pleat(std::size_t i, const CrotchFold& fold, int foot) {
    const double width = flight_.runner->width.mm();
    const int number = flight_.steps[i].number, count = 2 * fold.tucks;
    const auto point = wide_foot(fold.narrow_left);
    const double across = fold.narrow_left ? -width : width;
    RunnerPleat pleat{number, fold.narrow_left, fold.angle(), fold.tucks, fold.depth_mm, fold.jog_mm, 0, {}};
    for (int k = 0; k <= count; ++k) {
      const double lean = fold.angle() * k / count - fold.above_rad;
      pleat.creases.push_back({point, point + FlatPoint{across, width * steady::tan(lean)}});
      const char* label = k == 0       ? "up behind the riser"
                          : k == count ? "onto the tread"
                          : k % 2 == 1 ? "down behind the riser"
                                       : "up again behind the riser";
      builder_.line(LineRole::fold, pleat.creases.back(), fmt::format("{}, step {}", label, number),
                    k == count   ? -kRight
                    : k % 2 == 1 ? -kTurned
                                 : kTurned,
                    0);
    }
    int last = foot;
    for (int k = 0; k < count; ++k) {
      const auto layer = pleat_layer(pleat, k);
      last = builder_.face("pleat", number, layer.kept, last, point,
                           pleat.creases[static_cast<std::size_t>(k)][1],
                           crease(k % 2 == 0 ? kTurned : -kTurned), true);
      assert(last >= 0);
      if (layer.corner.empty()) continue;
      builder_.face("corner of the pleat", number, layer.corner, last, layer.edge_a, layer.edge_b,
                    crease(kTurned), true);
      builder_.line(LineRole::fold, {layer.edge_a, layer.edge_b},
                    fmt::format("{}, step {}", "corner behind the pleat", number), kTurned, 0);
      if (k + 1 < count) continue;
      const auto end = pleat.creases.back()[1];
      pleat.snip_mm = fold.jog_mm;
      builder_.line(LineRole::cut, {end, end + pleat.snip_mm / distance_mm(end, point) * (point - end)},
                    fmt::format("{}, step {}", "snip", number));
    }
    piece_.runner->pleats.push_back(std::move(pleat));
    return last;
  }

  Lay below_pleat(std::size_t i, const CrotchFold& fold) const {
    Lay lay{{0, 0}, course_[i].lean_rad};
    const auto at = back(i, lay);
    lay.origin = wide_foot(fold.narrow_left) - (fold.narrow_left ? at.right : at.left);
    return lay;
  }

  void close(const std::string& prefix) {
    const auto& runner = *flight_.runner;
    const auto &front = piece_.runner->marks.front(), &back = piece_.runner->marks.back();
    const bool landing = flight_.steps[top_].landing_edge;
    piece_.id = front.step == back.step ? fmt::format("{}-{:02}", prefix, front.step)
                                        : fmt::format("{}-{:02}.{:02}", prefix, back.step, front.step);
    piece_.kind = kind();
    piece_.root_height_mm = strip_section(flight_.steps[top_], flight_.style, input_, true).tread_z -
                            flight_.steps[top_].rise.mm();
    piece_.outline = {front.back.left, front.back.right, back.foot.right, back.foot.left};
    builder_.line(LineRole::trim, {front.back.left, back.foot.left}, "left edge");
    builder_.line(LineRole::trim, {front.back.right, back.foot.right}, "right edge");
    builder_.line(landing ? LineRole::seam : LineRole::tuck, {front.back.left, front.back.right},
                  landing ? "seam to the landing's carpet" : "tuck into the gully behind the strip");
    builder_.line(LineRole::tuck, {back.foot.left, back.foot.right}, "tuck into the crotch");
    const auto allow = runner_allowances(runner, landing, input_.allowances);
    piece_.trim_left = piece_.trim_right = allow.side_trim;
    piece_.trim_back = askew(allow.tuck_back, front.back);
    piece_.trim_foot = askew(allow.tuck_foot, back.foot);
    size_piece(piece_, input_.unit);
    account();
    account_trims(piece_, landing ? "to trim at the seam" : "to tuck at the back", "to tuck at the foot");
    finish_runner(piece_, runner, landing);
  }

  /// Along the strip, what is wanted square to an end of it.
  static Length askew(Length length, const RunnerLine& end) {
    const double u = end.right.u - end.left.u, v = end.right.v - end.left.v;
    return from_mm_up(length.mm() * steady::hypot(u, v) / u);
  }

  /// In the strip's middle, step by step; then what an end askew wants besides.
  void account() {
    const auto middle = [](const RunnerLine& l) { return (l.left.v + l.right.v) / 2; };
    const auto& marks = piece_.runner->marks;
    piece_.across.push_back({"runner, edge to edge", piece_.net_width.mm()});
    double sum = 0;
    for (std::size_t i = 0; i < marks.size(); ++i) {
      if (i > 0)
        piece_.along.push_back({"fold in the crotch", middle(marks[i].back) - middle(marks[i - 1].foot)});
      piece_.along.push_back(
          {fmt::format("step {}", marks[i].step), middle(marks[i].foot) - middle(marks[i].back)});
    }
    for (const auto& item : piece_.along)
      sum += item.mm;
    if (piece_.net_length.mm() - sum > 1e-3)
      piece_.along.push_back({"ends askew", piece_.net_length.mm() - sum});
  }

  std::string kind() const {
    const auto count = piece_.steps.size(), turns = piece_.runner->pleats.size();
    const std::string steps =
        count == 1 ? std::string("runner, one step") : fmt::format("runner, {} steps", count);
    return turns == 0 ? steps : fmt::format("{}, {} pleat{}", steps, turns, turns == 1 ? "" : "s");
  }

  const Flight& flight_;
  const std::vector<CourseStep>& course_;
  const CoverInput& input_;
  std::size_t top_, bottom_;
  Piece piece_;
  PieceBuilder builder_;
  Section section_; // of the step in hand
};

} // namespace

std::vector<Piece> cover_folded(const Flight& flight, const CoverInput& input, const std::string& prefix) {
  const auto course = course_of(flight, input);
  const auto longest =
      std::min(input.carpet.roll_length, flight.runner->longest.value_or(input.carpet.roll_length));
  std::vector<Piece> pieces;
  for (std::size_t top = course.size(); top-- > 0;) {
    auto piece = Strip(flight, course, input, top, top).piece(prefix);
    for (; top > 0; --top) {
      auto longer = Strip(flight, course, input, static_cast<std::size_t>(piece.steps.front() - 1), top - 1)
                        .piece(prefix);
      if (longer.cut_length > longest) break;
      piece = std::move(longer);
    }
    pieces.push_back(std::move(piece));
  }
  return pieces;
}

} // namespace treadfold
