// Which way each hole of a piece is slit.
#pragma once

#include "cover/piece.h"

namespace treadfold {

/// One way out of a hole: straight from its middle.
struct WayOut {
  FlatPoint direction;    // unit
  FlatPath edge;          // the hidden edge, which the slit must meet first of all the outline
  bool left_long = false; // the piece goes on past that edge, and the slit with it
  std::string label;      // "slit to the back"
};

/// A hole that needs a slit, by its place among piece.openings.
struct Unslit {
  std::size_t opening = 0;
  FlatPoint middle;
  std::vector<WayOut> ways;
};

/// Slits all holes, the one with the shortest way first; where no way is clear, to another hole that has its
/// own.
void slit_holes(Piece& piece, std::vector<Unslit> holes);

} // namespace treadfold
