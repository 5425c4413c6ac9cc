#include "sheets/runner_view.h"

#include "measure/tread_plan.h"
#include "sheets/edge_marks.h"
#include "units/steady.h"

#include <algorithm>
#include <cmath>
#include <fmt/format.h>

namespace treadfold {

namespace {

constexpr double kWords = 27; // mm beside the strip for words at one side

double middle_v(const RunnerLine& line) { return (line.left.v + line.right.v) / 2; }

/// Where what is cut ends at the foot.
double foot_end(const Piece& piece) {
  return middle_v(piece.runner->marks.back().foot) + piece.trim_foot.mm();
}

double top_end(const Piece& piece) { return foot_end(piece) - piece.cut_length.mm(); }

/// The line that is pushed into the crotch below a step of the strip.
double crotch(const Piece& piece, std::size_t mark) {
  const auto& marks = piece.runner->marks;
  const double foot = middle_v(marks[mark].foot);
  return mark + 1 == marks.size() ? foot : (foot + middle_v(marks[mark + 1].back)) / 2;
}

/// One step from above, and the runner on it.
class BandView {
public:
  BandView(Drawing& page, const Box& box, const Step& step, const RunnerMark& mark, const Reader& reader)
      : page_(page), step_(step), mark_(mark), reader_(reader), front_(-step.nosing.projection.mm()),
        back_left_(side_line(step, Hand::left).back()), back_right_(side_line(step, Hand::right).back()),
        back_mm_(steady::hypot(back_right_.x - back_left_.x, back_right_.y - back_left_.y)),
        left_(wood_side(Hand::left)), right_(wood_side(Hand::right)),
        turns_(mark.back.bare_left_mm != mark.foot.bare_left_mm ||
               mark.back.bare_right_mm != mark.foot.bare_right_mm),
        view_(view_in(box)) {}

  void draw() {
    auto wood = right_;
    wood.insert(wood.end(), left_.rbegin(), left_.rend());
    area(wood, Pen::hairline, Fill::wood);
    // The band between its marks on the back and on the nosing's front.
    const double x_left = side_x(side_line(step_, Hand::left), front_) + mark_.nosing.bare_left_mm,
                 x_right = side_x(side_line(step_, Hand::right), front_) - mark_.nosing.bare_right_mm;
    const auto behind = on_back(mark_.back.bare_left_mm);
    const auto beyond = on_back(back_mm_ - mark_.back.bare_right_mm);
    area({behind, beyond, {x_right, front_}, {x_left, front_}}, Pen::outline, Fill::carpet);
    const auto middle =
        at({(behind.x + beyond.x + x_left + x_right) / 4, (behind.y + beyond.y + 2 * front_) / 4});
    pile_arrow(page_, {middle.x, middle.y - 4}, {middle.x, middle.y + 4}, reader_);
    if (turns_) {
      size_on_back(0, mark_.back.bare_left_mm);
      size_on_back(back_mm_ - mark_.back.bare_right_mm, mark_.back.bare_right_mm);
    }
    size_on_riser(0, mark_.foot.bare_left_mm);
    size_on_riser(step_.width.mm() - mark_.foot.bare_right_mm, mark_.foot.bare_right_mm);
  }

private:
  /// A side of the wood from the nosing's front to the back; at an open end the tread's own.
  std::vector<PlanPoint> wood_side(Hand hand) const {
    auto line = side_line(step_, hand);
    const double front_x = side_x(line, front_);
    line.insert(line.begin(), {front_x, front_});
    const auto& side = hand == Hand::left ? step_.left : step_.right;
    if (!side.closed())
      for (auto& p : line)
        p.x += (hand == Hand::left ? -1 : 1) * side.overhang.mm();
    return line;
  }
  Viewport view_in(const Box& box) const {
    double x0 = 0, x1 = step_.width.mm(), y1 = 0;
    for (const auto* line : {&left_, &right_})
      for (const auto& p : *line)
        x0 = std::min(x0, p.x), x1 = std::max(x1, p.x), y1 = std::max(y1, p.y);
    const double words = 2 * leading(kCutType), beside = turns_ ? 14 : 0;
    return fit({box.left + beside, box.top + words, box.right - beside, box.bottom - words}, x0, -y1, x1,
               -front_);
  }
  PagePoint at(PlanPoint p) const { return view_.at(p.x, -p.y); }
  PlanPoint on_back(double along_mm) const {
    const double share = along_mm / back_mm_;
    return {back_left_.x + share * (back_right_.x - back_left_.x),
            back_left_.y + share * (back_right_.y - back_left_.y)};
  }
  void area(const std::vector<PlanPoint>& corners, Pen pen, Fill fill) {
    Path path{{}, true, pen, fill};
    for (const auto& p : corners)
      path.points.push_back(at(p));
    page_.paths.push_back(path);
  }
  void size_on_riser(double from, double mm) {
    if (mm < 0.5) return;
    const double below = view_.at(0, -front_).y + 3;
    const auto a = at({from, 0}), b = at({from + mm, 0});
    for (const auto& p : {a, b})
      line(page_, p, {p.x, below}, Pen::hairline);
    line(page_, {a.x, below}, {b.x, below}, Pen::dimension);
    write(page_, {(a.x + b.x) / 2, below + 0.8 * kCutType + 1}, show_length(from_mm(mm), reader_),
          {kCutType, true, false, Anchor::middle});
  }
  /// Drawn along the back, since the tape lies along the next riser.
  void size_on_back(double from, double mm) {
    if (mm < 0.5) return;
    const auto end = at(back_left_), other = at(back_right_);
    const double far = steady::hypot(other.x - end.x, other.y - end.y);
    const PagePoint out{(other.y - end.y) / far, (end.x - other.x) / far}; // away from the tread
    const auto off = [&](double along, double by) {
      const auto p = at(on_back(along));
      return PagePoint{p.x + by * out.x, p.y + by * out.y};
    };
    for (const double x : {from, from + mm})
      line(page_, off(x, 0), off(x, 4), Pen::hairline);
    line(page_, off(from, 3), off(from + mm, 3), Pen::dimension);
    const Anchor anchor = std::abs(out.x) < 0.2 ? Anchor::middle : out.x < 0 ? Anchor::right : Anchor::left;
    write(page_, off(from + mm / 2, 4.5), show_length(from_mm(mm), reader_), {kCutType, true, false, anchor});
  }

