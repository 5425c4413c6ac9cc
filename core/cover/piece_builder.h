// Puts a Piece together face by face; mirrors the left side so that an open end is derived once.
#pragma once

#include "cover/piece.h"

namespace treadfold {

/// The side of a step, seen from its middle: ξ runs outward from the riser's end, v down the stair from the
/// step's own v = 0. at() gives flat coordinates of the piece.
struct SideFrame {
  bool right = true;
  double riser_end_u = 0; // u of ξ = 0
  double v0 = 0;          // v of the step's v = 0 line within the piece
  FlatPoint at(double xi, double v) const { return {right ? riser_end_u + xi : riser_end_u - xi, v0 + v}; }
  FlatPath at(const FlatPath& local) const;
  const char* name() const { return right ? "right" : "left"; }
};

/// How a face leaves its parent. A bend of no width (no backing, sharp arris) is a crease.
struct Turn {
  double crease_rad = 0, bend_rad = 0, bend_width_mm = 0;
};
Turn bend(double angle_rad, double width_mm);
Turn crease(double angle_rad);
inline Turn straight() { return {}; }

class PieceBuilder {
public:
  explicit PieceBuilder(Piece& piece) : piece_(piece) {}

  /// Index of the new face, or -1 if its outline has no area (an end without lip, a half-round's flat front).
  /// parent -1: the root.
  int face(const std::string& name, int step, FlatPath outline, int parent, FlatPoint hinge_a,
           FlatPoint hinge_b, Turn turn, bool hidden = false);
  void line(LineRole role, FlatPath points, const std::string& label, double angle_rad = 0,
            double radius_mm = 0);
  /// Also draws both edges as seam lines. Faces of index -1 are left out.
  void seam(const std::string& name, FlatPath a, std::vector<int> faces_a, FlatPath b,
            std::vector<int> faces_b);

private:
  Piece& piece_;
};

void append(FlatPath& path, const FlatPath& more);
FlatPath reversed(FlatPath path);
/// Neighbouring points closer than 1e-7 mm become one.
FlatPath without_repeats(FlatPath closed_path);

} // namespace treadfold
