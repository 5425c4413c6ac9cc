#include "cover/starter_pieces.h"
#include "units/steady.h"

#include <numbers>

namespace treadfold {

namespace {

constexpr double kRight = std::numbers::pi / 2;

/// The plumb part of a band, facet by facet, each hinged on the one before.
struct Spine {
  std::vector<int> faces;
  std::vector<double> u; // so that u + x is a point along the facet
  FlatPath top, foot;
};

/// Faces are kept even where they have no height, on a half-round nosing: the band's other faces hang on
/// them.
Spine add_spine(Piece& piece, const StarterShape& shape, const BandKind& kind, FacetRange range,
                double v_top) {
  const auto& f = shape.fine;
  const double v_foot = v_top + kind.top_z - kind.foot_z;
  const char* name = !kind.over && !kind.under && !shape.one_band ? "riser"
                     : shape.one_band                             ? "front and riser"
                                                                  : "front";
  Spine spine;
  double run = 0;
  for (auto i = range.from; i < range.to; ++i) {
    const double begin = kind.off * f.lean(i, i),
                 end = dot(f.at[i + 1] - f.at[i], f.along[i]) + kind.off * f.lean(i, i + 1);
    const double next = run + end - begin;
    Face face{name, shape.step.number, {{run, v_top}, {next, v_top}, {next, v_foot}, {run, v_foot}},
              -1,   {run, v_top},      {next, v_top}};
    face.crease_rad = kRight; // plumb from a level that the piece does not have
    if (!spine.faces.empty()) {
      const auto before = f.along[i - 1], here = f.along[i];
      face.parent = spine.faces.back();
      face.hinge_a = {run, v_foot};
      face.hinge_b = {run, v_foot - 1};
      face.crease_rad = steady::atan2(cross(before, here), dot(before, here));
    }
    piece.faces.push_back(std::move(face));
    spine.faces.push_back(static_cast<int>(piece.faces.size()) - 1);
    spine.u.push_back(run - begin);
    spine.top.push_back({run, v_top});
    spine.foot.push_back({run, v_foot});
    run = next;
  }
  spine.top.push_back({run, v_top});
  spine.foot.push_back({run, v_foot});
  const auto along = f.along[range.from];
  piece.hanging = Hanging{f.corner(range.from, kind.off), kind.top_z, steady::atan2(along.y, along.x)};
  return spine;
}

FlatPath joined(FlatPath path, const FlatPath& more) {
  append(path, more);
  return path;
}

void label(PieceBuilder& builder, const StarterShape& shape, const BandKind& kind, FacetRange range,
           const TurnedEdge& upper, const TurnedEdge& lower, const StarterPart& part) {
  for (const auto& edge : upper.stretches)
    builder.line(LineRole::seam, edge.path, kind.over ? "seam to the cap" : "close up under the nosing");
  for (const auto& edge : lower.stretches)
    builder.line(kind.under ? LineRole::seam : LineRole::tuck, edge.path,
                 kind.under ? "to the riser band" : "tuck at the floor");
  for (const auto hand : {Hand::left, Hand::right}) {
    const bool right = hand == Hand::right;
    const auto stop = shape.stop(hand);
    const bool end = right ? range.right_end : range.left_end;
    builder.line(end ? LineRole::trim : LineRole::seam, right ? part.right : part.left,
                 !end                         ? "seam to the band's next part"
                 : stop == EdgeStop::wall     ? "trim at the wall"
                 : stop == EdgeStop::stringer ? "trim at the stringer"
                                              : "trim at the next riser's line");
  }
}

void trim(Piece& piece, const StarterShape& shape, const CoverInput& input, const BandKind& kind,
          FacetRange range, double over) {
  const auto& allow = input.allowances;
  piece.trim_left = range.left_end ? allow.side_trim + end_wedge(shape, Hand::left) : allow.open_side_trim;
  piece.trim_right = range.right_end ? allow.side_trim + end_wedge(shape, Hand::right) : allow.open_side_trim;
  piece.trim_back = allow.open_side_trim;
  piece.trim_foot = kind.under ? allow.open_side_trim : allow.tuck_foot;
  const bool nosing = kind.over || kind.under;
  std::vector<SizeItem> along{{nosing ? "front" : "riser", 0}};
  if (kind.over) along.push_back({"over the nosing, from the seam", over});
  if (kind.under) along.push_back({"under the nosing, its bend and all", shape.under.length()});
  itemise(piece, input.unit, nosing ? "round the nosing" : "round the riser", std::move(along),
          "to trim at the seam", kind.under ? "to trim under the nosing" : "to tuck at the foot");
}

} // namespace

StarterPart starter_band(const StarterShape& shape, const CoverInput& input, Piece blank,
                         const BandKind& kind, FacetRange range) {
  const auto& s = shape.section;
  StarterPart part{std::move(blank), {}, {}, {}, {}};
  auto& piece = part.piece;
  PieceBuilder builder(piece);
  const Turnover upper{kRight, {{"nosing", s.top_radius * (kRight - kSeam_rad), kRight - kSeam_rad}}};
  const auto spine = add_spine(piece, shape, kind, range, kind.over ? upper.length() : 0);
  const double radius = shape.least_radius + kind.off;
  const auto lay = [&](const Turnover& turnover, double v, double down) {
    return Lay{FlatShape::straight, kind.off, turnover, radius,
               [&spine, range, v, down](std::size_t i, double x, double along) {
                 return FlatPoint{spine.u[i - range.from] + x, v + down * along};
               }};
  };
  TurnedEdge above{spine.top,
                   {spine.top.front()},
                   {spine.top.back()},
                   {{range.from, range.to, spine.top, spine.faces, true}}},
      below{spine.foot,
            {spine.foot.front()},
            {spine.foot.back()},
            {{range.from, range.to, spine.foot, spine.faces, true}}};
  if (kind.over) {
    above = turn_over(builder, piece, shape, lay(upper, spine.top[0].v, -1), range, spine.faces, true);
    builder.line(LineRole::fold, spine.top, "over the nosing", kRight - kSeam_rad, s.top_radius);
  }
  if (kind.under) {
    below = turn_over(builder, piece, shape, lay(shape.under, spine.foot[0].v, 1), range, spine.faces, false);
    builder.line(LineRole::fold, spine.foot, "under the nosing", kRight, s.low_radius);
  }
  piece.outline = above.outline;
  append(piece.outline, reversed(below.outline));
  piece.outline = without_repeats(std::move(piece.outline));
  part.left = without_repeats(joined(reversed(above.left), below.left));
  part.right = without_repeats(joined(reversed(above.right), below.right));
  label(builder, shape, kind, range, above, below, part);
  trim(piece, shape, input, kind, range, upper.length());
  part.upper = std::move(above.stretches);
  part.lower = std::move(below.stretches);
  return part;
}

} // namespace treadfold
