// Carpet that turns over a curved edge, facet by facet, and cut into teeth where it may not stay whole.
#pragma once

#include "cover/piece_builder.h"
#include "cover/starter_shape.h"

#include <functional>
#include <optional>

namespace treadfold {

/// Carpet that turns over an edge, laid out flat from the line `off` on which it starts to turn.
struct Lay {
  FlatShape flat = FlatShape::curved;
  double off = 0;
  Turnover turnover;
  double radius = 0; // least, in plan, of that line
  /// Flat place of the point x along facet i from its first corner, s past the line.
  std::function<FlatPoint(std::size_t facet, double x, double s)> at;
};

/// A stretch of a piece's edge along the facets from one corner to another, left to right.
struct TurnedStretch {
  std::size_t from = 0, to = 0; // corners
  FlatPath path;
  std::vector<int> faces;
  bool by_corner = false; // the path has a point for each corner
  /// Between two corners; nothing where it has no points there.
  std::optional<TurnedStretch> between(std::size_t a, std::size_t b) const;
};

/// The turned-over part of a piece as it was built.
struct TurnedEdge {
  FlatPath outline;     // from the line's left end out, along the edge, and back to its right end
  FlatPath left, right; // its sides alone, from the line to the edge
  std::vector<TurnedStretch> stretches;
};

struct FacetRange {
  std::size_t from = 0, to = 0;           // facets [from, to) of the shape
  bool left_end = true, right_end = true; // ends of the step and not of a split band
};

/// Adds the faces that turn over the edge, whole as far as the limit allows and cut beyond (never cut if
/// `whole`). `parents`: the face before the line, by facet from `range.from`.
TurnedEdge turn_over(PieceBuilder& builder, Piece& piece, const StarterShape& shape, const Lay& lay,
                     FacetRange range, const std::vector<int>& parents, bool whole);

} // namespace treadfold
