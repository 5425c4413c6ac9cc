#include "cover/floor.h"

#include "cover/account.h"
#include "cover/piece_builder.h"

#include <algorithm>
#include <cmath>

#include <fmt/format.h>

namespace treadfold {
namespace {

BreadthRule rule_of(const Floor& floor, const CoverInput& input) {
  const auto& carpet = input.carpet;
  BreadthRule rule;
  rule.grid = cut_step(input.unit);
  rule.edge_trim = input.allowances.floor_trim;
  const auto usable = [&](Length width) { return width - carpet.selvage * 2; };
  for (const Length width : carpet.roll_widths)
    rule.usable = std::max(rule.usable, usable(width));
  const auto [left, right] = std::minmax_element(floor.corners.begin(), floor.corners.end(),
                                                 [](auto a, auto b) { return a.x < b.x; });
  const Length wide = from_mm_up(right->x - left->x) + rule.edge_trim * 2;
  if (wide > rule.usable && carpet.breadths_for) rule.usable = usable(*carpet.breadths_for);
  rule.seam_trim = ceil_to(kSeamTrim, rule.grid);
  rule.fill_pieces = floor.fill_pieces;
  if (carpet.pattern) {
    // Goods just so many repeats wide meet at the edges of their usable width, and lose none.
    rule.repeat = carpet.pattern->width;
    const Length spare{rule.usable.ticks % rule.repeat->ticks};
    rule.seam_trim = std::min(rule.seam_trim, floor_to({spare.ticks / 2}, rule.grid));
  }
  return rule;
}

/// The outline's edges: at the walls to trim, between two pieces to seam.
void add_edges(PieceBuilder& builder, const FlatPath& outline, const FloorPart& part) {
  FlatPoint low = outline.front(), high = low;
  for (const auto& p : outline)
    low = {std::min(low.u, p.u), std::min(low.v, p.v)}, high = {std::max(high.u, p.u), std::max(high.v, p.v)};
  const auto seamed = [&](FlatPoint a, FlatPoint b) {
    const auto lie = [&](bool seam, double FlatPoint::*along, double at) {
      return seam && std::abs(a.*along - at) < 1e-6 && std::abs(b.*along - at) < 1e-6;
    };
    return lie(part.seam_left, &FlatPoint::u, low.u) || lie(part.seam_right, &FlatPoint::u, high.u) ||
           lie(part.seam_back, &FlatPoint::v, low.v) || lie(part.seam_front, &FlatPoint::v, high.v);
  };
  FlatPath wall{outline.front()};
  const auto end_wall = [&] {
    if (wall.size() > 1) builder.line(LineRole::trim, wall, "trim at the edges");
  };
  for (std::size_t i = 0; i < outline.size(); ++i) {
    const auto a = outline[i], b = outline[(i + 1) % outline.size()];
    if (!seamed(a, b)) {
      wall.push_back(b);
      continue;
    }
    end_wall();
    builder.line(LineRole::seam, {a, b}, "seam to the floor's next piece");
    wall = {b};
  }
  end_wall();
}

/// Seen from the stair below: v runs toward the viewer, so that the pile runs on down the stair.
FlatPath on_flat(const std::vector<PlanPoint>& corners) {
  FlatPath path;
  for (const auto& corner : corners)
    path.push_back({corner.x, -corner.y});
  return path;
}

Piece cover_part(const Floor& floor, const FloorPart& part, const BreadthRule& rule, bool divided,
                 LengthUnit unit) {
  Piece piece;
  piece.flight = floor.name;
  piece.carpet = floor.carpet;
  piece.outline = on_flat(part.corners);
  PieceBuilder builder(piece);
  builder.face("floor", 0, piece.outline, -1, piece.outline[0], piece.outline[1], straight());
  add_edges(builder, piece.outline, part);
  for (const auto& opening : part.openings) {
    auto hole = on_flat(opening.corners);
    piece.openings.push_back({0, opening.name, hole, {}, {}});
    // Named at a right-hand corner, so that what leads to the name does not run across the opening.
    std::rotate(hole.begin(),
                std::max_element(hole.begin(), hole.end(), [](auto a, auto b) { return a.u < b.u; }),
                hole.end());
    hole.push_back(hole.front());
    builder.line(LineRole::trim, std::move(hole), "trim at the opening");
  }
  const auto trim = [&](bool seam) { return seam ? rule.seam_trim : rule.edge_trim; };
  piece.trim_left = trim(part.seam_left), piece.trim_right = trim(part.seam_right);
  piece.trim_back = trim(part.seam_back), piece.trim_foot = trim(part.seam_front);
  size_piece(piece, unit);
  // An arm that ends just short of a seam is as wide as the others: it has no less than they, but not all.
  if (const Length over = piece.cut_width - floor_to(rule.usable, rule.grid); divided && over > Length{}) {
    const bool both = !part.seam_left && !part.seam_right;
    const Length by = both ? ceil_to({(over.ticks + 1) / 2}, rule.grid) : over;
    for (const auto& [seam, side] :
         {std::pair{part.seam_left, &piece.trim_left}, {part.seam_right, &piece.trim_right}})
      if (!seam) *side = std::max(rule.seam_trim, *side - by);
  }
  account_floor(piece, unit);
  return piece;
}

} // namespace

std::vector<Piece> cover_floor(const Floor& floor, const CoverInput& input, const std::string& id) {
  const auto rule = rule_of(floor, input);
  const auto parts = in_breadths(floor, rule);
  std::vector<Piece> pieces;
  for (const auto& part : parts) {
    auto& piece = pieces.emplace_back(cover_part(floor, part, rule, parts.size() > 1, input.unit));
    piece.id = parts.size() == 1 ? id : fmt::format("{}-{}", id, pieces.size());
    piece.kind = parts.size() == 1 ? "floor" : part.fill ? "fill of a floor" : "breadth of a floor";
    if (parts.size() > 1) piece.breadth = part;
  }
  return pieces;
}

} // namespace treadfold