  Drawing& page_;
  const Step& step_;
  const RunnerMark& mark_;
  Reader reader_;
  double front_; // y of the nosing's edge
  PlanPoint back_left_, back_right_;
  double back_mm_;
  std::vector<PlanPoint> left_, right_;
  bool turns_;
  Viewport view_;
};

} // namespace

double draw_strip(Drawing& page, const Box& box, const Piece& piece, std::size_t first, std::size_t last,
                  const Reader& reader) {
  const auto& marks = piece.runner->marks;
  const bool top = first == 0, foot = last + 1 == marks.size();
  const double from = top ? top_end(piece) : crotch(piece, first - 1);
  const double to = foot ? foot_end(piece) : crotch(piece, last);
  const double u0 = piece.net_origin.u, u1 = u0 + piece.net_width.mm(), zero = foot_end(piece);
  const double heads = 2 * leading(kSmallType);
  const Viewport view =
      fit({box.left + kWords, box.top + heads, box.right - kWords, box.bottom}, u0, from, u1, to);
  const PagePoint a = view.at(u0, from), b = view.at(u1, to);
  rectangle(page, {a.x, a.y, b.x, b.y}, Pen::outline, Fill::carpet);

  std::vector<EdgeMark> nosings, crotches;
  const auto across = [&](double v, Pen pen, std::vector<EdgeMark>& to_marks, bool bold) {
    line(page, view.at(u0, v), view.at(u1, v), pen);
    const double at = view.at(0, v).y;
    to_marks.push_back({at, at, {show_length(from_mm(zero - v), reader, true)}, bold});
  };
  if (top) {
    const double at = view.at(0, from).y;
    crotches.push_back({at, at, {show_length(from_mm(zero - from), reader, true)}, false});
    if (piece.trim_back > Length{}) across(middle_v(marks.front().back), Pen::hem, crotches, false);
  } else {
    across(from, Pen::tuck, crotches, true);
  }
  for (std::size_t i = first; i <= last; ++i) {
    across(middle_v(marks[i].nosing), Pen::fold_under, nosings, true);
    across(crotch(piece, i), Pen::tuck, crotches, true);
    // On the longer of tread and drop, so that it stands clear of the folds.
    const double back = middle_v(marks[i].back), over = middle_v(marks[i].nosing), low = crotch(piece, i);
    const PagePoint m =
        view.at((u0 + u1) / 2, over - back > 0.8 * (low - over) ? (back + over) / 2 : (over + low) / 2);
    write(page, {m.x, m.y + 0.36 * kBodyType}, fmt::format("{}", marks[i].step),
          {kBodyType, true, false, Anchor::middle});
  }
  if (foot) {
    const double at = view.at(0, to).y;
    crotches.push_back({at, at, {"0"}, false});
  }
  for (auto* m : {&nosings, &crotches})
    for (auto& mark : *m)
      mark.from_b = m == &nosings ? a.x : b.x;
  const PagePoint pile = view.at(u0 + 0.16 * (u1 - u0), (from + to) / 2);
  if (b.x - a.x > 12) pile_arrow(page, {pile.x, pile.y - 7}, {pile.x, pile.y + 7}, reader);
  draw_marks(page, nosings, Edge::left, a.x, box.top + heads, box.bottom, kCutType);
  draw_marks(page, crotches, Edge::right, b.x, box.top + heads, box.bottom, kCutType);
  write(page, {a.x - kMarkWords, box.top + kSmallType}, reader.say("nosing"),
        {kSmallType, true, false, Anchor::right});
  write(page, {b.x + kMarkWords, box.top + kSmallType}, reader.say("crotch, ends"), {kSmallType, true});
  return b.y;
}

void draw_band(Drawing& page, const Box& box, const Step& step, const RunnerMark& mark,
               const Reader& reader) {
  BandView(page, box, step, mark, reader).draw();
}

} // namespace treadfold
