// A template divided onto sheets of paper that are joined again.
//
// Guarantees
//  1. Every point of every line is on a tile.
//  2. Neighbours share a strip kTileOverlap wide.
//  3. The tiles that are printed hang together edge by edge, so that each can be joined to another.
#pragma once

#include "sheets/template_shape.h"

#include <string>

namespace treadfold {

inline constexpr double kTileOverlap = 10; // mm
inline constexpr double kAroundShape = 3;  // mm of paper around the rectangle, at least

struct TileGrid {
  double page_width = 0, page_height = 0;
  Box window; // of every page: where the template shows
  int columns = 1, rows = 1;
  PagePoint start;        // template coordinates of the first tile's top left corner
  std::vector<char> used; // row by row; the others are blank and are not printed

  std::size_t index(int column, int row) const {
    return static_cast<std::size_t>(row) * static_cast<std::size_t>(columns) +
           static_cast<std::size_t>(column);
  }
  bool has(int column, int row) const {
    return column >= 0 && row >= 0 && column < columns && row < rows && used[index(column, row)] != 0;
  }
  int count() const;
  /// What a tile shows, template coordinates.
  Box shown(int column, int row) const;
  /// The part of it that no sheet laid over it covers.
  Box own(int column, int row) const;
};

/// The fewest tiles of one size that show all of the shape, which is centred on them.
TileGrid tile_grid(double page_width, double page_height, const Box& window, const TemplateShape& shape);

/// All lines that tiles must show.
std::vector<const TemplateLine*> all_lines(const TemplateShape& shape);

/// "B3": columns from the left are letters, rows from the top are numbers.
std::string tile_name(int column, int row);
std::string column_name(int column);

/// The parts of a line inside `box`.
std::vector<std::vector<PagePoint>> clipped(const TemplateLine& line, const Box& box);

} // namespace treadfold
