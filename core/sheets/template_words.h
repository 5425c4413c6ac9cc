// Words among the lines of a template: set only where they touch no line and no other word.
#pragma once

#include "sheets/page.h"

#include <array>
#include <optional>

namespace treadfold {

class WordPlacer {
public:
  /// Words keep inside `room`.
  explicit WordPlacer(const Box& room) : room_(room) {}

  /// What words must keep off. An open path of page points, or a closed one.
  void keep_off(const std::vector<PagePoint>& path, bool closed);

  /// Takes the box if it is clear.
  bool take(const Box& box);
  /// Takes the first clear place for a box of this size in a raster from the top left of `within`.
  std::optional<Box> take_anywhere(const Box& within, double width, double height);
  /// Writes `text` where it is if it is clear there.
  bool set(Drawing& page, const Text& text);
  /// Beside the open path and along it, as near its middle as may be; the path's stretch there must be about
  /// as long as the words if `along_only`.
  bool set_beside(Drawing& page, const std::vector<PagePoint>& path, Text text, bool along_only);

private:
  using Quad = std::array<PagePoint, 4>;
  bool clear(const Quad& quad) const;

  Box room_;
  std::vector<std::array<PagePoint, 2>> lines_;
  std::vector<Quad> words_;
};

} // namespace treadfold
