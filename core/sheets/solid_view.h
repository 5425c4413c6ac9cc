// A small picture of the covered step, seen from the foot of the stair.
#pragma once

#include "plan.h"
#include "sheets/drawing.h"

#include <array>

namespace treadfold {

/// What an edge of a folded face is: free carpet edge, bend between two faces, or two edges that meet.
enum class SolidEdge { free, bend, seam, none };

/// A flat polygon in space and how it is to be drawn. edges[i] runs from points[i] to the next point.
struct SolidPolygon {
  std::vector<Point3> points;
  std::vector<SolidEdge> edges;
  Fill fill = Fill::carpet;
};

/// Faces in tones by the way they look: tread lightest, front darker, ends darkest; bare wood round them.
std::vector<SolidPolygon> solid_of(const PlannedPiece& planned);

/// Right-handed view from the front, above and one side. `from_right`: an open right end is seen.
struct View {
  double turn_deg = 32, tilt_deg = 32;
  bool from_right = true;
};
/// Screen x and y (y down, like the page) and depth, growing away from the viewer; a rotation, so lengths
/// keep.
Point3 seen(const View& view, const Point3& point);

/// Order in which to paint, farthest first: polygon i comes before j wherever j hides i on the screen.
std::vector<int> painting_order(const std::vector<SolidPolygon>& polygons, const View& view);

/// Draws the view into the rectangle x, y, width, height of the page, with pile arrow and step numbers.
void draw_solid(Drawing& page, const PlannedPiece& planned, double x, double y, double width, double height);

} // namespace treadfold
