#include "cover/account.h"
#include "cover/openings.h"
#include "cover/starter_pieces.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;

FlatPoint flat(const StarterShape& shape, PlanPoint p) { return {p.x, shape.section.back_y - p.y}; }

/// From the end of the fold, given from there inward, to the next riser's line. A fold that leans may end
/// behind that line, and is then a slit up to it.
FlatPath to_back(const StarterShape& shape, const std::vector<PlanPoint>& fold) {
  const double y = shape.section.back_y;
  FlatPath path;
  std::size_t k = 0;
  while (k + 1 < fold.size() && fold[k + 1].y > y)
    path.push_back(flat(shape, fold[++k]));
  const auto a = fold[k], b = fold[k + 1];
  path.push_back({a.y > y ? a.x + (y - a.y) / (b.y - a.y) * (b.x - a.x) : a.x, 0});
  return path;
}

/// Behind the tread, from the fold's right end to its left end.
FlatPath back_of(const StarterShape& shape, const std::vector<PlanPoint>& fold) {
  const auto& front = shape.step.starter->front;
  const auto side = [&](EdgeStop stop, const std::vector<PlanPoint>& inward, double riser_end) {
    return stop == EdgeStop::back ? to_back(shape, inward) : FlatPath{{riser_end, 0}};
  };
  auto path = side(front.right, {fold.rbegin(), fold.rend()}, shape.step.width.mm());
  append(path, reversed(side(front.left, fold, 0)));
  return path;
}

void label(PieceBuilder& builder, const StarterShape& shape, const TurnedEdge& turned) {
  const double width = shape.step.width.mm();
  for (const auto& edge : turned.stretches)
    builder.line(LineRole::seam, edge.path, shape.cut() ? "to the riser band" : "seam to the nosing band");
  builder.line(LineRole::tuck, {{0, 0}, {width, 0}}, "tuck into the gully behind the strip");
  for (const auto hand : {Hand::left, Hand::right}) {
    const bool right = hand == Hand::right;
    const auto stop = shape.stop(hand);
    FlatPath side{{right ? width : 0, 0}};
    append(side, right ? turned.right : turned.left);
    builder.line(stop == EdgeStop::stringer ? LineRole::cut : LineRole::trim, side,
                 stop == EdgeStop::stringer ? "slit at the stringer"
                 : stop == EdgeStop::wall   ? "trim at the wall"
                                            : "trim at the next riser's line");
  }
}

void trim(Piece& piece, const StarterShape& shape, const CoverInput& input) {
  const auto& allow = input.allowances;
  const auto side = [&](Hand hand) {
    return (shape.stop(hand) == EdgeStop::wall ? allow.side_trim : allow.open_side_trim) +
           end_wedge(shape, hand);
  };
  piece.trim_left = side(Hand::left);
  piece.trim_right = side(Hand::right);
  const auto behind = from_mm(std::max(0.0, -highest(piece.outline)));
  piece.trim_back = std::max(allow.open_side_trim, allow.tuck_back - behind);
  piece.trim_foot = allow.open_side_trim;
  itemise(piece, input.unit, "across, where widest",
          {{"tread, where deepest", 0},
           {"behind the next riser", behind.mm()},
           {shape.cut() ? "turned over the nosing" : "over the nosing, to the seam", shape.cap.length()}},
          "to tuck at the back", "to trim at the edge");
}

} // namespace

StarterPart starter_cap(const StarterShape& shape, const CoverInput& input, Piece blank) {
  const auto& f = shape.fine;
  StarterPart part{std::move(blank), {}, {}, {}, {}};
  auto& piece = part.piece;
  PieceBuilder builder(piece);
  const auto fold = f.line(shape.fold_off);
  FlatPath fold_line;
  for (const auto& p : fold)
    fold_line.push_back(flat(shape, p));
  const auto back = back_of(shape, fold);
  auto tread = fold_line;
  append(tread, back);
  const int root =
      builder.face("tread", shape.step.number, tread, -1, {0, 0}, {shape.step.width.mm(), 0}, straight());
  const Lay lay{FlatShape::curved, shape.fold_off, shape.cap, shape.least_radius + shape.fold_off,
                [&](std::size_t i, double x, double along) {
                  return flat(shape, f.at[i] + x * f.along[i] + (shape.fold_off + along) * f.out(i));
                }};
  auto turned = turn_over(builder, piece, shape, lay, {0, f.count(), true, true},
                          std::vector<int>(f.count(), root), !shape.cut());
  piece.outline = turned.outline;
  append(piece.outline, back);
  piece.outline = without_repeats(std::move(piece.outline));
  builder.line(LineRole::fold, fold_line, "over the nosing", shape.cut() ? kRight : kSeam_rad,
               shape.section.top_radius);
  label(builder, shape, turned);
  trim(piece, shape, input);
  const double width = shape.step.width.mm();
  cut_openings(piece, shape.step, shape.section.back_y,
               {{{0, -1}, {{0, 0}, {width, 0}}, true, "slit to the back"}}, input.unit);
  part.lower = std::move(turned.stretches);
  return part;
}

} // namespace treadfold
