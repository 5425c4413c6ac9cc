// One axis of a strip of patterned goods: what lies on a line along it.
#pragma once

#include "cut/line_fill.h"

#include <utility>
#include <vector>

namespace treadfold::rows {

/// Pieces as classes; -1: a piece of none, which counts for nothing.
struct AxisClasses {
  std::vector<LineClass> classes;
  std::vector<int> of; // by piece
};

/// Across (`along` false) or along. Each match group by at most `most` classes, which give up least of the
/// pieces' area; of the pieces that may lie anywhere, the largest. Motifs `step` apart.
AxisClasses classes_on_axis(const std::vector<Rect>& rects, int groups, bool along, Ticks step,
                            std::size_t most);

/// A line of length `size`, the motifs of each group where `motifs` has them.
class MatchLine {
public:
  MatchLine(const std::vector<LineClass>& classes, const Motifs& motifs, Ticks step, Ticks size);

  /// What lies on the line at the most weight, and that weight. REQUIRES: weights >= 0.
  std::pair<Counts, std::int64_t> heaviest(const std::vector<std::int64_t>& weights) const;

  /// Places that heaviest() looks at.
  std::size_t places() const { return places_.size() << singles_; }
  bool holds_every_class() const { return holds_every_class_; }

private:
  /// Before it lie the first `behind` places; with the free piece between, `behind_free`, or -1 where that
  /// does not fit.
  struct Place {
    Ticks from, to;
    std::size_t of_class;
    int behind = 0, behind_free = -1;
  };
  int ending_by(Ticks at) const;

  std::vector<Place> places_;       // by where they end
  std::vector<std::size_t> bit_of_; // by class: of those of one piece; 0 for the others
  std::size_t singles_ = 0;
  bool holds_every_class_ = true;
  int free_ = -1;      // class of the piece that may lie anywhere
  int last_free_ = -1; // places before it, where it ends the line
};

} // namespace treadfold::rows
